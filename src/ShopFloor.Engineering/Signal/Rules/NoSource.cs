using ShopFloor.Engineering.Explained;

namespace ShopFloor.Engineering.Signal.Rules;

/// <summary>Every channel hears a source</summary>
public sealed class NoSource : SignalRule
{
    /// <inheritdoc/>
    public override string Code => "no-source";

    /// <inheritdoc/>
    public override string Title => "Every channel hears a source";

    /// <inheritdoc/>
    public override string Why => "A channel without a signal is silent.";

    /// <inheritdoc/>
    public override string Remedy => "Connect its input.";

    /// <inheritdoc/>
    public override string Example => "The cable between processor and bass amplifier is not on the job.";

    /// <inheritdoc/>
    public override IEnumerable<Finding> Find(SignalPathState state)
    {
        ArgumentNullException.ThrowIfNull(state);
        foreach (var levels in state.Channels.Where(levels => levels.Routes.Count == 0))
            yield return Stop(levels.Channel.Load.Id, levels.Channel.Name, "No way leads from a source to this channel.", Remedy);
    }
}
