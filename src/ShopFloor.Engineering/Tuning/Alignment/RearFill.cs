using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Tuning.Filters;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Tuning.Alignment;

/// <summary>Rear fill: sound from behind that makes the car wider without being heard as coming from there.</summary>
/// <remarks>Band-limited to some 300 Hz to 5 kHz, 10 to 20 ms later than the front at the listener and 6 to 10 dB lower: common practice, no source. The ear takes speech that comes up to
/// some 40 ms later for one with the first (H. Wallach, E. B. Newman, M. R. Rosenzweig, Am. J. Psychology 62, 1949); clicks part from 5 ms on.</remarks>
public static class RearFill
{
    /// <summary>Least lag, s.</summary>
    public const double LeastLagSeconds = 0.010;

    /// <summary>Largest lag, s.</summary>
    public const double LargestLagSeconds = 0.020;

    /// <summary>Lag above which an echo begins to be heard, s.</summary>
    public const double EchoSeconds = 0.035;

    /// <summary>High-pass of rear fill.</summary>
    public static Crossover HighPass { get; } = new(CrossoverShape.LinkwitzRiley, 300, 24);

    /// <summary>Low-pass of rear fill.</summary>
    public static Crossover LowPass { get; } = new(CrossoverShape.LinkwitzRiley, 5_000, 12);

    /// <summary>Level against the front, dB.</summary>
    public const double LevelDecibels = -8;

    /// <summary>What it is for, for screens and papers.</summary>
    public const string Words =
        "Rear fill comes 10 to 20 ms after the front, 6 to 10 dB lower, and only between some 300 Hz and 5 kHz, so that the stage stays in front. Turn it up until it is heard from behind, then down until it is not.";

    /// <summary>A channel set up as rear fill; its delay and level stay those given, lowered by <see cref="LevelDecibels"/>.</summary>
    /// <param name="channel">The channel.</param>
    public static ChannelSetting BandLimited(ChannelSetting channel)
    {
        ArgumentNullException.ThrowIfNull(channel);
        return channel with { HighPass = channel.HighPass is { Hertz: > 300 } own ? own : HighPass, LowPass = LowPass, GainDecibels = channel.GainDecibels + LevelDecibels };
    }

    internal static void Judge(DelayDriver driver, double lagSeconds, FindingList findings, UnitText text)
    {
        var lag = text.With(lagSeconds * 1e3, "ms", 3);
        if (lagSeconds > EchoSeconds)
            findings.About(driver.Id, driver.Name, "rear-fill-echo", Severity.Warn, $"It comes {lag} after the front: heard as an echo.", "Stay below 20 ms.", Unsourced.CommonPractice);
        else if (lagSeconds < LeastLagSeconds - 1e-4 || lagSeconds > LargestLagSeconds + 1e-4)
            findings.About(driver.Id, driver.Name, "rear-fill-lag", Severity.Warn, $"It comes {lag} after the front; 10 to 20 ms is usual.", "Set a lag of 10 to 20 ms.", Unsourced.CommonPractice);
        else
            findings.About(driver.Id, driver.Name, "rear-fill", Severity.Note, Words, "Set high-pass, low-pass and level as said.", Unsourced.CommonPractice);
    }
}
