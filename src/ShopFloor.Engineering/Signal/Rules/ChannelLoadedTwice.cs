using ShopFloor.Engineering.Explained;

namespace ShopFloor.Engineering.Signal.Rules;

/// <summary>No channel drives two loads apart</summary>
public sealed class ChannelLoadedTwice : SignalRule
{
    /// <inheritdoc/>
    public override string Code => "channel-loaded-twice";

    /// <inheritdoc/>
    public override string Title => "No channel drives two loads apart";

    /// <inheritdoc/>
    public override string Why => "Loads entered apart are in truth in parallel; the amplifier sees less than either.";

    /// <inheritdoc/>
    public override string Remedy => "Join them to one load and say how they are wired.";

    /// <inheritdoc/>
    public override string Example => "A 4 Ω midrange and a 4 Ω midbass entered apart on one channel: the amplifier sees 2 Ω.";

    /// <inheritdoc/>
    public override IEnumerable<Finding> Find(SignalPathState state)
    {
        ArgumentNullException.ThrowIfNull(state);
        foreach (var amplifier in state.Amplifiers)
        {
            foreach (var output in amplifier.Outputs.Where(port => state.Input.Loads.Count(load => load.AmplifierId == amplifier.Id && load.Outputs.Contains(port.Id)) > 1))
                yield return Stop($"{amplifier.Id}:{output.Id}", $"{amplifier.Name}, {output.Name}", "Two loads are connected to this channel.", Remedy);
        }
    }
}
