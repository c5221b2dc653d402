using System.Numerics;

namespace ShopFloor.Engineering.Numerics;

/// <summary>Discrete Fourier transform of lengths that are powers of two (Cooley and Tukey, Math. Comp. 19, 1965).</summary>
/// <remarks>X[k] = Σ x[n]·e^(−2πi·kn/N); the inverse divides by N. Twiddle factors are taken from sine and cosine, not by recursion, so the error grows as log N.</remarks>
public static class Fft
{
    /// <summary>Longest transform.</summary>
    public const int MostLength = 1 << 24;

    /// <summary>The least power of two that is not below a length.</summary>
    /// <param name="length">Wanted length, 1 to <see cref="MostLength"/>.</param>
    /// <exception cref="ArgumentOutOfRangeException">The length is outside its range.</exception>
    public static int LengthFor(long length)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(length, 1);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(length, MostLength);
        return (int)BitOperations.RoundUpToPowerOf2((uint)length);
    }

    /// <summary>Transforms in place.</summary>
    /// <param name="data">The samples; their number is a power of two.</param>
    /// <exception cref="ArgumentException">The number is no power of two.</exception>
    public static void Forward(Complex[] data)
    {
        ArgumentNullException.ThrowIfNull(data);
        if (data.Length == 0 || !BitOperations.IsPow2(data.Length))
            throw new ArgumentException($"The length is {data.Length}; a power of two is needed.", nameof(data));
        Reorder(data);
        var factors = Factors(data.Length);
        Combine(data, factors);
    }

    /// <summary>Transforms back in place.</summary>
    /// <param name="data">The spectrum; its length is a power of two.</param>
    /// <exception cref="ArgumentException">The number is no power of two.</exception>
    public static void Inverse(Complex[] data)
    {
        ArgumentNullException.ThrowIfNull(data);
        for (var n = 0; n < data.Length; n++)
            data[n] = Complex.Conjugate(data[n]);
        Forward(data);
        var scale = 1.0 / data.Length;
        for (var n = 0; n < data.Length; n++)
            data[n] = new Complex(data[n].Real * scale, -data[n].Imaginary * scale);
    }

    /// <summary>Spectrum of real samples, filled up with zeros: bins 0 to N/2.</summary>
    /// <param name="samples">The samples.</param>
    /// <param name="length">Length of the transform N, a power of two from 2, not below the number of samples.</param>
    /// <exception cref="ArgumentException">The length is no power of two from 2, or below the number of samples.</exception>
    public static Complex[] OfReal(ReadOnlySpan<double> samples, int length)
    {
        if (length < 2 || !BitOperations.IsPow2(length) || length < samples.Length)
            throw new ArgumentException($"The length is {length} for {samples.Length} samples; a power of two not below is needed.", nameof(length));
        // Even and odd samples as real and imaginary part of one transform of half the length, taken apart after it.
        var half = length / 2;
        var packed = new Complex[half];
        for (var n = 0; n < half && 2 * n < samples.Length; n++)
            packed[n] = new Complex(samples[2 * n], 2 * n + 1 < samples.Length ? samples[2 * n + 1] : 0);
        Forward(packed);
        var spectrum = new Complex[half + 1];
        for (var k = 0; k <= half; k++)
        {
            var (a, b) = (packed[k % half], Complex.Conjugate(packed[(half - k) % half]));
            var (sin, cos) = Math.SinCos(-2 * Math.PI * k / length);
            spectrum[k] = 0.5 * (a + b) + new Complex(cos, sin) * (a - b) * new Complex(0, -0.5);
        }

        return spectrum;
    }

    /// <summary>Real samples of a spectrum of bins 0 to N/2: the inverse of <see cref="OfReal"/>.</summary>
    /// <param name="spectrum">The bins; one more than a power of two.</param>
    /// <exception cref="ArgumentException">The number of bins is not one more than a power of two.</exception>
    public static double[] ToReal(Complex[] spectrum)
    {
        ArgumentNullException.ThrowIfNull(spectrum);
        var half = spectrum.Length - 1;
        if (half < 1 || !BitOperations.IsPow2(half))
            throw new ArgumentException($"{spectrum.Length} bins were given; one more than a power of two is needed.", nameof(spectrum));
        var packed = new Complex[half];
        for (var k = 0; k < half; k++)
        {
            var (a, b) = (spectrum[k], Complex.Conjugate(spectrum[half - k]));
            var (sin, cos) = Math.SinCos(Math.PI * k / half);
            packed[k] = 0.5 * (a + b) + new Complex(cos, sin) * (a - b) * new Complex(0, 0.5);
        }

        Inverse(packed);
        var samples = new double[2 * half];
        for (var n = 0; n < half; n++)
            (samples[2 * n], samples[2 * n + 1]) = (packed[n].Real, packed[n].Imaginary);
        return samples;
    }

    private static void Reorder(Complex[] data)
    {
        for (int n = 1, mirrored = 0; n < data.Length; n++)
        {
            var bit = data.Length >> 1;
            for (; (mirrored & bit) != 0; bit >>= 1)
                mirrored ^= bit;
            mirrored ^= bit;
            if (n < mirrored)
                (data[n], data[mirrored]) = (data[mirrored], data[n]);
        }
    }

    // Factors of every stage one after the other, so that each stage reads them in a row: stage of size 2m at m.
    private static Complex[] Factors(int length)
    {
        var factors = new Complex[Math.Max(length, 2)];
        for (var m = length / 2; m >= 1; m /= 2)
        {
            for (var k = 0; k < m; k++)
            {
                if (2 * m < length)
                {
                    factors[m + k] = factors[2 * m + 2 * k];
                    continue;
                }

                var (sin, cos) = Math.SinCos(-Math.PI * k / m);
                factors[m + k] = new Complex(cos, sin);
            }
        }

        return factors;
    }

    private static void Combine(Complex[] data, Complex[] factors)
    {
        // Short blocks are finished before the next is begun, so that they stay in the cache.
        const int Block = 1 << 12;
        var block = Math.Min(Block, data.Length);
        for (var start = 0; start < data.Length; start += block)
        {
            for (var m = 1; m < block; m *= 2)
                Stage(data, factors, start, start + block, m);
        }

        for (var m = block; m < data.Length; m *= 2)
            Stage(data, factors, 0, data.Length, m);
    }

    private static void Stage(Complex[] data, Complex[] factors, int from, int to, int m)
    {
        for (var start = from; start < to; start += 2 * m)
        {
            for (var k = 0; k < m; k++)
            {
                var (low, high, factor) = (data[start + k], data[start + k + m], factors[m + k]);
                var turned = new Complex(high.Real * factor.Real - high.Imaginary * factor.Imaginary, high.Real * factor.Imaginary + high.Imaginary * factor.Real);
                data[start + k] = new Complex(low.Real + turned.Real, low.Imaginary + turned.Imaginary);
                data[start + k + m] = new Complex(low.Real - turned.Real, low.Imaginary - turned.Imaginary);
            }
        }
    }
}
