using System.Numerics;
using ShopFloor.Engineering.Numerics;
using ShopFloor.Engineering.Responses;

namespace ShopFloor.Engineering.Tuning.Measurements;

/// <summary>A response that goes round: what lies before time 0 stands at its end.</summary>
/// <param name="Samples">One round.</param>
/// <param name="Zero">Index of time 0.</param>
internal sealed record CircularResponse(double[] Samples, int Zero)
{
    public int Length => Samples.Length;

    /// <summary>Samples from a time on, counted in samples from time 0.</summary>
    public double[] Slice(int from, int count)
    {
        var slice = new double[count];
        for (var n = 0; n < count; n++)
            slice[n] = Samples[(int)((((long)Zero + from + n) % Length + Length) % Length)];
        return slice;
    }
}

/// <summary>Cuts the harmonics out of a response by the time each comes before the linear one.</summary>
internal static class HarmonicSeparation
{
    // Shares of the gaps to the neighbours that a window takes before and after a peak; the faded edge is a fifth of the shorter.
    private const double ShareBefore = 0.2;
    private const double ShareAfter = 0.8;
    private const int PointsAnOctave = 24;

    /// <summary>Strongest place of the envelope, samples from time 0 with parts of one, and its height.</summary>
    public static (double Index, double Height) Peak(CircularResponse whole, int around, int after, int before)
    {
        // The envelope of a piece is wrong at its ends, so the piece is wider than where it is searched.
        var margin = Math.Max(64, (after + before) / 4);
        var envelope = Envelope(whole.Slice(around - before - margin, before + after + 2 * margin));
        var best = margin;
        for (var n = margin; n < margin + before + after; n++)
        {
            if (envelope[n] > envelope[best])
                best = n;
        }

        var (a, b, c) = (envelope[best - 1], envelope[best], envelope[best + 1]);
        var bend = a - 2 * b + c;
        var part = bend < 0 ? Math.Clamp(0.5 * (a - c) / bend, -0.5, 0.5) : 0;
        return (around - before - margin + best + part, b - 0.25 * (a - c) * part);
    }

    public static IReadOnlyList<HarmonicResponse> Separate(CircularResponse whole, ExponentialSweep sweep, double linear, int highest)
    {
        var rate = sweep.SampleRateHertz;
        var harmonics = new List<HarmonicResponse>();
        if (highest < 2)
            return harmonics;
        var gapAfterLinear = sweep.HarmonicLeadSeconds(2) * rate;
        var main = Cut(whole, linear, gapAfterLinear * ShareBefore, gapAfterLinear * ShareAfter);
        var linearPeak = Peak(whole, (int)Math.Round(linear), 64, 64).Height;
        for (var order = 2; order <= highest; order++)
        {
            var lead = sweep.HarmonicLeadSeconds(order) * rate;
            var gapBefore = sweep.HarmonicLeadSeconds(order + 1) * rate - lead;
            var gapAfter = lead - sweep.HarmonicLeadSeconds(order - 1) * rate;
            if (gapBefore * ShareBefore < 16 || lead > sweep.Length || order * sweep.FromHertz * 1.2 > sweep.ToHertz)
                break;
            var around = linear - lead;
            var reach = (int)Math.Min(0.002 * rate, gapBefore * ShareBefore);
            var (index, height) = Peak(whole, (int)Math.Round(around), reach, reach);
            var piece = Cut(whole, around, gapBefore * ShareBefore, gapAfter * ShareAfter);
            harmonics.Add(new HarmonicResponse(order, (linear - index) / rate, lead / rate, 20 * Math.Log10(Math.Max(height / linearPeak, 1e-15)), Relative(main, piece, sweep, order)));
        }

        return harmonics;
    }

    private static double[] Cut(CircularResponse whole, double around, double before, double after)
    {
        var (ahead, behind) = ((int)before, (int)after);
        var piece = whole.Slice((int)Math.Round(around) - ahead, ahead + behind);
        var edge = Math.Max(Math.Min(ahead, behind) / 5, 1);
        for (var n = 0; n < edge; n++)
        {
            var share = 0.5 - 0.5 * Math.Cos(Math.PI * (n + 0.5) / edge);
            piece[n] *= share;
            piece[^(n + 1)] *= share;
        }

        return piece;
    }

    private static FrequencyResponse Relative(double[] main, double[] piece, ExponentialSweep sweep, int order)
    {
        var length = Fft.LengthFor(2L * Math.Max(main.Length, piece.Length));
        var (linear, harmonic) = (Fft.OfReal(main, length), Fft.OfReal(piece, length));
        var bin = (double)sweep.SampleRateHertz / length;
        var count = (int)Math.Floor(PointsAnOctave * Math.Log2(sweep.ToHertz / order / sweep.FromHertz)) + 1;
        double[] hertz = [.. Enumerable.Range(0, count).Select(n => sweep.FromHertz * Math.Pow(2, (double)n / PointsAnOctave))];
        double[] decibels = [.. hertz.Select(one => 10 * Math.Log10(Math.Max(Mean(harmonic, one * order / bin) / Math.Max(Mean(linear, one / bin), 1e-300), 1e-30)))];
        return new FrequencyResponse(hertz, decibels, null);
    }

    // Mean power over the width of a point, so that a single notch between bins does not decide.
    private static double Mean(Complex[] spectrum, double at)
    {
        var half = Math.Pow(2, 0.5 / PointsAnOctave);
        var (from, to) = ((int)Math.Floor(at / half), (int)Math.Ceiling(at * half));
        var sum = 0.0;
        for (var k = from; k <= to; k++)
            sum += Math.Pow(spectrum[Math.Clamp(k, 0, spectrum.Length - 1)].Magnitude, 2);
        return sum / (to - from + 1);
    }

    // Magnitude of the analytic signal: negative frequencies left out (Gabor 1946).
    private static double[] Envelope(double[] piece)
    {
        var length = Fft.LengthFor(piece.Length);
        var data = new Complex[length];
        for (var n = 0; n < piece.Length; n++)
            data[n] = piece[n];
        Fft.Forward(data);
        for (var k = 1; k < length / 2; k++)
            data[k] *= 2;
        for (var k = length / 2 + 1; k < length; k++)
            data[k] = 0;
        Fft.Inverse(data);
        return [.. data.Take(piece.Length).Select(value => value.Magnitude)];
    }
}
