using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Tuning.Equalisation;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Tuning.Verification;

/// <summary>Arrival of a channel after the tuning.</summary>
/// <param name="Id">Identifier of the channel.</param>
/// <param name="Name">Its name.</param>
/// <param name="ArrivalSeconds">Measured arrival with all delays in, s (−1 to 2).</param>
/// <param name="IsRearFill">Whether it comes late on purpose.</param>
public sealed record VerifiedArrival(string Id, string Name, double ArrivalSeconds, bool IsRearFill = false);

/// <summary>What was measured before and after a tuning, with what it has to keep.</summary>
public sealed record TuningVerificationInput
{
    /// <summary>8 to 5,000 frequencies, Hz, rising.</summary>
    public required IReadOnlyList<double> Hertz { get; init; }

    /// <summary>Left before, dB; null when it was not measured.</summary>
    public IReadOnlyList<double>? LeftBeforeDecibels { get; init; }

    /// <summary>Right before, dB; null when it was not measured.</summary>
    public IReadOnlyList<double>? RightBeforeDecibels { get; init; }

    /// <summary>Left after, dB.</summary>
    public required IReadOnlyList<double> LeftDecibels { get; init; }

    /// <summary>Right after, dB.</summary>
    public required IReadOnlyList<double> RightDecibels { get; init; }

    /// <summary>The target; null judges left and right only.</summary>
    public TargetCurve? Target { get; init; }

    /// <summary>Arrivals after, each identifier once.</summary>
    public IReadOnlyList<VerifiedArrival> Arrivals { get; init; } = [];

    /// <summary>Lowest frequency judged, Hz (10 to 20,000).</summary>
    public double FromHertz { get; init; } = 20;

    /// <summary>Highest frequency judged, Hz (20 to 40,000).</summary>
    public double ToHertz { get; init; } = 20_000;

    /// <summary>Width levels are smoothed over before they are judged, octaves (0.02 to 1).</summary>
    public double SmoothingOctaves { get; init; } = 1.0 / 3;

    /// <summary>Largest difference of left and right, dB (0.1 to 12).</summary>
    public double LeftRightLimitDecibels { get; init; } = 1.5;

    /// <summary>Largest difference of arrivals, s (0.000001 to 0.01).</summary>
    public double ArrivalLimitSeconds { get; init; } = 0.00005;

    /// <summary>What is wrong; empty when it can be judged.</summary>
    /// <param name="text">How numbers are written; null is metric, invariant.</param>
    public IReadOnlyList<InputProblem> Validate(UnitText? text = null)
    {
        var checks = new InputChecks(text ?? UnitText.Invariant);
        checks.InRange(nameof(Hertz), "Number of frequencies", Hertz.Count, 8, 5_000);
        checks.InRange(nameof(FromHertz), "Lowest frequency in Hz", FromHertz, 10, 20_000);
        checks.InRange(nameof(ToHertz), "Highest frequency in Hz", ToHertz, 20, 40_000);
        checks.InRange(nameof(SmoothingOctaves), "Smoothing in octaves", SmoothingOctaves, 0.02, 1);
        checks.InRange(nameof(LeftRightLimitDecibels), "Limit of left and right in dB", LeftRightLimitDecibels, 0.1, 12);
        checks.InRange(nameof(ArrivalLimitSeconds), "Limit of arrivals in s", ArrivalLimitSeconds, 1e-6, 0.01);
        checks.InRange(nameof(Arrivals), "Arrivals", Arrivals.Count, 0, 64);
        checks.Distinct(nameof(Arrivals), "Arrivals", Arrivals.Select(arrival => arrival.Id));
        foreach (var (arrival, at) in Arrivals.Take(64).Select((arrival, at) => (arrival, at)))
        {
            checks.Named($"{nameof(Arrivals)}[{at}].{nameof(arrival.Id)}", "Identifier of the channel", arrival.Id);
            checks.InRange($"{nameof(Arrivals)}[{at}].{nameof(arrival.ArrivalSeconds)}", "Arrival in s", arrival.ArrivalSeconds, -1, 2);
        }

        if (Target is { } target)
            checks.AddRange(target.Validate(text).Select(problem => problem with { Field = $"{nameof(Target)}.{problem.Field}" }));
        foreach (var (field, label, values) in new[] { (nameof(LeftDecibels), "Left", LeftDecibels), (nameof(RightDecibels), "Right", RightDecibels), (nameof(LeftBeforeDecibels), "Left before", LeftBeforeDecibels), (nameof(RightBeforeDecibels), "Right before", RightBeforeDecibels) })
        {
            if (values is null)
                continue;
            if (values.Count != Hertz.Count)
                checks.Add(field, $"{label}: there are {values.Count} levels for {Hertz.Count} frequencies; enter one for each.");
            else if (Enumerable.Range(0, values.Count).FirstOrDefault(i => !(values[i] is >= -300 and <= 300), -1) is >= 0 and var bad)
                checks.InRange($"{field}[{bad}]", $"{label} in dB", values[bad], -300, 300);
        }

        if (Enumerable.Range(0, Hertz.Count).FirstOrDefault(i => !(Hertz[i] is >= 1 and <= 100_000) || (i > 0 && Hertz[i] <= Hertz[i - 1]), -1) is >= 0 and var wrong)
            checks.Add($"{nameof(Hertz)}[{wrong}]", $"Frequency in Hz: {Hertz[wrong]} is not accepted; enter 1 to 100,000, each above the one before it.");
        else if (checks.Problems.Count == 0 && Hertz.Count(f => f >= FromHertz && f <= ToHertz) < 3)
            checks.Add(nameof(ToHertz), $"Band: fewer than 3 of the frequencies lie within {FromHertz:0.#} to {ToHertz:0.#} Hz.");
        return checks.Problems;
    }
}

/// <summary>What a tuning reached.</summary>
public sealed record TuningVerificationResult
{
    /// <summary>Whether every limit is kept.</summary>
    public required bool Passed { get; init; }

    /// <summary>Difference of left and right at each frequency, smoothed, dB; above 0 the left is louder.</summary>
    public required IReadOnlyList<double> LeftRightDecibels { get; init; }

    /// <summary>Largest difference of left and right before, dB; null when it was not measured.</summary>
    public required double? LargestBeforeDecibels { get; init; }

    /// <summary>Largest difference of left and right after, dB.</summary>
    public required double LargestDecibels { get; init; }

    /// <summary>Share of the judged frequencies within the target's limits, 0 to 1; null without a target.</summary>
    public required double? WithinTargetShare { get; init; }

    /// <summary>Latest less earliest arrival, rear fill left out, s; null when fewer than two were measured.</summary>
    public required double? ArrivalSpreadSeconds { get; init; }

    /// <summary>What is not kept, and what to do.</summary>
    public required IReadOnlyList<Finding> Findings { get; init; }

    /// <summary>How it was judged.</summary>
    public required Explanation Explanation { get; init; }
}

/// <summary>Judges a tuning by what was measured after it.</summary>
public static class TuningVerification
{
    /// <summary>Judges.</summary>
    /// <param name="input">Measurements and limits.</param>
    /// <param name="text">How numbers are written in texts; null is metric, invariant.</param>
    /// <exception cref="ArgumentOutOfRangeException"><see cref="TuningVerificationInput.Validate"/> finds a problem; the parameter name is the field.</exception>
    public static TuningVerificationResult Compute(TuningVerificationInput input, UnitText? text = null)
    {
        ArgumentNullException.ThrowIfNull(input);
        InputChecks.ThrowIfAny(input.Validate(text));
        text ??= UnitText.Invariant;
        int[] used = [.. Enumerable.Range(0, input.Hertz.Count).Where(i => input.Hertz[i] >= input.FromHertz && input.Hertz[i] <= input.ToHertz)];
        double[] Smooth(IReadOnlyList<double> decibels) => OctaveMean.Of(input.Hertz, decibels, input.SmoothingOctaves);
        double[] Difference(IReadOnlyList<double> left, IReadOnlyList<double> right) => [.. Smooth(left).Zip(Smooth(right), (l, r) => l - r)];
        var difference = Difference(input.LeftDecibels, input.RightDecibels);
        var worst = used.MaxBy(i => Math.Abs(difference[i]));
        double? before = input is { LeftBeforeDecibels: { } left, RightBeforeDecibels: { } right } && Difference(left, right) is var old ? used.Max(i => Math.Abs(old[i])) : null;
        var findings = new FindingList("tuning", "Tuning");
        List<LimitCheck> limits = [new("Left and right", Math.Abs(difference[worst]), input.LeftRightLimitDecibels, "dB", Math.Abs(difference[worst]) <= input.LeftRightLimitDecibels, Unsourced.CommonPractice)];
        if (!limits[0].Passed)
        {
            findings.Add(
                "left-right-differ", Severity.Stop,
                $"At {text.With(input.Hertz[worst], "Hz")} the {(difference[worst] > 0 ? "left" : "right")} is {text.With(Math.Abs(difference[worst]), "dB", 2)} louder; {text.With(input.LeftRightLimitDecibels, "dB", 2)} is allowed.",
                "Match both sides there before anything else: the ear hears sides apart sooner than a wrong target.", Unsourced.CommonPractice);
        }

        double? within = null;
        if (input.Target is { } target)
        {
            var (share, at, error) = Against(target, input, used, Smooth(input.LeftDecibels), Smooth(input.RightDecibels));
            within = share;
            limits.Add(new LimitCheck("Within the target's limits", share * 100, 90, "%", share >= 0.9, Unsourced.CommonPractice));
            if (share < 0.9)
            {
                findings.Add(
                    "target-missed", Severity.Warn, $"{text.Percent(share * 100)} lie within the limits of {target.Name}; farthest off is {text.With(input.Hertz[at], "Hz")}, {text.With(Math.Abs(error), "dB", 2)} {(error > 0 ? "above" : "below")} it.",
                    error > 0 ? "Lower it there." : "Look for a cancellation before raising it.", Unsourced.CommonPractice);
            }
        }

        var spread = Arrivals(input, limits, findings, text);
        return new TuningVerificationResult
        {
            Passed = limits.All(limit => limit.Passed),
            LeftRightDecibels = difference,
            LargestBeforeDecibels = before,
            LargestDecibels = Math.Abs(difference[worst]),
            WithinTargetShare = within,
            ArrivalSpreadSeconds = spread,
            Findings = findings.Sorted,
            Explanation = new Explanation(
                "Does the tuning keep its limits?",
                limits.All(limit => limit.Passed) ? "Yes, all of them." : $"No: {string.Join(", ", limits.Where(limit => !limit.Passed).Select(limit => limit.Name.ToLowerInvariant()))}.",
                [new ExplainedInput("Frequencies judged", used.Length, "", "measured"), new ExplainedInput("Smoothing", input.SmoothingOctaves, "octaves", "entered")],
                [
                    new ExplainedStep("Left and right", "10·lg of the mean power within the smoothing, left less right", $"at {text.With(input.Hertz[worst], "Hz")}", text.With(difference[worst], "dB", 3), "computed"),
                    .. spread is { } known ? new[] { new ExplainedStep("Arrivals", "latest − earliest, without rear fill", $"{input.Arrivals.Count(arrival => !arrival.IsRearFill)} channels", text.With(known * 1e3, "ms", 3), "measured") } : [],
                ],
                limits,
                limits.FirstOrDefault(limit => !limit.Passed)?.Name),
        };
    }

    /// <summary>Share within the limits, and the farthest point and its error; both sides count, at the level that fits best.</summary>
    private static (double Share, int At, double Error) Against(TargetCurve target, TuningVerificationInput input, int[] used, double[] left, double[] right)
    {
        var points = used.SelectMany(i => new[] { (At: i, Level: left[i]), (At: i, Level: right[i]) }).Select(pair => (pair.At, Error: pair.Level - target.At(input.Hertz[pair.At]).Decibels)).ToList();
        var shift = points.Average(point => point.Error);
        double Over(int at, double error) => error > 0 ? error - target.At(input.Hertz[at]).AboveDecibels : -error - target.At(input.Hertz[at]).BelowDecibels;
        var worst = points.MaxBy(point => Over(point.At, point.Error - shift));
        return (points.Count(point => Over(point.At, point.Error - shift) <= 0) / (double)points.Count, worst.At, worst.Error - shift);
    }

    private static double? Arrivals(TuningVerificationInput input, List<LimitCheck> limits, FindingList findings, UnitText text)
    {
        var front = input.Arrivals.Where(arrival => !arrival.IsRearFill).OrderBy(arrival => arrival.ArrivalSeconds).ToList();
        if (front.Count < 2)
            return null;
        var spread = front[^1].ArrivalSeconds - front[0].ArrivalSeconds;
        // A limit typed in ms must not be missed by the last binary digit.
        var kept = spread <= input.ArrivalLimitSeconds + 1e-12;
        limits.Add(new LimitCheck("Arrival", spread * 1e3, input.ArrivalLimitSeconds * 1e3, "ms", kept, Unsourced.CommonPractice));
        if (!kept)
        {
            findings.Add(
                "arrivals-differ", Severity.Stop, $"{front[^1].Name} arrives {text.With(spread * 1e3, "ms", 3)} after {front[0].Name}; {text.With(input.ArrivalLimitSeconds * 1e3, "ms", 3)} is allowed.",
                $"Give {front[0].Name} {text.With(spread * 1e3, "ms", 3)} more delay and measure again.", Unsourced.CommonPractice);
        }

        return spread;
    }
}
