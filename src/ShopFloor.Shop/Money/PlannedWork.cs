using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Storage;

namespace ShopFloor.Shop.Money;

/// <summary>A stage, or a thing made by hand, as far as money is concerned.</summary>
public sealed record PlannedStage(Guid Id, int Order, string Name, decimal PlannedHours);

/// <summary>
/// Planned hours are entered with the stages, and with what is made by hand (cut lists, composites, treatments) beyond them; the estimate,
/// an earlier phase, reads them here.
/// </summary>
internal static class PlannedWork
{
    private static readonly DesignKind[] ByHand = [DesignKind.CutList, DesignKind.Laminate, DesignKind.Treatment];

    public static async Task<List<PlannedStage>> PlannedStagesAsync(this ShopDbContext db, Guid jobId, CancellationToken cancellationToken)
    {
        var stages = await db.JobStages
            .Where(stage => stage.JobId == jobId)
            .OrderBy(stage => stage.Order)
            .Select(stage => new PlannedStage(stage.Id, stage.Order, stage.Name, stage.PlannedHours))
            .ToListAsync(cancellationToken);
        var after = stages.Count == 0 ? 0 : stages[^1].Order + 1;
        return [.. stages, .. (await db.HandWorkAsync([jobId], cancellationToken)).Select((work, index) => new PlannedStage(work.Id, after + index, work.Name, work.Hours))];
    }

    /// <summary>What is made by hand and has hours of its own.</summary>
    public static async Task<List<HandWork>> HandWorkAsync(this ShopDbContext db, IReadOnlyCollection<Guid> jobIds, CancellationToken cancellationToken) =>
    [
        .. from design in await db.JobDesigns.AsNoTracking().Where(design => jobIds.Contains(design.JobId) && ByHand.Contains(design.Kind)).ToListAsync(cancellationToken)
           orderby design.Kind, design.Name, design.Id
           let hours = (decimal)(JsonSerializer.Deserialize<HoursOnly>(design.FormJson, StoredJson.Options)?.Hours ?? 0)
           where hours > 0
           select new HandWork(design.Id, design.JobId, design.Name, hours),
    ];

    // The forms belong to the design phase; money reads the one field it is about.
    private sealed record HoursOnly(double? Hours);
}

/// <summary>A thing made by hand with its hours.</summary>
internal sealed record HandWork(Guid Id, Guid JobId, string Name, decimal Hours);
