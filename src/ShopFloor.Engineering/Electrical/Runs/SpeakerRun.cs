using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Electrical.Runs;

/// <summary>Loss and damping factor of a loudspeaker run.</summary>
/// <remarks>
/// Loss 20·log10((Z + R)/Z) and 1 − (Z/(Z + R))²; damping factor Z/(Z_amp + R) with R the loop of both conductors. The impedance is
/// taken as a resistance, the usual simplification.
/// </remarks>
public static class SpeakerRun
{
    /// <summary>Lowest impedance of a driver over its rated one, when nothing is entered. IEC 60268-5, from memory.</summary>
    public const double LowestShare = 0.8;

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
        var lowest = input.MinimumOhms ?? LowestShare * input.LoadOhms;
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
            limits.Add(new LimitCheck("Loss at the lowest impedance", shown.WorstLossDecibels, input.MaxLossDecibels, "dB", shown.WorstLossDecibels <= input.MaxLossDecibels, Unsourced.CommonPractice));
            limits.Add(new LimitCheck("Damping factor at the load", shown.DampingFactor, input.MinDampingFactor, "", shown.DampingFactor >= input.MinDampingFactor, "an amplifier maker's manual: 25, for quality 50"));
            steps.Add(new ExplainedStep("Loop resistance", "R = 2 · L · R'", $"L = {text.Meters(input.LengthMeters)}", text.With(shown.LoopOhms, "Ω"), "copper at its temperature, 2 % stranding"));
            steps.Add(new ExplainedStep("Level lost", "20 · log10((Z + R) / Z)", $"20 · log10(({text.Number(input.LoadOhms)} + {text.Number(shown.LoopOhms)}) / {text.Number(input.LoadOhms)})", text.With(shown.LossDecibels, "dB"), Divider));
            steps.Add(new ExplainedStep("Damping factor at the load", "DF = Z / (Z_amp + R)", $"{text.Number(input.LoadOhms)} / ({text.Number(amplifierOhms)} + {text.Number(shown.LoopOhms)})", text.Number(shown.DampingFactor), "definition of damping factor"));
        }

        var findings = new FindingList(input.Id, input.Name);
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
                    new ExplainedInput("Lowest impedance", lowest, "Ω", input.MinimumOhms is null ? "default: 80 % of the rated impedance, IEC 60268-5, from memory" : "part data"),
                    new ExplainedInput("Output impedance of the amplifier", amplifierOhms, "Ω", input.AmplifierDampingFactor is null ? "not known, left out" : "part data"),
                ],
                steps, limits, deficit?.Name),
        };
    }
}
