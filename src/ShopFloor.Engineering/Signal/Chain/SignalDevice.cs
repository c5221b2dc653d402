using System.Text.Json.Serialization;
using ShopFloor.Engineering.Signal.Loads;

namespace ShopFloor.Engineering.Signal.Chain;

/// <summary>Something the signal passes.</summary>
[JsonPolymorphic(TypeDiscriminatorPropertyName = "kind")]
[JsonDerivedType(typeof(SourceDevice), "source")]
[JsonDerivedType(typeof(ProcessingDevice), "processing")]
[JsonDerivedType(typeof(AmplifierDevice), "amplifier")]
[JsonDerivedType(typeof(DriverDevice), "driver")]
public abstract record SignalDevice
{
    /// <summary>Identifier, unique in the path.</summary>
    public required string Id { get; init; }

    /// <summary>Name shown in texts.</summary>
    public required string Name { get; init; }

    /// <summary>Connectors signals come in at.</summary>
    public virtual IReadOnlyList<SignalPort> Inputs { get; init; } = [];

    /// <summary>Connectors signals leave at.</summary>
    public virtual IReadOnlyList<SignalPort> Outputs { get; init; } = [];

    /// <summary>Name of the point its supply returns to; null when not known.</summary>
    public string? GroundPoint { get; init; }

    /// <summary>Time from its inputs to its outputs, s; null when not known.</summary>
    public double? DelaySeconds { get; init; }
}

/// <summary>Who turns the volume.</summary>
public enum VolumeControl
{
    /// <summary>Not here: its output is fixed.</summary>
    Fixed,

    /// <summary>Here, so its output moves with it.</summary>
    Here,
}

/// <summary>Where a signal begins.</summary>
public sealed record SourceDevice : SignalDevice
{
    /// <summary>Who turns the volume.</summary>
    public VolumeControl Volume { get; init; }

    /// <summary>Noise below full output, dB (40 to 140); null when not known.</summary>
    public double? SignalToNoiseDecibels { get; init; }

    /// <summary>What it plays at best.</summary>
    public AudioFormat? Format { get; init; }

    /// <summary>Whether chimes, navigation or telephone come from here.</summary>
    public bool CarriesVehicleSounds { get; init; }

    /// <summary>Whether it needs a load or a wake signal to work and has it; null when it needs none.</summary>
    public bool? IsTerminated { get; init; }
}

/// <summary>A factory amplifier, an interface, a converter or a signal processor.</summary>
public sealed record ProcessingDevice : SignalDevice
{
    /// <summary>Sample rate inside, Hz; null for an analogue device.</summary>
    public double? SampleRateHertz { get; init; }

    /// <summary>Word length of its converters, bits; null for an analogue device.</summary>
    public int? Bits { get; init; }

    /// <summary>Noise below full output, dB; null when not known.</summary>
    public double? SignalToNoiseDecibels { get; init; }

    /// <summary>Level set inside for every output, dB, −60 to 12; a channel trim in a processor.</summary>
    public double GainDecibels { get; init; }

    /// <summary>Which inputs reach which outputs; empty: every input reaches every output.</summary>
    public IReadOnlyList<PortRoute> Routes { get; init; } = [];

    /// <summary>Band each output lets through; outputs not named pass everything.</summary>
    public IReadOnlyList<PortBand> Bands { get; init; } = [];

    /// <summary>Whether it needs a load or a wake signal to work and has it; null when it needs none.</summary>
    public bool? IsTerminated { get; init; }

    /// <summary>Whether what a factory amplifier does to the music was measured at its outputs; null when it is none.</summary>
    public bool? OutputsMeasured { get; init; }

    /// <summary>Whether the signal is numbers inside.</summary>
    [JsonIgnore]
    public bool IsDigital => SampleRateHertz is not null;
}

/// <summary>An input that reaches an output of the same device.</summary>
/// <param name="Input">Identifier of the input.</param>
/// <param name="Output">Identifier of the output.</param>
public sealed record PortRoute(string Input, string Output);

/// <summary>Band an output lets through.</summary>
/// <param name="Output">Identifier of the output.</param>
/// <param name="HighPassHertz">Lower corner, Hz; null for none.</param>
/// <param name="LowPassHertz">Upper corner, Hz; null for none.</param>
public sealed record PortBand(string Output, double? HighPassHertz = null, double? LowPassHertz = null);

/// <summary>A power amplifier. Channel n has input n and output n.</summary>
public sealed record AmplifierDevice : SignalDevice
{
    /// <summary>Continuous power of one channel per load, at the voltage it was rated at.</summary>
    public required IReadOnlyList<RatedPower> RatedPowers { get; init; }

    /// <summary>Continuous power of a bridged pair per load; empty when it may not be bridged.</summary>
    public IReadOnlyList<RatedPower> BridgedPowers { get; init; } = [];

    /// <summary>Input voltage for full rated output in the most sensitive position, V rms; null when not known.</summary>
    public double? SensitivityMinVolts { get; init; }

    /// <summary>Input voltage for full rated output in the least sensitive position, V rms; null when not known.</summary>
    public double? SensitivityMaxVolts { get; init; }

    /// <summary>Noise below the reference, dB; null when not known.</summary>
    public double? SignalToNoiseDecibels { get; init; }

    /// <summary>What that noise is stated against.</summary>
    public NoiseReference NoiseReference { get; init; }
}

/// <summary>Output an amplifier's noise is stated against.</summary>
public enum NoiseReference
{
    /// <summary>Rated output into the highest rated load.</summary>
    RatedOutput,

    /// <summary>1 W into 4 Ω, as in CTA-2006.</summary>
    OneWatt,
}

/// <summary>A loudspeaker driver. Its voice coils are connected by a <see cref="ChannelLoad"/>.</summary>
public sealed record DriverDevice : SignalDevice
{
    /// <summary>Voice coils, 1 to 4.</summary>
    public int Coils { get; init; } = 1;

    /// <summary>Nominal impedance of one coil, Ω.</summary>
    public required double CoilOhms { get; init; }

    /// <summary>Lowest impedance of one coil over its band, Ω; null: 80 % of nominal (IEC 60268-5, from memory).</summary>
    public double? CoilMinimumOhms { get; init; }

    /// <summary>Where that lowest impedance comes from, in words; empty: part data.</summary>
    public string CoilMinimumOrigin { get; init; } = "";

    /// <summary>Power it bears for long, all coils together, W; null when not known.</summary>
    public double? RatedWatts { get; init; }

    /// <summary>Sound pressure level at 2.83 V and 1 m, dB; null when not known.</summary>
    public double? SensitivityDecibels { get; init; }

    /// <summary>What it is, the same for both of a pair; empty when it has no twin.</summary>
    public string Model { get; init; } = "";

    /// <summary>Lowest frequency it may be driven at with full power, Hz; null when not known.</summary>
    public double? LowestHertz { get; init; }

    /// <summary>Side of the image.</summary>
    public ImageSide Side { get; init; }
}
