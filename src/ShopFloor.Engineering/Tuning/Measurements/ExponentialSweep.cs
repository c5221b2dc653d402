using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Tuning.Measurements;

/// <summary>An exponential sine sweep: x(t) = A·sin(2πf1·L·(e^(t/L) − 1)), L = T/ln(f2/f1) (Farina, AES 108, preprint 5093, 2000).</summary>
/// <remarks>Harmonic k of a non-linear system comes out as its own response, ahead of the linear one by L·ln k.</remarks>
public sealed record ExponentialSweep
{
    /// <summary>Longest sweep, s.</summary>
    public const double LongestSeconds = 60;

    /// <summary>Lowest frequency, Hz (1 to 10,000).</summary>
    public double FromHertz { get; init; } = 20;

    /// <summary>Highest frequency, Hz, above the lowest and not above half the sample rate.</summary>
    public double ToHertz { get; init; } = 20_000;

    /// <summary>Length, s (0.1 to 60).</summary>
    public double Seconds { get; init; } = 5;

    /// <summary>Sample rate, Hz (8,000 to 192,000).</summary>
    public int SampleRateHertz { get; init; } = 48_000;

    /// <summary>Peak level, dB full scale (−120 to 0).</summary>
    public double LevelDecibelsFullScale { get; init; } = -6;

    /// <summary>Half-cosine fade at the start, s (0 to half the length).</summary>
    public double FadeInSeconds { get; init; } = 0.02;

    /// <summary>Half-cosine fade at the end, s (0 to half the length).</summary>
    public double FadeOutSeconds { get; init; } = 0.005;

    /// <summary>What is wrong; empty when it can be made.</summary>
    /// <param name="text">How numbers are written; null is metric, invariant.</param>
    public IReadOnlyList<InputProblem> Validate(UnitText? text = null)
    {
        var checks = new InputChecks(text ?? UnitText.Invariant);
        checks.InRange(nameof(FromHertz), "Lowest frequency in Hz", FromHertz, 1, 10_000);
        checks.InRange(nameof(SampleRateHertz), "Sample rate in Hz", SampleRateHertz, 8_000, 192_000);
        checks.InRange(nameof(ToHertz), "Highest frequency in Hz", ToHertz, Math.Max(FromHertz, 1) * 1.5, Math.Max(SampleRateHertz / 2.0, 2));
        checks.InRange(nameof(Seconds), "Length in s", Seconds, 0.1, LongestSeconds);
        checks.InRange(nameof(LevelDecibelsFullScale), "Level in dB full scale", LevelDecibelsFullScale, -120, 0);
        checks.InRange(nameof(FadeInSeconds), "Fade at the start in s", FadeInSeconds, 0, Math.Clamp(Seconds, 0, LongestSeconds) / 2);
        checks.InRange(nameof(FadeOutSeconds), "Fade at the end in s", FadeOutSeconds, 0, Math.Clamp(Seconds, 0, LongestSeconds) / 2);
        return checks.Problems;
    }

    /// <summary>Samples in it.</summary>
    public int Length => (int)Math.Round(Seconds * SampleRateHertz);

    /// <summary>Time in which the frequency rises by e, s: L = T/ln(f2/f1).</summary>
    public double RateSeconds => (double)Length / SampleRateHertz / Math.Log(ToHertz / FromHertz);

    /// <summary>How far the response of a harmonic comes before the linear one, s: L·ln k.</summary>
    /// <param name="order">Order k of the harmonic, from 1.</param>
    public double HarmonicLeadSeconds(int order) => RateSeconds * Math.Log(order);

    /// <summary>Frequency at a time, Hz.</summary>
    /// <param name="seconds">Time from the start, s.</param>
    public double HertzAt(double seconds) => FromHertz * Math.Exp(seconds / RateSeconds);

    /// <summary>The sweep, 1 being full scale.</summary>
    /// <exception cref="ArgumentOutOfRangeException"><see cref="Validate"/> finds a problem; the parameter name is the field.</exception>
    public double[] Samples()
    {
        var samples = Plain();
        var level = Math.Pow(10, LevelDecibelsFullScale / 20);
        var (fadeIn, fadeOut) = ((int)(FadeInSeconds * SampleRateHertz), (int)(FadeOutSeconds * SampleRateHertz));
        for (var n = 0; n < samples.Length; n++)
        {
            var share = 1.0;
            if (n < fadeIn)
                share *= 0.5 - 0.5 * Math.Cos(Math.PI * n / fadeIn);
            if (samples.Length - 1 - n < fadeOut)
                share *= 0.5 - 0.5 * Math.Cos(Math.PI * (samples.Length - 1 - n) / fadeOut);
            samples[n] *= level * share;
        }

        return samples;
    }

    /// <summary>
    /// The inverse filter: the sweep backwards, falling 6 dB an octave in time, scaled so that the sweep convolved with it is a pulse of gain 1
    /// at the sweep's last sample: A⁻²·4·f2/(fs²·L) times e^(−t/L) (Farina 2000; scale by stationary phase).
    /// </summary>
    /// <exception cref="ArgumentOutOfRangeException"><see cref="Validate"/> finds a problem; the parameter name is the field.</exception>
    public double[] InverseFilter()
    {
        var samples = Plain();
        Array.Reverse(samples);
        var scale = 4 * ToHertz / ((double)SampleRateHertz * SampleRateHertz * RateSeconds) / Math.Pow(10, LevelDecibelsFullScale / 20);
        for (var n = 0; n < samples.Length; n++)
            samples[n] *= scale * Math.Exp(-n / (SampleRateHertz * RateSeconds));
        return samples;
    }

    private double[] Plain()
    {
        InputChecks.ThrowIfAny(Validate());
        var (samples, rate) = (new double[Length], RateSeconds);
        for (var n = 0; n < samples.Length; n++)
            samples[n] = Math.Sin(2 * Math.PI * FromHertz * rate * (Math.Exp(n / (SampleRateHertz * rate)) - 1));
        return samples;
    }
}
