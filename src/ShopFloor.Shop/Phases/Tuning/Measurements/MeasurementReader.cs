using System.Numerics;
using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Physics;
using ShopFloor.Engineering.Responses;
using ShopFloor.Engineering.Tuning.Analysis;
using ShopFloor.Engineering.Tuning.Measurements;
using ShopFloor.Engineering.Units;
using ShopFloor.Engineering.Waves;
using ShopFloor.Shop.Jobs;

namespace ShopFloor.Shop.Phases.Tuning.Measurements;

/// <summary>Turns the file of a measurement into a response.</summary>
internal static class MeasurementReader
{
    // What the response is told at, and the window each frequency is heard through: high ones the direct sound, low ones the cabin. Common practice, no source.
    private const int PointsPerOctave = 24;
    private const double WindowPeriods = 15;
    private const double LowestHertz = 10;
    private const double HighestHertz = 22_000;
    private const double LongestLeadSeconds = 19;
    private const double KeptSeconds = 0.5;
    private const double BeforeSeconds = 0.01;
    private const int NoisePiece = 65_536;
    private const double EdgeRatio = 1.26;
    private const double PolarityIsSure = 0.5;
    private const string Practice = "common practice, no source";

    /// <returns>The reading, or why there is none, in words.</returns>
    public static (MeasurementReading? Reading, string? Problem) Read(MeasurementForm form, OpenedJobFile file, OpenedJobFile? calibration, UnitText text)
    {
        try
        {
            var (curve, refused) = calibration is null ? (null, null) : Curve(calibration);
            if (refused is not null)
            {
                return (null, refused);
            }

            var reading = form.Source == MeasurementSource.Table ? Table(form, file) : Sound(form, file, text);
            return (Finished(form, reading, curve), null);
        }
        catch (MeasurementRefusedException refused)
        {
            return (null, $"'{file.FileName}': {refused.Message}");
        }
        catch (WaveFormatException refused)
        {
            return (null, $"'{file.FileName}' cannot be read: {refused.Message}");
        }
        catch (ArgumentException refused)
        {
            return (null, $"'{file.FileName}' cannot be used: {refused.Message.Split(" (Parameter", 2)[0]}");
        }
    }

    /// <summary>A microphone's curve out of its file.</summary>
    public static (FrequencyResponse? Curve, string? Problem) Curve(OpenedJobFile file)
    {
        var proposal = ResponseTable.Propose(file.Content);
        if (proposal.Layout is not { } layout)
        {
            return (null, $"'{file.FileName}' is no calibration: {proposal.Problems[0].Message}");
        }

        var read = ResponseTable.Read(file.Content, layout);
        return read.Response is { } curve ? (curve, null) : (null, $"'{file.FileName}' is no calibration: {read.Problems[0].Message}");
    }

    private static MeasurementReading Table(MeasurementForm form, OpenedJobFile file)
    {
        var read = ResponseTable.Read(file.Content, form.Layout ?? throw new MeasurementRefusedException("it is not said which column is what."));
        var response = read.Response ?? throw new MeasurementRefusedException(string.Join(" ", read.Problems.Take(3).Select(problem => problem.Message)));
        if (response.Hertz[^1] < 2 * response.Hertz[0])
        {
            throw new MeasurementRefusedException($"it reaches from {response.Hertz[0]:0.#} to {response.Hertz[^1]:0.#} Hz; an octave is needed.");
        }

        var usable = UsableBand.Of(response);
        if (response.PhaseRadians is null)
        {
            return new MeasurementReading { Response = response, Usable = usable };
        }

        var (seconds, direction, sure) = PathOf(response, usable);
        return new MeasurementReading
        {
            Response = response with { PhaseRadians = [.. response.Hertz.Select((hertz, n) => response.PhaseRadians[n] + 2 * Math.PI * hertz * seconds)] },
            ArrivalSeconds = seconds,
            Clock = ArrivalClock.File,
            IsInverted = sure < PolarityIsSure ? null : direction < 0,
            PolarityConfidence = sure,
            Usable = usable,
        };
    }

    // The delay that what the minimum phase leaves over has in the middle of the band, and the direction it starts in.
    private static (double Seconds, double Direction, double Sure) PathOf(FrequencyResponse response, UsableBandResult usable)
    {
        var excess = MinimumPhase.Excess(response);
        List<int> inBand = [.. Enumerable.Range(0, excess.Hertz.Count).Where(n => excess.Hertz[n] >= usable.FromHertz && excess.Hertz[n] <= usable.ToHertz)];
        if (inBand.Count < 3)
        {
            return (0, 1, 0);
        }

        var delays = inBand.Select(n => excess.ExcessDelaySeconds[n]).Order().ToList();
        var seconds = delays[delays.Count / 2];
        var sum = inBand.Aggregate(Complex.Zero, (all, n) => all + Complex.FromPolarCoordinates(1, excess.ExcessRadians[n] + 2 * Math.PI * excess.Hertz[n] * seconds)) / inBand.Count;
        return (seconds, sum.Real, Math.Min(Math.Abs(sum.Real), 1));
    }

    private static MeasurementReading Sound(MeasurementForm form, OpenedJobFile file, UnitText text)
    {
        var sound = WaveReader.Read(file.Content);
        var heard = Channel(sound, form.WaveChannel, "microphone");
        if (form.Source == MeasurementSource.PinkNoise)
        {
            return Noise(sound, heard, text);
        }

        if (form.Source == MeasurementSource.Impulse)
        {
            var whole = new ImpulseResponse(sound.SampleRateHertz, heard);
            RefuseIfAny(whole.Validate(text));
            return OfImpulse(Around(whole), null, LowestHertz, sound.SampleRateHertz / 2.0, ArrivalClock.File, text);
        }

        var sweep = form.Sweep ?? throw new MeasurementRefusedException("it is not said which sweep was played.");
        if (sound.SampleRateHertz != sweep.SampleRateHertz)
        {
            throw new MeasurementRefusedException($"it has {sound.SampleRateHertz} Hz, the sweep {sweep.SampleRateHertz} Hz; record and play at the same rate.");
        }

        var loopback = form.LoopbackChannel is { } channel ? Channel(sound, channel, "loopback") : null;
        var spare = (double)(heard.Length - sweep.Length) / sound.SampleRateHertz;
        var recording = new SweepRecording
        {
            Sweep = sweep,
            Recorded = heard,
            Loopback = loopback,
            // A recording that was started by hand begins before the sweep, so the response is looked for in all that is left.
            KeptSeconds = loopback is null ? Math.Clamp(spare, KeptSeconds, LongestLeadSeconds) : KeptSeconds,
            BeforeSeconds = BeforeSeconds,
        };
        RefuseIfAny(recording.Validate(text));
        var result = SweepDeconvolution.Compute(recording, text);
        return OfImpulse(Around(result.Impulse), result, sweep.FromHertz, sweep.ToHertz, loopback is null ? ArrivalClock.Recording : ArrivalClock.Loopback, text);
    }

    private static MeasurementReading OfImpulse(ImpulseResponse impulse, SweepResult? sweep, double fromHertz, double toHertz, ArrivalClock clock, UnitText text)
    {
        // The sweep's ends are no part of the response, so they stay out of the timing.
        var timed = new ArrivalInput { Response = impulse, FromHertz = Math.Min(fromHertz * EdgeRatio, 20_000), ToHertz = Math.Max(toHertz / EdgeRatio, 10) };
        var arrival = Arrival.Compute(timed.Validate().Count == 0 ? timed : new ArrivalInput { Response = impulse }, text);
        var hertz = OctaveSmoothing.Spaced(Math.Max(fromHertz, LowestHertz), Math.Min(Math.Min(toHertz, HighestHertz), 0.45 * impulse.SampleRateHertz), PointsPerOctave);
        var windowed = ImpulseSpectrum.WindowedByPeriods(impulse, hertz, WindowPeriods, arrival.Seconds);
        var phases = MinimumPhase.Unwrapped([.. hertz.Select((one, n) => windowed.PhaseRadians![n] + 2 * Math.PI * one * arrival.Seconds)]); // made with phase
        var response = windowed with { PhaseRadians = phases };
        return new MeasurementReading
        {
            Response = response,
            ArrivalSeconds = arrival.Seconds,
            Clock = clock,
            IsInverted = arrival.IsInverted,
            PolarityConfidence = arrival.PolarityConfidence,
            Impulse = impulse,
            Arrival = arrival,
            Sweep = sweep is null ? null : sweep with { Impulse = impulse },
            Usable = UsableBand.Of(response, distortion: Distortion(sweep)),
            Findings = [.. sweep?.Findings ?? [], .. arrival.Findings],
        };
    }

    private static FrequencyResponse? Distortion(SweepResult? sweep) => sweep?.Harmonics.Count > 0 ? sweep.Harmonics[0].Relative : null;

    private static MeasurementReading Noise(SampledSound sound, double[] heard, UnitText text)
    {
        if (heard.Length < 2 * NoisePiece)
        {
            throw new MeasurementRefusedException($"it lasts {(double)heard.Length / sound.SampleRateHertz:0.##} s; noise is averaged over {2.0 * NoisePiece / sound.SampleRateHertz:0.##} s or more.");
        }

        var noise = NoiseSpectrum.Of(heard, sound.SampleRateHertz, NoisePiece);
        var response = noise.Bands(6, LowestHertz * 2, Math.Min(20_000, 0.45 * sound.SampleRateHertz));
        List<Finding> findings = [];
        if (noise.ErrorDecibels > 1)
        {
            findings.Add(new Finding("noise-short", Severity.Warn, "noise", "Pink noise", $"One level may be off by {text.With(noise.ErrorDecibels, "dB")}.", "Record 30 s or more.", "Welch, IEEE Trans. AU-15, 1967"));
        }

        findings.Add(new Finding("noise-without-time", Severity.Note, "noise", "Pink noise", "Noise tells levels alone: no arrival, no phase.", "Measure a sweep for delays and crossovers.", Practice));
        return new MeasurementReading { Response = response, Usable = UsableBand.Of(response), Findings = findings };
    }

    private static MeasurementReading Finished(MeasurementForm form, MeasurementReading reading, FrequencyResponse? curve)
    {
        List<Finding> findings = [.. reading.Findings];
        if (curve is not null)
        {
            var corrected = MicrophoneCalibration.Apply(reading.Response, curve);
            findings.AddRange(corrected.Findings);
            reading = reading with { Response = corrected.Response };
        }

        if (form.Relative)
        {
            findings.Add(new Finding("microphone-unknown", Severity.Warn, "microphone", "Microphone", "Taken with the tablet's own microphone: its response is not known and it may have been levelled by the tablet.", "Compare left with right by it; equalise by a measuring microphone.", Practice));
        }

        return form.DistanceMeters is { } meters && reading.Clock != ArrivalClock.Loopback
            ? reading with { ArrivalSeconds = meters / Air.Standard.SpeedMetersPerSecond, Clock = ArrivalClock.Tape, Findings = findings }
            : reading with { Findings = findings };
    }

    // The strongest place with what comes before and after it, its times kept.
    private static ImpulseResponse Around(ImpulseResponse whole)
    {
        var strongest = 0;
        for (var n = 1; n < whole.Samples.Length; n++)
        {
            if (Math.Abs(whole.Samples[n]) > Math.Abs(whole.Samples[strongest]))
            {
                strongest = n;
            }
        }

        var from = Math.Max(0, strongest - (int)(2 * BeforeSeconds * whole.SampleRateHertz));
        var to = Math.Min(whole.Samples.Length, strongest + (int)(KeptSeconds * whole.SampleRateHertz));
        return new ImpulseResponse(whole.SampleRateHertz, whole.Samples[from..to], whole.SecondsAt(from));
    }

    private static double[] Channel(SampledSound sound, int channel, string what) => channel < sound.Channels.Count
        ? sound.Channels[channel]
        : throw new MeasurementRefusedException($"it has {sound.Channels.Count} channel{(sound.Channels.Count == 1 ? "" : "s")}; the {what} was said to be on channel {channel + 1}.");

    private static void RefuseIfAny(IReadOnlyList<InputProblem> problems)
    {
        if (problems.Count > 0)
        {
            throw new MeasurementRefusedException(string.Join(" ", problems.Take(3).Select(problem => problem.Message)));
        }
    }

    private sealed class MeasurementRefusedException(string message) : Exception(message);
}
