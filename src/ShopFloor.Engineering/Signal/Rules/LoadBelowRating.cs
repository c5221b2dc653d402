using ShopFloor.Engineering.Explained;

namespace ShopFloor.Engineering.Signal.Rules;

/// <summary>The load is not below what the amplifier is rated for</summary>
public sealed class LoadBelowRating : SignalRule
{
    /// <inheritdoc/>
    public override string Code => "load-below-rating";

    /// <inheritdoc/>
    public override string Title => "The load is not below what the amplifier is rated for";

    /// <inheritdoc/>
    public override string Why => "Below its lowest rated load an amplifier runs hot, shuts down or fails.";

    /// <inheritdoc/>
    public override string Source => "rated loads of the amplifier's maker";

    /// <inheritdoc/>
    public override string Remedy => "Wire the coils in series, use drivers of higher impedance, or another amplifier.";

    /// <inheritdoc/>
    public override string Example => "Two 4 Ω coils in parallel are 2 Ω; bridged, each channel sees 1 Ω, and the amplifier is rated to 4 Ω bridged.";

    /// <inheritdoc/>
    public override IEnumerable<Finding> Find(SignalPathState state)
    {
        ArgumentNullException.ThrowIfNull(state);
        foreach (var channel in state.Channels.Select(levels => levels.Channel))
        {
            if (channel.LowestRatedOhms is { } lowest && channel.NominalOhms < lowest * (1 - 1e-9))
            {
                yield return Stop(channel.Load.Id, channel.Name, $"The load is {state.Text.With(channel.NominalOhms, "Ω")}{(channel.IsBridged ? $", so each channel sees {state.Text.With(channel.OhmsPerChannel, "Ω")}" : "")}; the amplifier is rated down to {state.Text.With(lowest, "Ω")}{(channel.IsBridged ? " bridged" : "")}.",
                    Remedy);
            }
        }
    }
}
