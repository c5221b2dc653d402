using Microsoft.EntityFrameworkCore;
using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Money;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Storage;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>The enclosures of a job with everything they are worked out from.</summary>
/// <param name="Removed">Taken away, latest first.</param>
public sealed record EnclosureList(Guid JobId, EnclosureFacts Facts, IReadOnlyList<LoadedDesign<EnclosureForm>> Designs, IReadOnlyList<LoadedDesign<EnclosureForm>> Removed);

/// <summary>The enclosures of a job as a paper of the shop.</summary>
public sealed record EnclosureSheet(Letterhead Letterhead, string JobReference, string JobTitle, string Vehicle, IReadOnlyList<(string Name, EnclosureView View)> Enclosures);

/// <summary>Boxes for the loudspeakers of a job. Adding, changing and taking away is <see cref="JobDesigns"/>.</summary>
public sealed class Enclosures(ShopStore store, JobDesigns designs, ITunedChannels tuned)
{
    /// <param name="text">Units and culture of the reader.</param>
    public async Task<EnclosureList> GetAsync(Actor actor, Guid jobId, UnitText text, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.SeeJobs);
        var removed = await designs.RemovedAsync<EnclosureForm>(actor, jobId, cancellationToken);
        return await store.ReadAsync(
            async db =>
            {
                var designs = await JobDesigns.ListAsync<EnclosureForm>(db, jobId, cancellationToken);
                return new EnclosureList(jobId, await FactsAsync(db, jobId, designs, await tuned.InCarAsync(db, jobId, cancellationToken), text, cancellationToken), designs, removed);
            },
            cancellationToken);
    }

    /// <summary>A table measured in the car, read or refused in words.</summary>
    public Task<CabinTransfer> TransferAsync(Actor actor, Guid fileId, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.SeeJobs);
        return store.ReadAsync(async db => CabinTransfer.Read(await JobFiles.OpenAsync(db, fileId, cancellationToken)), cancellationToken);
    }

    /// <summary>The enclosures with the heads of a paper; null when there is no such job. Texts are in the shop's units.</summary>
    public Task<EnclosureSheet?> SheetAsync(Actor actor, Guid jobId, IFormatProvider culture, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.SeeJobs);
        return store.ReadAsync(
            async db =>
            {
                if (await DesignPaper.HeadAsync(db, jobId, cancellationToken) is not { } head)
                {
                    return null;
                }

                return new EnclosureSheet(head.Letterhead, head.JobReference, head.JobTitle, head.Vehicle, await ViewsAsync(db, jobId, await tuned.InCarAsync(db, jobId, cancellationToken), new UnitText(head.Letterhead.Units, culture), cancellationToken));
            },
            cancellationToken);
    }

    /// <summary>What stands against the boxes that are to be built, for gates between phases; texts are invariant.</summary>
    internal static async Task<IReadOnlyList<Finding>> FindingsAsync(ShopDbContext db, Guid jobId, IReadOnlyList<ChannelInCar> inCar, CancellationToken cancellationToken) =>
        [.. (await ViewsAsync(db, jobId, inCar, UnitText.Invariant, cancellationToken)).SelectMany(each => each.View.Findings).DistinctBy(finding => (finding.Code, finding.SubjectId))];

    internal static async Task<IReadOnlyList<(string Name, EnclosureView View)>> ViewsAsync(ShopDbContext db, Guid jobId, IReadOnlyList<ChannelInCar> inCar, UnitText text, CancellationToken cancellationToken)
    {
        var found = await JobDesigns.ListAsync<EnclosureForm>(db, jobId, cancellationToken);
        if (found.Count == 0)
        {
            return [];
        }

        var facts = await FactsAsync(db, jobId, found, inCar, text, cancellationToken);
        return [.. found.Select(design => (design.Name, EnclosureStudies.Of(design.Form, facts, design.Id, design.Name, text)))];
    }

    private static async Task<EnclosureFacts> FactsAsync(ShopDbContext db, Guid jobId, IEnumerable<LoadedDesign<EnclosureForm>> found, IReadOnlyList<ChannelInCar> inCar, UnitText text, CancellationToken cancellationToken)
    {
        var measures = await (from job in db.Jobs.IgnoreQueryFilters()
                              join vehicle in db.Vehicles on job.VehicleId equals vehicle.Id
                              where job.Id == jobId
                              select vehicle).AsNoTracking().SingleAsync(cancellationToken);
        var parts = await PartsList.InOrder(db, jobId).AsNoTracking().ToListAsync(cancellationToken);
        var links = await SignalLinks.OfJob(db, jobId).ToListAsync(cancellationToken);
        var path = await SignalPaths.ViewAsync(db, jobId, text, cancellationToken);
        Dictionary<Guid, CabinTransfer> transfers = [];
        foreach (var file in found.Select(design => design.Form.TransferFileId).OfType<Guid>().Distinct())
        {
            transfers[file] = CabinTransfer.Read(await JobFiles.OpenAsync(db, file, cancellationToken));
        }

        return EnclosureFacts.Of(parts, measures.Measures.CabinLengthMeters, links, path.Channels) with { Transfers = transfers, Tuned = inCar };
    }
}
