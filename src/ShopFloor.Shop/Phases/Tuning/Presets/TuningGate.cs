using ShopFloor.Shop.Common;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Phases.Build;
using ShopFloor.Shop.Storage;

namespace ShopFloor.Shop.Phases.Tuning.Presets;

/// <summary>
/// The gate behind stages of tuning that asks the verification: a limit of the shop that the tuned car breaks holds the last tick until it is
/// mended or signed off by the owner. A car whose preset nobody kept, or nobody measured again, is not held.
/// </summary>
internal sealed class TuningGate(TuningBench bench) : IStageGate
{
    public async Task<Problem?> FinishProblemAsync(ShopDbContext db, JobStage stage, CancellationToken cancellationToken)
    {
        if (stage.Phase != JobPhase.Tuning || !stage.IsDone)
        {
            return null;
        }

        var gated = await SignOffs.GateAsync(db, stage.JobId, await bench.FindingsAsync(db, stage.JobId, cancellationToken), cancellationToken);
        var standing = gated.Where(one => one.Stands).Select(one => one.Finding).ToList();
        return standing.Count == 0
            ? null
            : new Problem("", $"{stage.Name} cannot be finished: {string.Join(" ", standing.Take(3).Select(finding => finding.Text))} Tune and measure again under Verification, or the owner signs it off there with a reason.");
    }
}
