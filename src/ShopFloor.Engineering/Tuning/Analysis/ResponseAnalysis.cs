using System.Text;
using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Responses;
using ShopFloor.Engineering.Tuning.Measurements;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Tuning.Analysis;

/// <summary>A response to be looked at: as numbers, as a table, or as a sound file of an impulse response; one of the three.</summary>
public sealed record ResponseAnalysisInput
{
    /// <summary>The response as numbers.</summary>
    public FrequencyResponse? Response { get; init; }

    /// <summary>The response as a table of text.</summary>
    public string? Table { get; init; }

    /// <summary>How the table is laid out; null takes what it looks like.</summary>
    public ResponseTableLayout? Layout { get; init; }

    /// <summary>An impulse response as a WAVE file (base64 in JSON).</summary>
    public byte[]? ImpulseWave { get; init; }

    /// <summary>Channel of the file, from 0.</summary>
    public int Channel { get; init; }

    /// <summary>What of the impulse response is looked at; null for all of it.</summary>
    public ImpulseWindow? Window { get; init; }

    /// <summary>What the microphone shows of a flat sound; null for nothing taken off.</summary>
    public FrequencyResponse? Microphone { get; init; }

    /// <summary>Smoothing by a fraction of an octave (0.5 to 96): 6 for a sixth.</summary>
    public double SmoothingFraction { get; init; } = 6;

    /// <summary>Points of the answer an octave (1 to 96).</summary>
    public int PointsPerOctave { get; init; } = 12;

    /// <summary>How far the level of the usable band may fall, dB (1 to 40).</summary>
    public double BelowDecibels { get; init; } = 10;

    /// <summary>What is wrong; empty when it can be computed.</summary>
    /// <param name="text">How numbers are written; null is metric, invariant.</param>
    public IReadOnlyList<InputProblem> Validate(UnitText? text = null) => Read(text).Problems;

    internal (FrequencyResponse? Response, ImpulseResponse? Impulse, IReadOnlyList<string> Questions, IReadOnlyList<InputProblem> Problems) Read(UnitText? text)
    {
        var checks = new InputChecks(text ?? UnitText.Invariant);
        checks.InRange(nameof(SmoothingFraction), "Smoothing", SmoothingFraction, 0.5, 96);
        checks.InRange(nameof(PointsPerOctave), "Points an octave", PointsPerOctave, 1, 96);
        checks.InRange(nameof(BelowDecibels), "Fall of the usable band in dB", BelowDecibels, 1, 40);
        Nested(checks, nameof(Window), Window?.Validate(text));
        Nested(checks, nameof(Layout), Layout?.Validate(text));
        Nested(checks, nameof(Microphone), Microphone?.Validate(text));
        Nested(checks, nameof(Response), Response?.Validate(text));
        var given = new object?[] { Response, Table, ImpulseWave }.Count(one => one is not null);
        if (given != 1)
            checks.Add(nameof(Response), $"Response: {given} of response, table and impulseWave were given; give one.");
        if (checks.Problems.Count > 0)
            return (null, null, [], checks.Problems);

        var (response, impulse, questions) = (Response, (ImpulseResponse?)null, (IReadOnlyList<string>)[]);
        if (Table is { } table)
            (response, questions) = FromTable(checks, Encoding.UTF8.GetBytes(table));
        else if (ImpulseWave is { } wave)
            (response, impulse) = FromWave(checks, wave, text);
        if (response is { } read && read.Hertz[^1] < 2 * read.Hertz[0])
            checks.Add(nameof(Response), $"Response: it reaches from {read.Hertz[0]:0.#} to {read.Hertz[^1]:0.#} Hz; an octave and more is needed.");
        return (response, impulse, questions, checks.Problems);
    }

    private (FrequencyResponse?, IReadOnlyList<string>) FromTable(InputChecks checks, byte[] file)
    {
        var proposal = ResponseTable.Propose(file);
        var reading = (Layout ?? proposal.Layout) is { } layout ? ResponseTable.Read(file, layout) : new ResponseTableReading(null, 0, proposal.Problems);
        foreach (var problem in reading.Problems)
            checks.Add(nameof(Table), problem.Message);
        return (reading.Response, Layout is null ? proposal.Questions : []);
    }

    private (FrequencyResponse?, ImpulseResponse?) FromWave(InputChecks checks, byte[] wave, UnitText? text)
    {
        if (WaveInput.Read(checks, nameof(ImpulseWave), wave) is not { } sound)
            return (null, null);
        WaveInput.Channel(checks, nameof(Channel), sound, Channel);
        if (checks.Problems.Count > 0)
            return (null, null);
        var impulse = new ImpulseResponse(sound.SampleRateHertz, sound.Channels[Channel]);
        Nested(checks, nameof(ImpulseWave), impulse.Validate(text));
        if (checks.Problems.Count > 0)
            return (null, null);
        try
        {
            return (ImpulseSpectrum.Of(Window?.Apply(impulse) ?? impulse), impulse);
        }
        catch (ArgumentOutOfRangeException)
        {
            checks.Add($"{nameof(Window)}.{nameof(ImpulseWindow.ReferenceSeconds)}", $"Window: it covers fewer than 16 samples with sound in them; the response lasts {(double)impulse.Samples.Length / impulse.SampleRateHertz:0.###} s.");
            return (null, null);
        }
    }

    private static void Nested(InputChecks checks, string field, IReadOnlyList<InputProblem>? problems) =>
        checks.AddRange((problems ?? []).Select(problem => problem with { Field = $"{field}.{problem.Field}" }));
}

/// <summary>A response looked at.</summary>
/// <param name="Smoothed">Smoothed level, dB.</param>
/// <param name="Minimum">Minimum phase the level demands, at the same frequencies.</param>
/// <param name="ExcessDelaySeconds">Delay beyond the minimum phase at the same frequencies, s; null without phase.</param>
/// <param name="ThirdOctaves">Mean level in third octaves (IEC 61260-1), dB.</param>
/// <param name="Usable">Where the level holds.</param>
/// <param name="Arrival">When the sound arrives; of an impulse response.</param>
/// <param name="Questions">What was guessed of a table and should be looked at.</param>
/// <param name="Findings">What to look at.</param>
public sealed record ResponseAnalysisResult(
    FrequencyResponse Smoothed,
    FrequencyResponse Minimum,
    IReadOnlyList<double>? ExcessDelaySeconds,
    FrequencyResponse ThirdOctaves,
    UsableBandResult Usable,
    ArrivalResult? Arrival,
    IReadOnlyList<string> Questions,
    IReadOnlyList<Finding> Findings);

/// <summary>Everything that is usually asked of one response.</summary>
public static class ResponseAnalysis
{
    private const double LowestHertz = 10;
    private const double HighestHertz = 24_000;

    /// <summary>Computes it, between 10 Hz and 24 kHz where the response reaches so far.</summary>
    /// <param name="input">The response.</param>
    /// <param name="text">How numbers are written in texts; null is metric, invariant.</param>
    /// <exception cref="ArgumentOutOfRangeException"><see cref="ResponseAnalysisInput.Validate"/> finds a problem; the parameter name is the field.</exception>
    public static ResponseAnalysisResult Compute(ResponseAnalysisInput input, UnitText? text = null)
    {
        ArgumentNullException.ThrowIfNull(input);
        var (read, impulse, questions, problems) = input.Read(text);
        InputChecks.ThrowIfAny(problems);
        var response = read!; // no problems, so it was read
        IReadOnlyList<Finding> calibration = [];
        if (input.Microphone is { } microphone)
            (response, calibration) = MicrophoneCalibration.Apply(response, microphone);

        var (low, high) = (Math.Max(response.Hertz[0], LowestHertz), Math.Min(response.Hertz[^1], HighestHertz));
        var hertz = high > low * 1.05 ? OctaveSmoothing.Spaced(low, high, input.PointsPerOctave) : [.. response.Hertz];
        var excess = response.PhaseRadians is null ? null : MinimumPhase.Excess(response, impulse?.SampleRateHertz);
        var minimum = MinimumPhase.Of(response, impulse?.SampleRateHertz);
        var bands = OctaveBands.Between(3, low, high).Select(band => band.MiddleHertz).ToList();
        var arrival = impulse is null ? null : Arrival.Compute(new ArrivalInput { Response = impulse }, text);
        return new ResponseAnalysisResult(
            OctaveSmoothing.Power(response, input.SmoothingFraction, hertz),
            new FrequencyResponse(hertz, [.. hertz.Select(minimum.DecibelsAt)], [.. hertz.Select(minimum.PhaseAt)]),
            excess is null ? null : Delays(excess, hertz),
            OctaveSmoothing.Power(response, 3, bands),
            UsableBand.Of(response, input.BelowDecibels),
            arrival,
            questions,
            [.. calibration, .. arrival?.Findings ?? []]);
    }

    // A response interpolates any number that stands over frequency.
    private static double[] Delays(ExcessPhase excess, double[] hertz)
    {
        var over = new FrequencyResponse(excess.Hertz, excess.ExcessDelaySeconds, null);
        return [.. hertz.Select(over.DecibelsAt)];
    }
}
