using System.Globalization;
using ShopFloor.Engineering.Explained;

namespace ShopFloor.Engineering.Electrical.Sizing;

/// <summary>Chooses the least set of sizes for runs whose sizes have been judged already.</summary>
/// <remarks>The search of <see cref="TreeSizing"/> without its rules for current and fuses: a dynamic programme over the tree, exact.</remarks>
public static class LeastConductors
{
    /// <summary>Chooses a size per run.</summary>
    /// <param name="runs">The runs, in any order.</param>
    /// <param name="objective">What to have least of; the masses are whatever was given, so both masses mean the same here.</param>
    /// <exception cref="ArgumentOutOfRangeException"><see cref="Validate"/> finds a problem; the parameter name is the field.</exception>
    public static LeastSet Choose(IReadOnlyList<CandidateRun> runs, SizingObjective objective = SizingObjective.ConductorMass)
    {
        ArgumentNullException.ThrowIfNull(runs);
        InputChecks.ThrowIfAny(Validate(runs, objective));
        var parents = Parents(runs);
        double[] limits = [.. runs.Select(r => r.LimitVolts ?? double.PositiveInfinity)];
        SizeStep[][] steps = [.. runs.Select(r => r.Candidates.Select(c => Step(c, objective)).ToArray())];
        int[][] kept = [.. steps.Select(SizeStep.Undominated)];
        SizeStep[][] usable = [.. runs.Select((_, i) => kept[i].Select(k => steps[i][k]).ToArray())];

        var outOfReach = OutOfReach(new LimitedTree(parents, usable, limits));
        if (outOfReach.Count > 0)
        {
            foreach (var run in outOfReach)
                limits[run] = double.PositiveInfinity;
            foreach (var run in ServingOnly(outOfReach, parents, limits))
                (usable[run], kept[run]) = ([usable[run][^1]], [kept[run][^1]]);
            // The lasting limits were within reach with the least drops, which the runs on their ways still have.
        }

        var tree = new LimitedTree(parents, usable, limits);
        var (chosen, aboveLeast) = LeastTree.Choose(tree, [.. usable.Select(u => u.Length - 1)]);
        var sizes = new Dictionary<string, SizeCandidate>(StringComparer.Ordinal);
        for (var i = 0; i < runs.Count; i++)
            sizes.Add(runs[i].Id, runs[i].Candidates[kept[i][chosen[i]]]);
        decimal? price = 0;
        foreach (var size in sizes.Values)
            price += size.Price;
        return new LeastSet(sizes, sizes.Values.Sum(s => s.MassKilograms), price, [.. outOfReach.Select(i => runs[i].Id)], aboveLeast);
    }

    /// <summary>What is wrong with the runs, field by field; empty when a set can be chosen.</summary>
    /// <param name="runs">The runs.</param>
    /// <param name="objective">What to have least of.</param>
    public static IReadOnlyList<InputProblem> Validate(IReadOnlyList<CandidateRun> runs, SizingObjective objective = SizingObjective.ConductorMass)
    {
        ArgumentNullException.ThrowIfNull(runs);
        var checks = new InputChecks(Units.UnitText.Invariant);
        checks.Known("objective", "What to have least of", objective);
        var ids = new HashSet<string>(StringComparer.Ordinal);
        for (var i = 0; i < runs.Count; i++)
        {
            var field = string.Create(CultureInfo.InvariantCulture, $"runs[{i}]");
            checks.Named($"{field}.Id", "Run identifier", runs[i].Id);
            if (!ids.Add(runs[i].Id))
                checks.Add($"{field}.Id", $"Run identifier: \u201c{runs[i].Id}\u201d is used twice; every run needs its own.");
            CheckRun(checks, runs[i], field, objective);
        }

        for (var i = 0; i < runs.Count; i++)
        {
            if (runs[i].ParentId is { } parent && !ids.Contains(parent))
                checks.Add($"runs[{i}].ParentId", $"Run {runs[i].Id}, starts from: \u201c{parent}\u201d is no run; use the identifier of a run, or none for the battery.");
        }

        if (checks.Problems.Count == 0 && new LimitedTree(Parents(runs), [], []).TopDown is { } order && order.Count < runs.Count)
        {
            var circle = Enumerable.Range(0, runs.Count).Except(order).First();
            checks.Add($"runs[{circle}].ParentId", $"Run {runs[circle].Id}, starts from: \u201c{runs[circle].ParentId}\u201d never reaches the battery; a supply tree cannot feed itself.");
        }

        return checks.Problems;
    }

    private static void CheckRun(InputChecks checks, CandidateRun run, string field, SizingObjective objective)
    {
        checks.InRange($"{field}.LimitVolts", $"Run {run.Id}, drop allowed in volts", run.LimitVolts, 1e-6, 1000);
        if (run.Candidates.Count == 0)
            checks.Add($"{field}.Candidates", $"Run {run.Id}, sizes: there is none that carries its current and fuse; give at least one.");
        foreach (var size in run.Candidates)
        {
            checks.InRange($"{field}.Candidates", $"Run {run.Id}, {size.Label}, mass in kilograms", size.MassKilograms, 0, 10_000);
            checks.InRange($"{field}.Candidates", $"Run {run.Id}, {size.Label}, drop in volts", size.DropVolts, 0, 10_000);
            checks.InRange($"{field}.Candidates", $"Run {run.Id}, {size.Label}, price", (double?)size.Price, 0, 1e9);
            if (objective == SizingObjective.Cost && size.Price is null)
                checks.Add($"{field}.Candidates", $"Run {run.Id}, {size.Label}, price: nothing was entered and the cheapest was asked for; enter a price or leave the size out.");
        }
    }

    private static SizeStep Step(SizeCandidate size, SizingObjective objective) =>
        new(objective == SizingObjective.Cost ? (double)size.Price!.Value : size.MassKilograms, size.DropVolts);

    private static int[] Parents(IReadOnlyList<CandidateRun> runs)
    {
        var at = new Dictionary<string, int>(StringComparer.Ordinal);
        for (var i = 0; i < runs.Count; i++)
            at.Add(runs[i].Id, i);
        return [.. runs.Select(r => r.ParentId is { } parent ? at[parent] : -1)];
    }

    private static List<int> OutOfReach(LimitedTree tree)
    {
        var least = tree.DropsWith(run => tree.Usable[run][^1]);
        return [.. Enumerable.Range(0, tree.Count).Where(run => least[run] > tree.LimitVolts[run] + LeastTree.VoltTolerance)];
    }

    /// <summary>Runs with a limit out of reach behind them, or their own, and none that can be kept.</summary>
    private static HashSet<int> ServingOnly(List<int> outOfReach, int[] parents, double[] limits)
    {
        var serves = new bool[parents.Length];
        for (var i = 0; i < parents.Length; i++)
        {
            for (var at = i; at >= 0 && !double.IsPositiveInfinity(limits[i]); at = parents[at])
                serves[at] = true;
        }

        var only = new HashSet<int>();
        foreach (var run in outOfReach)
        {
            for (var at = run; at >= 0 && !serves[at]; at = parents[at])
                only.Add(at);
        }

        return only;
    }
}
