using System.Numerics;
using ShopFloor.Engineering.Tuning.Alignment;
using ShopFloor.Engineering.Tuning.Equalisation;
using ShopFloor.Engineering.Tuning.Filters;

namespace ShopFloor.Engineering.Tuning;

/// <summary>How good a tuning is. Levels are means of power over a third of an octave and over the places of the microphone, 20 Hz to 20 kHz or the band the drivers play.</summary>
/// <param name="LeftRightRmsDecibels">Difference of left and right, dB rms.</param>
/// <param name="LeftRightLargestDecibels">Largest difference of left and right, dB.</param>
/// <param name="TargetRmsDecibels">Deviation of both sides together from the target, at the best level, dB rms.</param>
/// <param name="SpreadDecibels">How far the places differ from one another: standard deviation, dB, mean over frequency.</param>
/// <param name="HeadroomLostDecibels">Largest boost of a channel's filters and level, dB.</param>
public sealed record TuningScore(double LeftRightRmsDecibels, double LeftRightLargestDecibels, double TargetRmsDecibels, double SpreadDecibels, double HeadroomLostDecibels)
{
    /// <summary>One number to compare by, less is better: left and right count most, then the target. Own weights, no source.</summary>
    public double Total => 2 * LeftRightRmsDecibels + TargetRmsDecibels + 0.5 * SpreadDecibels + 0.25 * HeadroomLostDecibels;
}

/// <summary>The responses to be expected at the seat.</summary>
public sealed class SeatPrediction
{
    private readonly FrequencyGrid _grid;
    private readonly Dictionary<string, Complex[][]> _played;
    private readonly IReadOnlyList<TunedDriver> _drivers;

    /// <summary>From drivers as measured and channels as set; rear fill is left out, since it is not part of the front's sum.</summary>
    /// <param name="drivers">Drivers.</param>
    /// <param name="channels">Settings, one per driver.</param>
    /// <param name="grid">Frequencies and sample rate.</param>
    public SeatPrediction(IReadOnlyList<TunedDriver> drivers, IReadOnlyList<ChannelSetting> channels, FrequencyGrid grid)
    {
        ArgumentNullException.ThrowIfNull(drivers);
        ArgumentNullException.ThrowIfNull(channels);
        ArgumentNullException.ThrowIfNull(grid);
        (_grid, _drivers) = (grid, [.. drivers.Where(driver => !driver.IsRearFill)]);
        _played = _drivers.ToDictionary(driver => driver.Id, driver =>
        {
            var chain = channels.First(channel => channel.Id == driver.Id).Response(grid);
            return driver.On(grid.Hertz).Select(place => place.Zip(chain, (sound, by) => sound * by).ToArray()).ToArray();
        });
    }

    /// <summary>Level of a side at a place, dB at each frequency, the sounds summed with their phases. A side holds its own drivers and those that play for both.</summary>
    /// <param name="side">Left, right, or all together.</param>
    /// <param name="place">Place of the microphone, from 0.</param>
    public double[] Decibels(StageSide side, int place)
    {
        var sum = new Complex[_grid.Hertz.Count];
        foreach (var driver in _drivers.Where(driver => side == StageSide.Both || driver.Side == StageSide.Both || driver.Side == side))
        {
            for (var i = 0; i < sum.Length; i++)
                sum[i] += _played[driver.Id][place][i];
        }

        return [.. sum.Select(value => 20 * Math.Log10(Math.Max(value.Magnitude, 1e-12)))];
    }

    /// <summary>Level of a side, mean power over all places, smoothed over a third of an octave, dB.</summary>
    /// <param name="side">Left, right, or all together.</param>
    public double[] SmoothedDecibels(StageSide side)
    {
        var places = Enumerable.Range(0, _drivers[0].Positions.Count).Select(place => Decibels(side, place)).ToList();
        double[] mean = [.. Enumerable.Range(0, _grid.Hertz.Count).Select(i => 10 * Math.Log10(places.Average(place => Math.Pow(10, place[i] / 10))))];
        return OctaveMean.Of(_grid.Hertz, mean, 1.0 / 3);
    }

    /// <summary>The score.</summary>
    /// <param name="target">The target.</param>
    /// <param name="channels">The settings, for the headroom.</param>
    /// <param name="fromHertz">Lowest frequency judged, Hz.</param>
    /// <param name="toHertz">Highest frequency judged, Hz.</param>
    public TuningScore Score(TargetCurve target, IReadOnlyList<ChannelSetting> channels, double fromHertz = 20, double toHertz = 20_000)
    {
        ArgumentNullException.ThrowIfNull(target);
        ArgumentNullException.ThrowIfNull(channels);
        int[] used = [.. Enumerable.Range(0, _grid.Hertz.Count).Where(i => _grid.Hertz[i] >= fromHertz && _grid.Hertz[i] <= toHertz)];
        var (left, right) = (SmoothedDecibels(StageSide.Left), SmoothedDecibels(StageSide.Right));
        double[] error = [.. used.SelectMany(i => new[] { left[i], right[i] }.Select(level => level - target.At(_grid.Hertz[i]).Decibels))];
        var shift = error.Average();
        var places = Enumerable.Range(0, _drivers[0].Positions.Count).Select(place => OctaveMean.Of(_grid.Hertz, Decibels(StageSide.Both, place), 1.0 / 3)).ToList();
        var boost = channels.Max(channel => _grid.Response(channel.Filters.Select(filter => CookbookFilters.Design(filter, _grid.SampleRateHertz))).Max(value => 20 * Math.Log10(value.Magnitude)) + channel.GainDecibels);
        return new TuningScore(
            Math.Sqrt(used.Average(i => Square(left[i] - right[i]))),
            used.Max(i => Math.Abs(left[i] - right[i])),
            Math.Sqrt(error.Average(value => Square(value - shift))),
            used.Average(i => Math.Sqrt(places.Average(place => Square(place[i] - places.Average(other => other[i]))))),
            Math.Max(0, boost));
    }

    private static double Square(double value) => value * value;
}
