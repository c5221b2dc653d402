using ShopFloor.Engineering.Explained;

namespace ShopFloor.Engineering.Signal.Rules;

/// <summary>Only channels made for it are bridged</summary>
public sealed class BridgingNotAllowed : SignalRule
{
    /// <inheritdoc/>
    public override string Code => "bridging-not-allowed";

    /// <inheritdoc/>
    public override string Title => "Only channels made for it are bridged";

    /// <inheritdoc/>
    public override string Why => "Outputs that share a pole are short-circuited when they are bridged.";

    /// <inheritdoc/>
    public override string Source => "ratings of the amplifier's maker";

    /// <inheritdoc/>
    public override string Remedy => "Use one channel, or enter the maker's rating for a bridged pair.";

    /// <inheritdoc/>
    public override string Example => "An amplifier whose data sheet has no bridged power drives a woofer between two outputs.";

    /// <inheritdoc/>
    public override IEnumerable<Finding> Find(SignalPathState state)
    {
        ArgumentNullException.ThrowIfNull(state);
        foreach (var channel in state.Channels.Select(levels => levels.Channel).Where(channel => channel is { IsBridged: true, LowestRatedOhms: null }))
            yield return Stop(channel.Load.Id, channel.Name, "The amplifier has no rating for bridged channels.", Remedy);
    }
}
