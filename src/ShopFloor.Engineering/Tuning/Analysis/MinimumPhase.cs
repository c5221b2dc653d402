using System.Numerics;
using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Numerics;
using ShopFloor.Engineering.Responses;

namespace ShopFloor.Engineering.Tuning.Analysis;

/// <summary>A response taken apart into what its level demands and the rest.</summary>
/// <param name="Hertz">Frequencies, Hz.</param>
/// <param name="MinimumRadians">Phase the level demands, rad.</param>
/// <param name="ExcessRadians">The rest of the measured phase, unwrapped, rad.</param>
/// <param name="GroupDelaySeconds">Measured group delay, s.</param>
/// <param name="ExcessDelaySeconds">Group delay of the rest, s: even where an equaliser can mend the level, jumping where it cannot.</param>
public sealed record ExcessPhase(
    IReadOnlyList<double> Hertz, IReadOnlyList<double> MinimumRadians, IReadOnlyList<double> ExcessRadians, IReadOnlyList<double> GroupDelaySeconds, IReadOnlyList<double> ExcessDelaySeconds);

/// <summary>Minimum phase: the Hilbert transform of the log level, by folding the real cepstrum (Oppenheim and Schafer, Discrete-Time Signal Processing).</summary>
/// <remarks>A level that is known in a band only is carried on beyond it at the slope it has over the outermost half octave; near the ends the phase depends on that.</remarks>
public static class MinimumPhase
{
    private const int Length = 1 << 17;
    private const double SlopeOctaves = 0.5;
    private const double SteepestDecibelsAnOctave = 60;

    /// <summary>Minimum phase of a half spectrum.</summary>
    /// <param name="decibels">Level of bins 0 to N/2, dB; one more than a power of two.</param>
    /// <exception cref="ArgumentException">The number of bins is not one more than a power of two.</exception>
    public static double[] OfBins(double[] decibels)
    {
        ArgumentNullException.ThrowIfNull(decibels);
        var logs = new Complex[decibels.Length];
        for (var k = 0; k < logs.Length; k++)
            logs[k] = decibels[k] * (Math.Log(10) / 20);
        var cepstrum = Fft.ToReal(logs);
        var half = cepstrum.Length / 2;
        for (var n = 1; n < half; n++)
        {
            cepstrum[n] *= 2;
            cepstrum[^n] = 0;
        }

        var (folded, phases) = (Fft.OfReal(cepstrum, cepstrum.Length), new double[decibels.Length]);
        for (var k = 0; k < phases.Length; k++)
            phases[k] = folded[k].Imaginary;
        return phases;
    }

    /// <summary>The response with the phase its level demands.</summary>
    /// <param name="response">The response, without problems; its own phase is not looked at.</param>
    /// <param name="sampleRateHertz">Sample rate of the system when it is a digital one, Hz, at least twice the highest frequency; null carries the level on to four times that.</param>
    /// <exception cref="ArgumentOutOfRangeException">The response has a problem, or the sample rate is too low.</exception>
    public static FrequencyResponse Of(FrequencyResponse response, double? sampleRateHertz = null)
    {
        ArgumentNullException.ThrowIfNull(response);
        InputChecks.ThrowIfAny(response.Validate());
        if (sampleRateHertz < 2 * response.Hertz[^1] * (1 - 1e-9))
            throw new ArgumentOutOfRangeException(nameof(sampleRateHertz), sampleRateHertz, $"Accepted is twice the highest frequency, {2 * response.Hertz[^1]} Hz, and more.");
        var step = (sampleRateHertz ?? 8 * response.Hertz[^1]) / Length;
        var (low, high) = (Slope(response, false), Slope(response, true));
        var decibels = new double[Length / 2 + 1];
        double[] logs = [.. response.Hertz.Select(one => Math.Log(one))];
        var (levels, above, end) = (response.Decibels, 1, Warped(response.Hertz[^1] / step));
        for (var k = 1; k < decibels.Length; k++)
        {
            var hertz = k * step;
            if (hertz <= response.Hertz[0])
            {
                decibels[k] = levels[0] + low * Math.Log2(hertz / response.Hertz[0]);
                continue;
            }

            if (hertz >= response.Hertz[^1])
            {
                decibels[k] = levels[^1] + high * Math.Log2(Warped(k) / end);
                continue;
            }

            // Straight between points over log frequency; bins rise, so the points are walked along.
            while (response.Hertz[above] < hertz)
                above++;
            decibels[k] = levels[above - 1] + (Math.Log(hertz) - logs[above - 1]) / (logs[above] - logs[above - 1]) * (levels[above] - levels[above - 1]);
        }

        // The mean of a log slope over the bin at 0 Hz: log2(1/2) − 1/ln 2 octaves from the first.
        decibels[0] = decibels[1] + low * (-1 - 1 / Math.Log(2));
        // Over tan(πf/fs) a slope goes on to infinity, as the bilinear transform takes an analog one there.
        static double Warped(double bin) => Math.Tan(Math.PI * Math.Min(bin, Length / 2 - 0.18) / Length);
        var phases = OfBins(decibels);
        return response with
        {
            PhaseRadians = [.. response.Hertz.Select(hertz =>
            {
                var at = Math.Min(hertz / step, Length / 2);
                var below = Math.Min((int)at, Length / 2 - 1);
                return phases[below] + (at - below) * (phases[below + 1] - phases[below]);
            })],
        };
    }

    /// <summary>Takes a measured phase apart.</summary>
    /// <param name="response">The response with phase, its points close enough that the phase turns by less than half a circle from one to the next.</param>
    /// <param name="sampleRateHertz">Sample rate of the system when it is a digital one, Hz; null as for <see cref="Of"/>.</param>
    /// <exception cref="ArgumentOutOfRangeException">The response has a problem, or the sample rate is too low.</exception>
    /// <exception cref="ArgumentException">It has no phase.</exception>
    public static ExcessPhase Excess(FrequencyResponse response, double? sampleRateHertz = null)
    {
        ArgumentNullException.ThrowIfNull(response);
        var minimum = Of(response, sampleRateHertz).PhaseRadians!; // just computed
        var measured = Unwrapped(response.PhaseRadians ?? throw new ArgumentException("The response has no phase.", nameof(response)));
        double[] excess = [.. measured.Select((phase, n) => phase - minimum[n])];
        return new ExcessPhase(response.Hertz, minimum, excess, Delay(response.Hertz, measured), Delay(response.Hertz, excess));
    }

    /// <summary>Group delay −dφ/dω by differences, s: central, one-sided at the ends.</summary>
    /// <param name="hertz">Frequencies, Hz, rising, at least two.</param>
    /// <param name="radians">Unwrapped phase at each, rad.</param>
    public static double[] Delay(IReadOnlyList<double> hertz, IReadOnlyList<double> radians)
    {
        ArgumentNullException.ThrowIfNull(hertz);
        ArgumentNullException.ThrowIfNull(radians);
        return [.. Enumerable.Range(0, hertz.Count).Select(n =>
        {
            var (from, to) = (Math.Max(n - 1, 0), Math.Min(n + 1, hertz.Count - 1));
            return -(radians[to] - radians[from]) / (2 * Math.PI * (hertz[to] - hertz[from]));
        })];
    }

    /// <summary>A phase without jumps of whole circles.</summary>
    /// <param name="radians">The phase, rad.</param>
    public static double[] Unwrapped(IReadOnlyList<double> radians)
    {
        ArgumentNullException.ThrowIfNull(radians);
        var result = new double[radians.Count];
        for (var n = 0; n < result.Length; n++)
            result[n] = n == 0 ? radians[0] : result[n - 1] + Math.IEEERemainder(radians[n] - radians[n - 1], 2 * Math.PI);
        return result;
    }

    // dB an octave at an end, by least squares over the outermost half octave.
    private static double Slope(FrequencyResponse response, bool top)
    {
        var (from, to) = top ? (response.Hertz[^1] / Math.Pow(2, SlopeOctaves), response.Hertz[^1]) : (response.Hertz[0], response.Hertz[0] * Math.Pow(2, SlopeOctaves));
        List<(double Octave, double Decibels)> points = [.. Enumerable.Range(0, 25).Select(n => (n / 24.0 * SlopeOctaves, response.DecibelsAt(Math.Clamp(from * Math.Pow(2, n / 24.0 * SlopeOctaves), from, to))))];
        var (x, y) = (points.Average(p => p.Octave), points.Average(p => p.Decibels));
        var slope = points.Sum(p => (p.Octave - x) * (p.Decibels - y)) / points.Sum(p => (p.Octave - x) * (p.Octave - x));
        return Math.Clamp(slope, -SteepestDecibelsAnOctave, SteepestDecibelsAnOctave);
    }
}
