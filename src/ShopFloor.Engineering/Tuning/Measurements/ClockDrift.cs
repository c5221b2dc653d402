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
        // Where the first piece comes is not known; where the other must come then is, so the search for it is short.
        var near = (int)(MostPartsPerMillion * 1e-6 * (last - first)) + 64;
        return Arrival(first, 0, loopback.Length) is { } early && (int)Math.Round(early) is var lag && Arrival(last, last + lag - near, piece + 2 * near) is { } late && Math.Abs(late - early) <= MostPartsPerMillion * 1e-6 * (last - first) + 1
            ? (late - early) / (last - first) * 1e6
            : null;

        double[] Piece(int from) => played.AsSpan(from, piece).ToArray();

        // How much later than played the piece that begins at a sample comes, within so many samples of the loopback.
        double? Arrival(int from, int searched, int count)
        {
            var (begin, end) = (Math.Clamp(searched, 0, loopback.Length), (int)Math.Clamp((long)searched + count, 0, loopback.Length));
            if (end - begin < piece / 2)
                return null;
            var heardThere = loopback.AsSpan(begin, end - begin);
            var length = Fft.LengthFor((long)heardThere.Length + piece);
            var (x, y) = (Fft.OfReal(Piece(from), length), Fft.OfReal(heardThere, length));
            // Positive frequencies alone: the amount of what comes back is the envelope (Gabor 1946).
            var both = new Complex[length];
            for (var k = 1; k < y.Length - 1; k++)
                both[k] = 2 * y[k] * Complex.Conjugate(x[k]);
            Fft.Inverse(both);
            var (whole, peak) = (new double[length], 0);
            for (var n = 0; n < length; n++)
            {
                whole[n] = Math.Sqrt(both[n].Real * both[n].Real + both[n].Imaginary * both[n].Imaginary);
                if (whole[n] > whole[peak])
                    peak = n;
            }

            var own = played.AsSpan(from, piece);
            double energy = 0, heard = 0;
            foreach (var sample in own)
                energy += sample * sample;
            for (var n = peak; n < Math.Min(peak + piece, heardThere.Length); n++)
                heard += heardThere[n] * heardThere[n];
            // A tenth of a perfect likeness is no sweep.
            if (heard <= 0 || whole[peak] < 0.1 * Math.Sqrt(energy * heard))
                return null;
            return Finer(whole, peak) + begin - from;
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
