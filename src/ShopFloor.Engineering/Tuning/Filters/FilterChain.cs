using System.Numerics;
using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Tuning.Filters;

/// <summary>A channel whose response is wanted.</summary>
public sealed record FilterChainInput
{
    /// <summary>Sample rate, Hz (8,000 to 768,000).</summary>
    public double SampleRateHertz { get; init; } = 48_000;

    /// <summary>The channel.</summary>
    public required ChannelSetting Channel { get; init; }

    /// <summary>Lowest frequency, Hz (1 to 1,000).</summary>
    public double FromHertz { get; init; } = 20;

    /// <summary>Highest frequency, Hz, above the lowest and below 0.49 of the sample rate.</summary>
    public double ToHertz { get; init; } = 20_000;

    /// <summary>How many points, 2 to 5,000, at equal ratios.</summary>
    public int Points { get; init; } = 200;

    /// <summary>What is wrong; empty when it can be computed.</summary>
    /// <param name="text">How numbers are written; null is metric, invariant.</param>
    public IReadOnlyList<InputProblem> Validate(UnitText? text = null)
    {
        var checks = new InputChecks(text ?? UnitText.Invariant);
        checks.InRange(nameof(SampleRateHertz), "Sample rate in Hz", SampleRateHertz, FilterLimits.LeastSampleRateHertz, FilterLimits.LargestSampleRateHertz);
        checks.InRange(nameof(FromHertz), "Lowest frequency in Hz", FromHertz, 1, 1_000);
        checks.InRange(nameof(Points), "Points", Points, 2, 5_000);
        if (checks.Problems.Count > 0)
            return checks.Problems;
        checks.InRange(nameof(ToHertz), "Highest frequency in Hz", ToHertz, FromHertz * 1.001, FilterLimits.LargestHertz(SampleRateHertz));
        checks.AddRange(Channel.Validate(SampleRateHertz, text).Select(problem => problem with { Field = $"{nameof(Channel)}.{problem.Field}" }));
        return checks.Problems;
    }
}

/// <summary>Response at a frequency.</summary>
/// <param name="Hertz">Frequency, Hz.</param>
/// <param name="Decibels">Level, dB.</param>
/// <param name="PhaseDegrees">Phase, −180 to 180°.</param>
/// <param name="GroupDelaySeconds">Group delay, s, the channel's own delay counted.</param>
public sealed record ChainPoint(double Hertz, double Decibels, double PhaseDegrees, double GroupDelaySeconds);

/// <summary>Response and coefficients of a channel.</summary>
/// <param name="Sections">Sections in order: high-pass, low-pass, filters; a0 is 1, a1 and a2 as they stand in the denominator.</param>
/// <param name="Response">Response, lowest frequency first.</param>
/// <param name="LargestDecibels">Highest level of the response, dB: what the signal must stay below full scale.</param>
public sealed record FilterChainResult(IReadOnlyList<Biquad> Sections, IReadOnlyList<ChainPoint> Response, double LargestDecibels);

/// <summary>Response of a channel's filters.</summary>
public static class FilterChain
{
    /// <summary>Computes the response.</summary>
    /// <param name="input">Channel and band.</param>
    /// <param name="text">How numbers are written in texts; null is metric, invariant.</param>
    /// <exception cref="ArgumentOutOfRangeException"><see cref="FilterChainInput.Validate"/> finds a problem; the parameter name is the field.</exception>
    public static FilterChainResult Compute(FilterChainInput input, UnitText? text = null)
    {
        ArgumentNullException.ThrowIfNull(input);
        InputChecks.ThrowIfAny(input.Validate(text));
        var rate = input.SampleRateHertz;
        var grid = FrequencyGrid.LogSpaced(input.FromHertz, input.ToHertz, input.Points, rate);
        var sections = input.Channel.Sections(rate);
        var response = input.Channel.Response(grid);
        List<ChainPoint> points = [.. response.Zip(grid.Hertz, (value, f) => new ChainPoint(
            f, 20 * Math.Log10(Math.Max(value.Magnitude, 1e-15)), value.Phase * 180 / Math.PI, input.Channel.DelaySeconds + sections.Sum(section => GroupDelaySamples(section, f, rate)) / rate))];
        return new FilterChainResult(sections, points, points.Max(point => point.Decibels));
    }

    /// <summary>Group delay of a section, samples: Re(Σ n·bn·z⁻ⁿ/Σ bn·z⁻ⁿ) less the same of the denominator (J. O. Smith, Introduction to Digital Filters).</summary>
    private static double GroupDelaySamples(Biquad section, double hertz, double rate)
    {
        var z = Complex.FromPolarCoordinates(1, -2 * Math.PI * hertz / rate);
        var upper = section.B0 + z * (section.B1 + z * section.B2);
        var lower = 1 + z * (section.A1 + z * section.A2);
        return ((z * section.B1 + 2 * z * z * section.B2) / upper - (z * section.A1 + 2 * z * z * section.A2) / lower).Real;
    }
}
