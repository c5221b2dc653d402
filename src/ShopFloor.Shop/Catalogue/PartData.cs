using System.Text.Json.Serialization;
using ShopFloor.Engineering.Electrical;
using ShopFloor.Engineering.Electrical.Accessories;
using ShopFloor.Engineering.Electrical.Lighting;
using ShopFloor.Engineering.Signal.Chain;
using ShopFloor.Shop.Common;

namespace ShopFloor.Shop.Catalogue;

/// <summary>Technical data of a part. Empty fields mean "not known", never zero.</summary>
[JsonPolymorphic(TypeDiscriminatorPropertyName = "kind")]
[JsonDerivedType(typeof(AmplifierData), "amplifier")]
[JsonDerivedType(typeof(LoudspeakerData), "loudspeaker")]
[JsonDerivedType(typeof(ProcessorData), "processor")]
[JsonDerivedType(typeof(SourceData), "source")]
[JsonDerivedType(typeof(CableData), "cable")]
[JsonDerivedType(typeof(FuseData), "fuse")]
[JsonDerivedType(typeof(DistributionData), "distribution")]
[JsonDerivedType(typeof(LightingData), "lighting")]
[JsonDerivedType(typeof(BatteryData), "battery")]
[JsonDerivedType(typeof(TreatmentData), "treatment")]
[JsonDerivedType(typeof(MaterialData), "material")]
[JsonDerivedType(typeof(AccessoryData), "accessory")]
[JsonDerivedType(typeof(CapacitorData), "capacitor")]
public abstract class PartData
{
    [JsonIgnore]
    public PartKind Kind => PartKinds.KindOf(this);

    public static PartData Empty(PartKind kind) => PartKinds.Of(kind).NewData();

    public IEnumerable<Problem> Problems() => PartKinds.Of(Kind).Fields.Select(field => field.ProblemIn(this)).OfType<Problem>();

    public PartData Copy()
    {
        var copy = Empty(Kind);
        foreach (var field in PartKinds.Of(Kind).Fields)
        {
            field.Copy(this, copy);
        }

        CopyRest(copy);
        return copy;
    }

    /// <summary>Copies what is no field of the form.</summary>
    protected virtual void CopyRest(PartData copy)
    {
    }

    /// <summary>The filled-in fields as one line, for lists, comparisons and documents.</summary>
    public override string ToString() => string.Join(
        ", ",
        PartKinds.Of(Kind).Fields.Select(field => (field.Label, Text: field.Show(this))).Where(pair => pair.Text.Length > 0)
            .Select(pair => $"{pair.Label} {pair.Text}"));
}

/// <summary>How an amplifier's channels are loaded on a job; picks which rated power applies.</summary>
public enum ChannelLoading
{
    FourOhms,
    TwoOhms,
    OneOhm,
    BridgedFourOhms,
}

public sealed class AmplifierData : PartData
{
    [PartField("Channels", Min = 1, Max = 32)]
    public int? Channels { get; set; }

    [PartField("Power per channel at 4 Ω", "W", Min = 1, Max = 20_000, Help = "Continuous rating at 14.4 V and no more than 1 % distortion, as in CTA-2006.")]
    public double? WattsAtFourOhms { get; set; }

    [PartField("Power per channel at 2 Ω", "W", Min = 1, Max = 20_000)]
    public double? WattsAtTwoOhms { get; set; }

    [PartField("Power per channel at 1 Ω", "W", Min = 1, Max = 20_000)]
    public double? WattsAtOneOhm { get; set; }

    [PartField("Power per bridged pair at 4 Ω", "W", Min = 1, Max = 40_000)]
    public double? WattsBridgedAtFourOhms { get; set; }

    [PartField("Channels are loaded with")]
    public ChannelLoading Load { get; set; }

    [PartField("Class", Help = "Decides the efficiency at full power and how it falls at music level.")]
    public AmplifierClass Class { get; set; } = AmplifierClass.D;

    [PartField("Efficiency at full power", "%", Min = 5, Max = 98, Help = "Leave empty to use the usual value of the class.")]
    public double? EfficiencyPercent { get; set; }

    [PartField("Idle current", "A", Max = 50)]
    public double? IdleAmperes { get; set; }

    [PartField("Maker's fuse, all together", "A", Min = 1, Max = 1_000)]
    public double? FuseAmperes { get; set; }

    [PartField("Current when switched off", "mA", Max = 1_000, Fine = true)]
    public double? OffMilliamperes { get; set; }

    [PartField("Turn-on input takes", "mA", Max = 2_000, Fine = true)]
    public double? RemoteInMilliamperes { get; set; }

    [PartField("Damping factor at 4 Ω", Min = 1, Max = 10_000, Fine = true)]
    public double? DampingFactor { get; set; }

    [PartField("Protects itself at a case of", "°C", Min = 40, Max = 150, Fine = true)]
    public double? ProtectionCelsius { get; set; }

    [PartField("Takes at its inputs", Help = "The connectors used on this job.", Fine = true)]
    public PortKind InputKind { get; set; } = PortKind.UnbalancedLine;

    [PartField("Input for full power, most sensitive", "V", Min = 0.01, Max = 50, Fine = true)]
    public double? SensitivityMinVolts { get; set; }

    [PartField("Input for full power, least sensitive", "V", Min = 0.01, Max = 50, Fine = true)]
    public double? SensitivityMaxVolts { get; set; }

    [PartField("Input impedance", "Ω", Min = 1, Max = 1_000_000, Fine = true)]
    public double? InputOhms { get; set; }

    [PartField("Signal-to-noise ratio", "dB", Min = 20, Max = 160, Fine = true)]
    public double? SignalToNoiseDecibels { get; set; }

    [PartField("Noise is stated against", Help = "CTA-2006 states it against 1 W into 4 Ω.", Fine = true)]
    public NoiseReference NoiseReference { get; set; }

    [PartField("Grounded at", Help = "The bolt or bar its ground cable ends at, named the same for all on it.", Fine = true)]
    public string? GroundPoint { get; set; }

    /// <summary>Continuous power of all channels as they are loaded here, W; null when that rating is not known.</summary>
    [JsonIgnore]
    public double? TotalRatedWatts => Load switch
    {
        ChannelLoading.FourOhms => Channels * WattsAtFourOhms,
        ChannelLoading.TwoOhms => Channels * WattsAtTwoOhms,
        ChannelLoading.OneOhm => Channels * WattsAtOneOhm,
        ChannelLoading.BridgedFourOhms => Channels / 2 * WattsBridgedAtFourOhms,
        _ => null,
    };
}

public sealed class LoudspeakerData : PartData
{
    [PartField("Nominal size", "mm", Min = 5, Max = 600)]
    public double? SizeMillimeters { get; set; }

    [PartField("Nominal impedance per coil", "Ω", Min = 0.5, Max = 64)]
    public double? NominalOhms { get; set; }

    [PartField("Voice coils", Min = 1, Max = 4)]
    public int? Coils { get; set; }

    [PartField("Power handling", "W", Min = 1, Max = 10_000)]
    public double? RatedWatts { get; set; }

    [PartField("Sensitivity at 2.83 V and 1 m", "dB", Min = 60, Max = 110)]
    public double? SensitivityDecibels { get; set; }

    [PartField("Lowest impedance of a coil", "Ω", Min = 0.1, Max = 64, Help = "Leave empty to use 80 % of the nominal one.", Fine = true)]
    public double? MinimumOhms { get; set; }

    [PartField("May be driven from", "Hz", Min = 1, Max = 20_000, Help = "Lowest frequency at full power, from its data sheet.", Fine = true)]
    public double? LowestHertz { get; set; }

    [PartField("High-pass set for it", "Hz", Min = 1, Max = 20_000, Help = "Corner in the processor, the amplifier or its crossover.", Fine = true)]
    public double? HighPassHertz { get; set; }

    [PartField("Low-pass set for it", "Hz", Min = 10, Max = 40_000, Help = "Corner in the processor, the amplifier or its crossover.", Fine = true)]
    public double? LowPassHertz { get; set; }

    [PartField("Resonance in free air (fs)", "Hz", Min = 5, Max = 20_000, Help = "From here on: for enclosures, from the data sheet or a measurement. What follows from the rest is filled in.", Fine = true)]
    public double? ResonanceHertz { get; set; }

    [PartField("Electrical Q (Qes)", Min = 0.05, Max = 20, Fine = true)]
    public double? Qes { get; set; }

    [PartField("Mechanical Q (Qms)", Min = 0.2, Max = 100, Fine = true)]
    public double? Qms { get; set; }

    [PartField("Total Q (Qts)", Min = 0.05, Max = 20, Fine = true)]
    public double? Qts { get; set; }

    [PartField("Volume as compliant as the suspension (Vas)", "l", Min = 0.001, Max = 5_000, Fine = true)]
    public double? VasLitres { get; set; }

    [PartField("Piston area (Sd)", "cm²", Min = 0.1, Max = 10_000, Fine = true)]
    public double? PistonSquareCentimeters { get; set; }

    [PartField("DC resistance (Re)", "Ω", Min = 0.1, Max = 64, Fine = true)]
    public double? ReOhms { get; set; }

    [PartField("Coil inductance (Le)", "mH", Max = 100, Fine = true)]
    public double? LeMillihenries { get; set; }

    [PartField("Lossy part of the coil (L2)", "mH", Min = 0.001, Max = 100, Help = "Of impedance meters: in series with Le, bridged by R2. Both or none.", Fine = true)]
    public double? LossMillihenries { get; set; }

    [PartField("Resistance across it (R2)", "Ω", Min = 0.01, Max = 1_000, Fine = true)]
    public double? LossOhms { get; set; }

    [PartField("Re, Le and Bl are stated for", Help = "Of several voice coils; no matter for a single one.", Fine = true)]
    public CoilsStated CoilsStated { get; set; }

    [PartField("Moving mass (Mms)", "g", Min = 0.01, Max = 5_000, Fine = true)]
    public double? MmsGrams { get; set; }

    [PartField("Compliance (Cms)", "mm/N", Min = 0.0001, Max = 100, Fine = true)]
    public double? CmsMillimetersPerNewton { get; set; }

    [PartField("Mechanical resistance (Rms)", "kg/s", Min = 0.001, Max = 200, Fine = true)]
    public double? RmsKilogramsPerSecond { get; set; }

    [PartField("Force factor (Bl)", "T·m", Min = 0.1, Max = 100, Fine = true)]
    public double? BlTeslaMeters { get; set; }

    [PartField("Linear excursion one way (Xmax)", "mm", Min = 0.01, Max = 100, Fine = true)]
    public double? XmaxMillimeters { get; set; }

    [PartField("Mechanical limit one way", "mm", Min = 0.01, Max = 200, Help = "Where the cone strikes or tears, if the maker says.", Fine = true)]
    public double? MechanicalMillimeters { get; set; }

    [PartField("Volume it takes up", "l", Min = 0.001, Max = 100, Fine = true)]
    public double? DisplacementLitres { get; set; }

    [PartField("Cut-out diameter", "mm", Min = 5, Max = 700, Fine = true)]
    public double? CutOutMillimeters { get; set; }

    [PartField("Mounting depth", "mm", Min = 3, Max = 600, Fine = true)]
    public double? DepthMillimeters { get; set; }

    [PartField("Outside of the basket", "mm", Min = 10, Max = 800, Fine = true)]
    public double? OutsideMillimeters { get; set; }

    [PartField("Bolt circle", "mm", Min = 5, Max = 800, Fine = true)]
    public double? BoltCircleMillimeters { get; set; }

    [PartField("Bolts", Min = 2, Max = 48, Fine = true)]
    public int? Bolts { get; set; }

    [PartField("Holes drilled for its bolts", "mm", Min = 0.5, Max = 20, Fine = true)]
    public double? BoltHoleMillimeters { get; set; }

    /// <summary>Figures that were measured on this one, by the names of their fields; null while none was.</summary>
    public Dictionary<string, MeasuredFigure>? Measured { get; set; }

    /// <summary>Who measured a figure and when, in words; null where it was typed, or typed over since.</summary>
    public string? SourceOf(string field) => Measured?.GetValueOrDefault(field) is { } figure
        && PartKinds.Of(PartKind.Loudspeaker).Fields.FirstOrDefault(one => one.Name == field)?.Get(this) is double now && now == figure.Value ? figure.Words : null;

    protected override void CopyRest(PartData copy) => ((LoudspeakerData)copy).Measured = Measured is null ? null : new(Measured);
}

/// <summary>A figure as it was measured; one typed over later is no longer of it.</summary>
/// <param name="Words">For people: measured by whom and when.</param>
public sealed record MeasuredFigure(double Value, string Words);

/// <summary>How the voice coils are joined where their resistance and force factor are stated.</summary>
public enum CoilsStated
{
    CoilsInParallel,
    CoilsInSeries,
}

/// <summary>A digital connector beside the analogue inputs.</summary>
public enum DigitalInput
{
    None,
    Optical,
    Coaxial,
    Usb,
    Wireless,
    VehicleBus,
}

/// <summary>What a device between source and amplifier is there for.</summary>
public enum ProcessorUse
{
    SignalProcessor,
    FactoryAmplifier,

    /// <summary>Takes sound from a bus or connector of the car.</summary>
    VehicleInterface,

    /// <summary>Changes one connector into another.</summary>
    Converter,
}

/// <summary>Whether a factory device waits for a load or a wake signal before it plays.</summary>
public enum FactoryLoad
{
    NotSaid,
    NotNeeded,
    NeededAndFitted,
    NeededAndMissing,
}

public sealed class ProcessorData : PartData
{
    [PartField("Is a", Help = "Interfaces and factory amplifiers pass each input on to the output of the same number.")]
    public ProcessorUse Use { get; set; }

    [PartField("Inputs", Min = 1, Max = 64)]
    public int? Inputs { get; set; }

    [PartField("Outputs", Min = 1, Max = 64)]
    public int? Outputs { get; set; }

    [PartField("Current when working", "A", Max = 50)]
    public double? WorkingAmperes { get; set; }

    [PartField("Maker's fuse", "A", Min = 0.5, Max = 100)]
    public double? FuseAmperes { get; set; }

    [PartField("Current when switched off", "mA", Max = 1_000, Fine = true)]
    public double? OffMilliamperes { get; set; }

    [PartField("Turn-on input takes", "mA", Max = 2_000, Fine = true)]
    public double? RemoteInMilliamperes { get; set; }

    [PartField("Turn-on output may give", "mA", Min = 1, Max = 20_000, Help = "Leave empty when it has no such output.", Fine = true)]
    public double? RemoteOutMilliamperes { get; set; }

    [PartField("Steady after turn-on", "s", Max = 60, Help = "Until its output is quiet and can be switched through.", Fine = true)]
    public double? SettleSeconds { get; set; }

    [PartField("Output impedance", "Ω", Min = 1, Max = 100_000, Fine = true)]
    public double? OutputOhms { get; set; }

    [PartField("Takes at its inputs", Help = "The analogue connectors.", Fine = true)]
    public PortKind InputKind { get; set; } = PortKind.UnbalancedLine;

    [PartField("Digital input", Fine = true)]
    public DigitalInput DigitalInput { get; set; }

    [PartField("Input for full scale, most sensitive", "V", Min = 0.01, Max = 100, Fine = true)]
    public double? InputMinVolts { get; set; }

    [PartField("Input for full scale, least sensitive", "V", Min = 0.01, Max = 100, Help = "More clips.", Fine = true)]
    public double? InputMaxVolts { get; set; }

    [PartField("Input impedance", "Ω", Min = 1, Max = 1_000_000, Fine = true)]
    public double? InputOhms { get; set; }

    [PartField("Gives at its outputs", Fine = true)]
    public PortKind OutputKind { get; set; } = PortKind.UnbalancedLine;

    [PartField("Largest output", "V", Min = 0.01, Max = 100)]
    public double? OutputVolts { get; set; }

    [PartField("Signal-to-noise ratio", "dB", Min = 20, Max = 160, Fine = true)]
    public double? SignalToNoiseDecibels { get; set; }

    [PartField("Sample rate inside", "kHz", Min = 8, Max = 768, Help = "Leave empty for an analogue device.", Fine = true)]
    public double? SampleRateKilohertz { get; set; }

    [PartField("Word length inside", "bits", Min = 8, Max = 64, Fine = true)]
    public int? Bits { get; set; }

    [PartField("Delay from input to output", "ms", Max = 1_000, Fine = true)]
    public double? DelayMilliseconds { get; set; }

    [PartField("Load or wake signal", Help = "Some factory devices stay silent without the loudspeakers or the amplifier they knew.", Fine = true)]
    public FactoryLoad FactoryLoad { get; set; }

    [PartField("Grounded at", Help = "The bolt or bar its ground cable ends at, named the same for all on it.", Fine = true)]
    public string? GroundPoint { get; set; }
}

/// <summary>What comes out of a source.</summary>
public enum SourceSounds
{
    Music,

    /// <summary>Chimes, navigation or telephone too; they must be heard as before.</summary>
    MusicAndVehicleSounds,

    /// <summary>Chimes, navigation or telephone come out of a connector of their own.</summary>
    VehicleSoundsApart,
}

/// <summary>A second connector a source has beside the one that is used.</summary>
public enum OtherOutput
{
    None,
    SpeakerLevel,
    UnbalancedLine,
    BalancedLine,
    Optical,
    Coaxial,
    Usb,
    Wireless,
    VehicleBus,
}

public sealed class SourceData : PartData
{
    [PartField("How the client uses it", Help = "Shown in the handover under 'using your system'.")]
    public string? HowToUse { get; set; }

    [PartField("Largest output", "V", Max = 20)]
    public double? OutputVolts { get; set; }

    [PartField("Current when working", "A", Max = 50)]
    public double? WorkingAmperes { get; set; }

    [PartField("Maker's fuse", "A", Min = 0.5, Max = 100)]
    public double? FuseAmperes { get; set; }

    [PartField("Current when switched off", "mA", Max = 1_000, Fine = true)]
    public double? OffMilliamperes { get; set; }

    [PartField("Turn-on output may give", "mA", Min = 1, Max = 20_000, Help = "Leave empty when it has no such output.", Fine = true)]
    public double? RemoteOutMilliamperes { get; set; }

    [PartField("Steady after turn-on", "s", Max = 60, Help = "Until its output is quiet and can be switched through.", Fine = true)]
    public double? SettleSeconds { get; set; }

    [PartField("Output impedance", "Ω", Min = 1, Max = 100_000, Fine = true)]
    public double? OutputOhms { get; set; }

    [PartField("Gives at its outputs", Fine = true)]
    public PortKind OutputKind { get; set; } = PortKind.UnbalancedLine;

    [PartField("Gives", Help = "Warnings, navigation and telephone must be heard as before.", Fine = true)]
    public SourceSounds Sounds { get; set; }

    [PartField("Signal-to-noise ratio", "dB", Min = 20, Max = 160, Fine = true)]
    public double? SignalToNoiseDecibels { get; set; }

    [PartField("Plays up to", "kHz", Min = 8, Max = 25_000, Help = "Highest sample rate; of a one-bit stream its bit rate.", Fine = true)]
    public double? SampleRateKilohertz { get; set; }

    [PartField("Plays up to, word length", "bits", Min = 1, Max = 64, Help = "1 for one-bit streams.", Fine = true)]
    public int? Bits { get; set; }

    [PartField("Codec on its way out", "kbit/s", Min = 8, Max = 10_000, Help = "Leave empty when nothing is thrown away.", Fine = true)]
    public double? CodecKilobitsPerSecond { get; set; }

    [PartField("Delay to its output", "ms", Max = 5_000, Fine = true)]
    public double? DelayMilliseconds { get; set; }

    [PartField("Has as well", Help = "A second output, to connect or to compare.", Fine = true)]
    public OtherOutput OtherOutput { get; set; }

    [PartField("Largest voltage of the second output", "V", Min = 0.01, Max = 20, Help = "Fixed or at most; leave empty for a digital one.", Fine = true)]
    public double? OtherOutputVolts { get; set; }

    [PartField("Impedance of the second output", "Ω", Min = 1, Max = 100_000, Fine = true)]
    public double? OtherOutputOhms { get; set; }

    [PartField("Load or wake signal", Help = "Some factory radios stay silent without the loudspeakers or the amplifier they knew.", Fine = true)]
    public FactoryLoad FactoryLoad { get; set; }

    [PartField("Grounded at", Help = "The bolt or bar its ground cable ends at, named the same for all on it.", Fine = true)]
    public string? GroundPoint { get; set; }
}

public enum CablePurpose
{
    Power,
    Ground,
    Loudspeaker,
    Signal,
    Control,
}

public enum CableMetal
{
    Copper,
    CopperCladAluminium,
}

public sealed class CableData : PartData
{
    [PartField("Carries")]
    public CablePurpose Purpose { get; set; }

    [PartField("Conductor size (AWG)", Help = "For example 4, 1/0 or 4/0.")]
    public string? Awg { get; set; }

    [PartField("Cross-section", "mm²", Min = 0.05, Max = 300)]
    public double? AreaSquareMillimeters { get; set; }

    [PartField("Conductor is of", Help = "Read the print on the cable: CCA is copper-clad aluminium.")]
    public CableMetal Metal { get; set; }

    [PartField("Insulation withstands", "°C", Min = 40, Max = 250)]
    public double? InsulationCelsius { get; set; }
}

public sealed class FuseData : PartData
{
    [PartField("Rating", "A", Min = 0.5, Max = 1_000)]
    public double? RatingAmperes { get; set; }

    [PartField("Form", Help = "Blade, high-current blade, bolt-in, as in ISO 8820.")]
    public string? Form { get; set; }

    [PartField("Interrupts up to", "A", Min = 10, Max = 100_000)]
    public double? InterruptAmperes { get; set; }
}

public sealed class DistributionData : PartData
{
    [PartField("Ways out", Min = 1, Max = 32)]
    public int? Ways { get; set; }

    [PartField("Current altogether", "A", Min = 1, Max = 1_000)]
    public double? MaxAmperes { get; set; }
}

/// <summary>From where the light of a lamp can be seen; outside, the road law decides.</summary>
public enum LightView
{
    InsideOnly,
    FromOutside,
}

public sealed class LightingData : PartData
{
    [PartField("Power per metre", "W/m", Max = 200)]
    public double? WattsPerMeter { get; set; }

    [PartField("Length", "m", Max = 100)]
    public double? LengthMeters { get; set; }

    [PartField("Power altogether", "W", Max = 2_000, Help = "For lamps that are not strips.")]
    public double? Watts { get; set; }

    [PartField("Maker's fuse", "A", Min = 0.5, Max = 100)]
    public double? FuseAmperes { get; set; }

    [PartField("Current when switched off", "mA", Max = 1_000, Fine = true)]
    public double? OffMilliamperes { get; set; }

    [PartField("Strip voltage", "V", Min = 5, Max = 24, Help = "5, 12 or 24 V.")]
    public double? StripVolts { get; set; }

    [PartField("Colours set on their own", Min = 1, Max = 5, Help = "1 for white, 3 for red-green-blue, 4 with white.")]
    public int? Colours { get; set; }

    [PartField("LEDs per metre", "1/m", Min = 1, Max = 1_000)]
    public double? LedsPerMeter { get; set; }

    [PartField("LEDs in the shortest piece", Min = 1, Max = 24, Help = "Between two cutting marks: 1 at 5 V, usually 3 at 12 V and 6 or 7 at 24 V.", Fine = true)]
    public int? LedsPerSegment { get; set; }

    [PartField("Set by")]
    public LedDrive Drive { get; set; }

    [PartField("Fed at so many points", Min = 1, Max = 64, Help = "1: one end. 2: both ends. More: evenly between as well.", Fine = true)]
    public int? FeedPoints { get; set; }

    [PartField("Its light is seen")]
    public LightView View { get; set; }

    [JsonIgnore]
    public double? TotalWatts => Watts ?? WattsPerMeter * LengthMeters;
}

public sealed class BatteryData : PartData
{
    [PartField("Capacity at the 20-hour rate", "Ah", Min = 1, Max = 1_000)]
    public double? CapacityAmpereHours { get; set; }

    [PartField("Chemistry", Help = "Flooded lead-acid, AGM, gel, lithium iron phosphate …")]
    public string? Chemistry { get; set; }

    [PartField("Internal resistance", "mΩ", Min = 0.1, Max = 500)]
    public double? InternalMilliohms { get; set; }
}

public sealed class TreatmentData : PartData
{
    [PartField("Does", Help = "Damps panels, blocks sound, absorbs, stops rattles …")]
    public string? Purpose { get; set; }

    [PartField("Mass per area", "kg/m²", Max = 50)]
    public double? MassPerSquareMeter { get; set; }

    [PartField("Thickness", "mm", Max = 200)]
    public double? ThicknessMillimeters { get; set; }

    [PartField("Sheet, length", "mm", Min = 50, Max = 20_000, Help = "Of one sheet as sold; empty when it is sold by area.", Fine = true)]
    public double? SheetLengthMillimeters { get; set; }

    [PartField("Sheet, width", "mm", Min = 50, Max = 3_000, Fine = true)]
    public double? SheetWidthMillimeters { get; set; }
}

public sealed class MaterialData : PartData
{
    [PartField("Thickness", "mm", Max = 200)]
    public double? ThicknessMillimeters { get; set; }

    [PartField("Density", "kg/m³", Min = 5, Max = 20_000)]
    public double? DensityKilogramsPerCubicMeter { get; set; }

    [PartField("Take care", Help = "Dust, resin, solvent: what protects the person who works it.")]
    public string? Caution { get; set; }

    [PartField("Modulus in bending", "GPa", Min = 0.001, Max = 300, Help = "Of its maker's data sheet; tells whether a lighter panel is as stiff.", Fine = true)]
    public double? BendingGigapascals { get; set; }
}

/// <summary>Whether the coil of a relay has a diode or resistor across it.</summary>
public enum CoilSuppression
{
    NotKnown,
    BuiltIn,
    None,
}

public sealed class AccessoryData : PartData
{
    [PartField("Current when working", "A", Max = 200, Help = "Type 0 for a part that takes no current.")]
    public double? WorkingAmperes { get; set; }

    [PartField("Maker's fuse", "A", Min = 0.5, Max = 200)]
    public double? FuseAmperes { get; set; }

    [PartField("Current when switched off", "mA", Max = 1_000, Fine = true)]
    public double? OffMilliamperes { get; set; }

    [PartField("Is a", Help = "Cameras that record and detection devices are ruled by local law.")]
    public AccessoryKind Use { get; set; } = AccessoryKind.Other;

    [PartField("Current while it watches the parked car", "mA", Max = 5_000, Help = "0 for one that sleeps with the car.", Fine = true)]
    public double? ParkedMilliamperes { get; set; }

    [PartField("Switches itself off at", "V", Min = 10, Max = 13, Help = "The cut-off that saves the battery.", Fine = true)]
    public double? CutOffVolts { get; set; }

    [PartField("Turn-on input takes", "mA", Max = 2_000, Fine = true)]
    public double? RemoteInMilliamperes { get; set; }

    [PartField("Relay: coil", "Ω", Min = 5, Max = 2_000, Fine = true)]
    public double? RelayCoilOhms { get; set; }

    [PartField("Relay: contact carries", "A", Min = 0.1, Max = 200, Fine = true)]
    public double? RelayContactAmperes { get; set; }

    [PartField("Relay: coil suppression", Fine = true)]
    public CoilSuppression Suppression { get; set; }
}

/// <summary>A capacitor across the feed, for peaks. It carries no steady current.</summary>
public sealed class CapacitorData : PartData
{
    [PartField("Capacitance", "F", Min = 0.001, Max = 2_000)]
    public double? Farads { get; set; }

    [PartField("Series resistance (ESR)", "mΩ", Min = 0.01, Max = 1_000)]
    public double? SeriesMilliohms { get; set; }

    [PartField("Stands up to", "V", Min = 6, Max = 100, Help = "Above its rating it can burst.")]
    public double? RatedVolts { get; set; }

    [PartField("Current when switched off", "mA", Max = 1_000, Help = "Its display and its leakage.", Fine = true)]
    public double? OffMilliamperes { get; set; }
}
