using System.Numerics;
using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Numerics;

namespace ShopFloor.Engineering.Tuning.Measurements;

/// <summary>How much faster the clock that records runs than the one that plays.</summary>
/// <remarks>
/// A sweep that comes out longer by the share e arrives later by e·t at the time t, so a low and a high piece of the sweep arrive apart by e times the time between them. Each piece's
/// arrival is the peak of the envelope of its correlation with the sweep as computed, between samples by a parabola; what a longer sweep moves all envelopes by drops out.
/// </remarks>
public static class ClockDrift
{
    private const double PieceSeconds = 0.4;
    private const int Reach = 4;

    /// <summary>Largest difference that is looked for, parts in a million.</summary>
    public const double MostPartsPerMillion = 2_000;

    /// <summary>Difference in parts in a million: above 0 when the recording is longer than what was played.</summary>
    /// <param name="sweep">The sweep as computed, 1 s or longer.</param>
    /// <param name="loopback">The electrical loopback, recorded with the sweep somewhere in it.</param>
    /// <returns>Null when the sweep is shorter than 1 s or not found in the loopback.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The sweep has a problem.</exception>
    public static double? PartsPerMillion(ExponentialSweep sweep, double[] loopback)
    {
        ArgumentNullException.ThrowIfNull(sweep);
        ArgumentNullException.ThrowIfNull(loopback);
        InputChecks.ThrowIfAny(sweep.Validate());
        if (sweep.Seconds < 1 || loopback.Length < sweep.Length)
            return null;
        var (played, rate) = (sweep.Samples(), sweep.SampleRateHertz);
        var piece = (int)(PieceSeconds * rate);
        // Early and late enough to be apart, away from the fades, high enough to have a sharp peak.
        var (first, last) = ((int)(0.5 * played.Length), (int)(0.9 * played.Length) - piece);
        return Arrival(first) is { } early && Arrival(last) is { } late && Math.Abs(late - early) <= MostPartsPerMillion * 1e-6 * (last - first) + 1
            ? (late - early) / (last - first) * 1e6
            : null;

        double[] Piece(int from) => played.AsSpan(from, piece).ToArray();

        double? Arrival(int from)
        {
            var length = Fft.LengthFor((long)loopback.Length + piece);
            var (x, y) = (Fft.OfReal(Piece(from), length), Fft.OfReal(loopback, length));
            for (var k = 0; k < y.Length; k++)
                y[k] *= Complex.Conjugate(x[k]);
            var real = Fft.ToReal(y);
            for (var k = 0; k < y.Length; k++)
                y[k] *= -Complex.ImaginaryOne;
            double[] whole = [.. real.Zip(Fft.ToReal(y), (one, turned) => Math.Sqrt(one * one + turned * turned))];
            var peak = 0;
            for (var n = 1; n < whole.Length; n++)
            {
                if (whole[n] > whole[peak])
                    peak = n;
            }

            var own = played.AsSpan(from, piece);
            double energy = 0, heard = 0;
            foreach (var sample in own)
                energy += sample * sample;
            for (var n = Math.Max(peak, 0); n < Math.Min(peak + piece, loopback.Length); n++)
                heard += loopback[n] * loopback[n];
            // A tenth of a perfect likeness is no sweep.
            if (heard <= 0 || whole[peak] < 0.1 * Math.Sqrt(energy * heard))
                return null;
            return Finer(whole, peak) - from;
        }
    }

    // The peak of the parabola through the samples a few places apart: an envelope is wide and round.
    private static double Finer(double[] samples, int peak)
    {
        double At(int n) => samples[(n % samples.Length + samples.Length) % samples.Length];
        var (before, at, after) = (At(peak - Reach), At(peak), At(peak + Reach));
        var bend = before - 2 * at + after;
        return bend >= 0 ? peak : peak + 0.5 * (before - after) / bend * Reach;
    }
}
