using ShopFloor.Engineering.Electrical.Sizing;

namespace ShopFloor.Engineering.Electrical;

/// <summary>The sizes of all runs of a plan settled together, so that their cables weigh least.</summary>
/// <param name="Sizes">Size per run, by the identifier of its point or load.</param>
/// <param name="RunByRunKilograms">Mass of the same runs sized one by one from the battery outward, kg.</param>
/// <param name="RunByRunSizes">What they would get then.</param>
internal sealed record LightestSet(IReadOnlyDictionary<string, AmpacityRow> Sizes, double RunByRunKilograms, IReadOnlyList<RunByRunSize> RunByRunSizes)
{
    /// <summary>Settles them.</summary>
    /// <param name="nodes">Points and loads; those without a known run are left out.</param>
    public static LightestSet Choose(IReadOnlyList<PlanNode> nodes)
    {
        var runs = nodes.Where(node => node.Sizing is not null).Select(node => Judged(node)).ToList();
        if (runs.Count == 0)
            return new LightestSet(new Dictionary<string, AmpacityRow>(), 0, []);
        var set = LeastConductors.Choose([.. runs.Select(run => run.Candidates)]);
        var oneByOne = OneByOne(runs, set.OutOfReach);
        return new LightestSet(
            runs.ToDictionary(run => run.Candidates.Id, run => run.Case.Input.Rules.Table.Row(set.Sizes[run.Candidates.Id].Label)!), // the candidates are rows of the table
            oneByOne.Sum(size => size.Kilograms),
            [.. oneByOne.Select(size => size.Size)]);
    }

    private static (RunCase Case, CandidateRun Candidates) Judged(PlanNode node)
    {
        var run = new RunCase(node.Sizing!, DropShare.Whole(node.LimitVolts)); // the caller takes known runs only
        return (run, new CandidateRun(
            node.Id,
            node.Parent?.Id,
            [.. RunChoice.Candidates(run).Select(row => new SizeCandidate(row.Conductor.Label, CableKilograms(run, row), run.Drop(row, run.DropAmperes).Volts))],
            node.Load is null ? null : node.LimitVolts));
    }

    private static List<(RunByRunSize Size, double Kilograms)> OneByOne(List<(RunCase Case, CandidateRun Candidates)> runs, IReadOnlyList<string> outOfReach)
    {
        var places = runs.Select((run, place) => (run.Candidates.Id, place)).ToDictionary(pair => pair.Id, pair => pair.place);
        SizeStep[][] steps = [.. runs.Select(run => run.Candidates.Candidates.Select(size => new SizeStep(size.MassKilograms, size.DropVolts)).ToArray())];
        int[][] kept = [.. steps.Select(SizeStep.Undominated)];
        var tree = new LimitedTree(
            [.. runs.Select(run => run.Candidates.ParentId is { } parent ? places[parent] : -1)],
            [.. steps.Select((all, at) => kept[at].Select(place => all[place]).ToArray())],
            [.. runs.Select(run => outOfReach.Contains(run.Candidates.Id) ? double.PositiveInfinity : run.Candidates.LimitVolts ?? double.PositiveInfinity)]);
        var chosen = RunByRun.Choose(tree, [.. runs.Select(run => run.Case.ConductorMeters)], [.. runs.Select(run => run.Case.FixedOhms * run.Case.DropAmperes)]);
        return [.. runs.Select((run, at) =>
        {
            var label = run.Candidates.Candidates[kept[at][chosen[at]]].Label;
            var row = run.Case.Input.Rules.Table.Row(label)!; // the candidates are rows of the table
            return (new RunByRunSize(run.Candidates.Id, row.Conductor, run.Case.ConductorMeters), CableKilograms(run.Case, row));
        })];
    }

    private static double CableKilograms(RunCase run, AmpacityRow row) =>
        (row.Conductor.CopperKilogramsPerMeter + row.Conductor.InsulationKilogramsPerMeterEstimate) * run.ConductorMeters;
}
