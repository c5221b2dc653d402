using ShopFloor.Engineering.Electrical.Sizing;

namespace ShopFloor.Engineering.Electrical;

/// <summary>The sizes of all runs of a plan settled together, so that their cables weigh least.</summary>
/// <param name="Sizes">Size per run, by the identifier of its point or load.</param>
/// <param name="RunByRunKilograms">Mass of the same runs sized one by one from the battery outward, kg.</param>
internal sealed record LightestSet(IReadOnlyDictionary<string, AmpacityRow> Sizes, double RunByRunKilograms)
{
    /// <summary>Settles them.</summary>
    /// <param name="nodes">Points and loads; those without a known run are left out.</param>
    /// <param name="limitVolts">Drop allowed from the battery to every load and back, V.</param>
    public static LightestSet Choose(IReadOnlyList<PlanNode> nodes, double limitVolts)
    {
        var runs = nodes.Where(node => node.Sizing is not null).Select(node => Judged(node, limitVolts)).ToList();
        if (runs.Count == 0)
            return new LightestSet(new Dictionary<string, AmpacityRow>(), 0);
        var set = LeastConductors.Choose([.. runs.Select(run => run.Candidates)]);
        return new LightestSet(
            runs.ToDictionary(run => run.Candidates.Id, run => run.Case.Input.Rules.Table.Row(set.Sizes[run.Candidates.Id].Label)!), // the candidates are rows of the table
            OneByOneKilograms(runs, set.OutOfReach));
    }

    private static (RunCase Case, CandidateRun Candidates) Judged(PlanNode node, double limitVolts)
    {
        var run = new RunCase(node.Sizing!, DropShare.Whole(limitVolts)); // the caller takes known runs only
        return (run, new CandidateRun(
            node.Id,
            node.Parent?.Id,
            [.. RunChoice.Candidates(run).Select(row => new SizeCandidate(row.Conductor.Label, CableKilograms(run, row), run.Drop(row, run.DropAmperes).Volts))],
            node.Load is null ? null : limitVolts));
    }

    private static double OneByOneKilograms(List<(RunCase Case, CandidateRun Candidates)> runs, IReadOnlyList<string> outOfReach)
    {
        var places = runs.Select((run, place) => (run.Candidates.Id, place)).ToDictionary(pair => pair.Id, pair => pair.place);
        SizeStep[][] steps = [.. runs.Select(run => run.Candidates.Candidates.Select(size => new SizeStep(size.MassKilograms, size.DropVolts)).ToArray())];
        var tree = new LimitedTree(
            [.. runs.Select(run => run.Candidates.ParentId is { } parent ? places[parent] : -1)],
            [.. steps.Select(all => SizeStep.Undominated(all).Select(place => all[place]).ToArray())],
            [.. runs.Select(run => outOfReach.Contains(run.Candidates.Id) ? double.PositiveInfinity : run.Candidates.LimitVolts ?? double.PositiveInfinity)]);
        var chosen = RunByRun.Choose(tree, [.. runs.Select(run => run.Case.ConductorMeters)], [.. runs.Select(run => run.Case.FixedOhms * run.Case.DropAmperes)]);
        return chosen.Select((place, run) => tree.Usable[run][place].Objective).Sum();
    }

    private static double CableKilograms(RunCase run, AmpacityRow row) =>
        (row.Conductor.CopperKilogramsPerMeter + row.Conductor.InsulationKilogramsPerMeterEstimate) * run.ConductorMeters;
}
