using CsCheck;
using ShopFloor.Engineering.Electrical;
using ShopFloor.Engineering.Electrical.Sizing;

namespace ShopFloor.Engineering.Tests.Electrical.Sizing;

/// <summary>Builds supply trees for tests: 30 °C, 105 °C insulation, fuses at the source.</summary>
internal static class Trees
{
    public static TreeRun Run(string id, string? parent = null, double meters = 1) => new()
    {
        Id = id,
        Name = $"Run {id}",
        ParentId = parent,
        Route = Runs.Data(meters),
    };

    public static TreeLoad Load(string runId, double amperes, double? maxVolts = null) => new()
    {
        Id = $"load-{runId}",
        Name = $"Load {runId}",
        RunId = runId,
        RatedAmperes = amperes,
        MaxDropVolts = maxVolts,
    };

    public static TreeSizingInput Of(IReadOnlyList<TreeRun> runs, params TreeLoad[] loads) => new()
    {
        Runs = runs,
        Loads = loads,
        Rules = Runs.EverySize,
        SupplyVolts = 13.8,
    };

    public static TreeRun WithRoute(this TreeRun run, Func<RunData, RunData> change) => run with { Route = change(run.Route) };

    public static TreeSizingInput WithRun(this TreeSizingInput input, int at, Func<TreeRun, TreeRun> change) =>
        input with { Runs = [.. input.Runs.Select((r, i) => i == at ? change(r) : r)] };

    /// <summary>Random trees with the cables given; every leaf and some inner runs have a load.</summary>
    public static Gen<TreeSizingInput> Random(int mostRuns, IReadOnlyList<CableOption> cables, double mostAmperes = 60) =>
        from count in Gen.Int[1, mostRuns]
        from parents in Gen.Int[-1, mostRuns].Array[count]
        from meters in Gen.Double[0.2, 6].Array[count]
        from bodies in Gen.Int[0, 3].Array[count]
        from fused in Gen.Int[0, 4].Array[count]
        from engine in Gen.Int[0, 4].Array[count]
        from amperes in Gen.Double[0.5, mostAmperes].Array[count]
        from inner in Gen.Bool.Array[count]
        from limits in Gen.Double[0.15, 0.9].Array[count]
        from demand in Gen.Double[0.5, 1].Array[count]
        from music in Gen.Bool
        select Make(cables, parents, meters, bodies, fused, engine, amperes, inner, limits, demand, music);

    private static TreeSizingInput Make(
        IReadOnlyList<CableOption> cables, int[] parents, double[] meters, int[] bodies, int[] fused, int[] engine, double[] amperes, bool[] inner,
        double[] limits, double[] demand, bool music)
    {
        var parentOf = parents.Select((p, i) => p < 0 || i == 0 ? -1 : p % i).ToArray();
        var runs = parentOf.Select((p, i) => Run($"r{i}", p < 0 ? null : $"r{p}", meters[i]) with
        {
            HasFuse = p < 0 || fused[i] > 0,
            DemandFactor = demand[i],
            Route = Runs.Data(meters[i]) with
            {
                ReturnPath = bodies[i] == 0 ? ReturnPath.VehicleBody : ReturnPath.DedicatedConductor,
                EngineSpace = engine[i] == 0,
            },
        }).ToList();
        var loads = parentOf.Select((_, i) => i).Where(i => inner[i] || !parentOf.Contains(i))
            .Select(i => Load($"r{i}", amperes[i], limits[i]) with { MusicAmperes = amperes[i] * 0.3, IdleAmperes = amperes[i] * 0.05 });
        return Of(runs, [.. loads]) with
        {
            Cables = cables,
            Rules = Runs.EverySize with { DropBasis = music ? DropBasis.MusicCurrent : DropBasis.RatedCurrent },
        };
    }
}
