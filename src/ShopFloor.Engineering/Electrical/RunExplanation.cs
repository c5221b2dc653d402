using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Electrical;

/// <summary>Writes down how a run was sized.</summary>
internal static class RunExplanation
{
    public static Explanation Make(RunCase run, RunChoice choice, RunDrop drop, IReadOnlyList<LimitCheck> limits, UnitText text)
    {
        var input = run.Input;
        var label = choice.Row.Conductor.Label;
        var fuse = choice.Fuse is { } f ? $"{text.Amperes(f.RatingAmperes)} {f.FormName} fuse" : "no fuse fits";
        var answer = choice.DecidedBy == SizeDecision.NoneFits
            ? $"No size available carries it; {label} is the largest"
            : $"{label}, {fuse}; drop {text.Volts(drop.Volts)} ({text.Percent(drop.Percent)}){AtBasis(input.Rules.DropBasis)}";
        return new Explanation($"{input.Name}: which conductor and fuse?", answer, Inputs(run), Steps(run, choice, drop, text), limits, Reason(run, choice, text));
    }

    internal static string AtBasis(DropBasis basis) => basis == DropBasis.MusicCurrent ? " on music" : " at rated current";

    internal static string Reason(RunCase run, RunChoice choice, UnitText text) => choice.DecidedBy switch
    {
        SizeDecision.MinimumSize => "thinnest size available or allowed",
        SizeDecision.Ampacity => "ampacity: thinner sizes may not carry the continuous current",
        SizeDecision.FuseRating => $"fuse rating: a thinner size leaves no room for the {text.Amperes(choice.Fuse?.RatingAmperes ?? run.MinimumFuse)} fuse",
        SizeDecision.VoltageDrop => "voltage drop",
        SizeDecision.Forced => "chosen by hand",
        SizeDecision.NoneFits => "no size available fits",
        _ => throw new ArgumentOutOfRangeException(nameof(choice)),
    };

    private static List<ExplainedInput> Inputs(RunCase run)
    {
        var input = run.Input;
        var data = input.Run;
        var inputs = new List<ExplainedInput>
        {
            new("Continuous current", input.ContinuousAmperes, "A", "load data"),
            new("Current on music", run.Music, "A", input.MusicAmperes is null ? "default: the continuous current" : "load data"),
            new("Length one way", run.Length, "m", "entered"),
            new("Supply voltage", input.SupplyVolts, "V", ElectricalDefaults.Origin(input.SupplyVolts, ElectricalDefaults.SupplyVolts, Unsourced.CommonPractice)),
            new("Insulation class", data.InsulationCelsius, "°C",
                ElectricalDefaults.Origin(data.InsulationCelsius, ElectricalDefaults.InsulationCelsius, "plain PVC vehicle cable, from memory; read the marking")),
            new("Ambient", run.EffectiveAmbient, "°C", data.EngineSpace ? "engine space"
                : ElectricalDefaults.Origin(data.AmbientCelsius, ElectricalDefaults.AmbientCelsius, $"closed car in the sun, {Unsourced.CommonPractice}")),
            new("Bundled current-carrying conductors", data.BundledConductors, "", "entered"),
            new("Continuous load as a share of the fuse rating", input.Rules.ContinuousLoading, "", RunFindings.FuseSource),
        };
        if (data.ReturnPath == ReturnPath.VehicleBody)
        {
            inputs.Add(new("Resistance of the body return", run.BodyOhms, "Ω",
                data.BodyReturnOhms is null ? $"default: {ElectricalDefaults.FromMemory}" : "entered"));
        }

        if (data.TerminationOhms > 0)
            inputs.Add(new("Resistance of the terminations", data.TerminationOhms, "Ω", "entered"));
        if (input.MakerFuseAmperes is { } maker)
            inputs.Add(new("Fuse the maker asks for", maker, "A", "part data"));
        return inputs;
    }

    private static List<ExplainedStep> Steps(RunCase run, RunChoice choice, RunDrop drop, UnitText text)
    {
        var input = run.Input;
        var table = input.Rules.Table;
        var conductor = choice.Row.Conductor;
        var derated = run.Derated(choice.Row);
        string N(double value) => text.Number(value, 4);

        var steps = new List<ExplainedStep>
        {
            new("Allowed current", "I_allowed = I_table · k_ambient · k_bundle",
                $"{N(run.TableAmperes(choice.Row))} · {N(run.AmbientFactor)} · {N(run.BundlingFactor)} ({conductor.Label}, {N(run.ColumnCelsius)} °C column)",
                text.Amperes(derated), table.Source),
            new("Factor for the surroundings",
                input.Run.EngineSpace ? "printed engine-space factor, or √((Tr − Ta)/(Tr − Tbasis)) when lower" : "√((Tr − Ta)/(Tr − Tbasis)), not above 1",
                $"Tr {N(run.ColumnCelsius)} °C, Ta {N(run.EffectiveAmbient)} °C, Tbasis {N(table.AmbientCelsius)} °C", N(run.AmbientFactor),
                $"{table.Source}; the root law reproduces its engine-space factors at 50 °C"),
        };
        if (run.BundlingFactor < 1)
        {
            steps.Add(new("Factor for bundling", "by number of current-carrying conductors",
                $"{input.Run.BundledConductors} conductors", N(run.BundlingFactor), $"{table.Source}. {table.BundlingStatement}"));
        }

        steps.Add(new("Least fuse", "I_fuse ≥ I / loading", $"{N(input.ContinuousAmperes)} / {N(input.Rules.ContinuousLoading)}",
            text.Amperes(run.MinimumFuse), RunFindings.FuseSource));
        if (input.FuseNotBelowAmperes is { } least && least > run.MinimumFuse && choice.Fuse is { } selective)
        {
            steps.Add(new("Fuse against the fuses behind it", "above the largest of several, not below a single one",
                $"at least {N(least)} A", text.Amperes(selective.RatingAmperes), Unsourced.CommonPractice));
        }

        if (input.ProspectiveAmperes is { } fault)
        {
            steps.Add(new("Short-circuit current at the fuse", "I_short ≤ Σ V_source / (R_source + R_cable up to the fuse) + I_alternator",
                $"cables of the sizes chosen, at {text.Celsius(ProspectiveCurrents.ColdCelsius)}; contacts, returns and the fault itself not counted",
                $"{text.Amperes(fault)}; the fuse interrupts {(choice.Fuse?.InterruptAmperes is { } interrupts ? text.Amperes(interrupts) : "an unknown current")}",
                $"Ohm's law, an upper bound; interrupt rating: {choice.Fuse?.InterruptSource ?? "not known"}"));
        }

        if (run.Budget.Step is { } share)
            steps.Add(share);
        steps.Add(new("Conductor temperature", "T2 = T1 + (Tr − T1) · √(I / I_allowed)",
            $"{N(run.EffectiveAmbient)} + ({N(run.ColumnCelsius)} − {N(run.EffectiveAmbient)}) · √({N(drop.Amperes)} / {N(derated)})",
            text.Celsius(drop.ConductorCelsius), "FAA AC 43.13-1B, chapter 11, symbols from memory; errs on the warm side"));
        var body = drop.BodyOhms > 0 ? $" + {N(drop.BodyOhms * 1000)} mΩ" : "";
        var ends = drop.TerminationOhms > 0 ? $" + {N(drop.TerminationOhms * 1000)} mΩ" : "";
        var withEnds = ends.Length > 0 ? " + R_ends" : "";
        steps.Add(new("Voltage drop there and back", conductor.TabulatedOhmsPerMeterAt20Celsius is null
                ? $"U = I · (1.02 · ρ20 · (T0 + T)/(T0 + 20) · L / A + R_body{withEnds})" : $"U = I · (R20 · (T0 + T)/(T0 + 20) · L + R_body{withEnds})",
            $"{N(drop.Amperes)} A · ({N(drop.ConductorOhms * 1000)} mΩ{body}{ends}), L {N(run.ConductorMeters)} m, A {N(conductor.AreaSquareMillimeters)} mm²",
            $"{text.Volts(drop.Volts)} ({text.Percent(drop.Percent)})",
            conductor.TabulatedOhmsPerMeterAt20Celsius is { } tabulated
                ? $"R20 = {N(tabulated * 1000)} mΩ/m: {conductor.Source}; T0 = {N(conductor.Material.InferredZeroCelsius)} °C"
                : $"ρ20 = {text.Number(conductor.Material.OhmSquareMillimetersPerMeter, 5)} Ω·mm²/m, T0 = {N(conductor.Material.InferredZeroCelsius)} °C ({conductor.Material.Source}); {conductor.Source}; 2 % stranding from NEC chapter 9 table 8"));
        return steps;
    }
}
