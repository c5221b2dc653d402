using System.Numerics;
using ShopFloor.Engineering.Tuning.Equalisation;
using ShopFloor.Engineering.Tuning.Filters;

namespace ShopFloor.Engineering.Tuning.Alignment;

/// <summary>Levels that bring all channels onto the target: the quietest stays, the others are lowered.</summary>
internal static class LevelTrims
{
    /// <summary>The channels with their levels set, and how far above the target all of them lie then, dB.</summary>
    /// <param name="channels">Settings with crossovers.</param>
    /// <param name="drivers">Their drivers.</param>
    /// <param name="target">The target.</param>
    /// <param name="sampleRateHertz">Sample rate, Hz.</param>
    public static (IReadOnlyList<ChannelSetting> Channels, double AboveDecibels) Set(IReadOnlyList<ChannelSetting> channels, IReadOnlyList<TunedDriver> drivers, TargetCurve target, double sampleRateHertz)
    {
        var above = channels.ToDictionary(channel => channel.Id, channel => AboveTarget(channel, drivers.First(driver => driver.Id == channel.Id), target, sampleRateHertz));
        var quietest = channels.Min(channel => above[channel.Id]);
        return ([.. channels.Select(channel => channel with { GainDecibels = quietest - above[channel.Id] })], quietest);
    }

    /// <summary>How far the mean level of a channel, without its gain, lies above the target in the band it plays, dB.</summary>
    private static double AboveTarget(ChannelSetting channel, TunedDriver driver, TargetCurve target, double sampleRateHertz)
    {
        var (from, to) = Band(channel, driver);
        var grid = FrequencyGrid.LogSpaced(from, to, 60, sampleRateHertz);
        var filters = grid.Response(channel.Filters.Select(filter => CookbookFilters.Design(filter, sampleRateHertz)));
        var power = SeatPower(driver, grid.Hertz);
        return Enumerable.Range(0, 60).Average(i => 10 * Math.Log10(power[i]) + 20 * Math.Log10(filters[i].Magnitude) - target.At(grid.Hertz[i]).Decibels);
    }

    /// <summary>The band a channel plays: between its crossovers, else that of the driver.</summary>
    public static (double FromHertz, double ToHertz) Band(ChannelSetting channel, TunedDriver driver)
    {
        var from = Math.Max(20, channel.HighPass?.Hertz ?? driver.BandFromHertz);
        var to = Math.Min(16_000, channel.LowPass?.Hertz ?? driver.BandToHertz);
        return from < to / 1.2 ? (from, to) : (to / 1.2, to);
    }

    /// <summary>Mean power over the places of the microphone.</summary>
    public static double[] SeatPower(TunedDriver driver, IReadOnlyList<double> hertz) =>
        [.. hertz.Select(f => driver.Positions.Average(position => Square(position.Response.At(f))))];

    private static double Square(Complex value) => value.Real * value.Real + value.Imaginary * value.Imaginary;
}
