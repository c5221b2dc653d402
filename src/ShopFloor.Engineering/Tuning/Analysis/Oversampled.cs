using System.Numerics;
using ShopFloor.Engineering.Numerics;

namespace ShopFloor.Engineering.Tuning.Analysis;

/// <summary>A piece of samples between samples too: band-limited interpolation by zeros in the spectrum.</summary>
internal sealed record Oversampled(double[] Samples, int Start)
{
    public const int Factor = 16;

    private const int Edge = 32;

    /// <summary>A piece from a sample on; outside the samples there is silence.</summary>
    public static Oversampled Of(double[] samples, int from, int count)
    {
        var length = Fft.LengthFor(count + 2 * Edge);
        var piece = new double[length];
        for (var n = 0; n < count + 2 * Edge; n++)
        {
            var at = from - Edge + n;
            // Ends fade, or the step round the circle would ring into the piece.
            var share = Math.Min(1, Math.Min(n + 0.5, count + 2 * Edge - n - 0.5) / Edge);
            if (at >= 0 && at < samples.Length)
                piece[n] = samples[at] * (0.5 - 0.5 * Math.Cos(Math.PI * share));
        }

        var bins = Fft.OfReal(piece, length);
        bins[^1] *= 0.5;
        var wide = new Complex[length * Factor / 2 + 1];
        for (var k = 0; k < bins.Length; k++)
            wide[k] = bins[k] * Factor;
        var fine = Fft.ToReal(wide);
        return new Oversampled(fine[(Edge * Factor)..((Edge + count) * Factor)], from);
    }

    /// <summary>Index among the samples of a place in the piece.</summary>
    public double IndexOf(double fine) => Start + fine / Factor;

    /// <summary>Strongest place by its amount, with a parabola through its neighbours, in samples; and its value.</summary>
    public (double Index, double Value) Strongest()
    {
        var best = ImpulseWindow.Strongest(Samples);
        if (best == 0 || best == Samples.Length - 1)
            return (IndexOf(best), Samples[best]);
        var (a, b, c) = (Samples[best - 1], Samples[best], Samples[best + 1]);
        var bend = a - 2 * b + c;
        var part = bend == 0 ? 0 : Math.Clamp(0.5 * (a - c) / bend, -0.5, 0.5);
        return (IndexOf(best + part), b - 0.25 * (a - c) * part);
    }
}
