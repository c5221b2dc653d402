using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Responses;

namespace ShopFloor.Engineering.Tuning.Analysis;

/// <summary>Levels smoothed over a fraction of an octave by power.</summary>
/// <remarks>
/// The mean of the power over log frequency between f·G^(−1/2b) and f·G^(1/2b), G = 10^0.3 (band edges of IEC 61260-1:2014), the power taken
/// straight between points over log frequency. The result does not hang on how close the points lie. Phase is left out: a mean has none.
/// </remarks>
public static class OctaveSmoothing
{
    /// <summary>Smooths a response.</summary>
    /// <param name="response">The response, without problems.</param>
    /// <param name="fraction">b: 1 for an octave, 3 for a third, to 96.</param>
    /// <param name="at">Frequencies of the result, Hz; null for those of the response. Beyond its ends the window is cut off at them.</param>
    /// <exception cref="ArgumentOutOfRangeException">The response has a problem, or the fraction is outside its range.</exception>
    public static FrequencyResponse Power(FrequencyResponse response, double fraction, IReadOnlyList<double>? at = null)
    {
        ArgumentNullException.ThrowIfNull(response);
        InputChecks.ThrowIfAny(response.Validate());
        if (!(fraction is >= 0.5 and <= 96))
            throw new ArgumentOutOfRangeException(nameof(fraction), fraction, "Accepted is 0.5 to 96.");
        var hertz = response.Hertz;
        var (logs, powers, sums) = (new double[hertz.Count], new double[hertz.Count], new double[hertz.Count]);
        for (var n = 0; n < logs.Length; n++)
            (logs[n], powers[n]) = (Math.Log(hertz[n]), Math.Exp(response.Decibels[n] * Math.Log(10) / 10));
        for (var n = 1; n < sums.Length; n++)
            sums[n] = sums[n - 1] + 0.5 * (powers[n] + powers[n - 1]) * (logs[n] - logs[n - 1]);

        var half = 0.5 * Math.Log(OctaveBands.Octave) / fraction;
        double[] wanted = [.. at ?? hertz];
        var decibels = new double[wanted.Length];
        // Frequencies mostly rise, so each window is looked for from where the last one lay.
        var (below, beyond) = (0, 0);
        for (var n = 0; n < wanted.Length; n++)
        {
            var middle = Math.Clamp(at is null ? logs[n] : Math.Log(wanted[n]), logs[0], logs[^1]);
            var (from, to) = (Math.Max(middle - half, logs[0]), Math.Min(middle + half, logs[^1]));
            decibels[n] = 10 * Math.Log10(Math.Max((Upto(to, ref beyond) - Upto(from, ref below)) / (to - from), 1e-100));
        }

        return new FrequencyResponse(wanted, decibels, null);

        // Integral from the first point: trapezoids to the point below and a piece of the next one.
        double Upto(double log, ref int above)
        {
            while (above < logs.Length && logs[above] < log)
                above++;
            while (above > 0 && logs[above - 1] >= log)
                above--;
            if (above == 0)
                return 0;
            if (above >= logs.Length)
                return sums[^1];
            var share = (log - logs[above - 1]) / (logs[above] - logs[above - 1]);
            var power = powers[above - 1] + share * (powers[above] - powers[above - 1]);
            return sums[above - 1] + 0.5 * (powers[above - 1] + power) * (log - logs[above - 1]);
        }
    }

    /// <summary>Frequencies spaced by a fraction of an octave.</summary>
    /// <param name="fromHertz">Lowest, Hz, above 0.</param>
    /// <param name="toHertz">Highest, Hz, above the lowest.</param>
    /// <param name="perOctave">Points an octave, 1 to 200.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is outside its range.</exception>
    public static double[] Spaced(double fromHertz, double toHertz, int perOctave)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(fromHertz);
        ArgumentOutOfRangeException.ThrowIfLessThanOrEqual(toHertz, fromHertz);
        ArgumentOutOfRangeException.ThrowIfLessThan(perOctave, 1);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(perOctave, 200);
        var count = (int)Math.Floor(perOctave * Math.Log2(toHertz / fromHertz) + 1e-9) + 1;
        return [.. Enumerable.Range(0, count).Select(n => fromHertz * Math.Pow(2, (double)n / perOctave))];
    }
}
