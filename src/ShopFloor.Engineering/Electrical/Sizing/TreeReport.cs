using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Electrical.Sizing;

/// <summary>Turns a choice of cables into the result people read.</summary>
internal static class TreeReport
{
    public static TreeSizingResult Infeasible(TreeModel model, IReadOnlyList<TreeBlocker> blockers, UnitText text) => new()
    {
        IsFeasible = false,
        Runs = [],
        Loads = [],
        Totals = null,
        RunByRun = null,
        Blockers = blockers,
        Findings = TreeFindings.Blocked(blockers, text),
        Explanation = TreeExplanation.Make(model, null, null, [], false, blockers, text),
    };

    public static TreeSizingResult Make(TreeModel model, int[] chosen, int[] runByRun, UnitText text)
    {
        var drop = new double[model.Nodes.Length];
        foreach (var node in model.TopDown)
            drop[node.Index] = node.Usable[chosen[node.Index]].DropVolts + (node.Parent < 0 ? 0 : drop[node.Parent]);
        var slack = Slack(model, drop);
        var runs = model.Nodes.Select(n => Run(model, n, n.Usable[chosen[n.Index]], drop[n.Index], slack[n.Index])).ToList();
        var loads = new TreeLoadDrop[model.Input.Loads.Count];
        foreach (var node in model.Nodes)
        {
            foreach (var i in node.Loads)
                loads[i] = new TreeLoadDrop(model.Input.Loads[i].Id, model.Input.Loads[i].Name, drop[node.Index], model.LimitVolts[i]);
        }

        var (totals, before) = (Totals(model, chosen), Totals(model, runByRun));
        return new TreeSizingResult
        {
            IsFeasible = true,
            Runs = runs,
            Loads = loads,
            Totals = totals,
            RunByRun = before,
            Blockers = [],
            Findings = TreeFindings.Find(model, runs, text),
            Explanation = TreeExplanation.Make(
                model, totals, before, loads, runs.Any(r => r.DecidedBy == SizeDecision.VoltageDrop), [], text),
        };
    }

    /// <summary>Drop left at the tightest load behind each run, V; infinite behind a run that feeds nothing.</summary>
    private static double[] Slack(TreeModel model, double[] drop)
    {
        var slack = new double[model.Nodes.Length];
        foreach (var node in model.BottomUp)
            slack[node.Index] = node.Children.Select(c => slack[c]).Append(node.OwnLimitVolts - drop[node.Index]).Min();
        return slack;
    }

    private static SizedTreeRun Run(TreeModel model, TreeNode node, Candidate choice, double totalVolts, double slackVolts)
    {
        var cable = model.Options[choice.Option];
        var conductor = cable.Conductor;
        var (decision, refused) = Decision(model, node, choice);
        var hasLoads = !double.IsPositiveInfinity(slackVolts);
        return new SizedTreeRun
        {
            RunId = node.Run.Id,
            Name = node.Run.Name,
            Conductor = conductor,
            TableName = cable.Table.Name,
            DecidedBy = decision,
            RefusedSize = refused,
            ContinuousAmperes = node.Continuous,
            MusicAmperes = node.Music,
            IdleAmperes = node.Idle,
            DeratedAmperes = choice.DeratedAmperes,
            Fuse = node.Fuse,
            ProtectedByAmperes = node.ProtectedBy,
            DropVolts = choice.DropVolts,
            TotalDropVolts = totalVolts,
            SlackAmperes = choice.DeratedAmperes - Math.Max(node.Continuous, node.ProtectedBy ?? 0),
            SlackVolts = hasLoads ? slackVolts : null,
            ConductorMeters = node.ConductorMeters,
            ConductorKilograms = conductor.CopperKilogramsPerMeter * node.ConductorMeters,
            CableKilograms = (conductor.CopperKilogramsPerMeter + conductor.InsulationKilogramsPerMeterEstimate) * node.ConductorMeters,
            Price = cable.PricePerMeter * (decimal)node.ConductorMeters,
            Limits = Limits(model, node, choice, totalVolts, hasLoads ? totalVolts + slackVolts : null),
        };
    }

    /// <summary>The limit that the nearest cheaper cable would break. What it does not break alone, it breaks by its drop.</summary>
    private static (SizeDecision Decision, string? Refused) Decision(TreeModel model, TreeNode node, Candidate choice)
    {
        if (node.Run.Route.ForcedSize is not null)
            return (SizeDecision.Forced, null);
        var cheaper = node.All
            .Where(c => c.Fault != CableFault.NotPermitted && c.Objective < choice.Objective)
            .OrderByDescending(c => c.Objective)
            .Cast<Candidate?>()
            .FirstOrDefault();
        if (cheaper is not { } refused)
            return (SizeDecision.MinimumSize, null);
        var decision = refused.Fault switch
        {
            CableFault.TooThin => SizeDecision.MinimumSize,
            CableFault.Ampacity => SizeDecision.Ampacity,
            CableFault.Fuse => SizeDecision.FuseRating,
            _ => SizeDecision.VoltageDrop,
        };
        return (decision, model.Options[refused.Option].Conductor.Label);
    }

    private static List<LimitCheck> Limits(TreeModel model, TreeNode node, Candidate choice, double totalVolts, double? limitVolts)
    {
        var cable = model.Options[choice.Option];
        var (table, derated) = (cable.Table, choice.DeratedAmperes);
        var route = node.Run.Route;
        var least = route.SheathedWholeWay ? table.MinimumSheathedAreaSquareMillimeters : table.MinimumAreaSquareMillimeters;
        var area = cable.Conductor.AreaSquareMillimeters;
        var limits = new List<LimitCheck>(5)
        {
            new("Continuous current within the derated ampacity", node.Continuous, derated, "A", FuseRatings.AtLeast(derated, node.Continuous), table.Source),
            new("Conductor not thinner than the least allowed", area, least, "mm²", FuseRatings.AtLeast(area, least), table.MinimumAreaSource),
        };
        if (node.ProtectedBy is { } fuse)
        {
            var name = node.Run.HasFuse ? "Fuse not above the derated ampacity" : "Fuse upstream not above the derated ampacity";
            limits.Add(new(name, fuse, derated, "A", FuseRatings.AtLeast(derated, fuse), table.Source));
        }

        if (node.Fuse is { } own)
        {
            limits.Add(new(
                "Fuse large enough for the continuous load", own.RatingAmperes, node.MinimumFuse, "A",
                FuseRatings.AtLeast(own.RatingAmperes, node.MinimumFuse), RunFindings.FuseSource));
        }

        if (limitVolts is { } limit)
        {
            limits.Add(new(
                "Drop from the battery within what the tightest load behind it leaves" + RunExplanation.AtBasis(model.Input.Rules.DropBasis),
                totalVolts, limit, "V", totalVolts <= limit + LeastTree.VoltTolerance, PlanExplanation.DropSource));
        }

        return limits;
    }

    private static TreeTotals Totals(TreeModel model, int[] chosen)
    {
        double metal = 0, whole = 0;
        decimal? price = 0;
        foreach (var node in model.Nodes)
        {
            var cable = model.Options[node.Usable[chosen[node.Index]].Option];
            metal += cable.Conductor.CopperKilogramsPerMeter * node.ConductorMeters;
            whole += (cable.Conductor.CopperKilogramsPerMeter + cable.Conductor.InsulationKilogramsPerMeterEstimate) * node.ConductorMeters;
            price += cable.PricePerMeter * (decimal)node.ConductorMeters;
        }

        return new TreeTotals(metal, whole, price);
    }
}
