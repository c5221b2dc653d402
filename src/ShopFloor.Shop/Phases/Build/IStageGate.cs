using ShopFloor.Shop.Common;
using ShopFloor.Shop.Storage;

namespace ShopFloor.Shop.Phases.Build;

/// <summary>A later phase's word before the last tick of a stage.</summary>
public interface IStageGate
{
    /// <returns>Why the stage, all of whose steps are done, may not be finished; null when nothing stands or the stage is not its business.</returns>
    Task<Problem?> FinishProblemAsync(ShopDbContext db, JobStage stage, CancellationToken cancellationToken);
}
