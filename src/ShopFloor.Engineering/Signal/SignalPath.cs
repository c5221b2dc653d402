using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Signal.Chain;
using ShopFloor.Engineering.Signal.Levels;
using ShopFloor.Engineering.Signal.Presets;
using ShopFloor.Engineering.Signal.Rules;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Signal;

/// <summary>The signal path worked out: loads, gains, levels and noise of every channel, what of each source's format arrives, and what is wrong.</summary>
public static class SignalPath
{
    /// <summary>Computes the path.</summary>
    /// <param name="input">Devices, links and loads.</param>
    /// <param name="text">How numbers are written in texts; null is metric, invariant.</param>
    /// <exception cref="ArgumentOutOfRangeException"><see cref="SignalPathInput.Validate"/> finds a problem; the parameter name is the field.</exception>
    public static SignalPathResult Compute(SignalPathInput input, UnitText? text = null)
    {
        var channels = SignalLevels.Compute(input, text);
        return new SignalPathResult(
            channels,
            [.. channels.SelectMany(channel => channel.Routes).DistinctBy(way => way.Route.Source.Id).Select(way => new SourceFormat(way.Route.Source.Id, FormatCarrier.Follow(way.Route)))],
            SignalRules.Check(input, channels, text));
    }
}

/// <summary>A signal path worked out.</summary>
/// <param name="Channels">Every channel that has a load, in the order given.</param>
/// <param name="Formats">What arrives of each source that is heard, along its first way.</param>
/// <param name="Findings">Gravest first.</param>
public sealed record SignalPathResult(IReadOnlyList<ChannelLevels> Channels, IReadOnlyList<SourceFormat> Formats, IReadOnlyList<Finding> Findings);

/// <summary>What arrives of a source.</summary>
/// <param name="SourceId">The source.</param>
/// <param name="Carried">Format, conversions and delay.</param>
public sealed record SourceFormat(string SourceId, CarriedFormat Carried);
