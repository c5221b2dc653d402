using ShopFloor.Engineering.Signal.Levels;
using ShopFloor.Engineering.Waves;

namespace ShopFloor.Engineering.Signal.TestSignals;

/// <summary>Signals for setting gains, finding sides and polarity, and measuring.</summary>
/// <remarks>
/// Levels are in dB full scale of the peak for deterministic signals: 0 dB is a sine that just reaches full scale (AES17 counts the same
/// sine as 0 dB rms). Every signal begins and ends at silence over a half-cosine, so that nothing clicks.
/// </remarks>
public static class TestTone
{
    /// <summary>Longest signal, s.</summary>
    public const double LongestSeconds = 120;

    /// <summary>A sine: sin(2πft) at a level.</summary>
    /// <param name="hertz">Frequency, Hz, above 0 and below half the sample rate.</param>
    /// <param name="decibelsFullScale">Peak level, dB full scale, −120 to 0.</param>
    /// <param name="seconds">Duration, s, 0.1 to <see cref="LongestSeconds"/>.</param>
    /// <param name="sampleRateHertz">Sample rate, Hz, 8 000 to 192 000.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is outside its range.</exception>
    public static double[] Sine(double hertz, double decibelsFullScale, double seconds, int sampleRateHertz)
    {
        Check(decibelsFullScale, seconds, sampleRateHertz);
        Within(hertz, double.Epsilon, Math.BitDecrement(sampleRateHertz / 2.0), nameof(hertz));
        var (samples, level) = (new double[Count(seconds, sampleRateHertz)], DecibelLevels.ToRatio(decibelsFullScale));
        for (var n = 0; n < samples.Length; n++)
            samples[n] = level * Math.Sin(2 * Math.PI * (hertz * n % sampleRateHertz) / sampleRateHertz);
        return Faded(samples, sampleRateHertz);
    }

    /// <summary>Exponential sweep: the frequency rises by the same ratio in the same time (Farina, AES 108, 2000).</summary>
    /// <param name="fromHertz">Lowest frequency, Hz.</param>
    /// <param name="toHertz">Highest frequency, Hz, below half the sample rate.</param>
    /// <param name="decibelsFullScale">Peak level, dB full scale.</param>
    /// <param name="seconds">Duration, s.</param>
    /// <param name="sampleRateHertz">Sample rate, Hz.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is outside its range.</exception>
    public static double[] Sweep(double fromHertz, double toHertz, double decibelsFullScale, double seconds, int sampleRateHertz)
    {
        Check(decibelsFullScale, seconds, sampleRateHertz);
        Within(fromHertz, 1, sampleRateHertz / 2.0, nameof(fromHertz));
        Within(toHertz, fromHertz * 1.01, sampleRateHertz / 2.0, nameof(toHertz));
        var (samples, level, ratio) = (new double[Count(seconds, sampleRateHertz)], DecibelLevels.ToRatio(decibelsFullScale), Math.Log(toHertz / fromHertz));
        var duration = (double)samples.Length / sampleRateHertz;
        for (var n = 0; n < samples.Length; n++)
            samples[n] = level * Math.Sin(2 * Math.PI * fromHertz * duration / ratio * (Math.Exp((double)n / samples.Length * ratio) - 1));
        return Faded(samples, sampleRateHertz);
    }

    /// <summary>Frequencies of a stepped sine: equal ratios from the lowest, up to the highest that fits.</summary>
    /// <param name="fromHertz">Lowest frequency, Hz, 1 or more.</param>
    /// <param name="toHertz">Highest frequency, Hz, up to 96 000.</param>
    /// <param name="stepsPerOctave">Steps an octave, 1 to 24.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is outside its range.</exception>
    public static IReadOnlyList<double> StepHertz(double fromHertz, double toHertz, int stepsPerOctave)
    {
        Within(fromHertz, 1, 96_000, nameof(fromHertz));
        Within(toHertz, fromHertz, 96_000, nameof(toHertz));
        Within(stepsPerOctave, 1, 24, nameof(stepsPerOctave));
        var steps = (int)Math.Floor(stepsPerOctave * Math.Log2(toHertz / fromHertz) + 1e-9);
        return [.. Enumerable.Range(0, steps + 1).Select(n => fromHertz * Math.Pow(2, (double)n / stepsPerOctave))];
    }

    /// <summary>Stepped sine: each frequency for the same time, with silence at every change so that a rattle is heard to begin and end.</summary>
    /// <param name="hertz">Frequencies, Hz, in order; see <see cref="StepHertz"/>.</param>
    /// <param name="decibelsFullScale">Peak level, dB full scale.</param>
    /// <param name="secondsEach">Time of each, s; together at most <see cref="LongestSeconds"/>.</param>
    /// <param name="sampleRateHertz">Sample rate, Hz.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is outside its range.</exception>
    public static double[] Steps(IReadOnlyList<double> hertz, double decibelsFullScale, double secondsEach, int sampleRateHertz)
    {
        ArgumentNullException.ThrowIfNull(hertz);
        Within(hertz.Count * secondsEach, 0.1, LongestSeconds, nameof(secondsEach));
        return [.. hertz.SelectMany(each => Sine(each, decibelsFullScale, secondsEach, sampleRateHertz))];
    }

    /// <summary>Pink noise: power falls by 3 dB an octave, the same in every octave. Repeatable for a seed.</summary>
    /// <remarks>White Gaussian noise through the −3 dB/octave filter of P. Kellet (public domain, ±0.05 dB above 9 Hz at 44.1 kHz, from memory).</remarks>
    /// <param name="rmsDecibelsFullScale">Level against the rms of a full-scale sine, dB, −120 to −9, so that peaks fit.</param>
    /// <param name="seconds">Duration, s.</param>
    /// <param name="sampleRateHertz">Sample rate, Hz.</param>
    /// <param name="seed">Which noise.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is outside its range.</exception>
    public static double[] PinkNoise(double rmsDecibelsFullScale, double seconds, int sampleRateHertz, int seed = 1)
    {
        Within(rmsDecibelsFullScale, -120, -9, nameof(rmsDecibelsFullScale));
        Check(rmsDecibelsFullScale, seconds, sampleRateHertz);
        var white = new GaussianNoise(seed);
        var samples = new double[Count(seconds, sampleRateHertz)];
        double b0 = 0, b1 = 0, b2 = 0, b3 = 0, b4 = 0, b5 = 0, b6 = 0, sum = 0;
        for (var n = 0; n < samples.Length; n++)
        {
            var w = white.Next();
            b0 = 0.99886 * b0 + w * 0.0555179;
            b1 = 0.99332 * b1 + w * 0.0750759;
            b2 = 0.96900 * b2 + w * 0.1538520;
            b3 = 0.86650 * b3 + w * 0.3104856;
            b4 = 0.55000 * b4 + w * 0.5329522;
            b5 = -0.7616 * b5 - w * 0.0168980;
            samples[n] = b0 + b1 + b2 + b3 + b4 + b5 + b6 + w * 0.5362;
            b6 = w * 0.115926;
            sum += samples[n] * samples[n];
        }

        var scale = DecibelLevels.ToRatio(rmsDecibelsFullScale) / Math.Sqrt(2) / Math.Sqrt(sum / samples.Length);
        for (var n = 0; n < samples.Length; n++)
            samples[n] = Math.Clamp(samples[n] * scale, -1, 1);
        return Faded(samples, sampleRateHertz);
    }

    /// <summary>Bursts for telling sides apart: one on the left, two on the right, then three on both.</summary>
    /// <param name="decibelsFullScale">Peak level, dB full scale.</param>
    /// <param name="sampleRateHertz">Sample rate, Hz.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is outside its range.</exception>
    public static SampledSound Sides(double decibelsFullScale, int sampleRateHertz)
    {
        var burst = Sine(440, decibelsFullScale, 0.3, sampleRateHertz);
        var gap = Count(0.2, sampleRateHertz);
        var rest = Count(0.8, sampleRateHertz);
        List<double> left = [], right = [];
        foreach (var (times, onLeft, onRight) in new[] { (1, true, false), (2, false, true), (3, true, true) })
        {
            for (var i = 0; i < times; i++)
            {
                left.AddRange(onLeft ? burst : new double[burst.Length]);
                right.AddRange(onRight ? burst : new double[burst.Length]);
                left.AddRange(new double[gap]);
                right.AddRange(new double[gap]);
            }

            left.AddRange(new double[rest]);
            right.AddRange(new double[rest]);
        }

        return new SampledSound(sampleRateHertz, [[.. left], [.. right]]);
    }

    /// <summary>Pulses that push every cone outwards first when it is wired the right way: a raised half-cosine, once a second.</summary>
    /// <param name="decibelsFullScale">Peak level, dB full scale.</param>
    /// <param name="seconds">Duration, s.</param>
    /// <param name="sampleRateHertz">Sample rate, Hz.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is outside its range.</exception>
    public static double[] PolarityPulses(double decibelsFullScale, double seconds, int sampleRateHertz)
    {
        Check(decibelsFullScale, seconds, sampleRateHertz);
        var (samples, level, width) = (new double[Count(seconds, sampleRateHertz)], DecibelLevels.ToRatio(decibelsFullScale), Count(0.005, sampleRateHertz));
        for (var start = sampleRateHertz / 4; start + width < samples.Length; start += sampleRateHertz)
        {
            for (var n = 0; n < width; n++)
                samples[start + n] = level * 0.5 * (1 - Math.Cos(2 * Math.PI * n / width));
        }

        return samples;
    }

    private static int Count(double seconds, int sampleRateHertz) => (int)Math.Round(seconds * sampleRateHertz);

    private static double[] Faded(double[] samples, int sampleRateHertz)
    {
        var length = Math.Min(samples.Length / 2, Count(0.01, sampleRateHertz));
        for (var n = 0; n < length; n++)
        {
            var share = 0.5 * (1 - Math.Cos(Math.PI * n / length));
            samples[n] *= share;
            samples[^(n + 1)] *= share;
        }

        return samples;
    }

    private static void Check(double decibelsFullScale, double seconds, int sampleRateHertz)
    {
        Within(decibelsFullScale, -120, 0, nameof(decibelsFullScale));
        Within(seconds, 0.1, LongestSeconds, nameof(seconds));
        Within(sampleRateHertz, 8_000, 192_000, nameof(sampleRateHertz));
    }

    private static void Within(double value, double least, double most, string name)
    {
        if (!(value >= least && value <= most))
            throw new ArgumentOutOfRangeException(name, value, $"Accepted is {least} to {most}.");
    }

    // Its own generator, so that a seed gives the same noise on every version of the run time: 64-bit mixing (SplitMix64) and Box-Muller.
    private sealed class GaussianNoise(int seed)
    {
        private ulong _state = unchecked((ulong)seed * 0x9E3779B97F4A7C15UL + 0xD1B54A32D192ED03UL);
        private double? _spare;

        public double Next()
        {
            if (_spare is { } kept)
            {
                _spare = null;
                return kept;
            }

            var (radius, angle) = (Math.Sqrt(-2 * Math.Log(Uniform())), 2 * Math.PI * Uniform());
            _spare = radius * Math.Sin(angle);
            return radius * Math.Cos(angle);
        }

        private double Uniform()
        {
            _state = unchecked(_state + 0x9E3779B97F4A7C15UL);
            var z = _state;
            z = unchecked((z ^ (z >> 30)) * 0xBF58476D1CE4E5B9UL);
            z = unchecked((z ^ (z >> 27)) * 0x94D049BB133111EBUL);
            return ((z ^ (z >> 31)) >> 11) * (1.0 / (1UL << 53)) + double.Epsilon;
        }
    }
}
