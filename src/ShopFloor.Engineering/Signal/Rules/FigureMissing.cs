using ShopFloor.Engineering.Explained;

namespace ShopFloor.Engineering.Signal.Rules;

/// <summary>Figures that are not known</summary>
public sealed class FigureMissing : SignalRule
{
    /// <inheritdoc/>
    public override string Code => "figure-missing";

    /// <inheritdoc/>
    public override string Title => "Figures that are not known";

    /// <inheritdoc/>
    public override string Why => "What is not known is left out of levels and noise, never taken as zero.";

    /// <inheritdoc/>
    public override string Remedy => "Take it from the data sheet or measure it.";

    /// <inheritdoc/>
    public override string Example => "The noise of the processor is not entered, so the noise at the loudspeaker is not worked out.";

    /// <inheritdoc/>
    public override IEnumerable<Finding> Find(SignalPathState state)
    {
        ArgumentNullException.ThrowIfNull(state);
        foreach (var missing in state.Routes.SelectMany(way => way.Missing).Distinct())
            yield return Note($"{missing.DeviceId}:{missing.What}", missing.DeviceName, $"Not known: {missing.What}.", Remedy);
    }
}
