using ShopFloor.Engineering.Explained;

namespace ShopFloor.Engineering.Signal.Rules;

/// <summary>Unused amplifier channels</summary>
public sealed class ChannelUnused : SignalRule
{
    /// <inheritdoc/>
    public override string Code => "channel-unused";

    /// <inheritdoc/>
    public override string Title => "Unused amplifier channels";

    /// <inheritdoc/>
    public override string Why => "A free channel is money and weight that does nothing, or the place for a later wish.";

    /// <inheritdoc/>
    public override string Remedy => "Leave it free, or use it.";

    /// <inheritdoc/>
    public override string Example => "A six-channel amplifier of which four channels drive something.";

    /// <inheritdoc/>
    public override IEnumerable<Finding> Find(SignalPathState state)
    {
        ArgumentNullException.ThrowIfNull(state);
        foreach (var amplifier in state.Amplifiers)
        {
            foreach (var output in amplifier.Outputs.Where(port => !state.Input.Loads.Any(load => load.AmplifierId == amplifier.Id && load.Outputs.Contains(port.Id))))
                yield return Note($"{amplifier.Id}:{output.Id}", $"{amplifier.Name}, {output.Name}", "This channel drives nothing.", Remedy);
        }
    }
}
