using BenchmarkDotNet.Attributes;
using ShopFloor.Engineering.Physics;
using ShopFloor.Engineering.Acoustics.Drivers;
using ShopFloor.Engineering.Acoustics.Enclosures;
using ShopFloor.Engineering.Electrical;
using ShopFloor.Engineering.Signal;
using ShopFloor.Engineering.Signal.Chain;
using ShopFloor.Engineering.Signal.Loads;
using ShopFloor.Engineering.Tests.Electrical;
using ShopFloor.Engineering.Tests.Signal;

namespace ShopFloor.Benchmarks;

/// <summary>The signal path of systems beside one another, each of sources, processor, three amplifiers and nine drivers: 16 devices.</summary>
public class SignalPathBenchmarks
{
    private SignalPathInput _path = null!;

    /// <summary>Systems: 2 are 32 devices, 4 are 64, 13 are 208.</summary>
    [Params(2, 4, 13)]
    public int Systems { get; set; }

    [GlobalSetup]
    public void Build()
    {
        var systems = Enumerable.Range(1, Systems).Select(n => Named(SamplePath.Good(), $"{n}-")).ToList();
        _path = new SignalPathInput
        {
            Devices = [.. systems.SelectMany(system => system.Devices)],
            Links = [.. systems.SelectMany(system => system.Links)],
            Loads = [.. systems.SelectMany(system => system.Loads)],
        };
    }

    [Benchmark]
    public SignalPathResult Path() => SignalPath.Compute(_path);

    private static SignalPathInput Named(SignalPathInput path, string prefix) => new()
    {
        Devices = [.. path.Devices.Select(device => device with { Id = prefix + device.Id })],
        Links = [.. path.Links.Select(link => link with { Id = prefix + link.Id, FromDevice = prefix + link.FromDevice, ToDevice = prefix + link.ToDevice })],
        Loads =
        [
            .. path.Loads.Select(load => load with
            {
                Id = prefix + load.Id,
                AmplifierId = prefix + load.AmplifierId,
                Wiring = load.Wiring is Coil coil ? new Coil(prefix + coil.DriverId) : CoilWiring.Series(new Coil(prefix + "sub-1", 1), new Coil(prefix + "sub-1", 2)),
            }),
        ],
    };
}

/// <summary>A drawn response of a thousand points.</summary>
public class EnclosureBenchmarks
{
    private static readonly DriverParameters Driver = DriverCompletion.Complete(
        new DriverSheet { ResonanceHertz = 28, Qes = 0.52, Qms = 6, VasCubicMeters = 0.062, PistonSquareMeters = 0.033, ReOhms = 3.4, LeHenries = 1.2e-3, XmaxMeters = 0.014 },
        Air.Standard).Parameters!; // a whole sheet

    private readonly double[] _hertz = [.. Enumerable.Range(0, 1000).Select(i => 10 * Math.Pow(100, i / 999.0))];

    [Benchmark]
    public IReadOnlyList<ResponsePoint> Vented() =>
        EnclosureResponse.Over(Driver, new VentedBox { NetCubicMeters = 0.045, TuningHertz = 32, PortSquareMeters = 0.00785, LeakQ = 7 }, Air.Standard, 2.83, _hertz);
}

/// <summary>The plan of a job computed anew after an edit: a main run and its branches, with the forms of the fuses settled by the battery.</summary>
public class PlanBenchmarks
{
    private ElectricalPlanInput _plan = null!;

    /// <summary>Runs, the main run counted.</summary>
    [Params(10, 100)]
    public int Runs { get; set; }

    [GlobalSetup]
    public void Build() => _plan = Plans.Of([.. Enumerable.Range(1, Runs - 1).Select(n => Plans.Fixed($"l{n}", 0.5 + (n % 7), 0.5 + (n % 5)))]) with { Battery = new BatterySource(12.65, 0.006) };

    [Benchmark]
    public ElectricalPlanResult Plan() => ElectricalPlan.Compute(_plan);
}
