using System.Numerics;
using ShopFloor.Engineering.Numerics;
using ShopFloor.Engineering.Tuning.Filters;
using ShopFloor.Engineering.Tuning.Measurements;

namespace ShopFloor.Engineering.Tuning.Simulation;

/// <summary>A resonance of a driver or of the cabin.</summary>
/// <param name="Hertz">Where, Hz.</param>
/// <param name="Decibels">How much it lifts, below 0 takes away, dB.</param>
/// <param name="Q">How narrow it is.</param>
public readonly record struct SimulatedMode(double Hertz, double Decibels, double Q);

/// <summary>Sound that comes another way.</summary>
/// <param name="LaterSeconds">How much later than the direct sound, s.</param>
/// <param name="Decibels">Against the direct sound, dB; it loses treble by itself.</param>
public readonly record struct SimulatedReflection(double LaterSeconds, double Decibels);

/// <summary>An invented driver as heard at one place of the microphone: second-order band limits, resonances, its way to the head and reflections.
/// What it plays is known exactly, so a tuning made from noisy measurements of it can be judged by the truth, and examples hold numbers that were computed.</summary>
public sealed record SimulatedDriver
{
    private const double BandLowQ = 0.8;
    private const double BandHighQ = 0.7;
    private const double ReflectionHertz = 5_000;

    /// <summary>Lower limit of its band, Hz.</summary>
    public required double HighPassHertz { get; init; }

    /// <summary>Upper limit of its band, Hz.</summary>
    public required double LowPassHertz { get; init; }

    /// <summary>Level at 1 m inside its band, dB.</summary>
    public required double LevelDecibels { get; init; }

    /// <summary>Distance the level falls with, m, above 0.</summary>
    public required double Meters { get; init; }

    /// <summary>When the direct sound arrives, s.</summary>
    public required double ArrivalSeconds { get; init; }

    /// <summary>Resonances.</summary>
    public IReadOnlyList<SimulatedMode> Modes { get; init; } = [];

    /// <summary>Reflections.</summary>
    public IReadOnlyList<SimulatedReflection> Reflections { get; init; } = [];

    /// <summary>Pressure with the arrival taken out, 1 being 0 dB.</summary>
    /// <param name="hertz">Frequency, Hz.</param>
    public Complex Relative(double hertz)
    {
        Complex s = new(0, hertz / HighPassHertz), t = new(0, hertz / LowPassHertz);
        var value = s * s / (s * s + s / BandLowQ + 1) / (t * t + t / BandHighQ + 1) * Math.Pow(10, LevelDecibels / 20) / Meters;
        foreach (var mode in Modes)
        {
            Complex u = new(0, hertz / mode.Hertz);
            var a = Math.Pow(10, mode.Decibels / 40);
            value *= (u * u + u * a / mode.Q + 1) / (u * u + u / (a * mode.Q) + 1);
        }

        var sum = Complex.One;
        foreach (var way in Reflections)
            sum += Math.Pow(10, way.Decibels / 20) * Complex.Exp(new Complex(0, -2 * Math.PI * hertz * way.LaterSeconds)) / Math.Sqrt(1 + hertz / ReflectionHertz * (hertz / ReflectionHertz));
        return value * sum;
    }

    /// <summary>Pressure at the microphone, 1 being 0 dB.</summary>
    /// <param name="hertz">Frequency, Hz.</param>
    public Complex At(double hertz) => Relative(hertz) * Complex.Exp(new Complex(0, -2 * Math.PI * hertz * ArrivalSeconds));

    /// <summary>What a microphone records of a sweep through this driver, with the electrical loopback beside it and noise of the room.</summary>
    /// <param name="sweep">The sweep.</param>
    /// <param name="channel">What a processor does to it; null for nothing.</param>
    /// <param name="leadSeconds">Time of the sound card before anything comes back, in both channels, s.</param>
    /// <param name="decibelsFullScale">What a pressure of 0 dB is recorded at, dB full scale.</param>
    /// <param name="noiseDecibelsFullScale">Rms of the noise, dB full scale.</param>
    /// <param name="seed">The same seed gives the same noise.</param>
    /// <returns>Microphone and loopback, half a second longer than the sweep.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The sweep or the channel has a setting outside its range.</exception>
    public (double[] Microphone, double[] Loopback) Record(ExponentialSweep sweep, ChannelSetting? channel, double leadSeconds, double decibelsFullScale, double noiseDecibelsFullScale, int seed)
    {
        ArgumentNullException.ThrowIfNull(sweep);
        var played = sweep.Samples();
        var rate = sweep.SampleRateHertz;
        var recorded = played.Length + rate / 2;
        var length = Fft.LengthFor(recorded + (long)rate / 2);
        var spectrum = Fft.OfReal(played, length);
        var gain = Math.Pow(10, decibelsFullScale / 20);
        double[] hertz = [.. Enumerable.Range(1, length / 2 - 1).Select(n => n * (double)rate / length)];
        var chain = channel?.Response(new FrequencyGrid(hertz, rate));
        var lead = new Complex[spectrum.Length];
        for (var n = 1; n < spectrum.Length - 1; n++)
        {
            lead[n] = spectrum[n] * Complex.Exp(new Complex(0, -2 * Math.PI * hertz[n - 1] * leadSeconds));
            spectrum[n] = lead[n] * At(hertz[n - 1]) * gain * (chain?[n - 1] ?? 1);
        }

        spectrum[0] = spectrum[^1] = 0;
        var random = new Random(seed);
        var size = Math.Pow(10, noiseDecibelsFullScale / 20);
        return (
            [.. Fft.ToReal(spectrum)[..recorded].Select(sample => sample + size * Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble()))],
            Fft.ToReal(lead)[..recorded]);
    }
}
