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
    public override IEnumerable<Finding> Find(SignalPathState state)
    {
        ArgumentNullException.ThrowIfNull(state);
        foreach (var missing in state.Routes.SelectMany(way => way.Missing.Select(what => (way.Route, what))).DistinctBy(pair => pair.what))
        {
            var at = missing.what.IndexOf(": ", StringComparison.Ordinal);
            var device = missing.Route.Hops.Select(hop => hop.Device).First(device => missing.what.StartsWith(device.Name, StringComparison.Ordinal));
            yield return Note($"{device.Id}:{missing.what[(at + 2)..]}", device.Name, $"Not known: {missing.what[(at + 2)..]}.", "Take it from the data sheet or measure it.");
        }
    }
}
