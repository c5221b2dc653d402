using BenchmarkDotNet.Attributes;
using ShopFloor.Engineering.Tests.Tuning;
using ShopFloor.Engineering.Tuning;
using ShopFloor.Engineering.Tuning.Equalisation;
using ShopFloor.Engineering.Tuning.Filters;

namespace ShopFloor.Benchmarks;

/// <summary>Ten filters fitted over 480 frequencies, as thorough as by default and quick.</summary>
public class EqualiserBenchmarks
{
    private EqualiserFitInput _input = null!;

    /// <summary>Starts of the search.</summary>
    [Params(0, 60, 200)]
    public int Starts { get; set; }

    [GlobalSetup]
    public void Build()
    {
        var grid = FrequencyGrid.LogSpaced(20, 20_000, 480, 48_000);
        var car = SimulatedCar.FiveChannels(1).Measured();
        _input = new EqualiserFitInput
        {
            Hertz = grid.Hertz, MeasuredDecibels = [.. grid.Hertz.Select(f => 20 * Math.Log10(car.Aggregate(System.Numerics.Complex.Zero, (sum, driver) => sum + driver.Positions[0].Response.At(f)).Magnitude))],
            TargetDecibels = [.. grid.Hertz.Select(_ => 90.0)], Starts = Starts, Limits = new EqualiserLimits { FromHertz = 20, ToHertz = 20_000 },
        };
    }

    [Benchmark]
    public EqualiserFitResult Fit() => EqualiserFit.Compute(_input);
}

/// <summary>A whole car of ten channels: delays, crossovers, levels, filters, rounding.</summary>
public class AutomaticTuningBenchmarks
{
    private readonly TuningTask _task = SimulatedCar.TenChannels(5).Task();

    [Benchmark]
    public TuningOutcome Tune() => AutomaticTuning.Run(_task);
}

/// <summary>What a dragged filter takes: ten channels of a crossover and ten filters each, over 480 frequencies, anew.</summary>
public class ChainBenchmarks
{
    private readonly FrequencyGrid _grid = FrequencyGrid.LogSpaced(20, 20_000, 480, 48_000);

    private readonly ChannelSetting _channel = new()
    {
        Id = "c", Name = "C", DelaySeconds = 0.002,
        HighPass = new Crossover(CrossoverShape.LinkwitzRiley, 80, 48), LowPass = new Crossover(CrossoverShape.LinkwitzRiley, 2_500, 48),
        Filters = [.. Enumerable.Range(1, 10).Select(n => new FilterSetting { Kind = FilterKind.Peaking, Hertz = 100 * n, GainDecibels = -n, Q = 2 })],
    };

    [Benchmark]
    public double TenChannels()
    {
        double sum = 0;
        for (var n = 0; n < 10; n++)
            sum += _channel.Response(_grid)[n].Real;
        return sum;
    }
}
