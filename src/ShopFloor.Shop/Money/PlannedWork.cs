using Microsoft.EntityFrameworkCore;
using ShopFloor.Shop.Storage;

namespace ShopFloor.Shop.Money;

/// <summary>A stage as far as money is concerned.</summary>
public sealed record PlannedStage(Guid Id, int Order, string Name, decimal PlannedHours);

/// <summary>Planned hours are entered with the stages; the estimate, an earlier phase, reads them here.</summary>
internal static class PlannedWork
{
    public static Task<List<PlannedStage>> PlannedStagesAsync(this ShopDbContext db, Guid jobId, CancellationToken cancellationToken) => db.JobStages
        .Where(stage => stage.JobId == jobId)
        .OrderBy(stage => stage.Order)
        .Select(stage => new PlannedStage(stage.Id, stage.Order, stage.Name, stage.PlannedHours))
        .ToListAsync(cancellationToken);
}
