using System.Numerics;
using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Tuning.Filters;

/// <summary>All that a processor does to one channel.</summary>
public sealed record ChannelSetting
{
    /// <summary>Identifier, unique among the channels.</summary>
    public required string Id { get; init; }

    /// <summary>Name for people, for example "Left tweeter".</summary>
    public required string Name { get; init; }

    /// <summary>Level, dB (−100 to 24).</summary>
    public double GainDecibels { get; init; }

    /// <summary>Delay, s (0 to 1).</summary>
    public double DelaySeconds { get; init; }

    /// <summary>Whether the polarity is turned.</summary>
    public bool Inverted { get; init; }

    /// <summary>Takes away what is below; null for nothing.</summary>
    public Crossover? HighPass { get; init; }

    /// <summary>Takes away what is above; null for nothing.</summary>
    public Crossover? LowPass { get; init; }

    /// <summary>Equaliser and all-pass filters, at most 64.</summary>
    public IReadOnlyList<FilterSetting> Filters { get; init; } = [];

    /// <summary>What is wrong; empty when it can be computed.</summary>
    /// <param name="sampleRateHertz">Sample rate, Hz.</param>
    /// <param name="text">How numbers are written; null is metric, invariant.</param>
    public IReadOnlyList<InputProblem> Validate(double sampleRateHertz, UnitText? text = null)
    {
        var checks = new InputChecks(text ?? UnitText.Invariant);
        checks.Named(nameof(Id), "Channel identifier", Id);
        checks.Named(nameof(Name), "Channel name", Name);
        checks.InRange(nameof(GainDecibels), "Level in dB", GainDecibels, -100, 24);
        checks.InRange(nameof(DelaySeconds), "Delay in s", DelaySeconds, 0, 1);
        checks.InRange(nameof(Filters), "Number of filters", Filters.Count, 0, 64);
        if (HighPass is { } high)
            checks.AddRange(high.Validate(sampleRateHertz, text).Select(problem => problem with { Field = $"{nameof(HighPass)}.{problem.Field}" }));
        if (LowPass is { } low)
            checks.AddRange(low.Validate(sampleRateHertz, text).Select(problem => problem with { Field = $"{nameof(LowPass)}.{problem.Field}" }));
        if (HighPass is { } above && LowPass is { } below && above.Hertz >= below.Hertz)
            checks.Add(nameof(LowPass), $"Low-pass: {below.Hertz:0.#} Hz is not above the high-pass, {above.Hertz:0.#} Hz; nothing would pass.");
        checks.AddRange(Filters.Take(64).SelectMany((filter, at) => filter.Validate(sampleRateHertz, text).Select(problem => problem with { Field = $"{nameof(Filters)}[{at}].{problem.Field}" })));
        return checks.Problems;
    }

    /// <summary>Its sections in order: high-pass, low-pass, filters.</summary>
    /// <param name="sampleRateHertz">Sample rate, Hz.</param>
    /// <exception cref="ArgumentOutOfRangeException">A setting is outside its range.</exception>
    public IReadOnlyList<Biquad> Sections(double sampleRateHertz)
    {
        var sections = new List<Biquad>();
        if (HighPass is { } high)
            sections.AddRange(CrossoverSections.Of(high, true, sampleRateHertz));
        if (LowPass is { } low)
            sections.AddRange(CrossoverSections.Of(low, false, sampleRateHertz));
        sections.AddRange(Filters.Select(filter => CookbookFilters.Design(filter, sampleRateHertz)));
        return sections;
    }

    /// <summary>Complex response with level, polarity and delay.</summary>
    /// <param name="grid">Frequencies and sample rate.</param>
    /// <exception cref="ArgumentOutOfRangeException">A setting is outside its range.</exception>
    public Complex[] Response(FrequencyGrid grid)
    {
        ArgumentNullException.ThrowIfNull(grid);
        var response = grid.Response(Sections(grid.SampleRateHertz));
        var gain = Math.Pow(10, GainDecibels / 20) * (Inverted ? -1 : 1);
        for (var i = 0; i < response.Length; i++)
            response[i] *= DelaySeconds == 0 ? gain : Complex.FromPolarCoordinates(1, -2 * Math.PI * grid.Hertz[i] * DelaySeconds) * gain;
        return response;
    }
}
