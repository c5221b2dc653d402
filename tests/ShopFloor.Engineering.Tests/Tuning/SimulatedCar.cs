using System.Numerics;
using ShopFloor.Engineering.Responses;
using ShopFloor.Engineering.Tuning;
using ShopFloor.Engineering.Tuning.Alignment;
using ShopFloor.Engineering.Tuning.Equalisation;
using ShopFloor.Engineering.Tuning.Processors;
using ShopFloor.Engineering.Tuning.Simulation;

namespace ShopFloor.Engineering.Tests.Tuning;

/// <summary>An invented car: drivers with natural band limits and resonances, each with its own way to the head, reflections and noise of the measurement.
/// What it plays is known exactly, so a tuning made from its noisy measurements can be judged by the truth.</summary>
public sealed class SimulatedCar
{
    private readonly List<Source> _sources;
    private readonly int _places;

    private SimulatedCar(List<Source> sources, int places) => (_sources, _places) = (sources, places);

    /// <summary>Subwoofer, midbass and tweeter on both sides: five channels. The right is farther and duller, as from the left seat.</summary>
    public static SimulatedCar FiveChannels(int seed, int places = 3) => new(
        [
            Source.Of("sub", "Subwoofer", StageSide.Both, null, 27, 220, 96, 2.35, 25, 200, null, [(41, 7, 4), (58, -4, 5)], [(7.5, -8)], seed, places),
            Source.Of("lm", "Left midbass", StageSide.Left, "rm", 62, 5_500, 88, 1.05, 60, 4_000, null, [(118, 4, 3), (310, -3, 4), (1_450, 4, 3)], [(1.1, -8), (2.7, -10)], seed + 1, places),
            Source.Of("rm", "Right midbass", StageSide.Right, "lm", 62, 5_200, 86, 1.48, 60, 4_000, null, [(131, 3, 3), (260, 4, 3), (1_100, -4, 4)], [(0.9, -7), (3.1, -11)], seed + 2, places),
            Source.Of("lt", "Left tweeter", StageSide.Left, "rt", 1_300, 24_000, 90, 0.92, 1_500, 20_000, 1_800, [(3_300, 3, 2), (7_400, 4, 3)], [(0.42, -8), (1.35, -12)], seed + 3, places),
            Source.Of("rt", "Right tweeter", StageSide.Right, "lt", 1_300, 24_000, 87, 1.36, 1_500, 20_000, 1_800, [(2_700, -3, 3), (9_200, 3, 3)], [(0.55, -7), (1.1, -11)], seed + 4, places),
        ], places);

    /// <summary>As <see cref="FiveChannels"/> with a midrange, doubled: ten channels.</summary>
    public static SimulatedCar TenChannels(int seed) => new(
        [
            .. FiveChannels(seed)._sources,
            Source.Of("lx", "Left midrange", StageSide.Left, "rx", 210, 9_000, 89, 0.95, 250, 7_000, 250, [(800, 3, 3)], [(0.8, -9)], seed + 5, 3),
            Source.Of("rx", "Right midrange", StageSide.Right, "lx", 210, 9_000, 88, 1.4, 250, 7_000, 250, [(900, -3, 3)], [(0.7, -9)], seed + 6, 3),
            Source.Of("c", "Centre", StageSide.Both, null, 260, 15_000, 84, 1.1, 300, 12_000, 280, [(1_200, 3, 3)], [(0.5, -7)], seed + 7, 3),
            Source.Of("lr", "Left rear", StageSide.Left, "rr", 100, 15_000, 85, 1.2, 100, 12_000, null, [(700, 3, 3)], [(1, -8)], seed + 8, 3, true),
            Source.Of("rr", "Right rear", StageSide.Right, "lr", 100, 15_000, 85, 1.6, 100, 12_000, null, [(650, 3, 3)], [(1.2, -8)], seed + 9, 3, true),
        ], 3);

    public TuningTask Task(int starts = 60) => new()
    {
        Drivers = Measured(),
        Junctions = _sources.Count > 5
            ?
            [
                new() { Id = "low", Name = "Subwoofer to midbass", FromHertz = 63, ToHertz = 120, Sides = [new(["sub"], ["lm", "rm"])] },
                new() { Id = "mid", Name = "Midbass to midrange", FromHertz = 280, ToHertz = 500, Sides = [new(["lm"], ["lx"]), new(["rm"], ["rx"])] },
                new() { Id = "high", Name = "Midrange to tweeter", FromHertz = 2_000, ToHertz = 4_000, Sides = [new(["lx"], ["lt"]), new(["rx"], ["rt"])] },
            ]
            :
            [
                new() { Id = "low", Name = "Subwoofer to midbass", FromHertz = 63, ToHertz = 120, Sides = [new(["sub"], ["lm", "rm"])] },
                new() { Id = "high", Name = "Midbass to tweeter", FromHertz = 1_800, ToHertz = 3_500, Sides = [new(["lm"], ["lt"]), new(["rm"], ["rt"])] },
            ],
        Target = TargetCurve.BuiltIn.First(target => target.Name == "Even slope"),
        Profile = new ProcessorProfile { Name = "Ten filters, 48 kHz", MaximumDelaySeconds = 0.03 },
        Starts = starts,
    };

    /// <summary>What the microphone says: 480 frequencies, 0.25 dB and 2° of noise, arrivals on the samples of 96 kHz.</summary>
    public IReadOnlyList<TunedDriver> Measured() => [.. _sources.Select(source => source.Driver(noisy: true))];

    /// <summary>What is so.</summary>
    public IReadOnlyList<TunedDriver> True() => [.. _sources.Select(source => source.Driver(noisy: false))];

    /// <summary>The true sum of a side at a place with a preset, dB, filters evaluated one by one.</summary>
    public double[] Plays(ProcessorPreset preset, double rate, StageSide side, int place, IReadOnlyList<double> hertz)
    {
        var sources = _sources.Where(source => !source.IsRear && (source.Side == StageSide.Both || source.Side == side)).ToList();
        return [.. hertz.Select(f =>
        {
            var sum = Complex.Zero;
            foreach (var source in sources)
            {
                var channel = preset.Channels.First(one => one.Id == source.Id);
                var chain = channel.Sections(rate).Aggregate(Complex.One, (value, section) => value * section.At(f, rate));
                sum += source.At(f, place) * chain * Math.Pow(10, channel.GainDecibels / 20) * (channel.Inverted ? -1 : 1) * Complex.Exp(new Complex(0, -2 * Math.PI * f * channel.DelaySeconds));
            }

            return 20 * Math.Log10(sum.Magnitude);
        })];
    }

    private sealed class Source
    {
        private static readonly double[] _grid = [.. Enumerable.Range(0, 480).Select(n => 15 * Math.Pow(22_000 / 15.0, n / 479.0))];
        private SimulatedDriver[] _places = [];
        private int _seed;
        private TunedDriver _plain = null!; // set by Of

        public string Id => _plain.Id;

        public StageSide Side => _plain.Side;

        public bool IsRear => _plain.IsRearFill;

        public static Source Of(string id, string name, StageSide side, string? pair, double highPass, double lowPass, double level, double meters, double from, double to, double? lowest, (double, double, double)[] modes, (double Milliseconds, double Decibels)[] reflections, int seed, int places, bool rear = false)
        {
            var random = new Random(1000 + seed);
            // The head moves by up to 12 cm; reflections come another way and change more.
            double[] moved = [.. Enumerable.Range(0, places).Select(place => place == 0 ? 0 : (random.NextDouble() - 0.5) * 0.24)];
            return new Source
            {
                _places = [.. moved.Select(by => new SimulatedDriver
                {
                    HighPassHertz = highPass, LowPassHertz = lowPass, LevelDecibels = level, Meters = meters, ArrivalSeconds = (meters + by) / 343.2,
                    Modes = [.. modes.Select(mode => new SimulatedMode(mode.Item1, mode.Item2, mode.Item3))],
                    Reflections = [.. reflections.Select(one => new SimulatedReflection(one.Milliseconds * 1e-3 + (random.NextDouble() - 0.5) * Math.Abs(by) * 2 / 343.2, one.Decibels))],
                })],
                _seed = seed,
                _plain = new TunedDriver { Id = id, Name = name, Side = side, PairId = pair, BandFromHertz = from, BandToHertz = to, LowestHertz = lowest, IsRearFill = rear, Positions = [] },
            };
        }

        public Complex At(double hertz, int place) => _places[place].At(hertz);

        public TunedDriver Driver(bool noisy)
        {
            var random = new Random(_seed);
            double Noise(double size) => noisy ? size * Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble()) : 0;
            return _plain with
            {
                Positions = [.. _places.Select(place =>
                {
                    var arrival = noisy ? Math.Round(place.ArrivalSeconds * 96_000) / 96_000 : place.ArrivalSeconds;
                    Complex[] heard = [.. _grid.Select(f => place.Relative(f) * Complex.Exp(new Complex(0, -2 * Math.PI * f * (place.ArrivalSeconds - arrival))))];
                    return new SeatResponse(new FrequencyResponse(_grid, [.. heard.Select(value => 20 * Math.Log10(value.Magnitude) + Noise(0.25))], [.. heard.Select(value => value.Phase + Noise(Math.PI / 90))]), arrival);
                })],
            };
        }
    }
}
