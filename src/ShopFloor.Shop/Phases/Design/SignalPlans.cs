using Microsoft.EntityFrameworkCore;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Storage;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>Cables of loudspeakers, signals and turn-on lines of a job, sized from its links and put on its parts list.</summary>
public sealed class SignalPlans(ShopStore store)
{
    /// <param name="text">Units and culture of the reader.</param>
    public Task<SignalPlanView> GetAsync(Actor actor, Guid jobId, UnitText text, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.SeeJobs);
        return store.ReadAsync(db => ViewAsync(db, jobId, text, cancellationToken), cancellationToken);
    }

    /// <summary>Puts the cables the links ask for on the parts list, or brings those it put there before up to date.</summary>
    public Task<Outcome<LinkCablesResult>> PutCablesOnListAsync(Actor actor, Guid jobId, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.DesignJobs);
        return store.WriteAsync<LinkCablesResult>(
            actor,
            async db =>
            {
                if (await JobLock.ProblemAsync(db, jobId, cancellationToken) is { } locked)
                {
                    return locked;
                }

                var view = await ViewAsync(db, jobId, UnitText.Invariant, cancellationToken);
                return await LinkCables.PutOnListAsync(db, view, store.Time.GetUtcNow(), cancellationToken);
            },
            cancellationToken);
    }

    private static async Task<SignalPlanView> ViewAsync(ShopDbContext db, Guid jobId, UnitText text, CancellationToken cancellationToken)
    {
        var parts = await PartsList.InOrder(db, jobId).AsNoTracking().Where(part => part.Direction == PartDirection.Installed).ToListAsync(cancellationToken);
        var links = await SignalLinks.OfJob(db, jobId).ToListAsync(cancellationToken);
        var settings = await db.BudgetSettings.AsNoTracking().SingleOrDefaultAsync(found => found.JobId == jobId, cancellationToken);
        return new SignalMapping(parts, links, settings?.Form ?? new BudgetSettingsForm(), text).View(jobId);
    }
}
