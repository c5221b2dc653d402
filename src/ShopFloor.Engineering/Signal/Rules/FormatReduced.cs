using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Signal.Chain;
using ShopFloor.Engineering.Signal.Presets;

namespace ShopFloor.Engineering.Signal.Rules;

/// <summary>What the source plays arrives whole</summary>
public sealed class FormatReduced : SignalRule
{
    /// <inheritdoc/>
    public override string Code => "format-reduced";

    /// <inheritdoc/>
    public override string Title => "What the source plays arrives whole";

    /// <inheritdoc/>
    public override string Why => "The client pays for a format; the way decides what of it is heard.";

    /// <inheritdoc/>
    public override string Source => "IEC 60958-1 and -3";

    /// <inheritdoc/>
    public override string Remedy => "Let the source play what arrives whole, or say in the handover what does not.";

    /// <inheritdoc/>
    public override string Example => "A player sends a one-bit stream (DSD) to an optical output, which carries linear PCM alone.";

    /// <inheritdoc/>
    public override IEnumerable<Finding> Find(SignalPathState state)
    {
        ArgumentNullException.ThrowIfNull(state);
        foreach (var way in state.Routes.DistinctBy(way => way.Route.Source.Id))
        {
            var carried = FormatCarrier.Follow(way.Route);
            if (carried is not { IsWhole: false, Source: { } source })
                continue;
            // Played out as volts, or over a connector that takes it, the stream is whole.
            if (source.IsOneBit && !way.Route.Hops.Any(hop => IsIec60958(hop.Input) || IsIec60958(hop.Output)))
                continue;
            var subject = way.Route.Source;
            yield return source.IsOneBit ? Warn(subject.Id, subject.Name, "It plays a one-bit stream (DSD); IEC 60958 does not carry that as it is.", "Let the source turn it into linear PCM, and say so in the handover.")
                : carried.LossyAt is { } lossy ? Note(subject.Id, subject.Name, $"A codec throws part of it away: {lossy}.", "Offer the client a wired way for careful listening.")
                : Note(subject.Id, subject.Name, $"It plays up to {state.Text.Number(source.SampleRateHertz / 1000, 4)} kHz and {source.Bits} bits; {state.Text.Number((carried.SampleRateHertz ?? source.SampleRateHertz) / 1000, 4)} kHz and {carried.Bits ?? source.Bits} bits arrive.", "Fine for most; say so in the handover.");
        }
    }

    private static bool IsIec60958(SignalPort? port) => port?.Kind is PortKind.Optical or PortKind.Coaxial;
}
