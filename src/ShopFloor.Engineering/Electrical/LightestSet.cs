using ShopFloor.Engineering.Electrical.Sizing;

namespace ShopFloor.Engineering.Electrical;

/// <summary>Settles the sizes of all runs of a plan together, so that their cables weigh least.</summary>
internal static class LightestSet
{
    /// <summary>Size per run, by the identifier of its point or load.</summary>
    /// <param name="nodes">Points and loads; those without a known run are left out.</param>
    /// <param name="limitVolts">Drop allowed from the battery to every load and back, V.</param>
    public static IReadOnlyDictionary<string, AmpacityRow> Choose(IReadOnlyList<PlanNode> nodes, double limitVolts)
    {
        var runs = nodes.Where(node => node.Sizing is not null).ToDictionary(node => node.Id, node => new RunCase(node.Sizing!, DropShare.Whole(limitVolts)));
        if (runs.Count == 0)
            return new Dictionary<string, AmpacityRow>();
        var set = LeastConductors.Choose(
        [
            .. from node in nodes
               where runs.ContainsKey(node.Id)
               let run = runs[node.Id]
               select new CandidateRun(
                   node.Id,
                   node.Parent?.Id,
                   [.. RunChoice.Candidates(run).Select(row => new SizeCandidate(row.Conductor.Label, CableKilograms(run, row), run.Drop(row, run.DropAmperes).Volts))],
                   node.Load is null ? null : limitVolts),
        ]);
        return runs.ToDictionary(pair => pair.Key, pair => pair.Value.Input.Rules.Table.Row(set.Sizes[pair.Key].Label)!); // the candidates are rows of the table
    }

    /// <summary>Mass of the same runs sized one by one from the battery outward, kg.</summary>
    public static double RunByRunKilograms(IReadOnlyList<PlanNode> nodes, double limitVolts)
    {
        double Below(PlanNode node, double usedVolts)
        {
            if (node.Sizing is not { } input)
                return 0;
            var run = new RunCase(input, node.Point is null ? DropShare.Whole(limitVolts - usedVolts) : DropShare.ForPoint(node, limitVolts - usedVolts));
            var row = RunChoice.Make(run).Row;
            var used = usedVolts + run.Drop(row, run.DropAmperes).Volts;
            return CableKilograms(run, row) + node.Children.Sum(child => Below(child, used));
        }

        return nodes.Where(node => node.Parent is null).Sum(root => Below(root, 0));
    }

    private static double CableKilograms(RunCase run, AmpacityRow row) =>
        (row.Conductor.CopperKilogramsPerMeter + row.Conductor.InsulationKilogramsPerMeterEstimate) * run.ConductorMeters;
}
