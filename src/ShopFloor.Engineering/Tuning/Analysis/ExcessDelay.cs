using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Responses;

namespace ShopFloor.Engineering.Tuning.Analysis;

/// <summary>Group delay beyond the minimum phase, over a width that a measurement can carry.</summary>
/// <remarks>
/// τ = −dφ/dω by the least squares of the phase over a fraction of an octave, each point counting by its power: a difference between neighbours divides what little the phase is off
/// by a few hertz at the low end, and a null turns it by half a circle. Where the level is far below the band, noise decides and nothing is told. Common practice, no source.
/// </remarks>
public static class ExcessDelay
{
    private const int LeastPoints = 5;

    /// <summary>Delay at each frequency of the response, s; NaN where the level is too low.</summary>
    /// <param name="response">The response with phase, without problems.</param>
    /// <param name="octaves">Width, octaves (0.05 to 2); widened where fewer than five points lie in it.</param>
    /// <param name="belowDecibels">How far below the largest level over an octave it is still told, dB (3 to 80).</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is outside its range.</exception>
    /// <exception cref="ArgumentException">The response has no phase.</exception>
    public static double[] Of(FrequencyResponse response, double octaves = 1.0 / 3, double belowDecibels = 20)
    {
        ArgumentNullException.ThrowIfNull(response);
        InputChecks.ThrowIfAny(response.Validate());
        if (!(octaves is >= 0.05 and <= 2))
            throw new ArgumentOutOfRangeException(nameof(octaves), octaves, "Accepted is 0.05 to 2.");
        if (!(belowDecibels is >= 3 and <= 80))
            throw new ArgumentOutOfRangeException(nameof(belowDecibels), belowDecibels, "Accepted is 3 to 80.");
        var excess = MinimumPhase.Excess(response).ExcessRadians;
        var (hertz, half) = (response.Hertz, Math.Pow(2, octaves / 2));
        var (band, levels) = (OctaveSmoothing.Power(response, 1).Decibels.Max(), OctaveSmoothing.Power(response, Math.Clamp(1 / octaves, 0.5, 96)).Decibels);
        var (delays, from, to) = (new double[hertz.Count], 0, 0);
        for (var n = 0; n < delays.Length; n++)
        {
            while (hertz[from] < hertz[n] / half)
                from++;
            while (to + 1 < hertz.Count && hertz[to + 1] <= hertz[n] * half)
                to++;
            if (levels[n] < band - belowDecibels)
            {
                delays[n] = double.NaN;
                continue;
            }

            var (first, last) = (from, Math.Max(to, n));
            while (last - first + 1 < Math.Min(LeastPoints, hertz.Count))
                (first, last) = (Math.Max(first - 1, 0), Math.Min(last + 1, hertz.Count - 1));
            delays[n] = -Slope(response, excess, first, last) / (2 * Math.PI);
        }

        return delays;
    }

    // Radians per hertz.
    private static double Slope(FrequencyResponse response, IReadOnlyList<double> radians, int first, int last)
    {
        var (hertz, strongest) = (response.Hertz, double.NegativeInfinity);
        for (var n = first; n <= last; n++)
            strongest = Math.Max(strongest, response.Decibels[n]);
        double w = 0, wx = 0, wy = 0, wxx = 0, wxy = 0;
        for (var n = first; n <= last; n++)
        {
            // From the first point on, so that nothing is lost in large numbers.
            var (weight, x, y) = (Math.Pow(10, (response.Decibels[n] - strongest) / 10), hertz[n] - hertz[first], radians[n] - radians[first]);
            (w, wx, wy, wxx, wxy) = (w + weight, wx + weight * x, wy + weight * y, wxx + weight * x * x, wxy + weight * x * y);
        }

        return (w * wxy - wx * wy) / (w * wxx - wx * wx);
    }
}
