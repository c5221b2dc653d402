using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Responses;

namespace ShopFloor.Engineering.Tuning.Analysis;

/// <summary>Where a driver can be used.</summary>
/// <param name="FromHertz">Lowest frequency, Hz.</param>
/// <param name="ToHertz">Highest frequency, Hz.</param>
/// <param name="PlateauDecibels">Level it is counted from: the largest of the response smoothed over an octave, dB.</param>
/// <param name="LowerLimit">What ends it below: "level", "distortion" or "measurement".</param>
/// <param name="UpperLimit">What ends it above.</param>
public sealed record UsableBandResult(double FromHertz, double ToHertz, double PlateauDecibels, string LowerLimit, string UpperLimit);

/// <summary>The band in which a driver keeps its level and, where it is known, its distortion.</summary>
/// <remarks>Third-octave smoothed level within so many dB of its own plateau, −10 dB as for rated frequency ranges in IEC 60268-5 (from memory).</remarks>
public static class UsableBand
{
    /// <summary>Finds the band around the plateau.</summary>
    /// <param name="response">The driver's response, without problems, over an octave at least.</param>
    /// <param name="belowDecibels">How far the level may fall, dB, 1 to 40.</param>
    /// <param name="distortion">Harmonics against the fundamental, dB, over the frequency that causes them; null when not known.</param>
    /// <param name="mostDistortionDecibels">How high they may be, dB, −80 to 0: −30 dB is 3 %.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is outside its range.</exception>
    public static UsableBandResult Of(FrequencyResponse response, double belowDecibels = 10, FrequencyResponse? distortion = null, double mostDistortionDecibels = -30)
    {
        ArgumentNullException.ThrowIfNull(response);
        InputChecks.ThrowIfAny(response.Validate());
        InputChecks.ThrowIfAny(distortion?.Validate() ?? []);
        if (!(belowDecibels is >= 1 and <= 40))
            throw new ArgumentOutOfRangeException(nameof(belowDecibels), belowDecibels, "Accepted is 1 to 40.");
        if (!(mostDistortionDecibels is >= -80 and <= 0))
            throw new ArgumentOutOfRangeException(nameof(mostDistortionDecibels), mostDistortionDecibels, "Accepted is −80 to 0.");
        if (response.Hertz[^1] < 2 * response.Hertz[0])
            throw new ArgumentOutOfRangeException(nameof(response), $"The response reaches from {response.Hertz[0]:0.#} to {response.Hertz[^1]:0.#} Hz; an octave is needed.");
        var hertz = OctaveSmoothing.Spaced(response.Hertz[0], response.Hertz[^1], 24);
        var (wide, fine) = (OctaveSmoothing.Power(response, 1, hertz).Decibels, OctaveSmoothing.Power(response, 3, hertz).Decibels);
        var middle = 0;
        for (var n = 1; n < hertz.Length; n++)
        {
            if (wide[n] > wide[middle])
                middle = n;
        }

        var plateau = wide[middle];
        double Level(int n) => fine[n] - (plateau - belowDecibels);
        double Clean(int n) => distortion is { } known && known.Covers(hertz[n]) ? mostDistortionDecibels - known.DecibelsAt(hertz[n]) : 1e9;
        var (from, lower) = Edge(-1);
        var (to, upper) = Edge(1);
        return new UsableBandResult(from, to, plateau, lower, upper);

        (double Hertz, string Limit) Edge(int step)
        {
            var n = middle;
            while (n + step >= 0 && n + step < hertz.Length && Level(n + step) >= 0 && Clean(n + step) >= 0)
                n += step;
            if (n + step < 0 || n + step >= hertz.Length)
                return (hertz[n], "measurement");
            var level = Level(n + step) < 0;
            // Straight between the last point within and the first beyond, over log frequency.
            var (inside, outside) = level ? (Level(n), Level(n + step)) : (Clean(n), Clean(n + step));
            var share = inside >= 1e8 || inside <= outside ? 0 : Math.Clamp(inside / (inside - outside), 0, 1);
            return (hertz[n] * Math.Pow(hertz[n + step] / hertz[n], share), level ? "level" : "distortion");
        }
    }
}
