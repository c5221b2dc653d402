using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Electrical.Runs;

/// <summary>A loudspeaker and its two-conductor run.</summary>
public sealed record SpeakerRunInput
{
    /// <summary>Name shown in texts.</summary>
    public string Name { get; init; } = "Speaker run";

    /// <summary>Length one way, m (0.05 to 100).</summary>
    public required double LengthMeters { get; init; }

    /// <summary>Copper cross-section of one conductor, mm² (0.1 to 110); null asks for the least gauge only.</summary>
    public double? AreaSquareMillimeters { get; init; }

    /// <summary>Rated impedance of the load, Ω (0.25 to 100).</summary>
    public required double LoadOhms { get; init; }

    /// <summary>Lowest impedance of the load, Ω (0.2 to 100); null takes the rated one.</summary>
    public double? MinimumOhms { get; init; }

    /// <summary>Damping factor of the amplifier (1 to 10 000); null counts its output impedance as zero and says so.</summary>
    public double? AmplifierDampingFactor { get; init; }

    /// <summary>Impedance at which that damping factor is stated, Ω (0.25 to 16).</summary>
    public double DampingFactorStatedAtOhms { get; init; } = 4;

    /// <summary>Conductor temperature, °C (−40 to 125).</summary>
    public double ConductorCelsius { get; init; } = 20;

    /// <summary>Largest loss at the lowest impedance, dB (0.01 to 6). Common practice, no source.</summary>
    public double MaxLossDecibels { get; init; } = 0.5;

    /// <summary>Least damping factor at the load (1 to 1000). An amplifier maker's manual advises 25, and 50 for quality.</summary>
    public double MinDampingFactor { get; init; } = 25;

    /// <summary>What is wrong with the input, field by field; empty when it can be computed.</summary>
    /// <param name="text">How numbers are written; null is metric, invariant.</param>
    public IReadOnlyList<InputProblem> Validate(UnitText? text = null)
    {
        var checks = new InputChecks(text ?? UnitText.Invariant);
        checks.InRange(nameof(LengthMeters), $"{Name}, length", LengthMeters, 0.05, 100, QuantityKind.Length);
        checks.InRange(nameof(AreaSquareMillimeters), $"{Name}, conductor", AreaSquareMillimeters, 0.1, 110, QuantityKind.ConductorArea);
        checks.InRange(nameof(LoadOhms), $"{Name}, impedance of the load in Ω", LoadOhms, 0.25, 100);
        checks.InRange(nameof(MinimumOhms), $"{Name}, lowest impedance in Ω", MinimumOhms, 0.2, 100);
        if (MinimumOhms > LoadOhms)
            checks.Add(nameof(MinimumOhms), $"{Name}, lowest impedance in Ω: {(text ?? UnitText.Invariant).Number(MinimumOhms.Value)} is above the rated impedance; enter at most {(text ?? UnitText.Invariant).Number(LoadOhms)}.");
        checks.InRange(nameof(AmplifierDampingFactor), $"{Name}, damping factor of the amplifier", AmplifierDampingFactor, 1, 10_000);
        checks.InRange(nameof(DampingFactorStatedAtOhms), $"{Name}, impedance of the stated damping factor in Ω", DampingFactorStatedAtOhms, 0.25, 16);
        checks.InRange(nameof(ConductorCelsius), $"{Name}, conductor temperature", ConductorCelsius, -40, 125, QuantityKind.Temperature);
        checks.InRange(nameof(MaxLossDecibels), $"{Name}, largest loss in dB", MaxLossDecibels, 0.01, 6);
        checks.InRange(nameof(MinDampingFactor), $"{Name}, least damping factor", MinDampingFactor, 1, 1000);
        return checks.Problems;
    }
}

/// <summary>A speaker run with one conductor.</summary>
/// <param name="LoopOhms">Resistance there and back, Ω.</param>
/// <param name="LossDecibels">Level lost at the rated impedance, dB, 0 or more.</param>
/// <param name="PowerLossPercent">The same as a share of the power the load would get without the run, percent.</param>
/// <param name="WorstLossDecibels">Level lost at the lowest impedance, dB, 0 or more.</param>
/// <param name="DampingFactor">Damping factor at the load, rated impedance.</param>
public sealed record SpeakerRunFigures(double LoopOhms, double LossDecibels, double PowerLossPercent, double WorstLossDecibels, double DampingFactor);

/// <summary>A speaker run: what the chosen conductor does, and the least that keeps the limits.</summary>
public sealed record SpeakerRunResult
{
    /// <summary>With the entered conductor, or null when none was entered.</summary>
    public required SpeakerRunFigures? Entered { get; init; }

    /// <summary>Thinnest gauge from 18 AWG that keeps both limits, or null when none does.</summary>
    public required ConductorSize? LeastConductor { get; init; }

    /// <summary>With that gauge, or null.</summary>
    public required SpeakerRunFigures? Least { get; init; }

    /// <summary>What was found, gravest first.</summary>
    public required IReadOnlyList<Finding> Findings { get; init; }

    /// <summary>How it was reached.</summary>
    public required Explanation Explanation { get; init; }
}

/// <summary>Loss and damping factor of a loudspeaker run.</summary>
/// <remarks>
/// Loss 20·log10((Z + R)/Z) and 1 − (Z/(Z + R))²; damping factor Z/(Z_amp + R) with R the loop of both conductors. The impedance is
/// taken as a resistance, the usual simplification.
/// </remarks>
public static class SpeakerRun
{
    private const string Divider = "voltage divider of run and load";

    /// <summary>Level lost in a resistance in series with a load, dB: 20·log10((Z + R)/Z).</summary>
    /// <param name="loadOhms">Z, Ω, above 0.</param>
    /// <param name="loopOhms">R, Ω, 0 or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is outside its range.</exception>
    public static double LossDecibels(double loadOhms, double loopOhms)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(loadOhms);
        ArgumentOutOfRangeException.ThrowIfNegative(loopOhms);
        return 20 * Math.Log10((loadOhms + loopOhms) / loadOhms);
    }

    /// <summary>Damping factor at the load: Z/(Z_amp + R).</summary>
    /// <param name="loadOhms">Z, Ω, above 0.</param>
    /// <param name="amplifierOhms">Output impedance of the amplifier, Ω, 0 or more.</param>
    /// <param name="loopOhms">R, Ω, above 0.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is outside its range.</exception>
    public static double DampingFactor(double loadOhms, double amplifierOhms, double loopOhms)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(loadOhms);
        ArgumentOutOfRangeException.ThrowIfNegative(amplifierOhms);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(loopOhms);
        return loadOhms / (amplifierOhms + loopOhms);
    }

    /// <summary>Computes the run.</summary>
    /// <param name="input">Load, length and limits.</param>
    /// <param name="text">How numbers are written in texts; null is metric, invariant.</param>
    /// <exception cref="ArgumentOutOfRangeException"><see cref="SpeakerRunInput.Validate"/> finds a problem; the parameter name is the field.</exception>
    public static SpeakerRunResult Compute(SpeakerRunInput input, UnitText? text = null)
    {
        ArgumentNullException.ThrowIfNull(input);
        text ??= UnitText.Invariant;
        InputChecks.ThrowIfAny(input.Validate(text));

        var amplifierOhms = input.AmplifierDampingFactor is { } df ? input.DampingFactorStatedAtOhms / df : 0;
        var lowest = input.MinimumOhms ?? input.LoadOhms;
        SpeakerRunFigures With(ConductorSize conductor)
        {
            var loop = 2 * input.LengthMeters * conductor.OhmsPerMeter(input.ConductorCelsius);
            var share = input.LoadOhms / (input.LoadOhms + loop);
            return new SpeakerRunFigures(loop, LossDecibels(input.LoadOhms, loop), 100 * (1 - share * share), LossDecibels(lowest, loop), DampingFactor(input.LoadOhms, amplifierOhms, loop));
        }

        bool Keeps(SpeakerRunFigures f) => f.WorstLossDecibels <= input.MaxLossDecibels && f.DampingFactor >= input.MinDampingFactor;
        var entered = input.AreaSquareMillimeters is { } area ? With(new ConductorSize(text.Of(area, QuantityKind.ConductorArea), area)) : null;
        var least = ConductorSize.Gauges.FirstOrDefault(g => Keeps(With(g)));
        var leastFigures = least is null ? null : With(least);

        var limits = new List<LimitCheck>();
        var steps = new List<ExplainedStep>();
        if ((entered ?? leastFigures) is { } shown)
        {
            limits.Add(new LimitCheck("Loss at the lowest impedance", shown.WorstLossDecibels, input.MaxLossDecibels, "dB", shown.WorstLossDecibels <= input.MaxLossDecibels, ElectricalDefaults.CommonPractice));
            limits.Add(new LimitCheck("Damping factor at the load", shown.DampingFactor, input.MinDampingFactor, "", shown.DampingFactor >= input.MinDampingFactor, "an amplifier maker's manual: 25, for quality 50"));
            steps.Add(new ExplainedStep("Loop resistance", "R = 2 · L · R'", $"L = {text.Meters(input.LengthMeters)}", text.With(shown.LoopOhms, "Ω"), "copper at its temperature, 2 % stranding"));
            steps.Add(new ExplainedStep("Level lost", "20 · log10((Z + R) / Z)", $"20 · log10(({text.Number(input.LoadOhms)} + {text.Number(shown.LoopOhms)}) / {text.Number(input.LoadOhms)})", text.With(shown.LossDecibels, "dB"), Divider));
            steps.Add(new ExplainedStep("Damping factor at the load", "DF = Z / (Z_amp + R)", $"{text.Number(input.LoadOhms)} / ({text.Number(amplifierOhms)} + {text.Number(shown.LoopOhms)})", text.Number(shown.DampingFactor), "definition of damping factor"));
        }

        var findings = new FindingList(input.Name, input.Name);
        var deficit = limits.FirstOrDefault(l => !l.Passed);
        if (entered is not null && deficit is not null)
        {
            findings.Add("speaker-run-too-thin", Severity.Warn, $"{deficit.Name}: {text.With(deficit.Actual, deficit.Unit).TrimEnd()} against a limit of {text.With(deficit.Limit, deficit.Unit).TrimEnd()}.",
                least is null ? "Shorten the run; no gauge keeps the limits." : $"Use {least.Label} or thicker.", deficit.Source);
        }

        if (least is null)
        {
            findings.Add("speaker-run-no-gauge", Severity.Warn, "No gauge up to 4/0 AWG keeps the limits.",
                amplifierOhms > 0 && input.LoadOhms / amplifierOhms <= input.MinDampingFactor ? "The amplifier alone falls short of the damping factor asked for: ask for less." : "Shorten the run or ask for less.", Divider);
        }

        if (input.AmplifierDampingFactor is null)
        {
            findings.Add("amplifier-damping-missing", Severity.Note, "The damping factor of the amplifier is not known; its output impedance is left out.",
                "Take it from the data sheet.", "needed for the damping factor");
        }

        return new SpeakerRunResult
        {
            Entered = entered,
            LeastConductor = least,
            Least = leastFigures,
            Findings = findings.Sorted,
            Explanation = new Explanation(
                $"{input.Name}: which conductor?", least is null ? "no gauge keeps the limits" : $"{least.Label} or thicker",
                [
                    new ExplainedInput("Length one way", input.LengthMeters, "m", "entered"),
                    new ExplainedInput("Impedance of the load", input.LoadOhms, "Ω", "part data"),
                    new ExplainedInput("Lowest impedance", lowest, "Ω", input.MinimumOhms is null ? "taken as the rated impedance" : "part data"),
                    new ExplainedInput("Output impedance of the amplifier", amplifierOhms, "Ω", input.AmplifierDampingFactor is null ? "not known, left out" : "part data"),
                ],
                steps, limits, deficit?.Name),
        };
    }
}
