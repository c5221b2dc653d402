using ShopFloor.Engineering.Tuning.Alignment;
using ShopFloor.Engineering.Tuning.Equalisation;
using ShopFloor.Engineering.Tuning.Filters;

namespace ShopFloor.Engineering.Tuning;

/// <summary>Filters of every channel: each is brought to the target with its crossover laid over it, pairs together.</summary>
/// <param name="task">The car.</param>
/// <param name="aboveTargetDecibels">How far the channels, with their levels set, lie above the target, dB.</param>
/// <param name="progress">Told how far it is.</param>
/// <param name="cancellation">Ends it.</param>
internal sealed class ChannelEqualisation(TuningTask task, double aboveTargetDecibels, IProgress<TuningProgress>? progress, CancellationToken cancellation)
{
    public IReadOnlyList<ChannelSetting> Fit(IReadOnlyList<ChannelSetting> channels)
    {
        var now = channels.ToDictionary(channel => channel.Id);
        foreach (var driver in task.Drivers.Where(driver => !driver.IsRearFill && task.Profile.FiltersPerChannel > 0))
        {
            cancellation.ThrowIfCancellationRequested();
            var channel = now[driver.Id];
            if (driver.PairId is { } pair)
            {
                if (driver.Side != StageSide.Left)
                    continue;
                var other = task.Drivers.First(one => one.Id == pair);
                var left = Input(driver, channel);
                var result = PairFit.Compute(left, Input(other, now[pair]).MeasuredDecibels, task.Profile.FiltersPerChannel * 2 / 3, progress, cancellation);
                now[driver.Id] = channel with { Filters = result.LeftFilters, GainDecibels = channel.GainDecibels + result.LeftOffsetDecibels };
                now[pair] = now[pair] with { Filters = result.RightFilters, GainDecibels = now[pair].GainDecibels + result.RightOffsetDecibels };
            }
            else
            {
                var result = EqualiserFit.Compute(Input(driver, channel), progress, null, cancellation);
                now[driver.Id] = channel with { Filters = result.Filters, GainDecibels = channel.GainDecibels + result.OffsetDecibels };
            }
        }

        return [.. channels.Select(channel => now[channel.Id])];
    }

    /// <summary>The channel without filters, smoothed to a sixth of an octave, against the target shaped by its crossover; half an octave beyond it counts too, since it still sounds there.</summary>
    private EqualiserFitInput Input(TunedDriver driver, ChannelSetting channel)
    {
        var rate = task.Profile.SampleRateHertz;
        var (from, to) = LevelTrims.Band(channel, driver);
        (from, to) = (Math.Max(20, channel.HighPass is null ? from : from / Math.Sqrt(2)), Math.Min(Math.Min(20_000, 0.45 * rate), channel.LowPass is null ? to : to * Math.Sqrt(2)));
        var grid = FrequencyGrid.LogSpaced(Math.Max(15, from / 1.2), Math.Min(0.47 * rate, to * 1.2), Math.Max(60, (int)(48 * Math.Log2(to / from))), rate);
        var crossover = (channel with { Filters = [], GainDecibels = 0, DelaySeconds = 0, Inverted = false }).Response(grid);
        var power = LevelTrims.SeatPower(driver, grid.Hertz);
        double[] smooth = OctaveMean.Of(grid.Hertz, [.. power.Select(value => 10 * Math.Log10(Math.Max(value, 1e-24)))], 1.0 / 6);
        // Both carry the crossover, so it drops out of the error; what counts is weighted by how much of it is heard.
        double[] measured = [.. smooth.Select((level, i) => level + 20 * Math.Log10(crossover[i].Magnitude) + channel.GainDecibels)];
        double[] wanted = [.. grid.Hertz.Select((f, i) => task.Target.At(f).Decibels + 20 * Math.Log10(crossover[i].Magnitude))];
        return new EqualiserFitInput
        {
            SampleRateHertz = rate, Hertz = grid.Hertz, MeasuredDecibels = measured, TargetDecibels = [.. wanted.Select(level => level + aboveTargetDecibels)],
            Weights = [.. crossover.Select(value => Math.Clamp(value.Magnitude * value.Magnitude, 0.02, 1))], Starts = task.Starts,
            Limits = new EqualiserLimits
            {
                Filters = Math.Min(31, task.Profile.FiltersPerChannel), FromHertz = from, ToHertz = to, LargestGainDecibels = Math.Min(task.LargestBoostDecibels, task.Profile.LargestFilterDecibels),
                LeastGainDecibels = Math.Max(-12, task.Profile.LeastFilterDecibels), LeastQ = Math.Max(0.5, task.Profile.LeastQ), LargestQ = Math.Min(8, task.Profile.LargestQ),
            },
        };
    }
}
