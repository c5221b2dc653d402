using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Tuning.Filters;

/// <summary>Both halves of a crossover between drivers that are alike and at one place.</summary>
public sealed record CrossoverSumInput
{
    /// <summary>Sample rate, Hz (8,000 to 768,000).</summary>
    public double SampleRateHertz { get; init; } = 48_000;

    /// <summary>The low-pass of the lower driver.</summary>
    public required Crossover LowPass { get; init; }

    /// <summary>The high-pass of the upper driver.</summary>
    public required Crossover HighPass { get; init; }

    /// <summary>Whether the upper driver is turned.</summary>
    public bool Inverted { get; init; }

    /// <summary>How much later the upper driver arrives, s (−0.02 to 0.02).</summary>
    public double LateSeconds { get; init; }

    /// <summary>What is wrong; empty when it can be computed.</summary>
    /// <param name="text">How numbers are written; null is metric, invariant.</param>
    public IReadOnlyList<InputProblem> Validate(UnitText? text = null)
    {
        var checks = new InputChecks(text ?? UnitText.Invariant);
        checks.InRange(nameof(SampleRateHertz), "Sample rate in Hz", SampleRateHertz, FilterLimits.LeastSampleRateHertz, FilterLimits.LargestSampleRateHertz);
        checks.InRange(nameof(LateSeconds), "Lateness in s", LateSeconds, -0.02, 0.02);
        if (checks.Problems.Count > 0)
            return checks.Problems;
        checks.AddRange(LowPass.Validate(SampleRateHertz, text).Select(problem => problem with { Field = $"{nameof(LowPass)}.{problem.Field}" }));
        checks.AddRange(HighPass.Validate(SampleRateHertz, text).Select(problem => problem with { Field = $"{nameof(HighPass)}.{problem.Field}" }));
        return checks.Problems;
    }
}

/// <summary>Both halves and their sum at a frequency.</summary>
/// <param name="Hertz">Frequency, Hz.</param>
/// <param name="LowDecibels">Level of the lower half, dB.</param>
/// <param name="HighDecibels">Level of the upper half, dB.</param>
/// <param name="SumDecibels">Level of the sum, dB; −240 at least.</param>
/// <param name="PhaseDegrees">Phase of the lower half less that of the upper, −180 to 180°.</param>
public sealed record CrossoverSumPoint(double Hertz, double LowDecibels, double HighDecibels, double SumDecibels, double PhaseDegrees);

/// <summary>How a crossover sums.</summary>
/// <param name="LowSections">Sections of the low-pass.</param>
/// <param name="HighSections">Sections of the high-pass.</param>
/// <param name="Response">Two octaves to either side, in twelfths of an octave.</param>
/// <param name="LeastSumDecibels">Lowest level of the sum, dB.</param>
/// <param name="LargestSumDecibels">Highest level of the sum, dB.</param>
/// <param name="LeastTurnedDecibels">Lowest level of the sum with the upper driver turned the other way, dB.</param>
/// <param name="Findings">What to know.</param>
public sealed record CrossoverSumResult(
    IReadOnlyList<Biquad> LowSections, IReadOnlyList<Biquad> HighSections, IReadOnlyList<CrossoverSumPoint> Response, double LeastSumDecibels, double LargestSumDecibels, double LeastTurnedDecibels, IReadOnlyList<Finding> Findings);

/// <summary>Sums the halves of a crossover.</summary>
public static class CrossoverSum
{
    /// <summary>Computes the sum.</summary>
    /// <param name="input">Both halves.</param>
    /// <param name="text">How numbers are written in texts; null is metric, invariant.</param>
    /// <exception cref="ArgumentOutOfRangeException"><see cref="CrossoverSumInput.Validate"/> finds a problem; the parameter name is the field.</exception>
    public static CrossoverSumResult Compute(CrossoverSumInput input, UnitText? text = null)
    {
        ArgumentNullException.ThrowIfNull(input);
        InputChecks.ThrowIfAny(input.Validate(text));
        text ??= UnitText.Invariant;
        var rate = input.SampleRateHertz;
        var middle = Math.Sqrt(input.LowPass.Hertz * input.HighPass.Hertz);
        var from = Math.Min(Math.Min(input.LowPass.Hertz, input.HighPass.Hertz), middle) / 4;
        var to = Math.Min(4 * Math.Max(input.LowPass.Hertz, input.HighPass.Hertz), FilterLimits.LargestHertz(rate));
        // Exact at the middle, so that a null there is not stepped over.
        var (below, above) = ((int)Math.Floor(12 * Math.Log2(middle / from) + 1e-9), (int)Math.Floor(12 * Math.Log2(to / middle) + 1e-9));
        var grid = new FrequencyGrid([.. Enumerable.Range(-below, below + above + 1).Select(n => middle * Math.Pow(2, n / 12.0))], rate);
        var (lowSections, highSections) = (CrossoverSections.Of(input.LowPass, false, rate), CrossoverSections.Of(input.HighPass, true, rate));
        var low = grid.Response(lowSections);
        var high = new ChannelSetting { Id = "upper", Name = "Upper", HighPass = input.HighPass, Inverted = input.Inverted }.Response(grid);
        for (var i = 0; i < high.Length; i++)
            high[i] *= System.Numerics.Complex.FromPolarCoordinates(1, -2 * Math.PI * grid.Hertz[i] * input.LateSeconds);
        List<CrossoverSumPoint> points = [.. grid.Hertz.Select((f, i) => new CrossoverSumPoint(f, Level(low[i]), Level(high[i]), Level(low[i] + high[i]), (low[i] / high[i]).Phase * 180 / Math.PI))];
        var (least, turned) = (points.Min(point => point.SumDecibels), low.Zip(high, (a, b) => Level(a - b)).Min());
        var findings = new FindingList("crossover", "Crossover");
        if (least < -3 && turned > least + 1)
        {
            findings.Add(
                "polarity-cancels", Severity.Warn, $"The halves cancel down to {text.With(Math.Max(least, -60), "dB", 2)}; with one driver turned the sum keeps above {text.With(turned, "dB", 2)}.",
                "Turn the polarity of one driver, or choose another slope.", "S. H. Linkwitz, JAES 24, 1976");
        }

        return new CrossoverSumResult(lowSections, highSections, points, least, points.Max(point => point.SumDecibels), turned, findings.Sorted);
    }

    private static double Level(System.Numerics.Complex value) => 20 * Math.Log10(Math.Max(value.Magnitude, 1e-12));
}
