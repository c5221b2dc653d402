using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Responses;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Tuning.Measurements;

/// <summary>How a recording is taken apart from what was played.</summary>
public enum DeconvolutionMethod
{
    /// <summary>The spectrum of the recording over that of the reference, held small where the reference has nothing.</summary>
    SpectralDivision,

    /// <summary>The recording convolved with the sweep's inverse filter.</summary>
    InverseFilter,
}

/// <summary>A sweep that was played and what was recorded of it.</summary>
public sealed record SweepRecording
{
    /// <summary>Longest recording, samples.</summary>
    public const int MostSamples = 1 << 23;

    /// <summary>The sweep.</summary>
    public required ExponentialSweep Sweep { get; init; }

    /// <summary>What the microphone heard, at the sweep's sample rate, from when the sweep began; at least as long as the sweep.</summary>
    public required double[] Recorded { get; init; }

    /// <summary>The electrical loopback recorded at the same time; null for the sweep as computed, when delays of the sound card stay in the response.</summary>
    public double[]? Loopback { get; init; }

    /// <summary>How it is taken apart. The inverse filter takes no loopback.</summary>
    public DeconvolutionMethod Method { get; init; }

    /// <summary>What is added to the reference's power inside the sweep's band, dB against its largest (−120 to −20).</summary>
    public double RegularisationDecibels { get; init; } = -60;

    /// <summary>How much of the response is kept after the sample went in, s (0.005 to 20).</summary>
    public double KeptSeconds { get; init; } = 0.5;

    /// <summary>How much before, s (0 to 0.1).</summary>
    public double BeforeSeconds { get; init; } = 0.01;

    /// <summary>Highest harmonic told apart, 1 for none, to 10.</summary>
    public int HighestOrder { get; init; } = 5;

    /// <summary>What is wrong; empty when it can be computed.</summary>
    /// <param name="text">How numbers are written; null is metric, invariant.</param>
    public IReadOnlyList<InputProblem> Validate(UnitText? text = null)
    {
        var checks = new InputChecks(text ?? UnitText.Invariant);
        checks.AddRange(Sweep.Validate(text).Select(problem => problem with { Field = $"{nameof(Sweep)}.{problem.Field}" }));
        checks.Known(nameof(Method), "Method", Method);
        checks.InRange(nameof(RegularisationDecibels), "Regularisation in dB", RegularisationDecibels, -120, -20);
        checks.InRange(nameof(KeptSeconds), "Kept after in s", KeptSeconds, 0.005, 20);
        checks.InRange(nameof(BeforeSeconds), "Kept before in s", BeforeSeconds, 0, 0.1);
        checks.InRange(nameof(HighestOrder), "Highest harmonic", HighestOrder, 1, 10);
        Sound(checks, nameof(Recorded), "Recording", Recorded);
        if (Loopback is { } loopback)
        {
            Sound(checks, nameof(Loopback), "Loopback", loopback);
            if (Method == DeconvolutionMethod.InverseFilter)
                checks.Add(nameof(Method), "Method: the inverse filter takes the sweep as computed; use spectral division with a loopback.");
        }

        if (checks.Problems.Count == 0 && Recorded.Length < Sweep.Length)
            checks.Add(nameof(Recorded), $"Recording: it has {Recorded.Length} samples, the sweep {Sweep.Length}; it must not be shorter.");
        return checks.Problems;
    }

    private static void Sound(InputChecks checks, string field, string label, double[] samples)
    {
        if (samples.Length is < 256 or > MostSamples)
            checks.Add(field, $"{label}: {samples.Length} samples were given; enter 256 to {MostSamples}.");
        var bad = Array.FindIndex(samples, sample => !(Math.Abs(sample) <= 1e6));
        if (bad >= 0)
            checks.Add($"{field}[{bad}]", $"{label}: sample {bad} is not a number, or beyond ±1,000,000.");
        else if (Array.TrueForAll(samples, sample => sample == 0))
            checks.Add(field, $"{label}: it is silent; a sound is needed.");
    }
}

/// <summary>The response of one harmonic.</summary>
/// <param name="Order">2 for the second harmonic, and so on.</param>
/// <param name="LeadSeconds">How far it came before the linear response, s.</param>
/// <param name="ExpectedLeadSeconds">How far it must come: L·ln k, s.</param>
/// <param name="PeakDecibels">Its envelope's peak against that of the linear response, dB.</param>
/// <param name="Relative">Level of the harmonic over the frequency that causes it, dB against the fundamental there.</param>
public sealed record HarmonicResponse(int Order, double LeadSeconds, double ExpectedLeadSeconds, double PeakDecibels, FrequencyResponse Relative);

/// <summary>What a sweep measured.</summary>
/// <param name="Impulse">The linear response over time; time 0 is the reference's.</param>
/// <param name="Harmonics">Harmonics, lowest order first.</param>
/// <param name="PeakToNoiseDecibels">Peak of the response over the rms of what is left at its end, dB.</param>
/// <param name="RecordingToNoiseDecibels">Rms of the recording during the sweep over that of the silence after it, dB; null without 50 ms of silence.</param>
/// <param name="Findings">What to look at.</param>
/// <param name="Explanation">How it was reached.</param>
public sealed record SweepResult(
    ImpulseResponse Impulse,
    IReadOnlyList<HarmonicResponse> Harmonics,
    double PeakToNoiseDecibels,
    double? RecordingToNoiseDecibels,
    IReadOnlyList<Finding> Findings,
    Explanation Explanation);
