using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Responses;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Tuning.Analysis;

/// <summary>A response whose decay is looked at.</summary>
public sealed record DecayInput
{
    /// <summary>The response.</summary>
    public required ImpulseResponse Response { get; init; }

    /// <summary>Middle of the first slice, s; null for the strongest sample.</summary>
    public double? FromSeconds { get; init; }

    /// <summary>From slice to slice, s (0.0001 to 1).</summary>
    public double StepSeconds { get; init; } = 0.005;

    /// <summary>Slices, 2 to 200.</summary>
    public int Slices { get; init; } = 40;

    /// <summary>Full width of the Hann window on each, s (0.001 to 2): nothing finer than its inverse is told apart.</summary>
    public double WindowSeconds { get; init; } = 0.05;

    /// <summary>Lowest frequency, Hz (5 to 10,000).</summary>
    public double FromHertz { get; init; } = 20;

    /// <summary>Highest frequency, Hz (20 to 96,000).</summary>
    public double ToHertz { get; init; } = 500;

    /// <summary>Points an octave (1 to 48).</summary>
    public int PointsPerOctave { get; init; } = 12;

    /// <summary>What is wrong; empty when it can be computed.</summary>
    /// <param name="text">How numbers are written; null is metric, invariant.</param>
    public IReadOnlyList<InputProblem> Validate(UnitText? text = null)
    {
        var checks = new InputChecks(text ?? UnitText.Invariant);
        checks.AddRange(Response.Validate(text).Select(problem => problem with { Field = $"{nameof(Response)}.{problem.Field}" }));
        checks.InRange(nameof(FromSeconds), "First slice in s", FromSeconds, -60, 120);
        checks.InRange(nameof(StepSeconds), "Step in s", StepSeconds, 0.0001, 1);
        checks.InRange(nameof(Slices), "Slices", Slices, 2, 200);
        checks.InRange(nameof(WindowSeconds), "Window in s", WindowSeconds, 0.001, 2);
        checks.InRange(nameof(FromHertz), "Lowest frequency in Hz", FromHertz, 5, 10_000);
        checks.InRange(nameof(ToHertz), "Highest frequency in Hz", ToHertz, Math.Max(1.2 * FromHertz, 20), Math.Min(96_000, Math.Max(Response.SampleRateHertz / 2.0, 20)));
        checks.InRange(nameof(PointsPerOctave), "Points an octave", PointsPerOctave, 1, 48);
        return checks.Problems;
    }
}

/// <summary>A response sliced over time.</summary>
/// <param name="Hertz">Frequencies, Hz.</param>
/// <param name="Seconds">Middle of each slice from the first, s.</param>
/// <param name="Decibels">Level of each slice at each frequency, dB.</param>
/// <param name="DecaySeconds">Time to fall by 60 dB at each frequency by the slope from 5 to 25 dB down, s; null where it does not fall so far.</param>
public sealed record DecayResult(IReadOnlyList<double> Hertz, IReadOnlyList<double> Seconds, IReadOnlyList<IReadOnlyList<double>> Decibels, IReadOnlyList<double?> DecaySeconds);

/// <summary>Spectra of slices of a response (short-time Fourier transform), as a waterfall shows them.</summary>
public static class DecaySlices
{
    private const double FallFrom = 5;
    private const double FallTo = 25;

    /// <summary>Computes the slices.</summary>
    /// <param name="input">The response and how it is sliced.</param>
    /// <exception cref="ArgumentOutOfRangeException"><see cref="DecayInput.Validate"/> finds a problem; the parameter name is the field.</exception>
    public static DecayResult Compute(DecayInput input)
    {
        ArgumentNullException.ThrowIfNull(input);
        InputChecks.ThrowIfAny(input.Validate());
        var response = input.Response;
        var first = input.FromSeconds ?? response.SecondsAt(ImpulseWindow.Strongest(response.Samples));
        var hertz = OctaveSmoothing.Spaced(input.FromHertz, input.ToHertz, input.PointsPerOctave);
        double[] seconds = [.. Enumerable.Range(0, input.Slices).Select(n => n * input.StepSeconds)];
        double[][] slices = [.. seconds.Select(after => Slice(response, first + after, input.WindowSeconds / 2, hertz))];
        double?[] decays = [.. hertz.Select((_, n) => Decay(seconds, [.. slices.Select(slice => slice[n])]))];
        return new DecayResult(hertz, seconds, slices, decays);
    }

    private static double[] Slice(ImpulseResponse response, double middle, double half, double[] hertz)
    {
        var (center, reach) = (response.IndexAt(middle), half * response.SampleRateHertz);
        var (from, to) = ((int)Math.Max(Math.Ceiling(center - reach), 0), (int)Math.Min(Math.Floor(center + reach), response.Samples.Length - 1));
        if (to <= from)
            return [.. hertz.Select(_ => -600.0)];
        double[] piece = [.. Enumerable.Range(from, to - from + 1).Select(n => response.Samples[n] * ImpulseWindow.Value(HalfWindow.Hann, Math.Abs(n - center) / reach, 1))];
        return [.. hertz.Select(one => 20 * Math.Log10(Math.Max(Magnitude(piece, 2 * Math.PI * one / response.SampleRateHertz), 1e-30)))];
    }

    // Goertzel's recursion: the transform at one frequency.
    private static double Magnitude(double[] piece, double radians)
    {
        var (cosine, s1, s2) = (2 * Math.Cos(radians), 0.0, 0.0);
        foreach (var sample in piece)
            (s1, s2) = (sample + cosine * s1 - s2, s1);
        return Math.Sqrt(Math.Max(s1 * s1 + s2 * s2 - cosine * s1 * s2, 0));
    }

    private static double? Decay(double[] seconds, double[] decibels)
    {
        var top = Array.IndexOf(decibels, decibels.Max());
        var from = Array.FindIndex(decibels, top, level => level <= decibels[top] - FallFrom);
        var to = Array.FindIndex(decibels, top, level => level <= decibels[top] - FallTo);
        if (from < 0 || to < 0 || to - from < 1)
            return null;
        var (x, y) = (seconds[from..(to + 1)].Average(), decibels[from..(to + 1)].Average());
        var slope = Enumerable.Range(from, to - from + 1).Sum(n => (seconds[n] - x) * (decibels[n] - y)) / Enumerable.Range(from, to - from + 1).Sum(n => (seconds[n] - x) * (seconds[n] - x));
        return slope < 0 ? -60 / slope : null;
    }
}
