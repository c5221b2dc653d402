using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Signal.Chain;
using ShopFloor.Engineering.Signal.Levels;
using ShopFloor.Engineering.Signal.Loads;
using ShopFloor.Engineering.Signal.Rules;

namespace ShopFloor.Engineering.Tests.Signal;

/// <summary>
/// An invented system in order: a six-channel and a single-channel amplifier, a processor with six inputs and ten outputs, two sources, and
/// nine drivers, two of them with two coils; the ninth is the factory's own for chimes.
/// </summary>
internal static class SamplePath
{
    public static SignalPathInput Good() => new()
    {
        Devices =
        [
            new SourceDevice
            {
                Id = "radio", Name = "Factory radio", SignalToNoiseDecibels = 95, DelaySeconds = 0,
                Outputs =
                [
                    Line("l", "front left", PortKind.SpeakerLevel, 6, 0.1, ImageSide.Left), Line("r", "front right", PortKind.SpeakerLevel, 6, 0.1, ImageSide.Right),
                ],
            },
            new SourceDevice
            {
                Id = "chimes", Name = "Vehicle sounds", SignalToNoiseDecibels = 90, CarriesVehicleSounds = true, DelaySeconds = 0,
                Outputs = [Line("out", "chime output", PortKind.BalancedLine, 1, 100)],
            },
            new SourceDevice
            {
                Id = "player", Name = "Player", SignalToNoiseDecibels = 110, DelaySeconds = 0.002, Format = new AudioFormat(44_100, 16),
                Outputs = [new SignalPort { Id = "opt", Name = "optical", Kind = PortKind.Optical }],
            },
            Processor(),
            Six(),
            new AmplifierDevice
            {
                Id = "mono", Name = "Bass amplifier", GroundPoint = "boot", SignalToNoiseDecibels = 100, SensitivityMinVolts = 0.25, SensitivityMaxVolts = 8,
                Inputs = [Line("1", "input", PortKind.UnbalancedLine, 8, 20_000)],
                Outputs = [Speaker("1", "output")],
                RatedPowers = [new(4, 300), new(2, 500), new(1, 800)],
            },
            new AmplifierDevice
            {
                Id = "factory-amp", Name = "Factory chime amplifier", SignalToNoiseDecibels = 90, SensitivityMinVolts = 0.1, SensitivityMaxVolts = 4,
                Inputs = [Line("1", "input", PortKind.BalancedLine, 4, 10_000)],
                Outputs = [Speaker("1", "output")],
                RatedPowers = [new(4, 10)],
            },
            Driver("tweeter-l", "Left tweeter", "tweeter", ImageSide.Left, 4, 50, 91, 2_000),
            Driver("tweeter-r", "Right tweeter", "tweeter", ImageSide.Right, 4, 50, 91, 2_000),
            Driver("mid-l", "Left midrange", "midrange", ImageSide.Left, 4, 60, 88, 250),
            Driver("mid-r", "Right midrange", "midrange", ImageSide.Right, 4, 60, 88, 250),
            Driver("bass-l", "Left midbass", "midbass", ImageSide.Left, 4, 100, 88, 60),
            Driver("bass-r", "Right midbass", "midbass", ImageSide.Right, 4, 100, 88, 60),
            Driver("sub-1", "Subwoofer 1", "subwoofer", ImageSide.Both, 4, 400, 86, 25, coils: 2),
            Driver("sub-2", "Subwoofer 2", "subwoofer", ImageSide.Both, 4, 400, 86, 25, coils: 2),
            Driver("chime", "Chime loudspeaker", "", ImageSide.Both, 4, 15, 88, null),
        ],
        Links =
        [
            Link("radio", "l", "processor", "a"), Link("radio", "r", "processor", "b"), Link("player", "opt", "processor", "opt"),
            .. Enumerable.Range(1, 6).Select(n => Link("processor", $"o{n}", "six", $"{n}")),
            Link("processor", "o7", "mono", "1"),
            Link("chimes", "out", "factory-amp", "1"),
        ],
        Loads =
        [
            Load("six", "1", "tweeter-l", 40), Load("six", "2", "tweeter-r", 40), Load("six", "3", "mid-l"), Load("six", "4", "mid-r"), Load("six", "5", "bass-l"), Load("six", "6", "bass-r"),
            new ChannelLoad
            {
                Id = "load-mono", AmplifierId = "mono", Outputs = ["1"], CableOhms = 0.01,
                // Two coils of 4 Ω in series are 8 Ω; two such drivers in parallel are 4 Ω.
                Wiring = CoilWiring.Parallel(CoilWiring.Series(new Coil("sub-1", 1), new Coil("sub-1", 2)), CoilWiring.Series(new Coil("sub-2", 1), new Coil("sub-2", 2))),
            },
            Load("factory-amp", "1", "chime"),
        ],
    };

    public static SignalPathInput With(this SignalPathInput path, Func<SignalDevice, SignalDevice> change) => path with { Devices = [.. path.Devices.Select(change)] };

    public static SignalPathInput WithDriver(this SignalPathInput path, string id, Func<DriverDevice, DriverDevice> change) =>
        path.With(device => device is DriverDevice driver && driver.Id == id ? change(driver) : device);

    public static SignalPathInput WithProcessor(this SignalPathInput path, Func<ProcessingDevice, ProcessingDevice> change) =>
        path.With(device => device is ProcessingDevice processor ? change(processor) : device);

    public static SignalPathInput WithLoad(this SignalPathInput path, string id, Func<ChannelLoad, ChannelLoad> change) =>
        path with { Loads = [.. path.Loads.Select(load => load.Id == id ? change(load) : load)] };

    // Texts keep numbers and units together with no-break spaces; the tests are written with plain ones.
    public static IReadOnlyList<Finding> Findings(this SignalPathInput path) =>
        [.. SignalRules.Check(path, SignalLevels.Compute(path)).Select(finding => finding with { Text = finding.Text.Replace('\u00a0', ' ') })];

    public static SignalLink Link(string from, string output, string to, string input) =>
        new() { Id = $"{from}:{output}-{to}:{input}", FromDevice = from, FromPort = output, ToDevice = to, ToPort = input, LengthMeters = 2 };

    public static ChannelLoad Load(string amplifier, string output, string driver, double? watts = null) =>
        new() { Id = $"load-{driver}", AmplifierId = amplifier, Outputs = [output], Wiring = new Coil(driver), CableOhms = 0.02, WantedWatts = watts };

    public static SignalPort Line(string id, string name, PortKind kind, double volts, double ohms, ImageSide side = ImageSide.Both, double? min = null) =>
        new() { Id = id, Name = name, Kind = kind, MaxVolts = volts, Ohms = ohms, Side = side, MinVolts = min };

    public static SignalPort Speaker(string id, string name) => new() { Id = id, Name = name, Kind = PortKind.SpeakerLevel };

    private static DriverDevice Driver(string id, string name, string model, ImageSide side, double ohms, double watts, double sensitivity, double? lowest, int coils = 1) => new()
    {
        Id = id, Name = name, Model = model, Side = side, CoilOhms = ohms, RatedWatts = watts, SensitivityDecibels = sensitivity, LowestHertz = lowest, Coils = coils,
    };

    private static ProcessingDevice Processor() => new()
    {
        Id = "processor", Name = "Processor", GroundPoint = "boot", SampleRateHertz = 96_000, Bits = 24, SignalToNoiseDecibels = 112, DelaySeconds = 0.0015,
        Inputs =
        [
            Line("a", "input A", PortKind.SpeakerLevel, 16, 10_000, min: 2), Line("b", "input B", PortKind.SpeakerLevel, 16, 10_000, min: 2),
            .. Enumerable.Range(3, 4).Select(n => Line($"i{n}", $"input {n}", PortKind.UnbalancedLine, 4, 20_000, min: 1)),
            new SignalPort { Id = "opt", Name = "optical", Kind = PortKind.Optical },
        ],
        Outputs = [.. Enumerable.Range(1, 10).Select(n => Line($"o{n}", $"output {n}", PortKind.UnbalancedLine, 4, 100, n > 6 ? ImageSide.Both : n % 2 == 1 ? ImageSide.Left : ImageSide.Right))],
        Routes = [.. Enumerable.Range(1, 10).SelectMany(n => new[] { n > 6 ? "a" : n % 2 == 1 ? "a" : "b", "opt" }.Select(input => new PortRoute(input, $"o{n}")))],
        Bands = [new("o1", 2_500, null), new("o2", 2_500, null), new("o3", 300, 2_500), new("o4", 300, 2_500), new("o5", 70, 300), new("o6", 70, 300), new("o7", 25, 70)],
    };

    private static AmplifierDevice Six() => new()
    {
        Id = "six", Name = "Six-channel amplifier", GroundPoint = "boot", SignalToNoiseDecibels = 100, SensitivityMinVolts = 0.5, SensitivityMaxVolts = 8,
        Inputs = [.. Enumerable.Range(1, 6).Select(n => Line($"{n}", $"input {n}", PortKind.UnbalancedLine, 8, 20_000))],
        Outputs = [.. Enumerable.Range(1, 6).Select(n => Speaker($"{n}", $"channel {n}"))],
        RatedPowers = [new(4, 75), new(2, 110)],
        BridgedPowers = [new(4, 220)],
    };
}
