using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Electrical;

/// <summary>Chooses conductor and fuse of one run.</summary>
/// <remarks>
/// The thinnest available size is taken that carries the continuous current after derating, leaves room for a standard fuse between
/// the load over the loading rule and its derated ampacity, keeps the voltage drop, and is not below the table's minimum. The fuse is the
/// smallest standard rating that carries the load, or the largest up to the maker's when the maker asks for more. A size or fuse chosen by hand is kept and
/// judged. Drop is taken at the conductor temperature of <see cref="VoltageDrop.ConductorCelsius"/>, not at 20 °C.
/// </remarks>
public static class RunSizing
{
    /// <summary>Chooses conductor and fuse.</summary>
    /// <param name="input">The run.</param>
    /// <param name="text">How numbers are written in texts; null is metric, invariant.</param>
    /// <exception cref="ArgumentOutOfRangeException">
    /// <see cref="RunSizingInput.Validate"/> finds a problem; the parameter name is the field.
    /// </exception>
    public static RunSizingResult Size(RunSizingInput input, UnitText? text = null)
    {
        ArgumentNullException.ThrowIfNull(input);
        text ??= UnitText.Invariant;
        InputChecks.ThrowIfAny(input.Validate(text));
        input = input with { Rules = input.Rules.For(input.Run) };
        var limit = input.MaxDropVolts ?? input.Rules.MaxDropPercent / 100 * input.SupplyVolts;
        return Size(input, new RunBudget(limit, limit, "Voltage drop there and back", true, null), text);
    }

    /// <param name="settled">Size that was chosen together with the other runs of its tree, or null to choose for the budget.</param>
    internal static RunSizingResult Size(RunSizingInput input, RunBudget budget, UnitText text, AmpacityRow? settled = null)
    {
        var run = new RunCase(input, budget);
        var choice = settled is null ? RunChoice.Make(run) : RunChoice.Settled(run, settled);
        var conductor = choice.Row.Conductor;
        var rated = run.Drop(choice.Row, input.ContinuousAmperes);
        var music = run.Drop(choice.Row, run.Music);
        var checkedDrop = run.Drop(choice.Row, run.DropAmperes);
        var limits = Limits(run, choice, checkedDrop);
        return new RunSizingResult
        {
            RunId = input.Id,
            Name = input.Name,
            Conductor = conductor,
            DecidedBy = choice.DecidedBy,
            KeepsAllLimits = choice.DecidedBy != SizeDecision.NoneFits && choice.Fuse is not null && limits.All(l => l.Passed),
            TableName = input.Rules.Table.Name,
            TableStatement = input.Rules.Table.Statement,
            TableRow = conductor.Label,
            TableColumnCelsius = run.ColumnCelsius,
            TableAmperes = run.TableAmperes(choice.Row),
            AmbientFactor = run.AmbientFactor,
            BundlingFactor = run.BundlingFactor,
            DeratedAmperes = run.Derated(choice.Row),
            MinimumFuseAmperes = run.MinimumFuse,
            FuseCeilingAmperes = input.Rules.Table.FuseCeilingRatio * run.TableAmperes(choice.Row),
            Fuse = choice.Fuse,
            InsulationCelsius = input.Run.InsulationCelsius,
            AmbientCelsius = run.EffectiveAmbient,
            ProspectiveAmperes = input.ProspectiveAmperes,
            IdleAmperes = input.IdleAmperes,
            RatedDrop = rated,
            MusicDrop = music,
            LengthMeters = run.Length,
            ReturnPath = input.Run.ReturnPath,
            ConductorMeters = run.ConductorMeters,
            CopperKilograms = conductor.CopperKilogramsPerMeter * run.ConductorMeters,
            CableKilograms = (conductor.CopperKilogramsPerMeter + conductor.InsulationKilogramsPerMeterEstimate) * run.ConductorMeters,
            Findings = RunFindings.Find(run, choice, checkedDrop, text),
            Limits = limits,
            Explanation = RunExplanation.Make(run, choice, checkedDrop, limits, text),
        };
    }

    private static List<LimitCheck> Limits(RunCase run, RunChoice choice, RunDrop drop)
    {
        var input = run.Input;
        var table = input.Rules.Table;
        var derated = run.Derated(choice.Row);
        var limits = new List<LimitCheck>
        {
            new("Continuous current within the derated ampacity", input.ContinuousAmperes, derated, "A", run.Carries(choice.Row), table.Source),
            new("Conductor not thinner than the least allowed", choice.Row.Conductor.AreaSquareMillimeters, run.MinimumArea, "mm²",
                run.IsThickEnough(choice.Row), table.MinimumAreaSource),
            new(run.Budget.LimitName + RunExplanation.AtBasis(input.Rules.DropBasis), drop.Volts, run.Budget.LimitVolts, "V", drop.Volts <= run.Budget.LimitVolts,
                PlanExplanation.DropSource),
        };
        if (choice.Fuse is { } fuse)
        {
            var ceiling = table.FuseCeilingRatio * run.TableAmperes(choice.Row);
            limits.Add(new("Fuse not above the derated ampacity", fuse.RatingAmperes, derated, "A", FuseRatings.AtLeast(derated, fuse.RatingAmperes), table.Source));
            limits.Add(new("Fuse large enough for the continuous load", fuse.RatingAmperes, run.MinimumFuse, "A",
                FuseRatings.AtLeast(fuse.RatingAmperes, run.MinimumFuse), RunFindings.FuseSource));
            limits.Add(new("Fuse not above the outer ceiling (shown, never used to choose)", fuse.RatingAmperes, ceiling, "A",
                FuseRatings.AtLeast(ceiling, fuse.RatingAmperes), table.FuseCeilingSource));
            if (fuse.VoltageRating is { } volts)
                limits.Add(new("Fuse voltage rating at least the circuit voltage", volts, input.SupplyVolts, "V", volts >= input.SupplyVolts, "33 CFR 183.455(d)"));
        }

        if (input.ProspectiveAmperes is { } fault && choice.Fuse is { InterruptAmperes: { } interrupts })
        {
            limits.Add(new("Fuse interrupts the short-circuit current", interrupts, fault, "A", FuseRatings.AtLeast(interrupts, fault),
                choice.Fuse.InterruptSource));
        }

        limits.AddRange(FusePosition.Limits(input));
        return limits;
    }
}
