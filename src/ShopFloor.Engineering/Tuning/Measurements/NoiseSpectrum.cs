using ShopFloor.Engineering.Numerics;
using ShopFloor.Engineering.Responses;
using ShopFloor.Engineering.Tuning.Analysis;

namespace ShopFloor.Engineering.Tuning.Measurements;

/// <summary>Power over frequency, averaged over pieces of a noise.</summary>
/// <param name="BinHertz">Width of a bin, Hz.</param>
/// <param name="PowerPerHertz">One-sided power density of each bin from 0 Hz, full scale² per Hz.</param>
/// <param name="Pieces">Pieces averaged.</param>
/// <param name="ErrorDecibels">One standard deviation of a bin, dB: 4.343/√Kₑ, Kₑ counting overlapping pieces as fewer.</param>
public sealed record NoiseSpectrum(double BinHertz, double[] PowerPerHertz, int Pieces, double ErrorDecibels)
{
    // Squared correlation of neighbouring Hann windows at half overlap (Welch 1967).
    private const double Neighbour = 1.0 / 36;

    /// <summary>Averaged periodograms with a periodic Hann window, half overlapping, each piece without its mean (Welch, IEEE Trans. AU-15, 1967).</summary>
    /// <param name="samples">The noise, at least one piece.</param>
    /// <param name="sampleRateHertz">Sample rate, Hz, above 0.</param>
    /// <param name="pieceLength">Samples of a piece, a power of two from 16.</param>
    /// <exception cref="ArgumentOutOfRangeException">The sample rate is not above 0, or the piece is no power of two from 16.</exception>
    /// <exception cref="ArgumentException">The noise is shorter than a piece.</exception>
    public static NoiseSpectrum Of(ReadOnlySpan<double> samples, int sampleRateHertz, int pieceLength = 16_384)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(sampleRateHertz);
        if (pieceLength < 16 || !System.Numerics.BitOperations.IsPow2(pieceLength))
            throw new ArgumentOutOfRangeException(nameof(pieceLength), pieceLength, "Accepted is a power of two from 16.");
        if (samples.Length < pieceLength)
            throw new ArgumentException($"The noise has {samples.Length} samples; a piece takes {pieceLength}.", nameof(samples));
        var window = new double[pieceLength];
        for (var n = 0; n < pieceLength; n++)
            window[n] = 0.5 - 0.5 * Math.Cos(2 * Math.PI * n / pieceLength);
        var scale = 1 / (sampleRateHertz * window.Sum(one => one * one));

        var (power, pieces, piece) = (new double[pieceLength / 2 + 1], 0, new double[pieceLength]);
        for (var start = 0; start + pieceLength <= samples.Length; start += pieceLength / 2)
        {
            var mean = 0.0;
            foreach (var sample in samples.Slice(start, pieceLength))
                mean += sample / pieceLength;
            for (var n = 0; n < pieceLength; n++)
                piece[n] = (samples[start + n] - mean) * window[n];
            var spectrum = Fft.OfReal(piece, pieceLength);
            for (var k = 0; k < power.Length; k++)
                power[k] += spectrum[k].Real * spectrum[k].Real + spectrum[k].Imaginary * spectrum[k].Imaginary;
            pieces++;
        }

        for (var k = 0; k < power.Length; k++)
            power[k] *= scale / pieces * (k == 0 || k == power.Length - 1 ? 1 : 2);
        var independent = pieces / (1 + 2 * Neighbour * (pieces - 1) / pieces);
        return new NoiseSpectrum((double)sampleRateHertz / pieceLength, power, pieces, 10 / Math.Log(10) / Math.Sqrt(independent));
    }

    /// <summary>Level in bands of a fraction of an octave, dB against full scale²: flat for pink noise. Bands narrower than two bins are left out.</summary>
    /// <param name="fraction">1 for octaves, 3 for third octaves, to 96.</param>
    /// <param name="fromHertz">Lowest middle, Hz.</param>
    /// <param name="toHertz">Highest middle, Hz.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is outside its range, or no two bands are wide enough.</exception>
    public FrequencyResponse Bands(int fraction, double fromHertz = 20, double toHertz = 20_000)
    {
        var bands = OctaveBands.Between(fraction, fromHertz, toHertz)
            .Where(band => band.UpperHertz - band.LowerHertz >= 2 * BinHertz && band.UpperHertz <= BinHertz * (PowerPerHertz.Length - 1)).ToList();
        if (bands.Count < 2)
            throw new ArgumentOutOfRangeException(nameof(fraction), fraction, $"No two bands between {fromHertz} and {toHertz} Hz are at least two bins of {BinHertz:0.###} Hz wide.");
        return new FrequencyResponse([.. bands.Select(band => band.MiddleHertz)], [.. bands.Select(band => 10 * Math.Log10(Math.Max(PowerIn(band.LowerHertz, band.UpperHertz), 1e-30)))], null);
    }

    // Each bin counts by the share of it that lies within.
    private double PowerIn(double lower, double upper)
    {
        var sum = 0.0;
        for (var k = (int)Math.Floor(lower / BinHertz); k <= (int)Math.Ceiling(upper / BinHertz) && k < PowerPerHertz.Length; k++)
        {
            var (from, to) = (Math.Max((k - 0.5) * BinHertz, lower), Math.Min((k + 0.5) * BinHertz, upper));
            sum += PowerPerHertz[k] * Math.Max(to - from, 0);
        }

        return sum;
    }
}
