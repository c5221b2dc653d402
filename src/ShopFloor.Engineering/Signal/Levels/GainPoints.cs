using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Signal.Loads;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Signal.Levels;

/// <summary>The voltages of the gain sheet as values to measure, with what is accepted.</summary>
public static class GainPoints
{
    /// <summary>Least tolerance that can be asked for, dB.</summary>
    public const double LeastToleranceDecibels = 0.1;

    /// <summary>Largest tolerance that can be asked for, dB.</summary>
    public const double MostToleranceDecibels = 3;

    /// <summary>The points of every channel whose target is known.</summary>
    /// <remarks>
    /// V = √(P/Z)·(Z + R) at the terminals, R the cable (Ohm's law). The limits lie <paramref name="toleranceDecibels"/> to both sides, rounded
    /// outward to the hundredth of a volt a meter shows.
    /// </remarks>
    /// <param name="channels">Channels of <see cref="SignalLevels.Compute"/>.</param>
    /// <param name="toleranceDecibels">Accepted to both sides, dB, 0.1 to 3.</param>
    /// <param name="text">How numbers are written in texts; null is metric, invariant.</param>
    /// <exception cref="ArgumentOutOfRangeException">The tolerance is outside its range.</exception>
    public static IReadOnlyList<GainPoint> Of(IReadOnlyList<ChannelLevels> channels, double toleranceDecibels = SignalDefaults.GainToleranceDecibels, UnitText? text = null)
    {
        ArgumentNullException.ThrowIfNull(channels);
        ArgumentOutOfRangeException.ThrowIfLessThan(toleranceDecibels, LeastToleranceDecibels);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(toleranceDecibels, MostToleranceDecibels);
        return [.. channels.Where(levels => levels.Step is { TargetVolts: > 0 }).Select(levels => Of(levels, levels.Step!, toleranceDecibels, text ?? UnitText.Invariant))]; // filtered
    }

    private static GainPoint Of(ChannelLevels levels, GainStep step, double tolerance, UnitText text)
    {
        var channel = levels.Channel;
        var ratio = DecibelLevels.ToRatio(tolerance);
        // Rounded before it is cut, so that 2.12 does not become 2.13 by the last bit.
        var (low, high) = (Math.Floor(Math.Round(100 * step.TargetVolts / ratio, 6)) / 100, Math.Ceiling(Math.Round(100 * step.TargetVolts * ratio, 6)) / 100);
        var (clip, driver) = (VoltsFor(channel, channel.AvailableWatts), VoltsFor(channel, channel.DriverLimitWatts));
        return new GainPoint
        {
            ChannelId = channel.Load.Id,
            ChannelName = channel.Name,
            IsBridged = channel.IsBridged,
            Step = step,
            LowestVolts = low,
            HighestVolts = high,
            ClipVolts = clip,
            DriverVolts = driver,
            Explanation = Explain(channel, step, tolerance, (low, high), (clip, driver), text),
        };
    }

    private static double? VoltsFor(LoadedChannel channel, double? watts) =>
        watts is { } known ? Math.Sqrt(known / channel.NominalOhms) * (channel.NominalOhms + channel.Load.CableOhms) : null;

    private static Explanation Explain(LoadedChannel channel, GainStep step, double tolerance, (double Low, double High) accepted, (double? Clip, double? Driver) most, UnitText text)
    {
        const string ohm = "Ohm's law";
        var atTerminals = channel.NominalOhms + channel.Load.CableOhms;
        return new Explanation(
            $"{channel.Name}: which voltage at its terminals?",
            $"{text.With(step.TargetVolts, "V", 4)}, {text.With(accepted.Low, "V", 4)} to {text.With(accepted.High, "V", 4)} accepted",
            [
                new ExplainedInput("Power into the load", step.Watts, "W", "the least of what is wanted, what the amplifier has and what the drivers bear"),
                new ExplainedInput("Nominal load", channel.NominalOhms, "Ω", "part data and wiring"),
                new ExplainedInput("Cable", channel.Load.CableOhms, "Ω", "length and size"),
                new ExplainedInput("Tolerance", tolerance, "dB", $"the budget settings; {SignalDefaults.GainToleranceDecibels} dB is {Unsourced.CommonPractice}"),
            ],
            [
                new ExplainedStep("Voltage for the power", "V = √(P / Z) · (Z + R)", $"√({text.Number(step.Watts)} / {text.Number(channel.NominalOhms)}) · {text.Number(atTerminals, 4)}", text.With(step.TargetVolts, "V", 4), ohm),
                new ExplainedStep("Accepted", "V · 10^(± t / 20)", $"{text.Number(step.TargetVolts, 4)} · 10^(± {text.Number(tolerance)} / 20)", $"{text.With(accepted.Low, "V", 4)} to {text.With(accepted.High, "V", 4)}", "definition of the decibel; rounded outward to 0.01 V"),
            ],
            [
                .. most.Clip is { } clip ? [new LimitCheck("Amplifier at its rated output", step.TargetVolts, clip, "V", step.TargetVolts <= clip * (1 + 1e-9), "rated powers of the amplifier, CTA-2006")] : Array.Empty<LimitCheck>(),
                .. most.Driver is { } driver ? [new LimitCheck("First driver at what it bears", step.TargetVolts, driver, "V", step.TargetVolts <= driver * (1 + 1e-9), "part data")] : Array.Empty<LimitCheck>(),
            ],
            null);
    }
}
