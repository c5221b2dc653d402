using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Tuning.Filters;

/// <summary>Kinds of filter.</summary>
public enum FilterKind
{
    /// <summary>Bell: boost or cut around a frequency.</summary>
    Peaking,

    /// <summary>Boost or cut below a frequency.</summary>
    LowShelf,

    /// <summary>Boost or cut above a frequency.</summary>
    HighShelf,

    /// <summary>Second-order low-pass.</summary>
    LowPass,

    /// <summary>Second-order high-pass.</summary>
    HighPass,

    /// <summary>Second-order band-pass of 0 dB at its middle.</summary>
    BandPass,

    /// <summary>Takes one frequency out.</summary>
    Notch,

    /// <summary>Second-order all-pass: turns the phase by 360°, 180° at its frequency.</summary>
    AllPass,

    /// <summary>First-order low-pass.</summary>
    FirstOrderLowPass,

    /// <summary>First-order high-pass.</summary>
    FirstOrderHighPass,

    /// <summary>First-order all-pass: turns the phase by 180°, 90° at its frequency.</summary>
    FirstOrderAllPass,
}

/// <summary>A filter as a person sets it.</summary>
public sealed record FilterSetting
{
    /// <summary>What it does.</summary>
    public required FilterKind Kind { get; init; }

    /// <summary>Its frequency, Hz, 1 to 0.49 of the sample rate.</summary>
    public required double Hertz { get; init; }

    /// <summary>Boost or cut of bells and shelves, dB (−40 to 40); nothing to the others.</summary>
    public double GainDecibels { get; init; }

    /// <summary>Quality (0.05 to 50). For a bell of gain G it is that of the cookbook: the classic one is √(10^(G/20)) times as large. Nothing to first-order filters.</summary>
    public double Q { get; init; } = Math.Sqrt(0.5);

    /// <summary>Whether its gain matters.</summary>
    internal bool HasGain => Kind is FilterKind.Peaking or FilterKind.LowShelf or FilterKind.HighShelf;

    /// <summary>Whether its Q matters.</summary>
    internal bool HasQ => Kind is not (FilterKind.FirstOrderLowPass or FilterKind.FirstOrderHighPass or FilterKind.FirstOrderAllPass);

    /// <summary>What is wrong; empty when it can be made.</summary>
    /// <param name="sampleRateHertz">Sample rate, Hz.</param>
    /// <param name="text">How numbers are written; null is metric, invariant.</param>
    public IReadOnlyList<InputProblem> Validate(double sampleRateHertz, UnitText? text = null)
    {
        var checks = new InputChecks(text ?? UnitText.Invariant);
        checks.Known(nameof(Kind), "Kind of filter", Kind);
        checks.InRange(nameof(Hertz), "Frequency in Hz", Hertz, 1, FilterLimits.LargestHertz(sampleRateHertz));
        checks.InRange(nameof(GainDecibels), "Gain in dB", GainDecibels, -40, 40);
        checks.InRange(nameof(Q), "Q", Q, 0.05, 50);
        return checks.Problems;
    }
}

/// <summary>Ranges every filter is held to.</summary>
public static class FilterLimits
{
    /// <summary>Lowest sample rate taken, Hz.</summary>
    public const double LeastSampleRateHertz = 8_000;

    /// <summary>Highest sample rate taken, Hz.</summary>
    public const double LargestSampleRateHertz = 768_000;

    /// <summary>Highest frequency of a filter, Hz: 0.49 of the sample rate.</summary>
    /// <param name="sampleRateHertz">Sample rate, Hz.</param>
    public static double LargestHertz(double sampleRateHertz) => 0.49 * sampleRateHertz;
}
