using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Electrical.Sizing;

/// <summary>Finds why a tree cannot be sized.</summary>
internal static class TreeBlockers
{
    public static List<TreeBlocker> Find(TreeModel model, UnitText text)
    {
        var blockers = new List<TreeBlocker>();
        foreach (var node in model.Nodes.Where(n => n.Usable.Length == 0))
            blockers.Add(NoCable(model, node, text));
        if (blockers.Count == 0)
            blockers.AddRange(Drops(model, text));
        return blockers;
    }

    private static TreeBlocker NoCable(TreeModel model, TreeNode node, UnitText text)
    {
        var run = node.Run;
        TreeBlocker Blocked(SizeDecision limit, double best, double needed, string unit, string help) =>
            new(run.Id, run.Name, null, limit, best, needed, unit, help);

        if (run.HasFuse && node.Fuse is null)
        {
            var largest = FuseRatings.Largest(node.Parent < 0 ? model.Input.Rules.BatteryFuses : model.Input.Rules.Fuses, 0, double.MaxValue, model.Input.SupplyVolts);
            return Blocked(
                SizeDecision.FuseRating, largest?.RatingAmperes ?? 0, node.MinimumFuse, "A",
                "Split the load over two runs, or add a larger fuse of this voltage to the list.");
        }

        var permitted = node.All.Where(c => c.Fault != CableFault.NotPermitted).ToList();
        var needed = Math.Max(node.Continuous, node.ProtectedBy ?? 0);
        var help = Other(model, node, needed, 0) is { } other
            ? $"{other} would carry it but may not be used here (not stocked, not among the sizes allowed, or copper-clad): allow it."
            : "Split the load over two runs, use cable of a warmer insulation class, or find a cooler or looser route.";
        if (permitted.Count == 0)
        {
            return Blocked(
                SizeDecision.NoneFits, 0, needed, "A",
                $"No cable may be used at {text.Celsius(run.Route.InsulationCelsius)} insulation. {help}");
        }

        var best = permitted.MaxBy(c => c.DeratedAmperes);
        if (best.Fault == CableFault.TooThin || permitted.Any(c => c.Fault == CableFault.TooThin && FuseRatings.AtLeast(c.DeratedAmperes, needed)))
        {
            var thickest = permitted.Max(c => model.Options[c.Option].Conductor.AreaSquareMillimeters);
            var table = model.Options[best.Option].Table;
            var least = run.Route.SheathedWholeWay ? table.MinimumSheathedAreaSquareMillimeters : table.MinimumAreaSquareMillimeters;
            return Blocked(SizeDecision.MinimumSize, thickest, least, "mm²", "Allow a thicker cable, or sheath the conductor the whole way.");
        }

        if (best.Fault == CableFault.Ampacity)
            return Blocked(SizeDecision.Ampacity, best.DeratedAmperes, node.Continuous, "A", help);
        var fuse = run.HasFuse ? "" : $"Give this run its own fuse at its start: the one upstream has {text.Amperes(node.ProtectedBy ?? 0)}. ";
        return Blocked(SizeDecision.FuseRating, best.DeratedAmperes, needed, "A", fuse + help);
    }

    private static IEnumerable<TreeBlocker> Drops(TreeModel model, UnitText text)
    {
        var least = new double[model.Nodes.Length];
        foreach (var node in model.TopDown)
        {
            least[node.Index] = node.Usable[^1].DropVolts + (node.Parent < 0 ? 0 : least[node.Parent]);
            foreach (var i in node.Loads.Where(i => least[node.Index] > model.LimitVolts[i] + LeastTree.VoltTolerance))
            {
                var path = new List<TreeNode>();
                for (var at = node.Index; at >= 0; at = model.Nodes[at].Parent)
                    path.Add(model.Nodes[at]);
                var worst = path.MaxBy(n => n.Usable[^1].DropVolts)!;
                yield return new TreeBlocker(
                    worst.Run.Id, worst.Run.Name, model.Input.Loads[i].Id, SizeDecision.VoltageDrop, least[node.Index], model.LimitVolts[i], "V",
                    DropHelp(model, worst, least[node.Index] - model.LimitVolts[i], text));
            }
        }
    }

    private static string DropHelp(TreeModel model, TreeNode worst, double shortVolts, UnitText text)
    {
        var best = worst.Usable[^1];
        var help = new List<string>();
        if (Other(model, worst, Math.Max(worst.Continuous, worst.ProtectedBy ?? 0), best.DropVolts - shortVolts, strict: true) is { } other)
            help.Add($"allow {other} for it");
        var body = worst.BodyOhms * worst.DropAmperes;
        if (body >= shortVolts)
            help.Add($"improve its body return, which takes {text.Volts(body)}");
        var conductor = best.DropVolts - worst.FixedOhms * worst.DropAmperes;
        if (conductor > shortVolts)
            help.Add($"shorten it to {text.Meters(worst.Run.Route.LengthMeters!.Value * (1 - shortVolts / conductor))} or less");
        help.Add($"allow {text.Volts(shortVolts)} more drop, if the maker of the load accepts it");
        return $"{worst.Run.Name} takes the most, {text.Volts(best.DropVolts)} with {model.Options[best.Option].Conductor.Label}: {string.Join(", or ", help)}.";
    }

    /// <summary>The lightest cable that would do but may not be used here.</summary>
    private static string? Other(TreeModel model, TreeNode node, double amperes, double mostVolts, bool strict = false) =>
        node.All
            .Where(c => c.Fault == CableFault.NotPermitted && !double.IsPositiveInfinity(c.DropVolts)
                && FuseRatings.AtLeast(c.DeratedAmperes, amperes) && (!strict || c.DropVolts <= mostVolts))
            .OrderBy(c => c.Objective)
            .Select(c => model.Options[c.Option].Conductor.Label)
            .FirstOrDefault();
}
