using System.Numerics;
using ShopFloor.Engineering.Numerics;

namespace ShopFloor.Engineering.Tuning.Measurements;

/// <summary>An exponential sweep as it was found in a sound.</summary>
/// <param name="RateSeconds">Time in which its frequency rises by e, s: L = T/ln(f2/f1).</param>
/// <param name="FromHertz">Lowest frequency it was heard at, Hz.</param>
/// <param name="ToHertz">Highest frequency it was heard at, Hz.</param>
/// <param name="SpreadSeconds">Median distance of the passages from the line, s.</param>
public sealed record SweepPassageResult(double RateSeconds, double FromHertz, double ToHertz, double SpreadSeconds)
{
    // A loudspeaker and a cabin move passages by some hundredths of a second; two sweeps of a shop differ by more.
    private const double Tolerance = 0.02;

    /// <summary>Whether this may be a sweep, as far as its rate tells.</summary>
    /// <param name="sweep">The sweep.</param>
    public bool Fits(ExponentialSweep sweep)
    {
        ArgumentNullException.ThrowIfNull(sweep);
        return Distance(sweep) <= Tolerance;
    }

    internal double Distance(ExponentialSweep sweep) => Math.Abs(Math.Log(RateSeconds / sweep.RateSeconds));
}

/// <summary>Which exponential sweep a sound holds, told by when it passes narrow bands: t = t0 + L·ln f (Farina, AES 108, preprint 5093, 2000, for the sweep; the fit is our own).</summary>
/// <remarks>
/// Each band's passage is the middle of its squared energy around its strongest moment. The line is the median of the slopes of all pairs (Theil–Sen), so that bands a room's
/// noise or a resonance decides do not turn it, and then the least squares of those near it. Two sweeps of the same rate are the same sound but for their ends.
/// </remarks>
public static class SweepPassage
{
    private const int BandsAnOctave = 6;
    private const int LeastBands = 7;
    private const double LowestHertz = 18;
    private const double LeastPeakToMedian = 60;
    private const double LeastShare = 0.6;
    private const double LeastPower = 1e-4;

    /// <summary>Finds the sweep.</summary>
    /// <param name="samples">The sound, 1,024 samples or more.</param>
    /// <param name="sampleRateHertz">Sample rate, Hz (8,000 to 192,000).</param>
    /// <returns>Null when no rising exponential sweep of an octave or more stands out.</returns>
    /// <exception cref="ArgumentOutOfRangeException">There are too few samples or too many, or the sample rate is outside its range.</exception>
    public static SweepPassageResult? Of(double[] samples, int sampleRateHertz)
    {
        ArgumentNullException.ThrowIfNull(samples);
        if (samples.Length is < 1_024 or > SweepRecording.MostSamples)
            throw new ArgumentOutOfRangeException(nameof(samples), samples.Length, $"Accepted is 1,024 to {SweepRecording.MostSamples} samples.");
        if (sampleRateHertz is < 8_000 or > 192_000)
            throw new ArgumentOutOfRangeException(nameof(sampleRateHertz), sampleRateHertz, "Accepted is 8,000 to 192,000 Hz.");
        return OfBins(Fft.OfReal(samples, Fft.LengthFor(samples.Length)), samples.Length, sampleRateHertz);
    }

    /// <summary>The sweep among several that was recorded, by its rate; null when none fits. Of those alike, the one whose band holds what was heard, else the first.</summary>
    /// <param name="heard">What was found in the recording.</param>
    /// <param name="sweeps">Sweeps that may have been played.</param>
    public static ExponentialSweep? Among(SweepPassageResult heard, IEnumerable<ExponentialSweep> sweeps)
    {
        ArgumentNullException.ThrowIfNull(heard);
        ArgumentNullException.ThrowIfNull(sweeps);
        var fitting = sweeps.Where(heard.Fits).ToList();
        if (fitting.Count == 0)
            return null;
        var nearest = fitting.Min(heard.Distance);
        // A band that was heard only in part lies a little beyond the sweep's end.
        return fitting.Where(sweep => heard.Distance(sweep) <= nearest + 0.004)
            .MinBy(sweep => sweep.FromHertz > heard.FromHertz * 1.1 || sweep.ToHertz < heard.ToHertz / 1.1);
    }

    internal static SweepPassageResult? OfBins(Complex[] bins, int samples, int rate)
    {
        var filled = samples / (2.0 * (bins.Length - 1));
        var step = rate / (2.0 * (bins.Length - 1));
        var (width, all) = (Math.Pow(2, 1.0 / BandsAnOctave), new List<(double LogHertz, double Seconds, double Power)>());
        for (var from = LowestHertz; from * width < 0.46 * rate; from *= width)
        {
            var (low, high) = ((int)Math.Ceiling(from / step), (int)Math.Floor(from * width / step));
            if (high - low >= 8 && Passage(bins.AsSpan(low, high - low + 1), step, filled) is { } passage)
                all.Add((Math.Log(from * Math.Sqrt(width)), passage.Seconds, passage.Power));
        }

        // Beyond its band a sweep leaves the clicks of its ends, far below itself.
        var floor = all.Count == 0 ? 0 : all.Max(one => one.Power) * LeastPower;
        List<(double LogHertz, double Seconds)> found = [.. all.Where(one => one.Power >= floor).Select(one => (one.LogHertz, one.Seconds))];
        if (found.Count < LeastBands)
            return null;
        var slope = Median([.. found.SelectMany((one, at) => found.Skip(at + 1).Select(other => (other.Seconds - one.Seconds) / (other.LogHertz - one.LogHertz)))]);
        var start = Median([.. found.Select(one => one.Seconds - slope * one.LogHertz)]);
        double Off((double LogHertz, double Seconds) one) => Math.Abs(one.Seconds - start - slope * one.LogHertz);
        // A passage lasts L·ln 2/6; what lies farther off than that is something else.
        var near = found.Where(one => Off(one) <= Math.Max(Math.Log(width) * slope, 0.03)).ToList();
        if (slope <= 0.01 || near.Count < LeastBands || near.Count < LeastShare * found.Count)
            return null;
        var (x, y) = (near.Average(one => one.LogHertz), near.Average(one => one.Seconds));
        slope = near.Sum(one => (one.LogHertz - x) * (one.Seconds - y)) / near.Sum(one => (one.LogHertz - x) * (one.LogHertz - x));
        start = y - slope * x;
        return new SweepPassageResult(slope, Math.Exp(near[0].LogHertz), Math.Exp(near[^1].LogHertz), Median([.. near.Select(Off)]));
    }

    // Null when the band holds no moment that stands out.
    private static (double Seconds, double Power)? Passage(ReadOnlySpan<Complex> band, double step, double filled)
    {
        var moments = new Complex[Fft.LengthFor(2L * band.Length)];
        for (var k = 0; k < band.Length; k++)
            moments[k] = band[k] * (0.5 - 0.5 * Math.Cos(2 * Math.PI * (k + 0.5) / band.Length));
        Fft.Inverse(moments);
        var (energy, strongest) = (new double[moments.Length], 0);
        for (var n = 0; n < energy.Length; n++)
        {
            energy[n] = moments[n].Real * moments[n].Real + moments[n].Imaginary * moments[n].Imaginary;
            if (energy[n] > energy[strongest])
                strongest = n;
        }

        // Against what was recorded, not against the zeros behind it.
        if (energy[strongest] < LeastPeakToMedian * Usual(energy.AsSpan(0, Math.Max((int)(filled * energy.Length), 1))) || energy[strongest] <= 0)
            return null;
        var (sum, moment, reach) = (0.0, 0.0, energy.Length / 4);
        for (var n = -reach; n <= reach; n++)
        {
            var at = energy[(strongest + n + energy.Length) % energy.Length] / energy[strongest];
            (sum, moment) = (sum + at * at, moment + at * at * n);
        }

        return ((strongest + moment / sum) / (energy.Length * step), energy[strongest] * energy.Length * energy.Length);
    }

    // The median of some hundred moments: sorting all of them would take longer than the rest.
    private static double Usual(ReadOnlySpan<double> energy)
    {
        var every = Math.Max(energy.Length / 512, 1);
        var some = new double[(energy.Length + every - 1) / every];
        for (var n = 0; n < some.Length; n++)
            some[n] = energy[n * every];
        return Median(some);
    }

    private static double Median(double[] values)
    {
        double[] sorted = [.. values];
        Array.Sort(sorted);
        return sorted[sorted.Length / 2];
    }
}
