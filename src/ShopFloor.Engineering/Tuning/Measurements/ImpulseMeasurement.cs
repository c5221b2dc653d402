using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Tuning.Analysis;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Tuning.Measurements;

/// <summary>A sweep and the sound file recorded of it.</summary>
public sealed record ImpulseMeasurementInput
{
    /// <summary>The sweep that was played; its sample rate is that of the file.</summary>
    public required ExponentialSweep Sweep { get; init; }

    /// <summary>The recording as a WAVE file (base64 in JSON).</summary>
    public required byte[] Wave { get; init; }

    /// <summary>Channel of the microphone, from 0.</summary>
    public int Channel { get; init; }

    /// <summary>Channel of the electrical loopback, from 0; null without one.</summary>
    public int? LoopbackChannel { get; init; }

    /// <summary>How the recording is taken apart.</summary>
    public DeconvolutionMethod Method { get; init; }

    /// <summary>What is added to the reference's power inside the sweep's band, dB against its largest (−120 to −20).</summary>
    public double RegularisationDecibels { get; init; } = -60;

    /// <summary>How much of the response is kept, s (0.005 to 20).</summary>
    public double KeptSeconds { get; init; } = 0.5;

    /// <summary>Highest harmonic told apart, 1 for none, to 10.</summary>
    public int HighestOrder { get; init; } = 5;

    /// <summary>What is wrong; empty when it can be computed.</summary>
    /// <param name="text">How numbers are written; null is metric, invariant.</param>
    public IReadOnlyList<InputProblem> Validate(UnitText? text = null) => Read(text).Problems;

    internal (SweepRecording? Recording, IReadOnlyList<InputProblem> Problems) Read(UnitText? text)
    {
        var checks = new InputChecks(text ?? UnitText.Invariant);
        if (WaveInput.Read(checks, nameof(Wave), Wave) is not { } sound)
            return (null, checks.Problems);
        WaveInput.Channel(checks, nameof(Channel), sound, Channel);
        if (LoopbackChannel is { } loopback)
        {
            WaveInput.Channel(checks, nameof(LoopbackChannel), sound, loopback);
            if (loopback == Channel)
                checks.Add(nameof(LoopbackChannel), $"Loopback: channel {loopback} is the microphone's already.");
        }

        if (sound.SampleRateHertz != Sweep.SampleRateHertz)
            checks.Add($"{nameof(Sweep)}.{nameof(ExponentialSweep.SampleRateHertz)}", $"Sample rate: the sweep has {Sweep.SampleRateHertz} Hz, the file {sound.SampleRateHertz} Hz; they must be the same.");
        if (checks.Problems.Count > 0)
            return (null, checks.Problems);
        var recording = new SweepRecording
        {
            Sweep = Sweep,
            Recorded = sound.Channels[Channel],
            Loopback = LoopbackChannel is { } channel ? sound.Channels[channel] : null,
            Method = Method,
            RegularisationDecibels = RegularisationDecibels,
            KeptSeconds = KeptSeconds,
            HighestOrder = HighestOrder,
        };
        var problems = recording.Validate(text);
        return (problems.Count == 0 ? recording : null, problems);
    }
}

/// <summary>What the recording says.</summary>
/// <param name="Sweep">Impulse response, harmonics and noise.</param>
/// <param name="Arrival">When the sound arrives.</param>
public sealed record ImpulseMeasurementResult(SweepResult Sweep, ArrivalResult Arrival);

/// <summary>Impulse response and arrival from the sound file of a sweep.</summary>
public static class ImpulseMeasurement
{
    // A third of an octave.
    private const double EdgeRatio = 1.26;

    /// <summary>Computes both.</summary>
    /// <param name="input">Sweep and file.</param>
    /// <param name="text">How numbers are written in texts; null is metric, invariant.</param>
    /// <exception cref="ArgumentOutOfRangeException"><see cref="ImpulseMeasurementInput.Validate"/> finds a problem; the parameter name is the field.</exception>
    public static ImpulseMeasurementResult Compute(ImpulseMeasurementInput input, UnitText? text = null)
    {
        ArgumentNullException.ThrowIfNull(input);
        var (recording, problems) = input.Read(text);
        InputChecks.ThrowIfAny(problems);
        var sweep = SweepDeconvolution.Compute(recording!, text); // no problems, so it was read
        // The sweep's ends are no part of the system's response, so they stay out of the timing.
        var timed = new ArrivalInput { Response = sweep.Impulse, FromHertz = Math.Min(input.Sweep.FromHertz * EdgeRatio, 20_000), ToHertz = Math.Max(input.Sweep.ToHertz / EdgeRatio, 10) };
        return new ImpulseMeasurementResult(sweep, Arrival.Compute(timed.Validate().Count == 0 ? timed : new ArrivalInput { Response = sweep.Impulse }, text));
    }
}
