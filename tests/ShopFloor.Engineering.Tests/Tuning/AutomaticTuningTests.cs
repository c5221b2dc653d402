using System.Diagnostics;
using System.Globalization;
using System.Numerics;
using System.Text.Json;
using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Tuning;
using ShopFloor.Engineering.Tuning.Alignment;
using ShopFloor.Engineering.Tuning.Equalisation;
using ShopFloor.Engineering.Tuning.Filters;
using ShopFloor.Engineering.Tuning.Processors;
using Xunit.Abstractions;

namespace ShopFloor.Engineering.Tests.Tuning;

public class AutomaticTuningTests(ITestOutputHelper output)
{
    private static readonly double[] _hertz = [.. Enumerable.Range(0, 480).Select(n => 30 * Math.Pow(16_000 / 30.0, n / 479.0))];

    /// <summary>The program sees noisy measurements only; what is asserted is the car's true sound at each of three places of the head.</summary>
    [Theory]
    [InlineData(1)]
    [InlineData(20)]
    [InlineData(300)]
    public void A_car_tuned_unattended_is_good_in_truth(int seed)
    {
        var car = SimulatedCar.FiveChannels(seed);
        var task = car.Task();
        var watch = Stopwatch.StartNew();
        var outcome = AutomaticTuning.Run(task);
        output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{watch.Elapsed.TotalSeconds:0.00} s; before {outcome.Before}; after {outcome.After}"));
        foreach (var choice in outcome.Junctions)
            output.WriteLine($"{choice.Name}: {choice.Crossover}, {string.Join("; ", choice.Sides)}");
        var truth = Enumerable.Range(0, 3).Select(place => True(car, outcome.Preset, task, place)).ToList();
        foreach (var (place, error) in truth.Select((error, place) => (place, error)))
            output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"place {place}: left-right {error.Rms:0.00} dB rms, largest {error.Largest:0.00} dB; target {error.Target:0.00} dB rms"));
        var mean = Mean(car, outcome.Preset, task);
        output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"mean of places: left-right {mean.Rms:0.00} dB rms, largest {mean.Largest:0.00} dB; target {mean.Target:0.00} dB rms"));

        Assert.True(mean.Rms < 0.9 && mean.Largest < 3, $"mean {mean}");
        Assert.True(mean.Target < 1.8, $"mean {mean}");
        Assert.All(truth, error => Assert.True(error.Rms < 2 && error.Target < 2.5, $"{error}"));
        Assert.True(outcome.After.Total < outcome.Before.Total / 1.5, $"{outcome.Before} {outcome.After}");
        // What it predicts of itself is what comes, within what noise and head allow.
        Assert.Equal(mean.Rms, outcome.After.LeftRightRmsDecibels, 0.4);
        Assert.All(outcome.Preset.Channels.Where(channel => channel.Id is "lt" or "rt"), channel => Assert.True(channel.HighPass!.Hertz >= 1_799));
        Assert.DoesNotContain(outcome.Findings, finding => finding.Severity == Severity.Stop);
    }

    [Fact]
    public void Ten_channels_keep_rear_fill_late_low_and_narrow()
    {
        var task = SimulatedCar.TenChannels(5).Task(20);
        var outcome = AutomaticTuning.Run(task);
        Assert.True(outcome.After.LeftRightRmsDecibels < outcome.Before.LeftRightRmsDecibels / 1.5, $"{outcome.Before} {outcome.After}");
        var rear = outcome.Preset.Channels.Single(channel => channel.Id == "lr");
        Assert.Equal((300, 5_000), (rear.HighPass!.Hertz, rear.LowPass!.Hertz));
        var lag = rear.DelaySeconds + task.Drivers.Single(driver => driver.Id == "lr").Positions[0].ArrivalSeconds
            - outcome.Preset.Channels.Where(channel => channel.Id is "lt").Max(channel => channel.DelaySeconds + task.Drivers.Single(driver => driver.Id == channel.Id).Positions[0].ArrivalSeconds);
        Assert.InRange(lag, 0.0145, 0.0155);
    }

    [Fact]
    public void The_same_measurements_give_the_same_tuning()
    {
        var task = SimulatedCar.FiveChannels(7).Task(5);
        Assert.Equal(JsonSerializer.Serialize(AutomaticTuning.Run(task).Preset), JsonSerializer.Serialize(AutomaticTuning.Run(task).Preset));
    }

    [Fact]
    public void Crossovers_set_by_hand_stay()
    {
        var task = SimulatedCar.FiveChannels(3).Task(0);
        var pinned = new Crossover(CrossoverShape.Butterworth, 2_150, 18);
        var outcome = AutomaticTuning.Run(task with { Junctions = [task.Junctions[0], task.Junctions[1] with { Pinned = pinned, PolarityPinned = true, DelayPinned = true }] });
        Assert.All(outcome.Preset.Channels.Where(channel => channel.Id is "lt" or "rt"), channel => Assert.Equal(pinned, channel.HighPass));
        Assert.All(outcome.Preset.Channels.Where(channel => channel.Id is "lm" or "rm"), channel => Assert.Equal(pinned, channel.LowPass));
        Assert.Equal(outcome.Preset.Channels.Single(channel => channel.Id == "lm").Inverted, outcome.Preset.Channels.Single(channel => channel.Id == "lt").Inverted);
        Assert.All(outcome.Junctions[1].Sides, side => Assert.Equal((false, 0.0), (side.Inverted, side.DelaySeconds)));
    }

    [Fact]
    public void A_driver_wired_the_wrong_way_round_is_turned_back()
    {
        var task = SimulatedCar.FiveChannels(3).Task(0);
        var junction = task.Junctions[1] with { Pinned = new Crossover(CrossoverShape.LinkwitzRiley, 2_200, 24) };
        TuningOutcome Tuned(IReadOnlyList<TunedDriver> drivers) => AutomaticTuning.Run(task with { Drivers = drivers, Junctions = [task.Junctions[0], junction] });
        var right = Tuned(task.Drivers);
        var turned = Tuned([.. task.Drivers.Select(driver => driver.Id == "lm"
            ? driver with { Positions = [.. driver.Positions.Select(place => place with { Response = place.Response with { PhaseRadians = [.. place.Response.PhaseRadians!.Select(phase => phase + Math.PI)] } })] } // all have phase
            : driver)]);
        bool Left(TuningOutcome outcome) => outcome.Preset.Channels.Single(channel => channel.Id == "lm").Inverted;
        Assert.NotEqual(Left(right), Left(turned));
        Assert.True(turned.Junctions[1].Sides[0].LossDecibels < 2);
    }

    [Fact]
    public void An_all_pass_is_found_where_only_the_phase_is_wrong()
    {
        var grid = FrequencyGrid.LogSpaced(60, 600, 100, 48_000);
        Complex[] straight = [.. grid.Hertz.Select(_ => Complex.One)];
        var bent = grid.Response([CookbookFilters.Design(new FilterSetting { Kind = FilterKind.AllPass, Hertz = 190, Q = 1.4 }, 48_000)]);
        var found = AllPassFit.Find(grid, [straight], [bent]);
        Assert.Equal(190, found.Filter!.Hertz, 0.5);
        Assert.Equal(1.4, found.Filter.Q, 0.02);
        Assert.True(found.LossBeforeDecibels > 5 && found.LossDecibels < 0.05, $"{found}");
        Assert.Null(AllPassFit.Find(grid, [straight], [straight]).Filter);
    }

    [Fact]
    public void Left_and_right_are_matched_before_both_go_to_the_target()
    {
        var rows = Fixture.Rows("seat_responses.csv");
        double[] right = rows.Column("right_tweeter_mid_smoothed_db"), left = rows.Column("left_tweeter_mid_smoothed_db"), target = rows.Column("left_tweeter_mid_target_db");
        var input = new EqualiserFitInput { Hertz = rows.Column("freq_hz"), MeasuredDecibels = left, TargetDecibels = target, Nulls = null, Starts = 40, Limits = new EqualiserLimits { Filters = 12, FromHertz = 300, ToHertz = 16_000 } };
        var pair = PairFit.Compute(input, right, 8);
        output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"difference {pair.DifferenceBeforeDecibels:0.00} to {pair.DifferenceDecibels:0.00} dB rms; target {pair.RmsDecibels:0.00}"));
        Assert.True(pair.DifferenceDecibels < pair.DifferenceBeforeDecibels / 2, $"{pair.DifferenceBeforeDecibels} {pair.DifferenceDecibels}");
        Assert.Equal(pair.LeftFilters.TakeLast(4), pair.RightFilters.TakeLast(4));
    }

    [Fact]
    public void A_tuning_can_be_ended()
    {
        using var source = new CancellationTokenSource();
        source.Cancel();
        Assert.Throws<OperationCanceledException>(() => AutomaticTuning.Run(SimulatedCar.FiveChannels(1).Task(), null, null, source.Token));
    }

    [Fact]
    public void What_cannot_be_tuned_is_named()
    {
        var task = SimulatedCar.FiveChannels(1).Task();
        string[] Fields(TuningTask wrong) => [.. wrong.Validate().Select(problem => problem.Field)];
        Assert.Empty(Fields(task));
        Assert.Equal(["Junctions[1]"], Fields(task with { Junctions = [task.Junctions[0], task.Junctions[1] with { FromHertz = 1_000, ToHertz = 1_500 }] }));
        Assert.Equal(["Junctions[0].Sides"], Fields(task with { Junctions = [task.Junctions[0] with { Sides = [new(["nobody"], ["lm"])] }, task.Junctions[1]] }));
        Assert.Equal(["Drivers[1].PairId", "Drivers[2].PairId"], Fields(task with { Drivers = [.. task.Drivers.Select(driver => driver.Id == "rm" ? driver with { PairId = "lt" } : driver)] }));
        Assert.Contains("Drivers[0].Positions", Fields(task with { Drivers = [task.Drivers[0] with { Positions = [] }, .. task.Drivers.Skip(1)] }));
    }

    private static (double Rms, double Largest, double Target) True(SimulatedCar car, ProcessorPreset preset, TuningTask task, int place) =>
        Judge(task, OctaveMean.Of(_hertz, car.Plays(preset, 48_000, StageSide.Left, place, _hertz), 1.0 / 3), OctaveMean.Of(_hertz, car.Plays(preset, 48_000, StageSide.Right, place, _hertz), 1.0 / 3));

    private static (double Rms, double Largest, double Target) Mean(SimulatedCar car, ProcessorPreset preset, TuningTask task)
    {
        double[] Side(StageSide side)
        {
            var places = Enumerable.Range(0, 3).Select(place => car.Plays(preset, 48_000, side, place, _hertz)).ToList();
            return OctaveMean.Of(_hertz, [.. _hertz.Select((_, i) => 10 * Math.Log10(places.Average(level => Math.Pow(10, level[i] / 10))))], 1.0 / 3);
        }

        return Judge(task, Side(StageSide.Left), Side(StageSide.Right));
    }

    private static (double Rms, double Largest, double Target) Judge(TuningTask task, double[] left, double[] right)
    {
        double[] difference = [.. left.Zip(right, (l, r) => l - r)];
        double[] error = [.. _hertz.SelectMany((f, i) => new[] { left[i], right[i] }.Select(level => level - task.Target.At(f).Decibels))];
        var shift = error.Average();
        return (Math.Sqrt(difference.Average(value => value * value)), difference.Max(Math.Abs), Math.Sqrt(error.Average(value => (value - shift) * (value - shift))));
    }
}
