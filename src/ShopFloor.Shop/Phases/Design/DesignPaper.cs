using Microsoft.EntityFrameworkCore;
using ShopFloor.Shop.Money;
using ShopFloor.Shop.Storage;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>What stands at the head of a paper about a design.</summary>
internal sealed record DesignPaperHead(Letterhead Letterhead, string JobReference, string JobTitle, string Vehicle);

internal static class DesignPaper
{
    /// <returns>Null when there is no such job; a job or vehicle that was put away still has its papers.</returns>
    public static async Task<DesignPaperHead?> HeadAsync(ShopDbContext db, Guid jobId, CancellationToken cancellationToken)
    {
        var job = await db.Jobs.IgnoreQueryFilters().AsNoTracking().SingleOrDefaultAsync(found => found.Id == jobId, cancellationToken);
        if (job is null)
        {
            return null;
        }

        var vehicle = await db.Vehicles.IgnoreQueryFilters().AsNoTracking().SingleAsync(found => found.Id == job.VehicleId, cancellationToken);
        return new DesignPaperHead(Letterhead.From(await db.SettingsAsync(cancellationToken)), job.Reference, job.Title, vehicle.Title);
    }
}
