using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Tuning.Filters;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Tuning.Processors;

/// <summary>With which sign a processor takes the fed-back coefficients.</summary>
public enum FeedbackSign
{
    /// <summary>As they stand in the denominator 1 + a1·z⁻¹ + a2·z⁻².</summary>
    Denominator,

    /// <summary>Turned, as they are added in y[n] = … + a1·y[n−1] + a2·y[n−2].</summary>
    Added,
}

/// <summary>What a processor can be set to. The defaults are those of no processor in particular; the maker's sheet goes before them.</summary>
public sealed record ProcessorProfile
{
    /// <summary>Name for people.</summary>
    public required string Name { get; init; }

    /// <summary>Sample rate inside, Hz (8,000 to 768,000).</summary>
    public double SampleRateHertz { get; init; } = 48_000;

    /// <summary>Channels, 1 to 64.</summary>
    public int Channels { get; init; } = 12;

    /// <summary>Equaliser filters of a channel, 0 to 64.</summary>
    public int FiltersPerChannel { get; init; } = 10;

    /// <summary>Filters of an input, all-passes counted, 0 to 64; 0 for a processor that sets nothing before its mixer.</summary>
    public int FiltersPerInput { get; init; } = 10;

    /// <summary>Step of the delay, s (0 to 0.01); null for one sample.</summary>
    public double? DelayStepSeconds { get; init; }

    /// <summary>Largest delay, s (0 to 1).</summary>
    public double MaximumDelaySeconds { get; init; } = 0.02;

    /// <summary>Step of level and filter gain, dB (0 for none, to 3).</summary>
    public double GainStepDecibels { get; init; } = 0.1;

    /// <summary>Lowest level of a channel, dB (−100 to 0).</summary>
    public double LeastLevelDecibels { get; init; } = -60;

    /// <summary>Highest level of a channel, dB (0 to 24).</summary>
    public double LargestLevelDecibels { get; init; }

    /// <summary>Largest cut of a filter, dB (−40 to 0).</summary>
    public double LeastFilterDecibels { get; init; } = -15;

    /// <summary>Largest boost of a filter, dB (0 to 40).</summary>
    public double LargestFilterDecibels { get; init; } = 6;

    /// <summary>Lowest Q (0.05 to 50).</summary>
    public double LeastQ { get; init; } = 0.4;

    /// <summary>Highest Q (0.05 to 50).</summary>
    public double LargestQ { get; init; } = 15;

    /// <summary>Step of Q (0 for none, to 1).</summary>
    public double QStep { get; init; } = 0.1;

    /// <summary>Step of filter and crossover frequencies, Hz (0 for none, to 100).</summary>
    public double FrequencyStepHertz { get; init; } = 1;

    /// <summary>Lowest frequency, Hz (5 to 1,000).</summary>
    public double LeastHertz { get; init; } = 20;

    /// <summary>Highest frequency, Hz (1,000 to 40,000).</summary>
    public double LargestHertz { get; init; } = 20_000;

    /// <summary>Shapes of crossover it makes; empty for all.</summary>
    public IReadOnlyList<CrossoverShape> Shapes { get; init; } = [];

    /// <summary>Slopes it makes, dB per octave; empty for all.</summary>
    public IReadOnlyList<int> SlopesDecibelsPerOctave { get; init; } = [];

    /// <summary>Whether a filter may be a shelf.</summary>
    public bool Shelves { get; init; } = true;

    /// <summary>Whether a filter may be an all-pass.</summary>
    public bool AllPasses { get; init; } = true;

    /// <summary>With which sign it takes a1 and a2.</summary>
    public FeedbackSign FeedbackSign { get; init; }

    /// <summary>Crossovers it makes: each of its shapes with those of its slopes that exist of it.</summary>
    public IEnumerable<(CrossoverShape Shape, int SlopeDecibelsPerOctave)> Crossovers =>
        from shape in Shapes.Count > 0 ? Shapes : Enum.GetValues<CrossoverShape>()
        from slope in Crossover.SlopesOf(shape)
        where SlopesDecibelsPerOctave.Count == 0 || SlopesDecibelsPerOctave.Contains(slope)
        select (shape, slope);

    /// <summary>Smallest step of the delay, s.</summary>
    public double DelayStep => DelayStepSeconds ?? 1 / SampleRateHertz;

    /// <summary>What is wrong; empty when it can be used.</summary>
    /// <param name="text">How numbers are written; null is metric, invariant.</param>
    public IReadOnlyList<InputProblem> Validate(UnitText? text = null)
    {
        var checks = new InputChecks(text ?? UnitText.Invariant);
        checks.Named(nameof(Name), "Name of the processor", Name);
        checks.InRange(nameof(SampleRateHertz), "Sample rate in Hz", SampleRateHertz, FilterLimits.LeastSampleRateHertz, FilterLimits.LargestSampleRateHertz);
        checks.InRange(nameof(Channels), "Channels", Channels, 1, 64);
        checks.InRange(nameof(FiltersPerChannel), "Filters of a channel", FiltersPerChannel, 0, 64);
        checks.InRange(nameof(FiltersPerInput), "Filters of an input", FiltersPerInput, 0, 64);
        checks.InRange(nameof(DelayStepSeconds), "Step of the delay in s", DelayStepSeconds, 1e-7, 0.01);
        checks.InRange(nameof(MaximumDelaySeconds), "Largest delay in s", MaximumDelaySeconds, 0, 1);
        checks.InRange(nameof(GainStepDecibels), "Step of the gain in dB", GainStepDecibels, 0, 3);
        checks.InRange(nameof(LeastLevelDecibels), "Lowest level in dB", LeastLevelDecibels, -100, 0);
        checks.InRange(nameof(LargestLevelDecibels), "Highest level in dB", LargestLevelDecibels, 0, 24);
        checks.InRange(nameof(LeastFilterDecibels), "Largest cut in dB", LeastFilterDecibels, -40, 0);
        checks.InRange(nameof(LargestFilterDecibels), "Largest boost in dB", LargestFilterDecibels, 0, 40);
        checks.InRange(nameof(LeastQ), "Lowest Q", LeastQ, 0.05, 50);
        checks.InRange(nameof(LargestQ), "Highest Q", LargestQ, LeastQ, 50);
        checks.InRange(nameof(QStep), "Step of Q", QStep, 0, 1);
        checks.InRange(nameof(FrequencyStepHertz), "Step of the frequency in Hz", FrequencyStepHertz, 0, 100);
        checks.InRange(nameof(LeastHertz), "Lowest frequency in Hz", LeastHertz, 5, 1_000);
        checks.InRange(nameof(LargestHertz), "Highest frequency in Hz", LargestHertz, 1_000, Math.Min(40_000, 0.45 * SampleRateHertz));
        checks.Known(nameof(FeedbackSign), "Sign of the feedback", FeedbackSign);
        foreach (var slope in SlopesDecibelsPerOctave.Where(slope => slope < 6 || slope > 48 || slope % 6 != 0))
            checks.Add(nameof(SlopesDecibelsPerOctave), $"Slope: {slope} dB per octave is not accepted; enter 6, 12, … 48.");
        if (Shapes.Contains(CrossoverShape.LinkwitzRiley) && SlopesDecibelsPerOctave.Count > 0 && !SlopesDecibelsPerOctave.Any(Crossover.SlopesOf(CrossoverShape.LinkwitzRiley).Contains))
        {
            checks.Add(nameof(SlopesDecibelsPerOctave), $"Slope: a Linkwitz-Riley of {string.Join(" or ", SlopesDecibelsPerOctave)} dB per octave does not exist, as it is two equal halves; "
                + $"add one of {string.Join(", ", Crossover.SlopesOf(CrossoverShape.LinkwitzRiley))}, or take the shape away.");
        }

        return checks.Problems;
    }
}
