using System.Numerics;

namespace ShopFloor.Engineering.Tuning.Filters;

/// <summary>Frequencies at a sample rate with all that filters need of them, so that a chain is evaluated in a few multiplications per point.</summary>
public sealed class FrequencyGrid
{
    private readonly double[] _hertz;
    private readonly double[] _cos;
    private readonly double[] _sin;
    private readonly double[] _cosTwice;
    private readonly double[] _sinTwice;

    /// <summary>From any rising frequencies.</summary>
    /// <param name="hertz">Frequencies, Hz, above 0 and below half the sample rate.</param>
    /// <param name="sampleRateHertz">Sample rate, Hz.</param>
    /// <exception cref="ArgumentOutOfRangeException">A frequency is not below half the sample rate, or not above 0.</exception>
    public FrequencyGrid(IReadOnlyList<double> hertz, double sampleRateHertz)
    {
        ArgumentNullException.ThrowIfNull(hertz);
        if (hertz.Any(f => !(f > 0 && f < sampleRateHertz / 2)))
            throw new ArgumentOutOfRangeException(nameof(hertz), "Every frequency must be above 0 and below half the sample rate.");
        SampleRateHertz = sampleRateHertz;
        _hertz = [.. hertz];
        double[] w = [.. hertz.Select(f => 2 * Math.PI * f / sampleRateHertz)];
        _cos = [.. w.Select(Math.Cos)];
        _sin = [.. w.Select(Math.Sin)];
        _cosTwice = [.. w.Select(x => Math.Cos(2 * x))];
        _sinTwice = [.. w.Select(x => Math.Sin(2 * x))];
        TanHalf = [.. w.Select(x => Math.Tan(x / 2))];
    }

    /// <summary>Frequencies at equal ratios, both ends counted.</summary>
    /// <param name="fromHertz">Lowest, Hz.</param>
    /// <param name="toHertz">Highest, Hz.</param>
    /// <param name="points">How many, at least 2.</param>
    /// <param name="sampleRateHertz">Sample rate, Hz.</param>
    public static FrequencyGrid LogSpaced(double fromHertz, double toHertz, int points, double sampleRateHertz) =>
        new([.. Enumerable.Range(0, points).Select(n => n == points - 1 ? toHertz : fromHertz * Math.Pow(toHertz / fromHertz, n / (points - 1.0)))], sampleRateHertz);

    /// <summary>The frequencies, Hz.</summary>
    public IReadOnlyList<double> Hertz => _hertz;

    /// <summary>Sample rate, Hz.</summary>
    public double SampleRateHertz { get; }

    /// <summary>tan(w/2) of each frequency: the analogue frequency the bilinear transform takes it from.</summary>
    internal double[] TanHalf { get; }

    /// <summary>The complex response of sections one after the other.</summary>
    /// <param name="sections">Sections.</param>
    public Complex[] Response(IEnumerable<Biquad> sections)
    {
        ArgumentNullException.ThrowIfNull(sections);
        var (real, imaginary) = (new double[_hertz.Length], new double[_hertz.Length]);
        Array.Fill(real, 1);
        foreach (var section in sections)
            Multiply(section, real, imaginary);
        var response = new Complex[_hertz.Length];
        for (var i = 0; i < response.Length; i++)
            response[i] = new Complex(real[i], imaginary[i]);
        return response;
    }

    /// <summary>Multiplies a response by a section's, several points at a time.</summary>
    /// <param name="section">The section.</param>
    /// <param name="real">Real parts, one per frequency; changed.</param>
    /// <param name="imaginary">Imaginary parts, one per frequency; changed.</param>
    public void Multiply(Biquad section, Span<double> real, Span<double> imaginary)
    {
        ArgumentOutOfRangeException.ThrowIfNotEqual(real.Length, _hertz.Length);
        ArgumentOutOfRangeException.ThrowIfNotEqual(imaginary.Length, _hertz.Length);
        var (b0, b1, b2, a1, a2) = section;
        var width = Vector<double>.Count;
        var i = 0;
        for (; i <= _hertz.Length - width; i += width)
        {
            Vector<double> c = new(_cos, i), s = new(_sin, i), cc = new(_cosTwice, i), ss = new(_sinTwice, i);
            var upper = new Vector<double>(b0) + b1 * c + b2 * cc;
            var upperImaginary = -(b1 * s + b2 * ss);
            var lower = Vector<double>.One + a1 * c + a2 * cc;
            var lowerImaginary = -(a1 * s + a2 * ss);
            var scale = Vector<double>.One / (lower * lower + lowerImaginary * lowerImaginary);
            var x = (upper * lower + upperImaginary * lowerImaginary) * scale;
            var y = (upperImaginary * lower - upper * lowerImaginary) * scale;
            Vector<double> re = new(real[i..]), im = new(imaginary[i..]);
            (re * x - im * y).CopyTo(real[i..]);
            (re * y + im * x).CopyTo(imaginary[i..]);
        }

        for (; i < _hertz.Length; i++)
        {
            var upper = new Complex(b0 + b1 * _cos[i] + b2 * _cosTwice[i], -(b1 * _sin[i] + b2 * _sinTwice[i]));
            var lower = new Complex(1 + a1 * _cos[i] + a2 * _cosTwice[i], -(a1 * _sin[i] + a2 * _sinTwice[i]));
            var product = new Complex(real[i], imaginary[i]) * (upper / lower);
            (real[i], imaginary[i]) = (product.Real, product.Imaginary);
        }
    }
}
