using System.Numerics;
using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Numerics;
using ShopFloor.Engineering.Responses;

namespace ShopFloor.Engineering.Tuning.Analysis;

/// <summary>From a response over time to one over frequency.</summary>
public static class ImpulseSpectrum
{
    /// <summary>Longest time a piece at one frequency may take, s.</summary>
    private const double LongestPieceSeconds = 10;

    /// <summary>Level and unwrapped phase at the transform's frequencies above 0. The time of the first sample is in the phase.</summary>
    /// <param name="response">The response, without problems.</param>
    /// <param name="leastLength">The transform has at least so many samples, filled up with zeros.</param>
    /// <exception cref="ArgumentOutOfRangeException">The response has a problem; the parameter name is the field.</exception>
    public static FrequencyResponse Of(ImpulseResponse response, int leastLength = 4_096)
    {
        ArgumentNullException.ThrowIfNull(response);
        InputChecks.ThrowIfAny(response.Validate());
        var length = Fft.LengthFor(Math.Max(response.Samples.Length, leastLength));
        var bins = Fft.OfReal(response.Samples, length);
        var step = (double)response.SampleRateHertz / length;
        var (hertz, decibels, phases) = (new double[length / 2], new double[length / 2], new double[length / 2]);
        // Turned by the strongest sample's time, the phase runs slowly and is unwrapped safely.
        var delay = ImpulseWindow.Strongest(response.Samples);
        var before = 0.0;
        for (var k = 1; k <= length / 2; k++)
        {
            hertz[k - 1] = k * step;
            decibels[k - 1] = 20 * Math.Log10(Math.Max(bins[k].Magnitude, 1e-30));
            var turn = 2 * Math.PI * k * delay / length;
            var slow = (bins[k] * Complex.FromPolarCoordinates(1, turn % (2 * Math.PI))).Phase;
            before = k == 1 ? slow : before + Math.IEEERemainder(slow - before, 2 * Math.PI);
            phases[k - 1] = before - turn - 2 * Math.PI * k * step * response.StartSeconds;
        }

        return new FrequencyResponse(hertz, decibels, phases);
    }

    /// <summary>Group delay at the transform's frequencies above 0, s: Re(F{t·h}/F{h}), without differences of phases (Oppenheim and Schafer, Discrete-Time Signal Processing).</summary>
    /// <param name="response">The response, without problems.</param>
    /// <param name="leastLength">The transform has at least so many samples.</param>
    /// <exception cref="ArgumentOutOfRangeException">The response has a problem; the parameter name is the field.</exception>
    public static (double[] Hertz, double[] Seconds) GroupDelay(ImpulseResponse response, int leastLength = 4_096)
    {
        ArgumentNullException.ThrowIfNull(response);
        InputChecks.ThrowIfAny(response.Validate());
        var length = Fft.LengthFor(Math.Max(response.Samples.Length, leastLength));
        double[] weighted = [.. response.Samples.Select((sample, n) => sample * n)];
        var (plain, moment) = (Fft.OfReal(response.Samples, length), Fft.OfReal(weighted, length));
        var (hertz, seconds) = (new double[length / 2], new double[length / 2]);
        for (var k = 1; k <= length / 2; k++)
        {
            hertz[k - 1] = (double)k * response.SampleRateHertz / length;
            var power = plain[k].Real * plain[k].Real + plain[k].Imaginary * plain[k].Imaginary;
            seconds[k - 1] = response.StartSeconds + (power > 0 ? (moment[k] * Complex.Conjugate(plain[k])).Real / power / response.SampleRateHertz : 0);
        }

        return (hertz, seconds);
    }

    /// <summary>Each frequency through a Hann window of so many of its periods around a time, so that high frequencies see the direct sound and low ones the cabin.</summary>
    /// <remarks>Common practice, no source; the transform at one frequency is its defining sum.</remarks>
    /// <param name="response">The response, without problems.</param>
    /// <param name="hertz">Frequencies, Hz, rising, above 0.</param>
    /// <param name="periods">Full width of the window in periods, 1 to 500.</param>
    /// <param name="referenceSeconds">Middle of the windows, s; null for the strongest sample.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is outside its range.</exception>
    public static FrequencyResponse WindowedByPeriods(ImpulseResponse response, IReadOnlyList<double> hertz, double periods, double? referenceSeconds = null)
    {
        ArgumentNullException.ThrowIfNull(response);
        ArgumentNullException.ThrowIfNull(hertz);
        InputChecks.ThrowIfAny(response.Validate());
        if (!(periods is >= 1 and <= 500))
            throw new ArgumentOutOfRangeException(nameof(periods), periods, "Accepted is 1 to 500.");
        var (samples, rate) = (response.Samples, response.SampleRateHertz);
        var reference = referenceSeconds is { } seconds ? response.IndexAt(seconds) : ImpulseWindow.Strongest(samples);
        var (decibels, phases) = (new double[hertz.Count], new double[hertz.Count]);
        for (var n = 0; n < hertz.Count; n++)
        {
            if (!(hertz[n] > 0 && hertz[n] <= rate / 2.0))
                throw new ArgumentOutOfRangeException(nameof(hertz), hertz[n], "Accepted is above 0 Hz to half the sample rate.");
            var half = Math.Min(periods / hertz[n], LongestPieceSeconds) * rate / 2;
            var sum = Complex.Zero;
            for (var i = (int)Math.Max(Math.Ceiling(reference - half), 0); i <= Math.Min(reference + half, samples.Length - 1); i++)
                sum += samples[i] * ImpulseWindow.Value(HalfWindow.Hann, Math.Abs(i - reference) / half, 1) * Complex.FromPolarCoordinates(1, -2 * Math.PI * (hertz[n] * response.SecondsAt(i) % 1));
            (decibels[n], phases[n]) = (20 * Math.Log10(Math.Max(sum.Magnitude, 1e-30)), sum.Phase);
        }

        return new FrequencyResponse([.. hertz], decibels, phases);
    }
}
