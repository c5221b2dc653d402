using ShopFloor.Shop.Common;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>What may take its current from what.</summary>
public static class PlanMoves
{
    /// <summary>Why a run may not start at a source, in words of the trade; null when it may.</summary>
    /// <param name="sourceId">A source of <see cref="FeedSources"/>; empty for what is usual.</param>
    public static string? Refusal(FeedSources sources, IReadOnlyList<RunPlace> runs, string runId, string sourceId)
    {
        var name = NameOf(sources, runs, runId);
        if (sourceId == runId)
        {
            return $"{name} cannot feed itself.";
        }

        if (sourceId == FeedSources.VehicleCircuit && sources.Find(runId) is not null)
        {
            return $"{name} has a cable of its own; only a part that takes current can hang on a circuit of the car.";
        }

        var at = sourceId;
        for (var steps = 0; steps <= runs.Count && runs.FirstOrDefault(run => run.RunId == at) is { } run; steps++)
        {
            if (run.SourceId == runId)
            {
                return $"{name} cannot take its current from {NameOf(sources, runs, sourceId)}, which takes its own from {name}: nothing would come from the battery.";
            }

            at = run.SourceId;
        }

        return null;
    }

    /// <summary>The choice after a move. What was measured along the old way is let go; a size or fuse chosen by hand stays.</summary>
    public static RunChoiceForm Moved(RunChoiceForm choice, string sourceId) =>
        choice with
        {
            From = sourceId,
            LengthMeters = null,
            FuseDistanceMeters = null,
            SheathedToFuse = false,
            AmbientCelsius = null,
            EngineSpace = null,
            Lies = null,
            BundledConductors = null,
            Route = "",
        };

    /// <summary>What a source is called.</summary>
    public static string SourceName(FeedSources sources, string sourceId) => sourceId switch
    {
        FeedSources.Battery => "the battery",
        FeedSources.VehicleCircuit => "a circuit of the car",
        ElectricalPlanBuilder.MainRunId => "the distribution",
        _ => sources.Find(sourceId)?.Name ?? "what is usual",
    };

    internal static Problem? ProblemOf(PlanBasis basis, string runId, string sourceId) =>
        Refusal(basis.Sources, basis.Runs, runId, sourceId) is { } words ? new Problem(nameof(RunChoiceForm.From), words) : null;

    private static string NameOf(FeedSources sources, IReadOnlyList<RunPlace> runs, string id) => id switch
    {
        FeedSources.Battery or FeedSources.VehicleCircuit => SourceName(sources, id),
        ElectricalPlanBuilder.MainRunId => "The distribution",
        _ => sources.Find(id)?.Name ?? runs.FirstOrDefault(run => run.RunId == id)?.Name ?? "That part",
    };
}
