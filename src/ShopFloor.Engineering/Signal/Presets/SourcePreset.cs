using ShopFloor.Engineering.Signal.Chain;

namespace ShopFloor.Engineering.Signal.Presets;

/// <summary>What becomes of a format on a way.</summary>
public enum Passage
{
    /// <summary>It arrives as it is, up to the first change into volts.</summary>
    Whole,

    /// <summary>It is turned into less: a lower rate, a shorter word, or what a codec leaves over.</summary>
    Reduced,

    /// <summary>A one-bit stream the source turns into volts itself.</summary>
    IntoVoltsAtSource,

    /// <summary>A one-bit stream an IEC 60958 link does not carry: the source has to turn it into linear PCM first.</summary>
    NotNative,

    /// <summary>A one-bit stream on a link whose two ends decide; their makers say.</summary>
    AsTheEndsAgree,
}

/// <summary>A format with what becomes of it.</summary>
/// <param name="Format">What is played.</param>
/// <param name="Passage">What becomes of it.</param>
/// <param name="Arrives">Linear PCM that arrives; null when nothing on the way is digital.</param>
public sealed record FormatPassage(AudioFormat Format, Passage Passage, AudioFormat? Arrives);

/// <summary>A cable, fibre or radio link of a way.</summary>
/// <param name="From">Name of the device it starts at.</param>
/// <param name="To">Name of the device it ends at.</param>
/// <param name="Kind">What it carries.</param>
public sealed record WayLink(string From, string To, PortKind Kind);

/// <summary>How one source is heard: its way, what of its formats arrives, and what stays audible beside it.</summary>
public sealed record SourcePreset
{
    /// <summary>The source.</summary>
    public required string SourceId { get; init; }

    /// <summary>Its name.</summary>
    public required string SourceName { get; init; }

    /// <summary>Whether it reaches a driver.</summary>
    public bool IsHeard => Way.Count > 0;

    /// <summary>Names of the devices passed, source first, amplifier last; empty when it reaches no driver.</summary>
    public required IReadOnlyList<string> Way { get; init; }

    /// <summary>Links between them, in order.</summary>
    public required IReadOnlyList<WayLink> Links { get; init; }

    /// <summary>Names of the drivers it is heard from.</summary>
    public required IReadOnlyList<string> Drivers { get; init; }

    /// <summary>What of its best format arrives, with conversions and delay; null when it is not heard.</summary>
    public required CarriedFormat? Carried { get; init; }

    /// <summary>What becomes of usual formats it plays; empty when it does not say what it plays, or is not heard.</summary>
    public required IReadOnlyList<FormatPassage> Formats { get; init; }

    /// <summary>Device the volume is turned at, as far as the path tells: a source whose output moves with it, else the first processor behind it; null when neither is there.</summary>
    public required string? VolumeAt { get; init; }

    /// <summary>Whether chimes, navigation or telephone come from this source itself.</summary>
    public required bool CarriesVehicleSounds { get; init; }

    /// <summary>Other sources of chimes, navigation or telephone that reach a driver.</summary>
    public required IReadOnlyList<string> VehicleSoundsBeside { get; init; }

    /// <summary>Other sources of chimes, navigation or telephone that reach none.</summary>
    public required IReadOnlyList<string> VehicleSoundsLost { get; init; }
}
