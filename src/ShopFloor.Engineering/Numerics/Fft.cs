using System.Numerics;
using System.Runtime.CompilerServices;

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
        Transform(data);
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
        var spectrum = new Complex[half + 1];
        for (var n = 0; n < half && 2 * n < samples.Length; n++)
            spectrum[n] = new Complex(samples[2 * n], 2 * n + 1 < samples.Length ? samples[2 * n + 1] : 0);
        Transform(spectrum.AsSpan(0, half));
        Part(spectrum, FftFactors.Of(half), false);
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
        var packed = spectrum.AsSpan().ToArray();
        Part(packed, FftFactors.Of(half), true);
        // Conjugated by Part, a transform forward is one back.
        Transform(packed.AsSpan(0, half));
        var (samples, scale) = (new double[2 * half], 1.0 / half);
        for (var n = 0; n < half; n++)
            (samples[2 * n], samples[2 * n + 1]) = (packed[n].Real * scale, -packed[n].Imaginary * scale);
        return samples;
    }

    private static void Transform(Span<Complex> data)
    {
        Reorder(data);
        FftStages.Combine(data);
    }

    // Takes the spectra of even and odd samples apart, or puts them together conjugated; bins k and half − k make each other.
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static void Part(Complex[] bins, Complex[] factors, bool back)
    {
        var half = bins.Length - 1;
        if (back)
            bins[0] = new Complex(0.5 * (bins[0].Real + bins[half].Real - bins[0].Imaginary - bins[half].Imaginary), -0.5 * (bins[0].Imaginary - bins[half].Imaginary + bins[0].Real - bins[half].Real));
        else
            (bins[0], bins[half]) = (new Complex(bins[0].Real + bins[0].Imaginary, 0), new Complex(bins[0].Real - bins[0].Imaginary, 0));
        for (var k = 1; k <= half / 2; k++)
        {
            var (low, high, factor) = (bins[k], bins[half - k], factors[k]);
            var (evenReal, evenImaginary) = (0.5 * (low.Real + high.Real), 0.5 * (low.Imaginary - high.Imaginary));
            var (oddReal, oddImaginary) = (0.5 * (low.Real - high.Real), 0.5 * (low.Imaginary + high.Imaginary));
            if (back)
            {
                // odd · conj(factor) · i
                var (real, imaginary) = (oddReal * factor.Real + oddImaginary * factor.Imaginary, oddImaginary * factor.Real - oddReal * factor.Imaginary);
                bins[k] = new Complex(evenReal - imaginary, -(evenImaginary + real));
                bins[half - k] = new Complex(evenReal + imaginary, evenImaginary - real);
            }
            else
            {
                // odd · factor · −i
                var (real, imaginary) = (oddReal * factor.Real - oddImaginary * factor.Imaginary, oddImaginary * factor.Real + oddReal * factor.Imaginary);
                bins[k] = new Complex(evenReal + imaginary, evenImaginary - real);
                bins[half - k] = new Complex(evenReal - imaginary, -(evenImaginary + real));
            }
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static void Reorder(Span<Complex> data)
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
}
