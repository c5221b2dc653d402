using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Tuning.Filters;

/// <summary>Shapes of crossover filters.</summary>
public enum CrossoverShape
{
    /// <summary>Flat as long as it can be; −3.01 dB at its frequency.</summary>
    Butterworth,

    /// <summary>Two equal Butterworth filters; −6.02 dB at its frequency, so that both halves in phase sum to flat. 12, 24, 36 or 48 dB per octave.</summary>
    LinkwitzRiley,

    /// <summary>Even delay below its frequency; scaled to −3.01 dB there.</summary>
    Bessel,
}

/// <summary>One half of a crossover. Whether it is the low-pass or the high-pass half is said where it is used.</summary>
/// <param name="Shape">Its shape.</param>
/// <param name="Hertz">Its frequency, Hz.</param>
/// <param name="SlopeDecibelsPerOctave">Its steepness, dB per octave: 6, 12, … 48; Linkwitz-Riley in steps of 12.</param>
public sealed record Crossover(CrossoverShape Shape, double Hertz, int SlopeDecibelsPerOctave)
{
    private const int SteepestSlope = 48;

    /// <summary>Order of the filter: one per 6 dB per octave.</summary>
    internal int Order => SlopeDecibelsPerOctave / 6;

    /// <summary>Slopes a shape is made with, dB per octave: all orders to the eighth, of Linkwitz-Riley the even ones, since it is a Butterworth filter twice (S. H. Linkwitz, JAES 24, 1976).</summary>
    /// <param name="shape">The shape.</param>
    public static IReadOnlyList<int> SlopesOf(CrossoverShape shape)
    {
        var step = shape == CrossoverShape.LinkwitzRiley ? 12 : 6;
        return [.. Enumerable.Range(1, SteepestSlope / step).Select(n => n * step)];
    }

    /// <summary>What is wrong with a slope of a shape, in words; null when it is made.</summary>
    /// <param name="shape">The shape.</param>
    /// <param name="slopeDecibelsPerOctave">The slope, dB per octave.</param>
    public static string? SlopeProblem(CrossoverShape shape, int slopeDecibelsPerOctave)
    {
        var made = SlopesOf(shape);
        if (made.Contains(slopeDecibelsPerOctave))
            return null;
        return shape == CrossoverShape.LinkwitzRiley
            ? $"Slope: a Linkwitz-Riley of {slopeDecibelsPerOctave} dB per octave does not exist, as it is two equal halves; enter {string.Join(", ", made)}, or another shape."
            : $"Slope: {slopeDecibelsPerOctave} dB per octave is not made; enter {string.Join(", ", made)}.";
    }

    /// <summary>What is wrong; empty when it can be made.</summary>
    /// <param name="sampleRateHertz">Sample rate, Hz.</param>
    /// <param name="text">How numbers are written; null is metric, invariant.</param>
    public IReadOnlyList<InputProblem> Validate(double sampleRateHertz, UnitText? text = null)
    {
        var checks = new InputChecks(text ?? UnitText.Invariant);
        checks.Known(nameof(Shape), "Shape of the crossover", Shape);
        checks.InRange(nameof(Hertz), "Crossover frequency in Hz", Hertz, 5, 0.45 * sampleRateHertz);
        if (SlopeProblem(Shape, SlopeDecibelsPerOctave) is { } problem)
            checks.Add(nameof(SlopeDecibelsPerOctave), problem);
        return checks.Problems;
    }
}

/// <summary>Crossovers as cascades of second-order sections, by the bilinear transform prewarped at the crossover's frequency.</summary>
/// <remarks>
/// Butterworth: poles on the unit circle, Q = 1/(2·sin((2k−1)π/2n)) (S. Butterworth, Wireless Engineer 7, 1930). Linkwitz-Riley: a Butterworth filter of half the order twice
/// (S. H. Linkwitz, JAES 24, 1976). Bessel: roots of the reverse Bessel polynomial (W. E. Thomson, Proc. IEE 96, 1949), scaled to half power at 1.
/// </remarks>
public static class CrossoverSections
{
    private static readonly IReadOnlyList<(double Frequency, double? Q)>[] Bessel = [.. Enumerable.Range(1, 8).Select(BesselPrototype.Sections)];

    /// <summary>Sections of a low-pass or high-pass.</summary>
    /// <param name="crossover">The crossover.</param>
    /// <param name="highPass">Whether what is above passes; else what is below.</param>
    /// <param name="sampleRateHertz">Sample rate, Hz.</param>
    /// <exception cref="ArgumentOutOfRangeException"><see cref="Crossover.Validate"/> finds a problem; the parameter name is the field.</exception>
    public static IReadOnlyList<Biquad> Of(Crossover crossover, bool highPass, double sampleRateHertz)
    {
        ArgumentNullException.ThrowIfNull(crossover);
        InputChecks.ThrowIfAny(crossover.Validate(sampleRateHertz));
        var k = Math.Tan(Math.PI * crossover.Hertz / sampleRateHertz);
        return [.. Prototype(crossover.Shape, crossover.Order).Select(section =>
        {
            // s → 1/s turns a section round; its frequency is warped on its own, which is the bilinear transform of the whole.
            var relative = highPass ? 1 / section.Frequency : section.Frequency;
            var hertz = sampleRateHertz / Math.PI * Math.Atan(relative * k);
            return section.Q is { } q
                ? CookbookFilters.Raw(highPass ? FilterKind.HighPass : FilterKind.LowPass, hertz, 0, q, sampleRateHertz)
                : CookbookFilters.Raw(highPass ? FilterKind.FirstOrderHighPass : FilterKind.FirstOrderLowPass, hertz, 0, 1, sampleRateHertz);
        })];
    }

    /// <summary>Its sections as analogue filters: frequency, Hz, and Q; no Q for a first-order section.</summary>
    /// <param name="crossover">The crossover, without problems.</param>
    /// <param name="highPass">Whether what is above passes; else what is below.</param>
    public static IReadOnlyList<(double Hertz, double? Q)> Analogue(Crossover crossover, bool highPass)
    {
        ArgumentNullException.ThrowIfNull(crossover);
        return [.. Prototype(crossover.Shape, crossover.Order).Select(section => (crossover.Hertz * (highPass ? 1 / section.Frequency : section.Frequency), section.Q))];
    }

    /// <summary>Sections of the low-pass of cutoff 1: frequency relative to the cutoff, and Q; no Q for a first-order section.</summary>
    internal static IReadOnlyList<(double Frequency, double? Q)> Prototype(CrossoverShape shape, int order) => shape switch
    {
        CrossoverShape.Butterworth => Butterworth(order),
        CrossoverShape.LinkwitzRiley => Twice(Butterworth(order / 2)),
        CrossoverShape.Bessel => Bessel[order - 1],
        _ => throw new ArgumentOutOfRangeException(nameof(shape)),
    };

    private static List<(double Frequency, double? Q)> Butterworth(int order)
    {
        var sections = new List<(double, double?)>();
        if (order % 2 == 1)
            sections.Add((1, null));
        for (var k = order / 2; k >= 1; k--)
            sections.Add((1, 1 / (2 * Math.Sin((2 * k - 1) * Math.PI / (2 * order)))));
        return sections;
    }

    // Two first-order sections are one second-order section of Q 0.5.
    private static List<(double Frequency, double? Q)> Twice(List<(double Frequency, double? Q)> half) =>
        [.. half.SelectMany(section => section.Q is null ? [(section.Frequency, (double?)0.5)] : new[] { section, section })];
}
