using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Electrical.Sizing;

/// <summary>Checks a supply tree, naming element, field, value and what is accepted.</summary>
internal static class TreeInputChecks
{
    private const int MostCables = 200;

    public static IReadOnlyList<InputProblem> Find(TreeSizingInput input, UnitText text)
    {
        var checks = new InputChecks(text);
        checks.InRange(nameof(input.SupplyVolts), "Supply voltage", input.SupplyVolts, 6, 49.9, QuantityKind.Voltage);
        checks.Known(nameof(input.Objective), "What to have least of", input.Objective);
        checks.AddRange(input.Rules.Validate(text).Select(p => p with { Field = $"{nameof(input.Rules)}.{p.Field}" }));
        CheckCables(checks, input, text);
        if (input.Runs.Count is 0 or > TreeSizingInput.MostRuns)
            checks.Add(nameof(input.Runs), $"Runs: there are {input.Runs.Count}; enter 1 to {TreeSizingInput.MostRuns}.");
        if (checks.Problems.Count > 0)
            return checks.Problems; // the rest is judged against cables and runs that exist

        CheckRuns(checks, input, text);
        CheckLoads(checks, input);
        return checks.Problems;
    }

    private static void CheckCables(InputChecks checks, TreeSizingInput input, UnitText text)
    {
        if (input.Cables is not { } cables)
        {
            if (input.Objective == SizingObjective.Cost)
                checks.Add(nameof(input.Cables), "Cables: the cheapest was asked for and no cable has a price; enter cables with the price of a meter.");
            return;
        }

        if (cables.Count is 0 or > MostCables)
            checks.Add(nameof(input.Cables), $"Cables: there are {cables.Count}; enter 1 to {MostCables}.");
        var labels = new HashSet<string>(StringComparer.Ordinal);
        for (var i = 0; i < cables.Count; i++)
        {
            var cable = cables[i];
            var label = cable.Conductor.Label;
            var field = $"{nameof(input.Cables)}[{i}]";
            if (!labels.Add(label))
                checks.Add(field, $"Cable {label}: it is listed twice; keep one.");
            if (cable.Table.Row(label) is null)
                checks.Add($"{field}.Table", $"Cable {label}: it is not in {cable.Table.Name}; choose a table that lists it.");
            if (cable.PricePerMeter is < 0 or > 10_000)
                checks.Add($"{field}.PricePerMeter", $"Cable {label}, price of a meter: {text.Number((double)cable.PricePerMeter, 6)} is not accepted; enter 0 to 10 000.");
            if (input.Objective == SizingObjective.Cost && cable.PricePerMeter is null)
                checks.Add($"{field}.PricePerMeter", $"Cable {label}, price of a meter: nothing was entered and the cheapest was asked for; enter a price or leave the cable out.");
        }

        foreach (var table in cables.Select(c => c.Table).Distinct(ReferenceEqualityComparer.Instance).Cast<AmpacityTable>())
            checks.AddRange(table.Validate(text).Select(p => p with { Field = $"{nameof(input.Cables)}.Table.{p.Field}", Message = $"{table.Name}: {p.Message}" }));
    }

    private static void CheckRuns(InputChecks checks, TreeSizingInput input, UnitText text)
    {
        var options = input.Options;
        var known = options.Select(o => o.Conductor.Label).ToHashSet(StringComparer.Ordinal);
        var widest = options.Select(o => o.Table).MinBy(t => t.InsulationCelsius[0])!;
        var parents = new Dictionary<string, string?>(StringComparer.Ordinal);
        for (var i = 0; i < input.Runs.Count; i++)
        {
            var run = input.Runs[i];
            var field = $"{nameof(input.Runs)}[{i}]";
            checks.Named($"{field}.Id", "Run identifier", run.Id);
            checks.Named($"{field}.Name", $"Run {run.Id}, name", run.Name);
            if (!parents.TryAdd(run.Id, run.ParentId))
                checks.Add($"{field}.Id", $"Run identifier: \u201c{run.Id}\u201d is used twice; every run needs its own.");
            if (run.Route.LengthMeters is null)
                checks.Add($"{field}.Route.LengthMeters", $"{run.Name}, length one way: nothing was entered; enter {text.Range(0.05, 30, QuantityKind.Length)}.");
            checks.AddRange((run.Route with { ForcedSize = null }).Validate(run.Name, widest, text).Select(p => p with { Field = $"{field}.Route.{p.Field}" }));
            if (run.Route.CopperClad)
                checks.Add($"{field}.Route.CopperClad", $"{run.Name}: a tree chooses the metal with the cable; use AllowCopperCladAluminium.");
            checks.InRange($"{field}.MakerFuseAmperes", $"{run.Name}, maker's fuse", run.MakerFuseAmperes, 0.5, 1000, QuantityKind.Current);
            checks.InRange($"{field}.DemandFactor", $"{run.Name}, share that flows for long", run.DemandFactor, 0.1, 1);
            if (!run.HasFuse && run.Route.ForcedFuseAmperes is { } forced)
                checks.Add($"{field}.HasFuse", $"{run.Name}: a fuse of {text.Amperes(forced)} is chosen for a run without a fuse; give it a fuse or clear the rating.");
            var unknown = (run.AllowedSizes ?? []).Append(run.Route.ForcedSize ?? "").Where(s => s.Length > 0 && !known.Contains(s));
            foreach (var size in unknown)
                checks.Add($"{field}.AllowedSizes", $"{run.Name}, size: \u201c{size}\u201d is not among the cables; use one of {string.Join(", ", known)}.");
            if (run.AllowedSizes is { Count: 0 })
                checks.Add($"{field}.AllowedSizes", $"{run.Name}, allowed sizes: the list is empty; name at least one size, or allow all.");
        }

        for (var i = 0; i < input.Runs.Count; i++)
            CheckParent(checks, input.Runs[i], $"{nameof(input.Runs)}[{i}].ParentId", parents, input.Runs.Count);
    }

    private static void CheckParent(InputChecks checks, TreeRun run, string field, Dictionary<string, string?> parents, int runs)
    {
        if (run.ParentId is { } parent && !parents.ContainsKey(parent))
        {
            checks.Add(field, $"{run.Name}, starts from: \u201c{parent}\u201d is no run; use the identifier of a run, or none for the battery.");
            return;
        }

        var at = run.ParentId;
        for (var steps = 0; at is not null && parents.TryGetValue(at, out var next); steps++)
        {
            if (at == run.Id || steps > runs)
            {
                if (at == run.Id)
                    checks.Add(field, $"{run.Name}, starts from: \u201c{run.ParentId}\u201d is itself fed by this run; a supply tree cannot feed itself.");
                return;
            }

            at = next;
        }
    }

    private static void CheckLoads(InputChecks checks, TreeSizingInput input)
    {
        var runs = input.Runs.Select(r => r.Id).ToHashSet(StringComparer.Ordinal);
        var ids = new HashSet<string>(StringComparer.Ordinal);
        for (var i = 0; i < input.Loads.Count; i++)
        {
            var load = input.Loads[i];
            var field = $"{nameof(input.Loads)}[{i}]";
            checks.Named($"{field}.Id", "Load identifier", load.Id);
            checks.Named($"{field}.Name", $"Load {load.Id}, name", load.Name);
            if (!ids.Add(load.Id))
                checks.Add($"{field}.Id", $"Load identifier: \u201c{load.Id}\u201d is used twice; every load needs its own.");
            if (!runs.Contains(load.RunId))
                checks.Add($"{field}.RunId", $"{load.Name}, connected to: \u201c{load.RunId}\u201d is no run; use the identifier of a run.");
            checks.InRange($"{field}.RatedAmperes", $"{load.Name}, rated current", load.RatedAmperes, 0.001, 2000, QuantityKind.Current);
            var most = load.RatedAmperes is > 0 and <= 2000 ? load.RatedAmperes : 2000;
            checks.InRange($"{field}.MusicAmperes", $"{load.Name}, current on music", load.MusicAmperes, 0, most, QuantityKind.Current);
            checks.InRange($"{field}.IdleAmperes", $"{load.Name}, current at idle", load.IdleAmperes, 0, most, QuantityKind.Current);
            checks.InRange($"{field}.MaxDropVolts", $"{load.Name}, voltage drop allowed", load.MaxDropVolts, 0.005, 10, QuantityKind.Voltage);
        }
    }
}
