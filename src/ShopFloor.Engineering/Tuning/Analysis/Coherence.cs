using System.Numerics;
using ShopFloor.Engineering.Numerics;
using ShopFloor.Engineering.Responses;

namespace ShopFloor.Engineering.Tuning.Analysis;

/// <summary>How much of what is heard follows from what was played.</summary>
/// <param name="Hertz">Frequencies, Hz.</param>
/// <param name="Squared">γ² at each: 1 all of it, 0 nothing; noise, distortion and late echoes lower it.</param>
/// <param name="Pieces">Pieces averaged.</param>
/// <param name="Bias">What γ² shows of unrelated noise: 1 over the pieces.</param>
public sealed record CoherenceResult(IReadOnlyList<double> Hertz, IReadOnlyList<double> Squared, int Pieces, double Bias);

/// <summary>Coherence from repeated captures: γ² = |ΣX*Y|²/(Σ|X|²·Σ|Y|²) over all pieces of all captures (Bendat and Piersol, Random Data).</summary>
public static class Coherence
{
    /// <summary>Computes it, pieces with a periodic Hann window, half overlapping, without their mean.</summary>
    /// <param name="played">What was played, one for each capture.</param>
    /// <param name="heard">What was heard of each, as long as what was played.</param>
    /// <param name="sampleRateHertz">Sample rate, Hz, above 0.</param>
    /// <param name="pieceLength">Samples of a piece, a power of two from 16.</param>
    /// <exception cref="ArgumentException">The captures do not pair up, or are shorter than a piece, or there are fewer than two pieces.</exception>
    /// <exception cref="ArgumentOutOfRangeException">The sample rate is not above 0, or the piece is no power of two from 16.</exception>
    public static CoherenceResult Of(IReadOnlyList<double[]> played, IReadOnlyList<double[]> heard, int sampleRateHertz, int pieceLength = 4_096)
    {
        ArgumentNullException.ThrowIfNull(played);
        ArgumentNullException.ThrowIfNull(heard);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(sampleRateHertz);
        if (pieceLength < 16 || !BitOperations.IsPow2(pieceLength))
            throw new ArgumentOutOfRangeException(nameof(pieceLength), pieceLength, "Accepted is a power of two from 16.");
        if (played.Count == 0 || played.Count != heard.Count)
            throw new ArgumentException($"{played.Count} were played and {heard.Count} heard; one must be heard for each.", nameof(heard));
        var (cross, input, output, pieces) = (new Complex[pieceLength / 2 + 1], new double[pieceLength / 2 + 1], new double[pieceLength / 2 + 1], 0);
        for (var capture = 0; capture < played.Count; capture++)
        {
            if (played[capture].Length != heard[capture].Length || played[capture].Length < pieceLength)
                throw new ArgumentException($"Capture {capture + 1}: {played[capture].Length} samples were played and {heard[capture].Length} heard; both must be as long, and at least {pieceLength}.", nameof(heard));
            for (var start = 0; start + pieceLength <= played[capture].Length; start += pieceLength / 2)
            {
                var (x, y) = (Piece(played[capture], start, pieceLength), Piece(heard[capture], start, pieceLength));
                for (var k = 0; k < cross.Length; k++)
                {
                    cross[k] += Complex.Conjugate(x[k]) * y[k];
                    input[k] += x[k].Real * x[k].Real + x[k].Imaginary * x[k].Imaginary;
                    output[k] += y[k].Real * y[k].Real + y[k].Imaginary * y[k].Imaginary;
                }

                pieces++;
            }
        }

        if (pieces < 2)
            throw new ArgumentException("One piece alone always coheres with itself; give a longer capture or several.", nameof(heard));
        double[] hertz = [.. Enumerable.Range(1, pieceLength / 2).Select(k => (double)k * sampleRateHertz / pieceLength)];
        double[] squared = [.. Enumerable.Range(1, pieceLength / 2).Select(k => input[k] * output[k] is var both and > 0 ? (cross[k].Real * cross[k].Real + cross[k].Imaginary * cross[k].Imaginary) / both : 0)];
        return new CoherenceResult(hertz, squared, pieces, 1.0 / pieces);
    }

    /// <summary>
    /// Coherence from responses measured several times with the same signal: γ² = |ΣH|²/(n·Σ|H|²), what the definition gives with one piece for each repeat.
    /// </summary>
    /// <param name="repeats">Responses with phase on one clock, 2 to 200, without problems.</param>
    /// <exception cref="ArgumentException">Fewer than two or too many were given, one has no phase, or they share fewer than two frequencies.</exception>
    public static CoherenceResult OfRepeats(IReadOnlyList<FrequencyResponse> repeats)
    {
        ArgumentNullException.ThrowIfNull(repeats);
        if (repeats.Count is < 2 or > 200 || repeats.Any(one => one.PhaseRadians is null))
            throw new ArgumentException($"{repeats.Count(one => one.PhaseRadians is not null)} of {repeats.Count} responses have a phase; give 2 to 200 with phase.", nameof(repeats));
        double[] hertz = [.. repeats[0].Hertz.Where(one => repeats.All(repeat => repeat.Covers(one)))];
        if (hertz.Length < 2)
            throw new ArgumentException("The responses share fewer than two frequencies.", nameof(repeats));
        double[] squared = [.. hertz.Select(one =>
        {
            List<Complex> values = [.. repeats.Select(repeat => repeat.At(one))];
            var (sum, power) = (values.Aggregate(Complex.Zero, (all, value) => all + value), values.Sum(value => value.Real * value.Real + value.Imaginary * value.Imaginary));
            return power > 0 ? (sum.Real * sum.Real + sum.Imaginary * sum.Imaginary) / (repeats.Count * power) : 0;
        })];
        return new CoherenceResult(hertz, squared, repeats.Count, 1.0 / repeats.Count);
    }

    private static Complex[] Piece(double[] samples, int start, int length)
    {
        var piece = samples[start..(start + length)];
        var mean = piece.Average();
        for (var n = 0; n < length; n++)
            piece[n] = (piece[n] - mean) * (0.5 - 0.5 * Math.Cos(2 * Math.PI * n / length));
        return Fft.OfReal(piece, length);
    }
}
