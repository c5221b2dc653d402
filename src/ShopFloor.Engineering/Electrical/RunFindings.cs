using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Electrical;

/// <summary>What is wrong with a chosen size and fuse.</summary>
internal static class RunFindings
{
    // SAE wire carries about 7 % less than AWG wire of the same number (marine cable makers' briefs).
    private const double SaeAmpacityRatio = 0.93;

    public static List<Finding> Find(RunCase run, RunChoice choice, RunDrop drop, UnitText text)
    {
        var input = run.Input;
        var findings = new List<Finding>();
        var label = choice.Row.Conductor.Label;
        var derated = run.Derated(choice.Row);
        var continuous = input.ContinuousAmperes;

        void Add(string code, Severity severity, string what, string remedy, string source) =>
            findings.Add(new Finding(code, severity, input.Id, input.Name, what, remedy, source));

        if (choice.DecidedBy == SizeDecision.NoneFits)
        {
            var makers = input is { MakerFuseAmperes: { } maker, Run.ForcedFuseAmperes: null } && FuseRatings.AtLeast(maker, run.MinimumFuse);
            if (RunChoice.WantedFuse(run) is not { } fuse)
            {
                Add("no-fuse-rating", Severity.Stop,
                    $"No fuse of the shop's list is large enough: {text.Amperes(continuous)} asks for at least {text.Amperes(run.MinimumFuse)} at {text.Volts(input.SupplyVolts)}.",
                    "Split the load over two runs, or add a larger fuse to the list.", FuseSource);
            }
            else
            {
                Add("no-size-carries", Severity.Stop,
                    $"No size carries it: {text.Amperes(continuous)} asks for a fuse of {text.Amperes(fuse.RatingAmperes)}{(makers ? " by its maker" : "")}, and {label} is allowed {text.Amperes(derated)} here.",
                    "Split the load over two runs, use cable of a warmer insulation class, or find a cooler or looser route."
                        + (makers ? " Check the maker's fuse too, or choose a smaller one." : ""), input.Rules.Table.Source);
            }
        }
        else if (!run.Carries(choice.Row))
        {
            Add("conductor-too-small", Severity.Stop,
                $"{label} is allowed {text.Amperes(derated)} here and would carry {text.Amperes(continuous)}.",
                "Use a thicker conductor.", input.Rules.Table.Source);
        }

        if (!run.IsThickEnough(choice.Row))
        {
            Add("conductor-below-minimum", Severity.Warn,
                $"{label} is thinner than {text.Of(run.MinimumArea, QuantityKind.ConductorArea)}, the least for {(input.Run.SheathedWholeWay ? "a conductor in a sheath" : "a separate conductor")}.",
                "Use a thicker conductor.", input.Rules.Table.MinimumAreaSource);
        }

        AddFuse(Add, run, choice.Fuse, label, derated, run.TableAmperes(choice.Row), text);

        if (run.Budget.ReportsDrop && drop.Volts > run.Budget.LimitVolts)
        {
            Add("drop-over-limit", Severity.Stop,
                $"The drop there and back{RunExplanation.AtBasis(input.Rules.DropBasis)} is {text.Volts(drop.Volts)} with {label}; the limit is {text.Volts(run.Budget.LimitVolts)}.",
                "Use a thicker conductor, shorten the run, or improve the return.", PlanExplanation.DropSource);
        }

        if (FusePosition.Find(input, text) is { } position)
            findings.Add(position);

        findings.AddRange(new[]
        {
            ConductorFindings.ReturnNotMeasured(input.Id, input.Name, input.Run, run.BodyOhms, text),
            ConductorFindings.Clad(input.Id, input.Name, choice.Row.Conductor, text),
            choice.Fuse is { } chosen ? ConductorFindings.FuseBelowLoad(input.Id, input.Name, chosen.RatingAmperes, continuous, run.MinimumFuse, text) : null,
        }.OfType<Finding>());

        AddSae(Add, run, choice, drop, derated, text);
        return findings;
    }

    internal const string FuseSource = "fuse makers' selection guides: continuous load 75 to 80 % of the rating";

    private static void AddFuse(
        Action<string, Severity, string, string, string> add, RunCase run, FuseChoice? fuse, string label, double derated, double table, UnitText text)
    {
        var input = run.Input;
        if (fuse is null)
        {
            if (input.Run.ForcedSize is not null)
            {
                add("no-fuse-rating", Severity.Stop, $"No fuse of the shop's list is small enough for {label}, which is allowed {text.Amperes(derated)} here.",
                    "Use a thicker conductor.", FuseSource);
            }

            return;
        }

        var rating = text.Amperes(fuse.RatingAmperes);
        if (!FuseRatings.AtLeast(derated, fuse.RatingAmperes))
        {
            add("fuse-above-ampacity", Severity.Stop,
                $"A {rating} fuse does not protect {label}, which is allowed {text.Amperes(derated)} here.",
                "Use a smaller fuse or a thicker conductor.", input.Rules.Table.Source);
        }

        var ceiling = input.Rules.Table.FuseCeilingRatio * table;
        if (!FuseRatings.AtLeast(ceiling, fuse.RatingAmperes))
        {
            add("fuse-above-ceiling", Severity.Stop,
                $"A {rating} fuse is above {text.Amperes(ceiling)}, the most the table's source allows for {label}.",
                "Use a smaller fuse or a thicker conductor.", input.Rules.Table.FuseCeilingSource);
        }

        if (input.MakerFuseAmperes is { } maker && fuse.RatingAmperes > maker)
        {
            add("fuse-above-maker", Severity.Warn,
                $"The maker asks for a fuse of {text.Amperes(maker)}; the load data ask for at least {text.Amperes(run.MinimumFuse)}, so {rating} was chosen.",
                "Check rated power, efficiency and the maker's fuse; the maker's instructions come first.", "maker's data");
        }

        if (fuse.Form is null)
        {
            add("fuse-not-standard", Severity.Note, $"A {rating} fuse for {text.Volts(input.SupplyVolts)} is not in the shop's list.",
                "Check that the rating exists, its voltage and its interrupt rating.", "the shop's list of fuses");
        }

        if (input.ProspectiveAmperes is { } fault)
        {
            if (fuse.InterruptAmperes is { } interrupts && !FuseRatings.AtLeast(interrupts, fault))
            {
                var said = FuseInterruption.Finding(
                    input.Id, input.Name, $"A short circuit can drive {text.Amperes(fault)}", $"a {rating} {fuse.FormName} fuse", interrupts,
                    fuse.InterruptIsFromMemory, fuse.InterruptSource, text, " No form of the shop's list with a fitting rating interrupts more.");
                add(said.Code, said.Severity, said.Text, said.Remedy, said.Source);
            }
        }
        else if (input.FedFromBattery && fuse.Form is FuseForm.Blade or FuseForm.MiniBlade or FuseForm.HighCurrentBlade)
        {
            add("fuse-interrupt-rating", Severity.Note,
                $"A {fuse.FormName} fuse interrupts about {text.Amperes(fuse.InterruptAmperes ?? 0)}; a short circuit at the battery can exceed that.",
                "Prefer a bolt-in fuse at the battery, or feed this load from a fused distribution point.", ElectricalDefaults.FromMemory);
        }
    }

    private static void AddSae(
        Action<string, Severity, string, string, string> add, RunCase run, RunChoice choice, RunDrop drop, double derated, UnitText text)
    {
        if (choice.Row.Conductor.SaeAreaSquareMillimeters is not { } saeArea)
            return;
        var ratio = choice.Row.Conductor.AreaSquareMillimeters / saeArea;
        var saeVolts = drop.Amperes * (drop.ConductorOhms * ratio + drop.BodyOhms + drop.TerminationOhms);
        var breaksDrop = drop.Volts <= run.Budget.ChooseVolts && saeVolts > run.Budget.ChooseVolts;
        var breaksFuse = choice.Fuse is { } fuse
            && FuseRatings.AtLeast(derated, fuse.RatingAmperes) && fuse.RatingAmperes > derated * SaeAmpacityRatio;
        if (!breaksDrop && !breaksFuse)
            return;
        add("sae-wire-smaller", Severity.Note,
            $"Cable marked {choice.Row.Conductor.Label} to SAE sizes has only {text.Number(saeArea)} mm² of {text.Number(choice.Row.Conductor.AreaSquareMillimeters)} mm²; with it this run would miss its {(breaksDrop ? "voltage drop" : "fuse")} limit.",
            "Read the marking and compare areas; take the next size when the cable is to SAE sizes.", "circular-mil areas as tabulated in ABYC E-11");
    }
}
