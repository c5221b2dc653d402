using ShopFloor.Engineering.Electrical;
using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Jobs;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>Compares the cables and fuses on the parts list with what the plan asks for now.</summary>
internal static class PlanPartsCheck
{
    public static IEnumerable<Finding> Find(IReadOnlyList<PlanRun> runs, IReadOnlyList<JobPart> parts, UnitText text)
    {
        var without = new List<string>();
        foreach (var run in runs.Where(run => run.Sizing is { DecidedBy: not SizeDecision.NoneFits }))
        {
            var sizing = run.Sizing!; // the filter left only sized runs
            var own = parts.Where(part => part.PlanRunId == run.Place.RunId && part.Direction == PartDirection.Installed).ToList();
            var cables = own.Where(part => part.Kind == PartKind.Cable).ToList();
            var fuses = own.Where(part => part.Kind == PartKind.Fuse).ToList();
            if (cables.Count == 0 || (fuses.Count == 0 && sizing.Fuse is not null))
            {
                without.Add(run.Place.Name);
            }

            foreach (var cable in cables)
            {
                if (((CableData)cable.Data).Metal == CableMetal.CopperCladAluminium && !sizing.Conductor.Material.IsCopperClad)
                {
                    yield return new Finding(
                        "cable-part-clad",
                        Severity.Stop,
                        cable.Id.ToString(),
                        cable.Name,
                        $"The cable on the parts list is copper-clad aluminium; {run.Place.Name} was reckoned with copper.",
                        "Put the planned cable on the parts list, or say on this run that its conductor is copper-clad aluminium.",
                        sizing.TableName);
                }

                if (AreaOf((CableData)cable.Data) is { } area && area < sizing.Conductor.AreaSquareMillimeters * 0.995)
                {
                    yield return new Finding(
                        "cable-part-thinner",
                        Severity.Stop,
                        cable.Id.ToString(),
                        cable.Name,
                        $"The cable on the parts list has {text.Number(area)} mm²; {run.Place.Name} asks for {sizing.Conductor.Label} ({text.Number(sizing.Conductor.AreaSquareMillimeters)} mm²).",
                        "Put the planned cable on the parts list, or enter the size that is used as the choice for this run.",
                        sizing.TableName);
                }
            }

            foreach (var fuse in fuses)
            {
                var data = (FuseData)fuse.Data;
                if (sizing.ProspectiveAmperes is { } fault && (data.InterruptAmperes ?? PlanShelf.SeriesOf(data.Form)?.InterruptAmperes) is { } interrupts && interrupts < fault * (1 - 1e-9)
                    && !IsSaidByThePlan(sizing.Fuse, fault, data))
                {
                    yield return new Finding(
                        "fuse-part-cannot-interrupt",
                        data.InterruptAmperes is null ? Severity.Warn : Severity.Stop,
                        fuse.Id.ToString(),
                        fuse.Name,
                        $"A short circuit can drive {text.Amperes(fault)} through it; the fuse on the parts list interrupts {text.Amperes(interrupts)}{(data.InterruptAmperes is null ? ", a figure from memory" : "")}.{(sizing.Fuse is { } asked ? $" {run.Place.Name} asks for a {asked.FormName} fuse." : "")}",
                        data.InterruptAmperes is null
                            ? "Put the planned fuse on the parts list, or look at the maker's figure and enter it on the part."
                            : "Put the planned fuse on the parts list, or use a fuse whose maker states enough.",
                        data.InterruptAmperes is null ? ElectricalDefaults.InterruptSource : "the fuse part");
                }

                if (sizing.Fuse is { } planned && ((FuseData)fuse.Data).RatingAmperes is { } rating && Math.Abs(rating - planned.RatingAmperes) > 1e-6)
                {
                    yield return new Finding(
                        "fuse-part-differs",
                        rating > planned.RatingAmperes ? Severity.Stop : Severity.Warn,
                        fuse.Id.ToString(),
                        fuse.Name,
                        $"The fuse on the parts list has {text.Amperes(rating)}; {run.Place.Name} asks for {text.Amperes(planned.RatingAmperes)}.",
                        "Put the planned fuse on the parts list, or enter the rating that is used as the choice for this run.",
                        "the plan");
                }
            }
        }

        if (without.Count > 0)
        {
            yield return new Finding(
                "run-without-parts",
                Severity.Note,
                "planned-parts",
                "Planned cable and fuses",
                $"Not on the parts list yet: {string.Join(", ", without)}.",
                "Put the planned cable and fuses on the parts list.",
                "the plan");
        }
    }

    // The plan speaks of the fuse it chose: as gravely unless only the part has a figure of its maker.
    private static bool IsSaidByThePlan(FuseChoice? planned, double fault, FuseData part) =>
        planned is null || (planned.InterruptAmperes < fault && (part.InterruptAmperes is null || !planned.InterruptIsFromMemory));

    /// <summary>Copper of a cable as its data say it, mm²: the area if given, else that of its gauge.</summary>
    public static double? AreaOf(CableData cable) =>
        cable.AreaSquareMillimeters ?? (WireGauge.TryParse(cable.Awg, out var gauge) ? WireGauge.AreaSquareMillimeters(gauge) : null);
}
