using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Tuning.Alignment;
using ShopFloor.Engineering.Tuning.Equalisation;
using ShopFloor.Engineering.Tuning.Filters;
using ShopFloor.Engineering.Tuning.Processors;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Tuning;

/// <summary>A car to be tuned from its measurements.</summary>
public sealed record TuningTask
{
    /// <summary>The drivers as measured, 1 to 64.</summary>
    public required IReadOnlyList<TunedDriver> Drivers { get; init; }

    /// <summary>Where they meet, the lowest first.</summary>
    public required IReadOnlyList<Junction> Junctions { get; init; }

    /// <summary>The response wanted.</summary>
    public required TargetCurve Target { get; init; }

    /// <summary>The processor.</summary>
    public required ProcessorProfile Profile { get; init; }

    /// <summary>Air temperature, °C.</summary>
    public double AirCelsius { get; init; } = 20;

    /// <summary>How much later rear fill comes, s (0 to 0.05).</summary>
    public double RearFillLagSeconds { get; init; } = 0.015;

    /// <summary>Largest boost of a filter, dB (0 to 12).</summary>
    public double LargestBoostDecibels { get; init; } = 3;

    /// <summary>How thorough each fit is, as <see cref="EqualiserFitInput.Starts"/>.</summary>
    public int Starts { get; init; } = 60;

    /// <summary>What is wrong; empty when it can be tuned.</summary>
    /// <param name="text">How numbers are written; null is metric, invariant.</param>
    public IReadOnlyList<InputProblem> Validate(UnitText? text = null)
    {
        var words = text ?? UnitText.Invariant;
        var checks = new InputChecks(words);
        checks.InRange(nameof(Drivers), "Drivers", Drivers.Count, 1, 64);
        checks.Distinct(nameof(Drivers), "Drivers", Drivers.Select(driver => driver.Id));
        checks.AddRange(Target.Validate(text).Select(problem => problem with { Field = $"{nameof(Target)}.{problem.Field}" }));
        checks.AddRange(Profile.Validate(text).Select(problem => problem with { Field = $"{nameof(Profile)}.{problem.Field}" }));
        checks.InRange(nameof(AirCelsius), "Air temperature", AirCelsius, -40, 80, QuantityKind.Temperature);
        checks.InRange(nameof(RearFillLagSeconds), "Lag of rear fill in s", RearFillLagSeconds, 0, 0.05);
        checks.InRange(nameof(LargestBoostDecibels), "Largest boost in dB", LargestBoostDecibels, 0, 12);
        checks.InRange(nameof(Starts), "Starts", Starts, 0, 2_000);
        for (var at = 0; at < Math.Min(64, Drivers.Count); at++)
        {
            Drivers[at].Check(checks, $"{nameof(Drivers)}[{at}]", words);
            if (Drivers[at].Positions.Count != Drivers[0].Positions.Count)
                checks.Add($"{nameof(Drivers)}[{at}].{nameof(TunedDriver.Positions)}", $"{Drivers[at].Name}: measured at {Drivers[at].Positions.Count} places, {Drivers[0].Name} at {Drivers[0].Positions.Count}; measure all at the same.");
            if (Drivers[at].PairId is { } pair && (Drivers.FirstOrDefault(driver => driver.Id == pair) is not { } other || other.PairId != Drivers[at].Id || other.Side == Drivers[at].Side))
                checks.Add($"{nameof(Drivers)}[{at}].{nameof(TunedDriver.PairId)}", $"{Drivers[at].Name}: \u201c{pair}\u201d is not its fellow on the other side; both must name each other.");
        }

        if (Drivers.All(driver => driver.IsRearFill))
            checks.Add(nameof(Drivers), "Drivers: all are rear fill; name at least one that is not.");
        for (var at = 0; at < Junctions.Count && checks.Problems.Count == 0; at++)
            Junctions[at].Check(checks, $"{nameof(Junctions)}[{at}]", Drivers, Profile.SampleRateHertz, words);
        return checks.Problems;
    }
}

/// <summary>A tuning.</summary>
/// <param name="Preset">Settings on the processor's steps.</param>
/// <param name="Rounded">What rounding changed.</param>
/// <param name="Junctions">Crossovers chosen and why.</param>
/// <param name="Before">Score with plain crossovers, delays and levels, without filters.</param>
/// <param name="After">Score of the preset.</param>
/// <param name="Findings">What to know.</param>
/// <param name="Explanation">How it was reached.</param>
public sealed record TuningOutcome(
    ProcessorPreset Preset, IReadOnlyList<SettingChange> Rounded, IReadOnlyList<JunctionChoice> Junctions, TuningScore Before, TuningScore After, IReadOnlyList<Finding> Findings, Explanation Explanation);

/// <summary>Tunes a car from its measurements: delays, levels, crossovers, filters, rounding. Same input, same answer.</summary>
public static class AutomaticTuning
{
    /// <summary>Tunes.</summary>
    /// <param name="task">The car.</param>
    /// <param name="progress">Told how far it is.</param>
    /// <param name="text">How numbers are written in texts; null is metric, invariant.</param>
    /// <param name="cancellationToken">Ends it.</param>
    /// <exception cref="ArgumentOutOfRangeException"><see cref="TuningTask.Validate"/> finds a problem; the parameter name is the field.</exception>
    /// <exception cref="OperationCanceledException">It was ended.</exception>
    public static TuningOutcome Run(TuningTask task, IProgress<TuningProgress>? progress = null, UnitText? text = null, CancellationToken cancellationToken = default)
    {
        ArgumentNullException.ThrowIfNull(task);
        InputChecks.ThrowIfAny(task.Validate(text));
        text ??= UnitText.Invariant;
        var rate = task.Profile.SampleRateHertz;
        var delays = Delays.Compute(new DelayInput
        {
            Drivers = [.. task.Drivers.Select(driver => new DelayDriver(driver.Id, driver.Name, null, driver.Positions[0].ArrivalSeconds, driver.IsRearFill))],
            AirCelsius = task.AirCelsius, SampleRateHertz = rate, DelayStepSeconds = task.Profile.DelayStep, MaximumDelaySeconds = task.Profile.MaximumDelaySeconds, RearFillLagSeconds = task.RearFillLagSeconds,
        }, text);
        IReadOnlyList<ChannelSetting> channels = [.. task.Drivers.Select((driver, at) => WithMiddleCrossovers(driver, delays.Delays[at].DelaySeconds, task))];
        (channels, _) = LevelTrims.Set(channels, task.Drivers, task.Target, rate);
        var plain = channels;
        var grid = FrequencyGrid.LogSpaced(20, Math.Min(20_000, 0.45 * rate), 480, rate);
        var (from, to) = (Math.Max(20, task.Drivers.Min(driver => driver.BandFromHertz)), Math.Min(grid.Hertz[^1], task.Drivers.Max(driver => driver.BandToHertz)));
        var before = new SeatPrediction(task.Drivers, plain, grid).Score(task.Target, plain, from, to);

        (channels, var choices) = new CrossoverSearch(task.Drivers, task.Junctions, task.Target, rate, task.Profile.DelayStep).Run(channels, progress, cancellationToken);
        (channels, var above) = LevelTrims.Set(channels, task.Drivers, task.Target, rate);
        channels = new ChannelEqualisation(task, above, progress, cancellationToken).Fit(channels);
        // Filters turn phases too: polarity and fine delay are looked at once more with the crossovers as chosen.
        var settled = task.Junctions.Select((junction, at) => junction with { Pinned = choices[at].Crossover }).ToList();
        (channels, var again) = new CrossoverSearch(task.Drivers, settled, task.Target, rate, task.Profile.DelayStep).Run(channels, progress, cancellationToken);

        var raised = channels.Max(channel => channel.GainDecibels);
        channels = [.. channels.Select((channel, at) => task.Drivers[at].IsRearFill ? RearFill.BandLimited(channel with { GainDecibels = channel.GainDecibels - raised }) : channel with { GainDecibels = channel.GainDecibels - raised })];
        var quantised = SettingQuantiser.Fit(new ProcessorPreset("Tuned", channels), task.Profile, text);
        var after = new SeatPrediction(task.Drivers, quantised.Preset.Channels, grid).Score(task.Target, quantised.Preset.Channels, from, to);
        var findings = new FindingList("tuning", "Tuning");
        foreach (var (driver, channel) in task.Drivers.Zip(quantised.Preset.Channels).Where(pair => pair.First.LowestHertz is { } lowest && !(pair.Second.HighPass?.Hertz >= lowest * 0.97)))
        {
            findings.About(
                driver.Id, driver.Name, "driver-unprotected", Severity.Stop, $"It bears nothing below {text.With(driver.LowestHertz!.Value, "Hz")} and has no high-pass there.", // filtered
                "Add a junction below it, or set a high-pass by hand before anything plays.", "maker's sheet as entered");
        }

        progress?.Report(new TuningProgress("done", 1, after.TargetRmsDecibels));
        return new TuningOutcome(
            quantised.Preset, quantised.Rounded, [.. choices.Zip(again, (first, last) => first with { Sides = [.. first.Sides.Zip(last.Sides, (a, b) => b with { Inverted = a.Inverted ^ b.Inverted, DelaySeconds = a.DelaySeconds + b.DelaySeconds })] })],
            before, after, [.. findings.Sorted.Concat(quantised.Findings).Concat(delays.Findings).OrderByDescending(finding => finding.Severity)], Explain(task, choices, before, after, text));
    }

    private static ChannelSetting WithMiddleCrossovers(TunedDriver driver, double delaySeconds, TuningTask task)
    {
        Crossover? At(Func<JunctionSide, IReadOnlyList<string>> ids) => task.Junctions.FirstOrDefault(junction => junction.Sides.Any(side => ids(side).Contains(driver.Id))) is { } junction
            ? junction.Pinned ?? Middle(junction)
            : null;
        Crossover Middle(Junction junction)
        {
            var middle = Math.Sqrt(junction.FromHertz * junction.ToHertz);
            return CrossoverCandidates.Of(junction, task.Drivers).MinBy(one => (one.Shape != CrossoverShape.LinkwitzRiley, Math.Abs(one.SlopeDecibelsPerOctave - 24), Math.Abs(Math.Log(one.Hertz / middle))))!; // checked
        }

        return new ChannelSetting { Id = driver.Id, Name = driver.Name, DelaySeconds = delaySeconds, HighPass = At(side => side.UpperIds), LowPass = At(side => side.LowerIds) };
    }

    private static Explanation Explain(TuningTask task, IReadOnlyList<JunctionChoice> choices, TuningScore before, TuningScore after, UnitText text) => new(
        "Which settings bring the car to the target?",
        $"Left and right differ by {text.With(after.LeftRightRmsDecibels, "dB", 2)} rms ({text.With(before.LeftRightRmsDecibels, "dB", 2)} before), both lie {text.With(after.TargetRmsDecibels, "dB", 2)} rms off the target ({text.With(before.TargetRmsDecibels, "dB", 2)} before), as reckoned from the measurements.",
        [
            new ExplainedInput("Drivers", task.Drivers.Count, "", "entered"),
            new ExplainedInput("Places of the microphone", task.Drivers[0].Positions.Count, "", "measured"),
            new ExplainedInput("Filters of a channel", task.Profile.FiltersPerChannel, "", task.Profile.Name),
        ],
        [
            .. choices.Select(choice => new ExplainedStep(
                choice.Name, "least loss and deviation of the complex sum an octave to either side", $"{choice.Judged} combinations judged",
                $"{SettingText.Crossover(choice.Crossover)}{(choice.NextBest is { } next ? $"; next {SettingText.Crossover(next)}, {text.With(choice.NextBestDecibels ?? 0, "dB", 2)} worse" : "")}",
                "computed")),
        ],
        [
            new LimitCheck("Left and right", after.LeftRightLargestDecibels, 1.5, "dB", after.LeftRightLargestDecibels <= 1.5, Unsourced.CommonPractice),
            new LimitCheck("Headroom lost", after.HeadroomLostDecibels, 3, "dB", after.HeadroomLostDecibels <= 3, Unsourced.CommonPractice),
        ],
        null);
}
