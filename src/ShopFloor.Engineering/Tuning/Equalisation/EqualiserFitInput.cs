using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Tuning.Filters;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Tuning.Equalisation;

/// <summary>What the filters may be.</summary>
public sealed record EqualiserLimits
{
    /// <summary>Most filters, 0 to 31.</summary>
    public int Filters { get; init; } = 10;

    /// <summary>Largest cut, dB (−40 to 0).</summary>
    public double LeastGainDecibels { get; init; } = -12;

    /// <summary>Largest boost, dB (0 to 20). A boost of 3 dB takes twice the power.</summary>
    public double LargestGainDecibels { get; init; } = 3;

    /// <summary>Lowest Q (0.1 to 50).</summary>
    public double LeastQ { get; init; } = 0.5;

    /// <summary>Highest Q (0.1 to 50).</summary>
    public double LargestQ { get; init; } = 8;

    /// <summary>Lowest frequency that is fitted and may carry a filter, Hz (5 to 40,000).</summary>
    public double FromHertz { get; init; } = 40;

    /// <summary>Highest, Hz (5 to 40,000).</summary>
    public double ToHertz { get; init; } = 16_000;

    /// <summary>Lowest change of the channel's level, dB (−60 to 0).</summary>
    public double LeastOffsetDecibels { get; init; } = -6;

    /// <summary>Highest, dB (0 to 30). What is raised here is lost as headroom.</summary>
    public double LargestOffsetDecibels { get; init; } = 3;

    /// <summary>Whether one of the filters is a low shelf.</summary>
    public bool LowShelf { get; init; }

    /// <summary>Whether one of the filters is a high shelf.</summary>
    public bool HighShelf { get; init; }

    internal void Check(InputChecks checks, string path, double sampleRateHertz)
    {
        checks.InRange($"{path}.{nameof(Filters)}", "Number of filters", Filters, 0, 31);
        checks.InRange($"{path}.{nameof(LeastGainDecibels)}", "Largest cut in dB", LeastGainDecibels, -40, 0);
        checks.InRange($"{path}.{nameof(LargestGainDecibels)}", "Largest boost in dB", LargestGainDecibels, 0, 20);
        checks.InRange($"{path}.{nameof(LeastQ)}", "Lowest Q", LeastQ, 0.1, 50);
        checks.InRange($"{path}.{nameof(LargestQ)}", "Highest Q", LargestQ, 0.1, 50);
        checks.InRange($"{path}.{nameof(FromHertz)}", "Lowest frequency in Hz", FromHertz, 5, 40_000);
        checks.InRange($"{path}.{nameof(ToHertz)}", "Highest frequency in Hz", ToHertz, 5, Math.Min(40_000, FilterLimits.LargestHertz(sampleRateHertz)));
        checks.InRange($"{path}.{nameof(LeastOffsetDecibels)}", "Lowest change of level in dB", LeastOffsetDecibels, -60, 0);
        checks.InRange($"{path}.{nameof(LargestOffsetDecibels)}", "Highest change of level in dB", LargestOffsetDecibels, 0, 30);
        if (FromHertz >= ToHertz)
            checks.Add($"{path}.{nameof(ToHertz)}", $"Highest frequency: {ToHertz:0.##} Hz is not above the lowest, {FromHertz:0.##} Hz.");
        if (LeastQ > LargestQ)
            checks.Add($"{path}.{nameof(LargestQ)}", $"Highest Q: {LargestQ:0.###} is below the lowest, {LeastQ:0.###}.");
        if (Filters < (LowShelf ? 1 : 0) + (HighShelf ? 1 : 0))
            checks.Add($"{path}.{nameof(Filters)}", $"Number of filters: {Filters} leaves no room for the shelves asked for.");
    }
}

/// <summary>A response to be brought to a target by filters.</summary>
public sealed record EqualiserFitInput
{
    /// <summary>Sample rate of the processor, Hz (8,000 to 768,000).</summary>
    public double SampleRateHertz { get; init; } = 48_000;

    /// <summary>8 to 5,000 frequencies, Hz, rising; each counts the same, so they are best spaced by equal ratios.</summary>
    public required IReadOnlyList<double> Hertz { get; init; }

    /// <summary>Level measured at each, dB, smoothed as it is to be judged.</summary>
    public required IReadOnlyList<double> MeasuredDecibels { get; init; }

    /// <summary>Level wanted at each, dB, on the same zero.</summary>
    public required IReadOnlyList<double> TargetDecibels { get; init; }

    /// <summary>Weight of each (0 to 1,000); null weighs all alike.</summary>
    public IReadOnlyList<double>? Weights { get; init; }

    /// <summary>Limits of filters and band.</summary>
    public EqualiserLimits Limits { get; init; } = new();

    /// <summary>Which dips are left alone; null fits them all.</summary>
    public NullRule? Nulls { get; init; } = new();

    /// <summary>How many times the search starts from elsewhere, 0 to 2,000; 60 is quick, 200 thorough.</summary>
    public int Starts { get; init; } = 200;

    /// <summary>Seed of the search: the same input gives the same answer.</summary>
    public int Seed { get; init; } = 1;

    /// <summary>What is wrong; empty when it can be computed.</summary>
    /// <param name="text">How numbers are written; null is metric, invariant.</param>
    public IReadOnlyList<InputProblem> Validate(UnitText? text = null)
    {
        var checks = new InputChecks(text ?? UnitText.Invariant);
        checks.InRange(nameof(SampleRateHertz), "Sample rate in Hz", SampleRateHertz, FilterLimits.LeastSampleRateHertz, FilterLimits.LargestSampleRateHertz);
        checks.InRange(nameof(Hertz), "Number of frequencies", Hertz.Count, 8, 5_000);
        checks.InRange(nameof(Starts), "Starts", Starts, 0, 2_000);
        Limits.Check(checks, nameof(Limits), SampleRateHertz);
        if (Nulls is { } nulls)
            checks.AddRange(nulls.Validate(text).Select(problem => problem with { Field = $"{nameof(Nulls)}.{problem.Field}" }));
        SameLength(checks, nameof(MeasuredDecibels), "Measured levels", MeasuredDecibels);
        SameLength(checks, nameof(TargetDecibels), "Wanted levels", TargetDecibels);
        if (Weights is { } weights)
            SameLength(checks, nameof(Weights), "Weights", weights);
        if (checks.Problems.Count > 0)
            return checks.Problems;
        for (var i = 0; i < Hertz.Count && checks.Problems.Count == 0; i++)
        {
            checks.InRange($"{nameof(Hertz)}[{i}]", "Frequency in Hz", Hertz[i], 1, FilterLimits.LargestHertz(SampleRateHertz));
            checks.InRange($"{nameof(MeasuredDecibels)}[{i}]", "Measured level in dB", MeasuredDecibels[i], -300, 300);
            checks.InRange($"{nameof(TargetDecibels)}[{i}]", "Wanted level in dB", TargetDecibels[i], -300, 300);
            checks.InRange($"{nameof(Weights)}[{i}]", "Weight", Weights?[i], 0, 1_000);
            if (i > 0 && !(Hertz[i] > Hertz[i - 1]))
                checks.Add($"{nameof(Hertz)}[{i}]", $"Frequency in Hz: {Hertz[i]:0.###} is not above the one before it, {Hertz[i - 1]:0.###}.");
        }

        if (checks.Problems.Count == 0 && Enumerable.Range(0, Hertz.Count).Count(i => Hertz[i] >= Limits.FromHertz && Hertz[i] <= Limits.ToHertz && (Weights?[i] ?? 1) > 0) < 8)
            checks.Add(nameof(Limits), $"Band: fewer than 8 of the frequencies lie within {Limits.FromHertz:0.#} to {Limits.ToHertz:0.#} Hz and weigh anything; widen it or measure finer.");
        return checks.Problems;
    }

    private void SameLength(InputChecks checks, string field, string label, IReadOnlyList<double> values)
    {
        if (values.Count != Hertz.Count)
            checks.Add(field, $"{label}: there are {values.Count} for {Hertz.Count} frequencies; enter one for each.");
    }
}

/// <summary>Filters found.</summary>
public sealed record EqualiserFitResult
{
    /// <summary>The filters, lowest frequency first.</summary>
    public required IReadOnlyList<FilterSetting> Filters { get; init; }

    /// <summary>Change of the channel's level, dB.</summary>
    public required double OffsetDecibels { get; init; }

    /// <summary>Error before, at the best level within the limits, dB rms over what is fitted.</summary>
    public required double RmsBeforeDecibels { get; init; }

    /// <summary>Error left, dB rms over what is fitted.</summary>
    public required double RmsDecibels { get; init; }

    /// <summary>Error left with none, one, two … filters, dB rms: says whether the last ones are worth their places.</summary>
    public required IReadOnlyList<double> RmsByCountDecibels { get; init; }

    /// <summary>Largest error left within what is fitted, dB, with its sign: above the target is positive.</summary>
    public required double LargestErrorDecibels { get; init; }

    /// <summary>Where it is, Hz.</summary>
    public required double LargestErrorHertz { get; init; }

    /// <summary>Response to be expected at each frequency of the input, dB.</summary>
    public required IReadOnlyList<double> PredictedDecibels { get; init; }

    /// <summary>Dips that were left alone.</summary>
    public required IReadOnlyList<ResponseNull> Nulls { get; init; }

    /// <summary>Largest boost of filters and level together anywhere, dB: what the signal must stay below full scale.</summary>
    public required double HeadroomLostDecibels { get; init; }

    /// <summary>Local fits made.</summary>
    public required int LocalFits { get; init; }

    /// <summary>What to know.</summary>
    public required IReadOnlyList<Finding> Findings { get; init; }

    /// <summary>How it was reached.</summary>
    public required Explanation Explanation { get; init; }
}
