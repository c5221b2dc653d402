using ShopFloor.Engineering.Explained;

namespace ShopFloor.Engineering.Signal.Rules;

/// <summary>Drivers get no more than they bear</summary>
public sealed class DriverOverpowered : SignalRule
{
    /// <inheritdoc/>
    public override string Code => "driver-overpowered";

    /// <inheritdoc/>
    public override string Title => "Drivers get no more than they bear";

    /// <inheritdoc/>
    public override string Why => "Too much power overheats voice coils; the amplifier then is the fuse nobody wanted.";

    /// <inheritdoc/>
    public override string Source => "power ratings of the makers";

    /// <inheritdoc/>
    public override string Remedy => "Ask for less, or use drivers that bear it.";

    /// <inheritdoc/>
    public override string Example => "70 W are asked of a tweeter that bears 50 W.";

    /// <inheritdoc/>
    public override IEnumerable<Finding> Find(SignalPathState state)
    {
        ArgumentNullException.ThrowIfNull(state);
        foreach (var channel in state.Channels.Select(levels => levels.Channel))
        {
            if (channel.Load.WantedWatts is { } wanted && channel.DriverLimitWatts is { } borne && wanted > borne * 1.001)
                yield return Stop(channel.Load.Id, channel.Name, $"{state.Text.Watts(wanted)} is wanted; the drivers bear {state.Text.Watts(borne)}.", Remedy);
            else if (channel.HeadroomDecibels > 3)
                yield return Note(channel.Load.Id, channel.Name, $"The amplifier has {state.Text.With(channel.HeadroomDecibels.Value, "dB")} more than the drivers bear.", "Set the gain with the tone of the gain sheet; the amplifier's full output is not for them.");
        }
    }
}
