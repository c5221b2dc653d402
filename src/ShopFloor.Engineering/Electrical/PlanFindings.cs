using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Electrical;

/// <summary>What is wrong with a plan as a whole, with the findings of its runs and loads.</summary>
internal static class PlanFindings
{
    public static List<Finding> Find(
        ElectricalPlanInput input, IReadOnlyList<PlanNode> nodes, IReadOnlyList<PlannedLoad> loads, PlanTotals totals,
        AlternatorComparison? alternator, UnitText text)
    {
        var findings = new List<Finding>();
        foreach (var node in nodes.Where(n => n.Point is not null && n.Amperes > 0))
            AddPoint(findings, node, text);
        foreach (var load in loads)
            AddLoad(findings, load, input.Rules.DropBasis, text);
        foreach (var node in nodes)
            AddSelectivity(findings, node, text);
        if (alternator is not null)
            AddAlternator(findings, alternator, totals, text);
        return [.. findings.OrderByDescending(f => f.Severity)];
    }

    private static void AddPoint(List<Finding> findings, PlanNode node, UnitText text)
    {
        var point = node.Point!;
        if (point.Run.LengthMeters is null)
        {
            findings.Add(new Finding(
                "run-data-missing", Severity.Stop, node.Id, node.Name,
                "The length of this run is not known, so neither it nor the runs behind it can be sized.",
                "Measure the route the cable will take and enter it.", "needed for the voltage drop"));
        }

        if (node.Result is { } run)
            findings.AddRange(run.Findings);
        if (point.DemandFactor < 1)
        {
            findings.Add(new Finding(
                "demand-reduced", Severity.Warn, node.Id, node.Name,
                $"This run is chosen for {text.Amperes(node.Amperes)}, {text.Percent(point.DemandFactor * 100)} of what all loads behind it draw at rated output; its fuse may open when all play at full output.",
                "Use the full sum unless the loads cannot run at once.", Unsourced.CommonPractice));
        }

        if (point is { Kind: FeedPointKind.Battery, FedFrom: null })
        {
            findings.Add(new Finding(
                "fuse-at-both-batteries", Severity.Note, node.Id, node.Name,
                "A cable between two batteries can be fed from either end: it needs a fuse close to each.",
                "Fit the second fuse at the second battery, and follow the makers of battery and vehicle on charging it.", "33 CFR 183.460(a) for batteries in boats; common practice in vehicles"));
        }
    }

    private static void AddLoad(
        List<Finding> findings, PlannedLoad load, DropBasis basis, UnitText text)
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

        if (!PlanExplanation.WithinLimit(load, basis))
        {
            var drop = load.DropAt(basis)!;
            findings.Add(new Finding(
                "drop-over-limit", Severity.Stop, load.LoadId, load.Name,
                $"The drop from battery to load and back{RunExplanation.AtBasis(basis)} is {text.Volts(drop.TotalVolts)} ({text.Volts(drop.UpstreamVolts)} in the runs before it, {text.Volts(drop.BranchVolts)} in its own); the limit is {text.Volts(load.LimitVolts)}.",
                "Use thicker conductors, shorten the runs, or improve the returns.", PlanExplanation.DropSource));
        }
    }

    private static void AddSelectivity(List<Finding> findings, PlanNode node, UnitText text)
    {
        if (node is not { Result.Fuse.RatingAmperes: var own, Parent: { Result.Fuse.RatingAmperes: var above } parent })
            return;
        var onlyRun = parent.Children.Count(child => child.Result?.Fuse is not null) == 1;
        if (own < above || (onlyRun && own <= above))
            return;
        findings.Add(new Finding(
            "no-selectivity", Severity.Warn, node.Id, node.Name,
            $"Its {text.Amperes(own)} fuse is not smaller than the {text.Amperes(above)} fuse before it ({parent.Name}): a fault on it may take everything down.",
            "Choose a smaller fuse here, or a larger one before it on a conductor that allows it.", Unsourced.CommonPractice));
    }

    private static void AddAlternator(List<Finding> findings, AlternatorComparison alternator, PlanTotals totals, UnitText text)
    {
        var basis = alternator.VehicleBaseOrigin == "entered" ? "" : $" The vehicle's own {text.Amperes(alternator.VehicleBaseAmperes)} is an assumed value.";
        if (!totals.IsComplete)
            basis += " Loads with missing data are not counted.";
        void Short(string code, string when, double available, double surplus, string remedy) => findings.Add(new Finding(
            code, Severity.Warn, "alternator", "Alternator",
            $"{when} it gives about {text.Amperes(available)}; vehicle and music draw {text.Amperes(alternator.VehicleBaseAmperes + alternator.AddedMusicAmperes)}: {text.Amperes(-surplus)} comes out of the battery.{basis}",
            remedy, alternator.OutputOrigin));

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
