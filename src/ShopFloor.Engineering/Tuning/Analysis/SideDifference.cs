using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Responses;

namespace ShopFloor.Engineering.Tuning.Analysis;

/// <summary>Left against right.</summary>
/// <param name="Difference">Left less right, each smoothed, dB.</param>
/// <param name="MeanDecibels">Mean of the difference over log frequency, dB.</param>
/// <param name="LargestDecibels">Largest difference from the mean, dB, with its sign.</param>
/// <param name="LargestHertz">Where that is, Hz.</param>
public sealed record SideDifferenceResult(FrequencyResponse Difference, double MeanDecibels, double LargestDecibels, double LargestHertz);

/// <summary>Compares both sides by smoothed level.</summary>
public static class SideDifference
{
    /// <summary>Computes the difference where both were measured.</summary>
    /// <param name="left">Left, without problems.</param>
    /// <param name="right">Right, without problems.</param>
    /// <param name="fraction">Smoothing by a fraction of an octave: 3 for a third.</param>
    /// <param name="fromHertz">Lowest frequency, Hz.</param>
    /// <param name="toHertz">Highest frequency, Hz.</param>
    /// <exception cref="ArgumentOutOfRangeException">A response has a problem, the fraction is outside its range, or they share less than a third of an octave.</exception>
    public static SideDifferenceResult Of(FrequencyResponse left, FrequencyResponse right, double fraction = 3, double fromHertz = 20, double toHertz = 20_000)
    {
        ArgumentNullException.ThrowIfNull(left);
        ArgumentNullException.ThrowIfNull(right);
        InputChecks.ThrowIfAny([.. left.Validate().Select(problem => problem with { Field = $"{nameof(left)}.{problem.Field}" }), .. right.Validate().Select(problem => problem with { Field = $"{nameof(right)}.{problem.Field}" })]);
        var low = Math.Max(fromHertz, Math.Max(left.Hertz[0], right.Hertz[0]));
        var high = Math.Min(toHertz, Math.Min(left.Hertz[^1], right.Hertz[^1]));
        if (!(high >= low * 1.26))
            throw new ArgumentOutOfRangeException(nameof(toHertz), toHertz, $"Both sides share {low:0.#} to {high:0.#} Hz; a third of an octave and more is needed.");
        var hertz = OctaveSmoothing.Spaced(low, high, 24);
        var (l, r) = (OctaveSmoothing.Power(left, fraction, hertz), OctaveSmoothing.Power(right, fraction, hertz));
        double[] difference = [.. l.Decibels.Zip(r.Decibels, (a, b) => a - b)];
        var mean = difference.Average();
        var largest = Enumerable.Range(0, difference.Length).MaxBy(n => Math.Abs(difference[n] - mean));
        return new SideDifferenceResult(new FrequencyResponse(hertz, difference, null), mean, difference[largest] - mean, hertz[largest]);
    }
}
