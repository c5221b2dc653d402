using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Electrical.Sizing;

/// <summary>Explains how the conductors of a tree were reached.</summary>
internal static class TreeExplanation
{
    private const string OwnMethod = "method of this program: dynamic programme over the tree, exact; checked against trying every set";

    public static Explanation Make(TreeModel model, TreeTotals? totals, TreeTotals? runByRun, IReadOnlyList<TreeLoadDrop> loads, bool dropDecides, IReadOnlyList<TreeBlocker> blockers, UnitText text)
    {
        var input = model.Input;
        var least = input.Objective switch
        {
            SizingObjective.Cost => "the cheapest",
            SizingObjective.CableMass => "the lightest, insulation included,",
            _ => "the lightest",
        };
        var answer = totals is null
            ? $"None: {string.Join("; ", blockers.Select(b => b.RunName).Distinct())} cannot keep a limit."
            : $"{text.Kilograms(totals.ConductorKilograms)} of conductor; run by run it would be {text.Kilograms(runByRun!.ConductorKilograms)}.";
        var steps = new List<ExplainedStep>
        {
            new("Current a conductor may carry", "I = I_table · √((T_ins − T_amb)/(T_ins − T_table)) · k_bundle", "per run and cable, see the limits of each run",
                "shown with each run", string.Join("; ", model.Options.Select(o => o.Table.Source).Distinct())),
            new("Fuse", "smallest standard rating ≥ I / loading" + (input.FuseNotBelowFusesBehind ? ", above the largest of several fuses behind it, not below a single one" : ""),
                $"loading {text.Number(input.Rules.ContinuousLoading)}", "shown with each run", RunFindings.FuseSource),
            new("Drop of a run", $"U = I · (R′(T) · L + R_body{(model.Nodes.Any(n => n.Run.Route.TerminationOhms > 0) ? " + R_ends" : "")})", "L there and back for a return conductor", "shown with each run", "FAA AC 43.13-1B, table 11-7"),
            new("Choice over the whole tree", "g(D) = min over cables [c + Σ g_child(D + U)], D + U ≤ limit of each load",
                $"{model.Nodes.Length} runs, {model.Options.Count} cables", answer, OwnMethod),
        };
        if (runByRun is not null)
        {
            steps.Add(new("For comparison: run by run", "U_run = (U_limit − D) · L_run / L_to the load, tightest load behind it",
                $"{model.Nodes.Length} runs", text.Kilograms(runByRun.ConductorKilograms), "rule of this program: shared by length"));
        }

        var limits = loads
            .Select(l => new LimitCheck($"Drop at {l.Name}", l.DropVolts, l.LimitVolts, "V", l.SlackVolts >= -LeastTree.VoltTolerance, PlanExplanation.DropSource))
            .ToList();
        var tightest = loads.Count > 0 ? $"Drop at {loads.MinBy(l => l.SlackVolts)!.Name}" : null;
        return new Explanation(
            $"Which conductors are {least} that keep every limit?", answer,
            [
                new ExplainedInput("Supply voltage", input.SupplyVolts, "V", ElectricalDefaults.Origin(input.SupplyVolts, ElectricalDefaults.SupplyVolts, Unsourced.CommonPractice)),
                new ExplainedInput("Runs", model.Nodes.Length, "", "entered"),
                new ExplainedInput("Loads", input.Loads.Count, "", "entered"),
                new ExplainedInput("Cables to choose from", model.Options.Count, "", input.Cables is null ? "rules of the shop" : "entered"),
                new ExplainedInput("Least drop limit", model.LimitVolts.DefaultIfEmpty(0).Min(), "V", "entered, or the percentage of the rules"),
            ],
            steps, limits, dropDecides ? tightest : null);
    }
}
