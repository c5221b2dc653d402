using Microsoft.EntityFrameworkCore;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Storage;

namespace ShopFloor.Shop.Jobs;

/// <summary>The parts of a job. Cost, load, mass and the handover's rows are all read from here.</summary>
public sealed class PartsList(ShopStore store)
{
    /// <summary>The most lines one job may have; a plan, a document and a screen still hold them.</summary>
    public const int MostParts = 500;

    public Task<List<PartRow>> RowsAsync(Actor actor, Guid jobId, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.SeeJobs);
        return store.ReadAsync(
            async db => (await InOrder(db, jobId).ToListAsync(cancellationToken)).ConvertAll(PartRow.Of),
            cancellationToken);
    }

    public Task<List<PartMoneyRow>> PricesAsync(Actor actor, Guid jobId, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.SeePrices);
        return store.ReadAsync(
            async db => (await InOrder(db, jobId).ToListAsync(cancellationToken))
                .ConvertAll(part => new PartMoneyRow(part.Id, part.UnitPrice, part.TotalPrice)),
            cancellationToken);
    }

    public Task<List<PartCostRow>> CostsAsync(Actor actor, Guid jobId, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.SeeCosts);
        return store.ReadAsync(
            async db => (await InOrder(db, jobId).ToListAsync(cancellationToken))
                .ConvertAll(part => new PartCostRow(part.Id, part.UnitCost, part.TotalCost, Margin(part))),
            cancellationToken);
    }

    /// <summary>Net price of what goes into the car, and how many of those lines have no price yet.</summary>
    public async Task<PartsPrice> PriceAsync(Actor actor, Guid jobId, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.SeePrices);
        var parts = await store.ReadAsync(
            db => InOrder(db, jobId).Where(part => part.Direction == PartDirection.Installed).ToListAsync(cancellationToken),
            cancellationToken);
        return new PartsPrice(parts.Sum(part => part.TotalPrice ?? 0), parts.Count(part => part.UnitPrice is null));
    }

    public Task<PartForm?> ForEditAsync(Actor actor, Guid partId, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.DesignJobs);
        return store.ReadAsync<PartForm?>(
            async db => await db.JobParts.SingleOrDefaultAsync(part => part.Id == partId, cancellationToken) is { } part
                ? new PartForm(part.Id, part.Version, JobPartDetails.Of(part).Veil(actor), part.State)
                : null,
            cancellationToken);
    }

    /// <summary>Puts a part of the catalogue on the job, with the money the catalogue holds.</summary>
    public Task<Outcome<Guid>> AddFromCatalogueAsync(
        Actor actor, Guid jobId, Guid cataloguePartId, decimal quantity, string zone, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.DesignJobs);
        return store.WriteAsync<Guid>(
            actor,
            async db =>
            {
                var known = await db.CatalogueParts.SingleOrDefaultAsync(part => part.Id == cataloguePartId, cancellationToken);
                if (known is null)
                {
                    return new Problem("", "That part is no longer in the catalogue.");
                }

                var details = JobPartDetails.FromCatalogue(known);
                details.Quantity = quantity;
                details.Zone = zone;
                return await AddAsync(db, jobId, details, known.Id, cancellationToken);
            },
            cancellationToken);
    }

    public Task<Outcome<Guid>> AddAsync(Actor actor, Guid jobId, JobPartDetails details, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.DesignJobs);
        details.Veil(actor);
        KeepMeasured(details.Data, null);
        return store.WriteAsync<Guid>(actor, db => AddAsync(db, jobId, details, null, cancellationToken), cancellationToken);
    }

    public Task<Outcome<Guid>> EditAsync(Actor actor, Guid partId, Guid expectedVersion, JobPartDetails details, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.DesignJobs);
        return ChangeAsync(
            actor,
            partId,
            async (db, part) =>
            {
                details.KeepMoneyOf(part, actor);
                KeepMeasured(details.Data, part.Data);
                var problems = details.Problems();
                if (problems.Count > 0)
                {
                    return problems;
                }

                if (await db.ConflictAsync(part, expectedVersion, details, JobPartDetails.Of(part), cancellationToken) is { } conflict)
                {
                    return conflict;
                }

                part.Apply(details);
                return part.Id;
            },
            cancellationToken);
    }

    /// <summary>A second line like the first, to be bought and fitted on its own.</summary>
    public Task<Outcome<Guid>> DuplicateAsync(Actor actor, Guid partId, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.DesignJobs);
        return ChangeAsync(
            actor,
            partId,
            (db, part) =>
            {
                var details = JobPartDetails.Of(part);
                details.OrderReference = "";
                details.ExpectedOn = null;
                details.PlanRunId = "";
                return AddAsync(db, part.JobId, details, part.CataloguePartId, cancellationToken);
            },
            cancellationToken);
    }

    public Task<Outcome<Guid>> RemoveAsync(Actor actor, Guid partId, CancellationToken cancellationToken) =>
        TakeAwayAsync(actor, partId, null, true, cancellationToken);

    /// <summary>Refused as a conflict when the part was changed since that version.</summary>
    public Task<Outcome<Guid>> RemoveAsync(Actor actor, Guid partId, Guid expectedVersion, CancellationToken cancellationToken) =>
        TakeAwayAsync(actor, partId, expectedVersion, true, cancellationToken);

    public Task<Outcome<Guid>> BringBackAsync(Actor actor, Guid partId, CancellationToken cancellationToken) =>
        TakeAwayAsync(actor, partId, null, false, cancellationToken);

    /// <summary>Refused as a conflict when the part was changed since that version.</summary>
    public Task<Outcome<Guid>> BringBackAsync(Actor actor, Guid partId, Guid expectedVersion, CancellationToken cancellationToken) =>
        TakeAwayAsync(actor, partId, expectedVersion, false, cancellationToken);

    /// <summary>Puts a part right before or after another. Only the one moves, so what somebody else moved meanwhile stays moved.</summary>
    public Task<Outcome<Done>> MoveBesideAsync(Actor actor, Guid jobId, Guid partId, Guid besideId, bool after, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.DesignJobs);
        return store.WriteAsync<Done>(
            actor,
            async db =>
            {
                if (await JobLock.ProblemAsync(db, jobId, cancellationToken) is { } locked)
                {
                    return locked;
                }

                var parts = await InOrder(db, jobId).ToListAsync(cancellationToken);
                var moved = parts.Find(part => part.Id == partId);
                if (moved is null || partId == besideId || parts.TrueForAll(part => part.Id != besideId))
                {
                    return new Problem("", "One of the two parts is no longer on the list; the list shows what is there now.");
                }

                parts.Remove(moved);
                parts.Insert(parts.FindIndex(part => part.Id == besideId) + (after ? 1 : 0), moved);
                for (var place = 0; place < parts.Count; place++)
                {
                    parts[place].PlaceAt(place);
                }

                return Done.Value;
            },
            cancellationToken);
    }

    internal static IOrderedQueryable<JobPart> InOrder(ShopDbContext db, Guid jobId) =>
        db.JobParts.Where(part => part.JobId == jobId).OrderBy(part => part.Order).ThenBy(part => part.Id);

    /// <summary>The one place a line comes onto a job.</summary>
    internal static async Task<Outcome<Guid>> AddAsync(
        ShopDbContext db, Guid jobId, JobPartDetails details, Guid? cataloguePartId, CancellationToken cancellationToken)
    {
        var problems = details.Problems();
        if (problems.Count > 0)
        {
            return problems;
        }

        if (await JobLock.ProblemAsync(db, jobId, cancellationToken) is { } locked)
        {
            return locked;
        }

        var lines = db.JobParts.IgnoreQueryFilters().Where(part => part.JobId == jobId);
        if (await lines.CountAsync(part => part.RemovedAt == null, cancellationToken) >= MostParts)
        {
            return new Problem("", $"The job has {MostParts} lines, the most one job may have; put small things into one line.");
        }

        var last = await lines.MaxAsync(part => (int?)part.Order, cancellationToken) ?? -1;
        var waiting = db.JobParts.Local.Where(part => part.JobId == jobId).Select(part => part.Order).DefaultIfEmpty(-1).Max();
        return db.JobParts.Add(new JobPart(jobId, details, cataloguePartId, Math.Max(last, waiting) + 1)).Entity.Id;
    }

    // Who measured what is written by measuring alone, never typed.
    private static void KeepMeasured(PartData typed, PartData? stored)
    {
        if (typed is LoudspeakerData loudspeaker)
        {
            loudspeaker.Measured = (stored as LoudspeakerData)?.Measured;
        }
    }

    private Task<Outcome<Guid>> TakeAwayAsync(Actor actor, Guid partId, Guid? expectedVersion, bool away, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.DesignJobs);
        return ChangeAsync(
            actor,
            partId,
            async (db, part) =>
            {
                var details = JobPartDetails.Of(part);
                if (expectedVersion is { } expected && await db.ConflictAsync(part, expected, details, details, cancellationToken) is { } conflict)
                {
                    return conflict;
                }

                if (away)
                {
                    part.Remove(store.Time.GetUtcNow());
                }
                else
                {
                    part.BringBack();
                }

                return part.Id;
            },
            cancellationToken);
    }

    private Task<Outcome<Guid>> ChangeAsync(
        Actor actor, Guid partId, Func<ShopDbContext, JobPart, Task<Outcome<Guid>>> change, CancellationToken cancellationToken) =>
        store.WriteAsync<Guid>(
            actor,
            async db =>
            {
                var part = await db.JobParts.IgnoreQueryFilters().SingleOrDefaultAsync(found => found.Id == partId, cancellationToken);
                if (part is null)
                {
                    return new Problem("", "That part is no longer on file.");
                }

                return await JobLock.ProblemAsync(db, part.JobId, cancellationToken) is { } locked ? locked : await change(db, part);
            },
            cancellationToken);

    private static decimal? Margin(JobPart part) =>
        part is { UnitPrice: { } price and not 0, UnitCost: { } cost } ? Math.Round((price - cost) / price * 100, 1) : null;
}

/// <param name="Net">Sum of the lines that have a price, without tax.</param>
/// <param name="WithoutPrice">Lines that have none.</param>
public sealed record PartsPrice(decimal Net, int WithoutPrice);
