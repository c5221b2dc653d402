using System.Globalization;
using ShopFloor.Engineering.Signal.Chain;
using ShopFloor.Engineering.Signal.Loads;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Jobs;
using SourceDevice = ShopFloor.Engineering.Signal.Chain.SourceDevice;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>Parts as devices of the signal path, one for each unit of a line.</summary>
internal static class SignalDevices
{
    /// <summary>The car's own radio, where no part stands for it.</summary>
    public const string CarId = "car";

    // What a source gives at its connector for chimes and telephone is a source of its own.
    private const string Voice = ":vehicle-sounds";

    public static string IdOf(JobPart part, int unit) => PlanLoads.IdOf(part, unit + 1);

    public static string Input(int number) => string.Create(CultureInfo.InvariantCulture, $"in{number + 1}");

    public static string Output(int number) => string.Create(CultureInfo.InvariantCulture, $"out{number + 1}");

    /// <summary>The continuous ratings that are known; of an amplifier with a bridged one alone, half of it into half the load, which is what each of the two gives then.</summary>
    public static List<RatedPower> Ratings(AmplifierData data)
    {
        List<RatedPower> known = [.. new (double Ohms, double? Watts)[] { (4, data.WattsAtFourOhms), (2, data.WattsAtTwoOhms), (1, data.WattsAtOneOhm) }
            .Where(point => point.Watts is not null).Select(point => new RatedPower(point.Ohms, point.Watts!.Value))]; // filtered
        if (known.Count == 0 && data.WattsBridgedAtFourOhms is { } bridged)
        {
            known.Add(new RatedPower(2, bridged / 2));
        }

        return known;
    }

    /// <param name="ground">Where it is grounded; null when nobody said.</param>
    public static AmplifierDevice Amplifier(JobPart part, AmplifierData data, int unit, string? ground) => new()
    {
        Id = IdOf(part, unit),
        Name = SignalPorts.NameOfUnit(part, unit),
        Inputs = [.. Numbers(data.Channels ?? 0).Select(number => new SignalPort { Id = Input(number), Name = Named("input", number), Kind = data.InputKind, Ohms = data.InputOhms })],
        Outputs = [.. Numbers(data.Channels ?? 0).Select(number => new SignalPort { Id = Output(number), Name = Named("output", number), Kind = PortKind.SpeakerLevel })],
        RatedPowers = Ratings(data),
        BridgedPowers = data.WattsBridgedAtFourOhms is { } watts ? [new RatedPower(4, watts)] : [],
        SensitivityMinVolts = data.SensitivityMinVolts,
        SensitivityMaxVolts = data.SensitivityMaxVolts,
        SignalToNoiseDecibels = data.SignalToNoiseDecibels,
        NoiseReference = data.NoiseReference,
        GroundPoint = ground,
    };

    /// <param name="digital">Inputs among the analogue ones that a source's digital output ends at.</param>
    /// <param name="routing">What its outputs are made of, where they end and what they let through.</param>
    /// <param name="ground">Where it is grounded; null when nobody said.</param>
    public static ProcessingDevice Processor(JobPart part, ProcessorData data, int unit, IReadOnlySet<string> digital, ProcessorRouting routing, string? ground) => new()
    {
        Id = IdOf(part, unit),
        Name = SignalPorts.NameOfUnit(part, unit),
        Inputs =
        [
            .. Numbers(data.Inputs ?? 0).Select(number => digital.Contains(Input(number)) && KindOf(data.DigitalInput) is { } kind
                ? new SignalPort { Id = Input(number), Name = $"{kind.Words()}, {Named("channel", number)}", Kind = kind }
                : new SignalPort { Id = Input(number), Name = Named("input", number), Kind = data.InputKind, MinVolts = data.InputMinVolts, MaxVolts = data.InputMaxVolts, Ohms = data.InputOhms }),
            .. SoundPort.Inputs(data).Select((port, number) => (port, number)).Skip(data.Inputs ?? 0).Select(each => new SignalPort { Id = Input(each.number), Name = each.port.Name, Kind = each.port.Kind, Side = each.port.Side }),
        ],
        Outputs =
        [
            .. Numbers(data.Outputs ?? 0).Select(number => new SignalPort
            {
                Id = Output(number), Name = routing.NameOf(Output(number), Named("output", number)), Kind = data.OutputKind, MaxVolts = data.OutputKind.IsAnalog() ? data.OutputVolts : null, Ohms = data.OutputOhms,
                Side = routing.Sides.GetValueOrDefault(Output(number)),
            }),
        ],
        SampleRateHertz = 1000 * data.SampleRateKilohertz,
        Bits = data.Bits,
        SignalToNoiseDecibels = data.SignalToNoiseDecibels,
        DelaySeconds = data.DelayMilliseconds / 1000,
        Bands = routing.Bands,
        Routes = routing.Routes,
        IsTerminated = TerminatedBy(data.FactoryLoad),
        GroundPoint = ground,
    };

    /// <summary>A source, and what it gives at a connector of its own for chimes, navigation and telephone.</summary>
    public static IEnumerable<SourceDevice> Sources(JobPart part, SourceData data, int unit, string? ground)
    {
        var ports = SoundPort.Outputs(data).Select((port, number) => (Voice: port.IsVoice, Port: PortOf(port, number, data))).ToList();
        var whole = new SourceDevice
        {
            Id = IdOf(part, unit),
            Name = SignalPorts.NameOfUnit(part, unit),
            Outputs = [.. ports.Where(each => !each.Voice).Select(each => each.Port)],
            SignalToNoiseDecibels = data.SignalToNoiseDecibels,
            Format = data is { SampleRateKilohertz: { } rate, Bits: { } bits } ? new AudioFormat(1000 * rate, bits) : null,
            CarriesVehicleSounds = data.Sounds == SourceSounds.MusicAndVehicleSounds,
            DelaySeconds = data.DelayMilliseconds / 1000,
            IsTerminated = TerminatedBy(data.FactoryLoad),
            GroundPoint = ground,
        };
        yield return whole;
        if (ports.Exists(each => each.Voice))
        {
            yield return whole with
            {
                Id = whole.Id + Voice, Name = $"{whole.Name}, vehicle sounds", Outputs = [.. ports.Where(each => each.Voice).Select(each => each.Port)], Format = null, CarriesVehicleSounds = true, IsTerminated = null,
            };
        }
    }

    /// <summary>Device and connector an output of a line stands for; null when there is no such output.</summary>
    public static (string Device, string Port)? EndOf(JobPart part, int output) => SoundPort.Output(part, output) is { } end
        ? (IdOf(part, end.Unit) + (end.Port.IsVoice ? Voice : ""), Output(end.Number))
        : null;

    private static SignalPort PortOf(SoundPort port, int number, SourceData data) => new()
    {
        Id = Output(number), Name = port.Name, Kind = port.Kind, Side = port.Side,
        MaxVolts = port.Kind.IsAnalog() && (port.IsOther ? data.OtherOutputVolts : data.OutputVolts) is > 0 and var volts ? volts : null,
        Ohms = !port.Kind.IsAnalog() ? null : port.IsOther ? data.OtherOutputOhms : data.OutputOhms,
        CodecKilobitsPerSecond = HasCodec(port.Kind, data) ? data.CodecKilobitsPerSecond : null,
    };

    // A codec is what a radio link needs, else what a digital way out has; with one output it is in that.
    private static bool HasCodec(PortKind kind, SourceData data)
    {
        PortKind[] kinds = KindOf(data.OtherOutput) is { } other ? [data.OutputKind, other] : [data.OutputKind];
        return kinds.Contains(PortKind.Wireless) ? kind == PortKind.Wireless : kinds.All(PortKinds.IsAnalog) || !kind.IsAnalog();
    }

    private static bool? TerminatedBy(FactoryLoad load) => load switch
    {
        FactoryLoad.NeededAndFitted => true,
        FactoryLoad.NeededAndMissing => false,
        _ => null,
    };

    /// <summary>The car's own sound: none of its figures is known, its chimes and telephone come with it.</summary>
    public static SourceDevice Car(IEnumerable<PortKind> kinds) => new()
    {
        Id = CarId,
        Name = "The car's own sound",
        Outputs = [.. kinds.Distinct().Select(kind => new SignalPort { Id = kind.ToString(), Name = kind.Words(), Kind = kind })],
        CarriesVehicleSounds = true,
    };

    public static DriverDevice Driver(JobPart part, LoudspeakerData data, int unit, double? lowestHertz) => new()
    {
        Id = IdOf(part, unit),
        Name = SignalPorts.NameOfUnit(part, unit),
        Model = ModelOf(part, unit),
        Coils = SignalPorts.Coils(data),
        CoilOhms = data.NominalOhms ?? 0,
        CoilMinimumOhms = data.MinimumOhms,
        CoilMinimumOrigin = MinimumOrigin(data) ?? "",
        RatedWatts = data.RatedWatts,
        SensitivityDecibels = data.SensitivityDecibels,
        LowestHertz = lowestHertz,
        Side = SideOf(SignalPorts.ZoneOf(part, unit)),
    };

    /// <summary>Words for where a lowest impedance comes from when somebody measured it; null for what was typed.</summary>
    public static string? MinimumOrigin(LoudspeakerData data) => data.SourceOf(nameof(data.MinimumOhms)) is { } source ? $"minimum of the impedance curve, {source}" : null;

    /// <summary>The same for what is to move together: loudspeakers of one name in one place, whichever side.</summary>
    public static string ModelOf(JobPart part, int unit)
    {
        var zone = SignalPorts.ZoneOf(part, unit);
        return $"{part.Name}|{(zone.EndsWith("-left", StringComparison.Ordinal) ? zone[..^5] : zone.EndsWith("-right", StringComparison.Ordinal) ? zone[..^6] : zone)}";
    }

    // In the boot a side is where the woofer found room, not a side of the image.
    public static ImageSide SideOf(string zone) => zone.StartsWith("boot", StringComparison.Ordinal) ? ImageSide.Both
        : zone.EndsWith("-left", StringComparison.Ordinal) ? ImageSide.Left
        : zone.EndsWith("-right", StringComparison.Ordinal) ? ImageSide.Right
        : ImageSide.Both;

    public static PortKind? KindOf(OtherOutput output) => output switch
    {
        OtherOutput.None => null,
        OtherOutput.SpeakerLevel => PortKind.SpeakerLevel,
        OtherOutput.UnbalancedLine => PortKind.UnbalancedLine,
        OtherOutput.BalancedLine => PortKind.BalancedLine,
        OtherOutput.Optical => PortKind.Optical,
        OtherOutput.Coaxial => PortKind.Coaxial,
        OtherOutput.Usb => PortKind.Usb,
        OtherOutput.Wireless => PortKind.Wireless,
        OtherOutput.VehicleBus => PortKind.VehicleBus,
        _ => throw new ArgumentOutOfRangeException(nameof(output)),
    };

    public static PortKind? KindOf(DigitalInput input) => input switch
    {
        DigitalInput.Optical => PortKind.Optical,
        DigitalInput.Coaxial => PortKind.Coaxial,
        DigitalInput.Usb => PortKind.Usb,
        DigitalInput.Wireless => PortKind.Wireless,
        DigitalInput.VehicleBus => PortKind.VehicleBus,
        _ => null,
    };

    private static IEnumerable<int> Numbers(int count) => Enumerable.Range(0, Math.Min(count, SignalPorts.Most));

    private static string Named(string what, int number) => string.Create(CultureInfo.InvariantCulture, $"{what} {number + 1}");
}
