using System.Globalization;
using ShopFloor.Engineering.Electrical;
using ShopFloor.Engineering.Electrical.Accessories;
using ShopFloor.Shop.Catalogue;

namespace ShopFloor.Shop.Demo;

/// <summary>The invented parts of the demo. Names, suppliers, figures and prices are made up.</summary>
public static class DemoCatalogue
{
    public const string SixChannel = "Tovel 6.90 six-channel amplifier";
    public const string FourChannel = "Tovel 4.60 four-channel amplifier";
    public const string SingleChannel = "Tovel M500 single-channel amplifier";
    public const string Processor = "Ovrel 6×10 signal processor";
    public const string NetworkPlayer = "Sendrel network player";
    public const string RadioInterface = "Sendrel factory radio interface";
    public const string Tweeter = "Luneck 25 tweeter";
    public const string Midrange = "Luneck 80 midrange";
    public const string Midbass = "Luneck 165 midbass";
    public const string RearFill = "Luneck 100 rear fill";
    public const string Woofer = "Tarnum 250 dual-coil woofer";
    public const string FlatWoofer = "Tarnum 200 flat woofer";
    public const string Distribution = "Junction four-way fused distribution";
    public const string SecondBattery = "Reserve 60 AGM battery";
    public const string LightStrip = "Lumbrel 5 light strip, warm white";
    public const string ColourStrip = "Lumbrel 3 colour strip";
    public const string Capacitor = "Reserve 2 F capacitor";
    public const string Recorder = "Lookout road recorder";
    public const string Relay = "Switching relay 30 A, coil with resistor";
    public const string Camera = "Lookout rear camera with display";
    public const string Damping = "Dempra 2 butyl damping";
    public const string Absorber = "Dempra 10 closed-cell absorber";
    public const string Birch = "Birch plywood 12 mm";
    public const string Poplar = "Poplar light plywood 15 mm";
    public const string Carpet = "Moulding carpet, anthracite";
    public const string SpeakerCable = "Speaker cable 2 × 2.5 mm²";
    public const string SignalCable = "Screened twin signal cable";
    public const string RemoteWire = "Control wire 0.75 mm²";

    private const string Trade = "Northgate Trade Supply";
    private const string Loom = "Ferro & Loom";
    private const string Board = "Kestrel Board Works";

    public static IEnumerable<PartFacts> Parts()
    {
        yield return Part(SixChannel, Trade, "NT-690", 412, 619, 3.9, new AmplifierData { Channels = 6, WattsAtFourOhms = 90, WattsAtTwoOhms = 140, Class = AmplifierClass.D, EfficiencyPercent = 82, IdleAmperes = 1.4, FuseAmperes = 80, OffMilliamperes = 1.5, RemoteInMilliamperes = 15, DampingFactor = 200, ProtectionCelsius = 85, SensitivityMinVolts = 0.2, SensitivityMaxVolts = 5, InputOhms = 20_000, SignalToNoiseDecibels = 100 });
        yield return Part(FourChannel, Trade, "NT-460", 236, 359, 2.6, new AmplifierData { Channels = 4, WattsAtFourOhms = 60, WattsAtTwoOhms = 95, Class = AmplifierClass.AB, EfficiencyPercent = 56, IdleAmperes = 1.8, FuseAmperes = 60, OffMilliamperes = 1, RemoteInMilliamperes = 12, DampingFactor = 150, ProtectionCelsius = 80, SensitivityMinVolts = 0.15, SensitivityMaxVolts = 4, InputOhms = 20_000, SignalToNoiseDecibels = 100 });
        yield return Part(SingleChannel, Trade, "NT-M500", 298, 449, 3.1, new AmplifierData { Channels = 1, WattsAtFourOhms = 320, WattsAtTwoOhms = 500, Load = ChannelLoading.TwoOhms, Class = AmplifierClass.D, EfficiencyPercent = 80, IdleAmperes = 1.2, FuseAmperes = 60, OffMilliamperes = 1, RemoteInMilliamperes = 15, DampingFactor = 180, ProtectionCelsius = 85, SensitivityMinVolts = 0.2, SensitivityMaxVolts = 6, InputOhms = 20_000, SignalToNoiseDecibels = 98 });
        yield return Part(Processor, Trade, "NT-P610", 438, 659, 0.9, new ProcessorData { Inputs = 6, Outputs = 10, WorkingAmperes = 0.8, FuseAmperes = 3, OffMilliamperes = 0.8, RemoteInMilliamperes = 8, RemoteOutMilliamperes = 100, SettleSeconds = 1.5, OutputOhms = 100, DigitalInput = DigitalInput.Optical, InputMinVolts = 0.5, InputMaxVolts = 6, InputOhms = 10_000, OutputVolts = 4, SignalToNoiseDecibels = 110, SampleRateKilohertz = 96, Bits = 24, DelayMilliseconds = 1.2 });
        yield return Part(NetworkPlayer, Trade, "NT-RN1", 265, 399, 0.5, new SourceData { HowToUse = "Choose 'Player' on the remote knob. It joins the phone's hotspot by itself; pick an album in the player's app.", OutputVolts = 2, WorkingAmperes = 0.9, FuseAmperes = 3, OffMilliamperes = 0.6, RemoteOutMilliamperes = 200, SettleSeconds = 2.5, OutputOhms = 220, SignalToNoiseDecibels = 105, SampleRateKilohertz = 192, Bits = 24, DelayMilliseconds = 6, OtherOutput = OtherOutput.Optical });
        yield return Part(RadioInterface, Trade, "NT-RI4", 148, 229, 0.3, new SourceData { HowToUse = "Use the radio as before. Telephone, navigation and warning tones come through the same path.", OutputVolts = 4, WorkingAmperes = 0.3, FuseAmperes = 2, OffMilliamperes = 0.5, RemoteOutMilliamperes = 250, SettleSeconds = 0.8, OutputOhms = 47, Sounds = SourceSounds.MusicAndVehicleSounds, SignalToNoiseDecibels = 96, SampleRateKilohertz = 44.1, Bits = 16, DelayMilliseconds = 2 });
        yield return Part(Tweeter, Trade, "NT-L25", 42, 69, 0.12, new LoudspeakerData { SizeMillimeters = 25, NominalOhms = 4, Coils = 1, RatedWatts = 40, SensitivityDecibels = 90, MinimumOhms = 3.4, LowestHertz = 2_000 });
        yield return Part(Midrange, Trade, "NT-L80", 58, 95, 0.35, new LoudspeakerData { SizeMillimeters = 80, NominalOhms = 4, Coils = 1, RatedWatts = 50, SensitivityDecibels = 88, LowestHertz = 250 });
        yield return Part(Midbass, Trade, "NT-L165", 88, 139, 1.45, new LoudspeakerData { SizeMillimeters = 165, NominalOhms = 4, Coils = 1, RatedWatts = 100, SensitivityDecibels = 89, MinimumOhms = 3.3, LowestHertz = 60 });
        yield return Part(RearFill, Trade, "NT-L100", 34, 55, 0.55, new LoudspeakerData { SizeMillimeters = 100, NominalOhms = 4, Coils = 1, RatedWatts = 50, SensitivityDecibels = 88, LowestHertz = 120 });
        yield return Part(Woofer, Trade, "NT-F250", 176, 269, 6.8, new LoudspeakerData { SizeMillimeters = 250, NominalOhms = 4, Coils = 2, RatedWatts = 500, SensitivityDecibels = 86, LowestHertz = 25, ResonanceHertz = 29, Qes = 0.51, Qms = 5.8, Qts = 0.47, VasLitres = 36, PistonSquareCentimeters = 346, ReOhms = 1.7, LeMillihenries = 0.7, XmaxMillimeters = 15, DisplacementLitres = 2.4, CutOutMillimeters = 231, DepthMillimeters = 148 });
        yield return Part(FlatWoofer, Trade, "NT-F200", 132, 209, 3.2, new LoudspeakerData { SizeMillimeters = 200, NominalOhms = 4, Coils = 1, RatedWatts = 200, SensitivityDecibels = 85, LowestHertz = 30, ResonanceHertz = 36, Qes = 0.55, Qms = 4.6, VasLitres = 13, PistonSquareCentimeters = 214, ReOhms = 3.3, LeMillihenries = 1.1, XmaxMillimeters = 8, DisplacementLitres = 0.7, CutOutMillimeters = 184, DepthMillimeters = 68 });
        yield return Part(Distribution, Loom, "FL-D4", 39, 65, 0.42, new DistributionData { Ways = 4, MaxAmperes = 150 });
        yield return Part(SecondBattery, Loom, "FL-B60", 168, 249, 18.2, new BatteryData { CapacityAmpereHours = 60, Chemistry = "AGM lead-acid", InternalMilliohms = 5 });
        yield return Part(LightStrip, Loom, "FL-G5", 31, 59, 0.3, new LightingData { WattsPerMeter = 9.6, LengthMeters = 5, FuseAmperes = 5, OffMilliamperes = 0, StripVolts = 12, Colours = 1, LedsPerMeter = 120, LedsPerSegment = 3, FeedPoints = 1 });
        yield return Part(ColourStrip, Loom, "FL-C5", 44, 79, 0.28, new LightingData { WattsPerMeter = 14.4, LengthMeters = 3, FuseAmperes = 5, OffMilliamperes = 4, StripVolts = 12, Colours = 3, LedsPerMeter = 60, LedsPerSegment = 3, FeedPoints = 2 });
        yield return Part(Capacitor, Loom, "FL-K2", 64, 109, 1.6, new CapacitorData { Farads = 2, SeriesMilliohms = 1.5, RatedVolts = 20, OffMilliamperes = 2 });
        yield return Part(Camera, Loom, "FL-C1", 119, 189, 0.6, new AccessoryData { WorkingAmperes = 0.7, FuseAmperes = 3, OffMilliamperes = 0, Use = AccessoryKind.Camera });
        yield return Part(Recorder, Loom, "FL-C2", 98, 159, 0.3, new AccessoryData { WorkingAmperes = 0.4, FuseAmperes = 2, OffMilliamperes = 0, Use = AccessoryKind.RecordingCamera, ParkedMilliamperes = 180, CutOffVolts = 12.2 });
        yield return Part(Relay, Loom, "FL-R30", 4.2m, 9, 0.04, new AccessoryData { WorkingAmperes = 0.16, FuseAmperes = 1, OffMilliamperes = 0, RelayCoilOhms = 85, RelayContactAmperes = 30, Suppression = CoilSuppression.BuiltIn });
        yield return Part(Damping, Board, "KB-H2", 14.5m, 27, 3.3, new TreatmentData { Purpose = "Damps panels", MassPerSquareMeter = 3.3, ThicknessMillimeters = 2 }, PartUnit.SquareMeter);
        yield return Part(Absorber, Board, "KB-H10", 11, 21, 0.45, new TreatmentData { Purpose = "Absorbs behind the cone and stops rattles", MassPerSquareMeter = 0.45, ThicknessMillimeters = 10 }, PartUnit.SquareMeter);
        yield return Part(Birch, Board, "KB-P12", 26, 44, 8.2, new MaterialData { ThicknessMillimeters = 12, DensityKilogramsPerCubicMeter = 680, Caution = "Wood dust: extraction on, mask on.", BendingGigapascals = 6.8 }, PartUnit.SquareMeter);
        yield return Part(Poplar, Board, "KB-L15", 31, 52, 6.3, new MaterialData { ThicknessMillimeters = 15, DensityKilogramsPerCubicMeter = 420, Caution = "Wood dust: extraction on, mask on.", BendingGigapascals = 4 }, PartUnit.SquareMeter);
        yield return Part(Carpet, Board, "KB-C1", 9.5m, 18, 0.6, new MaterialData { ThicknessMillimeters = 3, Caution = "Spray adhesive: vapour mask, no sparks." }, PartUnit.SquareMeter);
        yield return Part(SpeakerCable, Loom, "FL-S25", 1.1m, 2.4m, 0.062, new CableData { Purpose = CablePurpose.Loudspeaker, AreaSquareMillimeters = 2.5, InsulationCelsius = 90 }, PartUnit.Meter);
        yield return Part(SignalCable, Loom, "FL-T2", 2.2m, 4.5m, 0.055, new CableData { Purpose = CablePurpose.Signal, InsulationCelsius = 80 }, PartUnit.Meter);
        yield return Part(RemoteWire, Loom, "FL-R075", 0.25m, 0.6m, 0.011, new CableData { Purpose = CablePurpose.Control, AreaSquareMillimeters = 0.75, InsulationCelsius = 105 }, PartUnit.Meter);

        foreach (var size in ConductorSize.Gauges)
        {
            // Copper costs what it weighs; prices are invented.
            var awg = size.Label.Replace(" AWG", "", StringComparison.Ordinal);
            var mass = Math.Round(size.CopperKilogramsPerMeter + size.InsulationKilogramsPerMeterEstimate, 3);
            var cost = Math.Round(0.2m + ((decimal)mass * 17), 2);
            yield return Part($"Power cable {awg} AWG, 105 °C", Loom, $"FL-P{awg.Replace("/", "-", StringComparison.Ordinal)}", cost, Math.Round(cost * 1.85m, 1), mass, new CableData { Purpose = CablePurpose.Power, Awg = awg, InsulationCelsius = 105 }, PartUnit.Meter);
        }

        foreach (var series in FuseRatings.All.Append(FuseRatings.Strip))
        {
            var (cost, mass) = series.Form switch
            {
                FuseForm.MiniBlade or FuseForm.Blade => (0.2m, 0.002),
                FuseForm.HighCurrentBlade => (0.9m, 0.006),
                FuseForm.BoltInSmall => (2.1m, 0.012),
                _ => (4.6m, 0.03),
            };
            // The invented maker of the demo's blades vouches for more than is remembered of the form; the rest has the form's figure.
            var interrupts = series.Form is FuseForm.MiniBlade or FuseForm.Blade ? 2500 : series.InterruptAmperes;
            foreach (var rating in series.RatingsAmperes)
            {
                var amperes = rating.ToString(CultureInfo.InvariantCulture);
                yield return Part($"Fuse {amperes} A, {series.Name}", Loom, $"FL-{series.Form}-{amperes}", cost, cost * 3, mass, new FuseData { RatingAmperes = rating, Form = series.Name, InterruptAmperes = interrupts });
            }
        }
    }

    private static PartFacts Part(string name, string supplier, string number, decimal cost, decimal price, double mass, PartData data, PartUnit unit = PartUnit.Piece) => new()
    {
        Kind = data.Kind,
        Name = name,
        Supplier = supplier,
        PartNumber = number,
        Unit = unit,
        UnitCost = cost,
        UnitPrice = price,
        UnitMassKilograms = mass,
        Data = data,
    };
}
