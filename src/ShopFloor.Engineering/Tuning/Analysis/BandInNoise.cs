using System.Numerics;
using ShopFloor.Engineering.Numerics;
using ShopFloor.Engineering.Responses;

namespace ShopFloor.Engineering.Tuning.Analysis;

/// <summary>The spectrum of a response, where it stands out of the noise, and the minimum phase of what it would be without.</summary>
internal sealed class BandInNoise
{
    private const int LeastLength = 1 << 17;
    private const double AboveNoiseDecibels = 10;
    private const double LoudBlock = 1.15;
    private const int QuietBlocks = 3;
    private const int FadeBlocks = 3;
    private const double FallDecibels = 30;
    private const double EdgeOctaves = 0.25;
    private const double SteepestDecibelsAnOctave = 60;
    private static readonly double EdgeRatio = Math.Pow(2, EdgeOctaves);

    public BandInNoise(ImpulseResponse response, double? fromHertz, double? toHertz)
    {
        var samples = response.Samples;
        Length = Fft.LengthFor(Math.Max(2L * samples.Length, LeastLength));
        Rate = response.SampleRateHertz;
        var tail = samples.AsSpan(samples.Length - Math.Max(samples.Length / 10, 8));
        var power = 0.0;
        foreach (var sample in tail)
            power += sample * sample / tail.Length;
        NoiseRms = Math.Sqrt(power);
        var (kept, count) = Kept(samples, Rate, NoiseRms);
        Bins = Fft.OfReal(kept, Length);
        (From, To, Decibels) = Find(power * count, fromHertz, toHertz);
        MinimumRadians = MinimumPhase.OfBins(Decibels);
        (FromHertz, ToHertz) = (From * Step, To * Step);
    }

    public int Length { get; }
    public int Rate { get; }
    public double Step => (double)Rate / Length;
    public Complex[] Bins { get; }
    public double NoiseRms { get; }
    public int TrustedFrom { get; private set; }
    public int TrustedTo { get; private set; }
    public int From { get; }
    public int To { get; }
    public double FromHertz { get; }
    public double ToHertz { get; }

    /// <summary>Level of each bin; beyond the band carried on at the slope it ends with, since noise says nothing of phase.</summary>
    public double[] Decibels { get; }
    public double[] MinimumRadians { get; }

    /// <summary>The response without what lies beyond where it stands out of the noise.</summary>
    public double[] Cleaned()
    {
        var bins = new Complex[Bins.Length];
        for (var k = 0; k < bins.Length; k++)
        {
            if (k >= TrustedFrom && k <= TrustedTo)
            {
                bins[k] = Bins[k];
                continue;
            }

            var outside = k < TrustedFrom ? Math.Log2(TrustedFrom / Math.Max(k, 0.5)) : k > TrustedTo ? Math.Log2((double)k / TrustedTo) : 0;
            bins[k] = Bins[k] * (0.5 + 0.5 * Math.Cos(Math.PI * Math.Min(outside, 1)));
        }

        return Fft.ToReal(bins);
    }

    /// <summary>1 within the band, falling over a quarter octave inside its edges.</summary>
    public double Weight(int bin)
    {
        if (bin <= From || bin >= To)
            return 0;
        if (bin >= From * EdgeRatio && bin <= To / EdgeRatio)
            return 1;
        var inside = Math.Min(Math.Log2((double)bin / From), Math.Log2((double)To / bin));
        return inside >= EdgeOctaves ? 1 : 0.5 - 0.5 * Math.Cos(Math.PI * inside / EdgeOctaves);
    }

    // What stands out of the noise around the peak: every piece of noise left out lets the spectrum be followed further down its slopes.
    private static (double[] Samples, double Count) Kept(double[] samples, int rate, double noise)
    {
        var (strongest, block) = (ImpulseWindow.Strongest(samples), Math.Max(rate / 250, 4));
        bool Stands(int from)
        {
            var sum = 0.0;
            for (var n = Math.Max(from, 0); n < Math.Min(from + block, samples.Length); n++)
                sum += samples[n] * samples[n];
            return sum > block * Math.Pow(LoudBlock * noise, 2);
        }

        var (start, end) = (strongest, strongest);
        for (int at = strongest - block, quiet = 0; at > -block && quiet < QuietBlocks; at -= block)
            (start, quiet) = Stands(at) ? (at, 0) : (start, quiet + 1);
        for (int at = strongest + 1, quiet = 0; at < samples.Length && quiet < QuietBlocks; at += block)
            (end, quiet) = Stands(at) ? (at + block, 0) : (end, quiet + 1);
        var fade = FadeBlocks * block;
        var kept = new double[samples.Length];
        var count = 0.0;
        for (var n = Math.Max(start - fade, 0); n < Math.Min(end + fade, samples.Length); n++)
        {
            var outside = Math.Max(Math.Max(start - n, n - end), 0) / (double)fade;
            var share = 0.5 + 0.5 * Math.Cos(Math.PI * outside);
            kept[n] = share * samples[n];
            count += share * share;
        }

        return (kept, count);
    }

    private (int From, int To, double[] Decibels) Find(double noisePower, double? fromHertz, double? toHertz)
    {
        var (hertz, raw) = (new double[Length / 2], new double[Length / 2]);
        for (var k = 1; k <= hertz.Length; k++)
            (hertz[k - 1], raw[k - 1]) = (k * Step, 10 * Math.Log10(Math.Max(Bins[k].Real * Bins[k].Real + Bins[k].Imaginary * Bins[k].Imaginary, 1e-60)));
        var smooth = OctaveSmoothing.Power(new FrequencyResponse(hertz, raw, null), 3).Decibels;
        var best = 0;
        for (var n = 1; n < smooth.Count; n++)
        {
            if (smooth[n] > smooth[best])
                best = n;
        }

        // The noise is uneven by some dB from bin to bin, so the band ends well above it; below, its share is taken off.
        var floor = noisePower > 0 ? 10 * Math.Log10(noisePower) + AboveNoiseDecibels : -300;
        var clean = new double[smooth.Count];
        for (var n = 0; n < clean.Length; n++)
        {
            var power = Math.Exp(smooth[n] * Math.Log(10) / 10);
            clean[n] = 10 * Math.Log10(Math.Max(power - noisePower, power / 10));
        }

        var (trustedFrom, trustedTo) = (best, best);
        while (trustedFrom > 0 && smooth[trustedFrom - 1] > floor)
            trustedFrom--;
        while (trustedTo < smooth.Count - 1 && smooth[trustedTo + 1] > floor)
            trustedTo++;
        // A band that was entered is all that is known: beyond it a sweep's own ends may shape the level, and not by minimum phase.
        if (fromHertz is { } low)
            trustedFrom = Math.Clamp((int)Math.Round(low / Step) - 1, trustedFrom, Math.Max(best, trustedFrom));
        if (toHertz is { } high)
            trustedTo = Math.Clamp((int)Math.Round(high / Step) - 1, Math.Min(best, trustedTo), trustedTo);
        var decibels = new double[Length / 2 + 1];
        raw.CopyTo(decibels, 1);
        Continue(decibels, clean, trustedFrom, trustedTo);
        (TrustedFrom, TrustedTo) = (trustedFrom + 1, trustedTo + 1);

        // What is timed is the part that carries the power.
        var (from, to) = (best, best);
        while (from > trustedFrom && smooth[from - 1] > smooth[best] - FallDecibels)
            from--;
        while (to < trustedTo && smooth[to + 1] > smooth[best] - FallDecibels)
            to++;
        if (fromHertz is { } lowest)
            from = Math.Clamp((int)Math.Round(lowest / Step) - 1, 0, smooth.Count - 3);
        if (toHertz is { } highest)
            to = Math.Clamp((int)Math.Round(highest / Step) - 1, from + 2, smooth.Count - 1);
        return (from + 1, Math.Max(to + 1, from + 3), decibels);
    }

    // Downwards over log frequency; upwards over tan(πf/fs), which takes a slope of an analog system to infinity, as the bilinear transform does.
    private static void Continue(double[] decibels, double[] smooth, int from, int to)
    {
        var below = Math.Clamp(Slope(smooth, from, Math.Min(2 * from + 1, to)), 0, SteepestDecibelsAnOctave);
        var low = smooth[from] - Lifted(below);
        for (var n = 0; n < from; n++)
            decibels[n + 1] = low + below * Math.Log2((n + 1.0) / (from + 1));
        // The mean of a log slope over the bin at 0 Hz: log2(1/2) − 1/ln 2 octaves from the first.
        decibels[0] = decibels[1] + below * (-1 - 1 / Math.Log(2));
        var above = Math.Clamp(Slope(smooth, Math.Max(to / 2, from), to), -SteepestDecibelsAnOctave, 0);
        var high = smooth[to] - Lifted(above);
        double Warped(int n) => Math.Tan(0.5 * Math.PI * Math.Min(n + 1.0, smooth.Length - 0.18) / smooth.Length);
        for (var n = to + 1; n < smooth.Length; n++)
            decibels[n + 1] = high + above * Math.Log2(Warped(n) / Warped(to));
    }

    // What the mean power over a third of an octave shows too much of a slope: sinh(a)/a.
    private static double Lifted(double slope)
    {
        var a = Math.Abs(slope) / (20 * Math.Log10(2)) * 2 * 0.5 * Math.Log(OctaveBands.Octave) / 3;
        return a < 1e-6 ? 0 : 10 * Math.Log10(Math.Sinh(a) / a);
    }

    // dB an octave by least squares; every bin counts by the share of an octave it covers.
    private static double Slope(double[] smooth, int from, int to)
    {
        double w = 0, wx = 0, wy = 0, wxx = 0, wxy = 0;
        for (var n = from; n <= to; n++)
        {
            var (weight, octave) = (1.0 / (n + 1), Math.Log2(n + 1));
            (w, wx, wy, wxx, wxy) = (w + weight, wx + weight * octave, wy + weight * smooth[n], wxx + weight * octave * octave, wxy + weight * octave * smooth[n]);
        }

        var spread = w * wxx - wx * wx;
        return spread > 1e-12 ? (w * wxy - wx * wy) / spread : 0;
    }
}
