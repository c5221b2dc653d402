using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Electrical;

/// <summary>What is wrong with a plan as a whole, with the findings of its runs and loads.</summary>
internal static class PlanFindings
{
    public static List<Finding> Find(
        ElectricalPlanInput input, IReadOnlyList<PlannedLoad> loads, RunSizingResult? main, double mainAmperes, PlanTotals totals,
        double limit, AlternatorComparison? alternator, UnitText text)
    {
        var findings = new List<Finding>();
        if (mainAmperes > 0 && main is null)
        {
            findings.Add(new Finding(
                "run-data-missing", Severity.Stop, ElectricalPlan.MainRunId, "Main run",
                "The length of the main run is not known, so neither it nor the branches behind it can be sized.",
                "Measure the route from the battery to the distribution point and enter it.", "needed for the voltage drop"));
        }

        if (main is not null)
            findings.AddRange(main.Findings);
        if (mainAmperes > 0 && input.MainDemandFactor < 1)
            findings.Add(Demand(input, loads, mainAmperes, text));
        var branchFuses = loads.Count(l => l is { ConnectedTo: LoadConnection.Distribution, Branch.Fuse: not null });
        foreach (var load in loads)
        {
            AddLoad(findings, load, limit, input.Rules.DropBasis, text);
            if (main?.Fuse is { } fuse && load is { ConnectedTo: LoadConnection.Distribution, Branch.Fuse: { } branchFuse })
                AddSelectivity(findings, load, fuse.RatingAmperes, branchFuse.RatingAmperes, branchFuses == 1, text);
        }

        if (alternator is not null)
            AddAlternator(findings, alternator, totals, text);
        return [.. findings.OrderByDescending(f => f.Severity)];
    }

    private static Finding Demand(ElectricalPlanInput input, IReadOnlyList<PlannedLoad> loads, double mainAmperes, UnitText text)
    {
        var sum = loads.Where(l => l.ConnectedTo == LoadConnection.Distribution).Sum(l => l.Rated?.Amperes ?? 0);
        return new Finding(
            "demand-reduced", Severity.Warn, ElectricalPlan.MainRunId, "Main run",
            $"The main run is chosen for {text.Amperes(mainAmperes)}, {text.Percent(input.MainDemandFactor * 100)} of the {text.Amperes(sum)} all loads draw at rated output; its fuse may open when all play at full output.",
            "Use the full sum unless the loads cannot run at once.", ElectricalDefaults.CommonPractice);
    }

    private static void AddLoad(List<Finding> findings, PlannedLoad load, double limit, DropBasis basis, UnitText text)
    {
        if (load.MissingData.Count > 0)
        {
            findings.Add(new Finding(
                "load-data-missing", Severity.Stop, load.LoadId, load.Name,
                $"Not known: {string.Join(", ", load.MissingData)}. {(load.Rated is null ? "The load is not in the sums." : "Its run is not sized.")}",
                "Take it from the data sheet or the marking, or measure it, and enter it.", "needed for current and voltage drop"));
        }

        if (load.Amplifier is not null)
            findings.AddRange(load.Amplifier.Findings.Select(f => f with { SubjectId = load.LoadId, Subject = load.Name }));
        if (load.Branch is not { } branch)
            return;
        findings.AddRange(branch.Findings);

        if (!PlanExplanation.WithinLimit(load, limit, basis))
        {
            var drop = load.DropAt(basis)!;
            findings.Add(new Finding(
                "drop-over-limit", Severity.Stop, load.LoadId, load.Name,
                $"The drop from battery to load and back{RunExplanation.AtBasis(basis)} is {text.Volts(drop.TotalVolts)} ({text.Volts(drop.MainVolts)} main run, {text.Volts(drop.BranchVolts)} branch); the limit is {text.Volts(limit)}.",
                "Use thicker conductors, shorten the runs, or improve the returns.", PlanExplanation.DropSource));
        }
    }

    private static void AddSelectivity(List<Finding> findings, PlannedLoad load, double main, double branch, bool isOnlyBranch, UnitText text)
    {
        if (branch < main || (isOnlyBranch && branch <= main))
            return;
        findings.Add(new Finding(
            "no-selectivity", Severity.Warn, load.LoadId, load.Name,
            $"Its {text.Amperes(branch)} fuse is not smaller than the {text.Amperes(main)} main fuse: a fault on this branch may take everything down.",
            "Choose a smaller branch fuse or a larger main fuse on a main run that allows it.", ElectricalDefaults.CommonPractice));
    }

    private static void AddAlternator(List<Finding> findings, AlternatorComparison alternator, PlanTotals totals, UnitText text)
    {
        var basis = alternator.VehicleBaseOrigin == "entered" ? "" : $" The vehicle's own {text.Amperes(alternator.VehicleBaseAmperes)} is an assumed value.";
        if (!totals.IsComplete)
            basis += " Loads with missing data are not counted.";
        void Short(string code, string when, double available, double surplus, string remedy) => findings.Add(new Finding(
            code, Severity.Warn, "alternator", "Alternator",
            $"{when} it gives about {text.Amperes(available)}; vehicle and music draw {text.Amperes(alternator.VehicleBaseAmperes + alternator.AddedMusicAmperes)}: {text.Amperes(-surplus)} comes out of the battery.{basis}",
            remedy, "output shares from memory; use the maker's output curve"));

        if (alternator.SurplusAtCruiseAmperes < 0)
        {
            Short("alternator-short-at-cruise", "Hot at cruise", alternator.AvailableAtCruiseAmperes, alternator.SurplusAtCruiseAmperes,
                "The battery will run flat while driving: plan a larger alternator or less power.");
        }

        if (alternator.SurplusAtIdleAmperes < 0)
        {
            Short("alternator-short-at-idle", "At engine idle", alternator.AvailableAtIdleAmperes, alternator.SurplusAtIdleAmperes,
                "Tell the client how long the system may play at idle, or plan a larger alternator or a second battery.");
        }
    }
}
