using Microsoft.EntityFrameworkCore;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Money;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Storage;
using ShopFloor.Shop.Storage.Audit;

namespace ShopFloor.Shop.Jobs;

/// <summary>The record of who did what, in words: of one job, or of the whole shop for the owner.</summary>
public sealed class JobRecord(ShopStore store)
{
    /// <param name="before">Reads lines older than this sequence; null starts with the newest.</param>
    public async Task<RecordPage> OfJobAsync(Actor actor, Guid jobId, long? before, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.SeeJobs);
        return await store.ReadAsync(
            async db =>
            {
                // What is known of the client and the car belongs to the job's story although it outlives the job.
                var about = await db.Jobs.Where(job => job.Id == jobId).Select(job => new { job.ClientId, job.VehicleId }).SingleAsync(cancellationToken);
                var lines = db.AuditEntries.Where(entry =>
                    entry.JobId == jobId || (entry.JobId == null && (entry.SubjectId == about.ClientId || entry.SubjectId == about.VehicleId)));
                return await PageAsync(db, actor, lines, before, withJobs: false, cancellationToken);
            },
            cancellationToken);
    }

    /// <param name="words">Only lines whose subject, person or reason contains this text.</param>
    /// <param name="before">Reads lines older than this sequence; null starts with the newest.</param>
    public async Task<RecordPage> OfShopAsync(Actor actor, string words, long? before, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.ManageShop);
        actor.Demand(Permission.SeeCosts);
        var wanted = words.Trim();
        return await store.ReadAsync(
            db =>
            {
                var lines = db.AuditEntries.Where(entry =>
                    wanted == "" || entry.SubjectName.Contains(wanted) || entry.ActorName.Contains(wanted) || entry.Reason.Contains(wanted));
                return PageAsync(db, actor, lines, before, withJobs: true, cancellationToken);
            },
            cancellationToken);
    }

    private static async Task<RecordPage> PageAsync(
        ShopDbContext db, Actor actor, IQueryable<AuditEntry> lines, long? before, bool withJobs, CancellationToken cancellationToken)
    {
        var entries = await lines
            .Where(entry => before == null || entry.Sequence < before)
            .OrderByDescending(entry => entry.Sequence)
            .Take(Limits.Page + 1)
            .ToListAsync(cancellationToken);
        var shown = entries.Take(Limits.Page).ToList();
        var jobIds = withJobs ? shown.Where(entry => entry.JobId is not null).Select(entry => entry.JobId!.Value).ToHashSet() : []; // not null by the filter
        var references = await db.Jobs.Where(job => jobIds.Contains(job.Id)).Select(job => new { job.Id, job.Number }).ToDictionaryAsync(job => job.Id, job => Job.ReferenceOf(job.Number), cancellationToken);
        var zone = SettingsReading.ZoneOf(await db.SettingsAsync(cancellationToken));
        return new RecordPage(
            [.. shown.Select(entry => new RecordLine(
                entry.Sequence,
                entry.At,
                entry.ActorName,
                RecordText.Via(entry.Via),
                RecordText.Headline(entry),
                RecordText.Changes(entry, actor.May, zone),
                RecordText.Reason(entry, actor.May),
                entry.JobId,
                entry.JobId is { } id ? references.GetValueOrDefault(id, "") : ""))],
            entries.Count > Limits.Page ? shown[^1].Sequence : null);
    }
}

/// <param name="Lines">Newest first.</param>
/// <param name="Before">Key of the next page; null when this is the last.</param>
public sealed record RecordPage(IReadOnlyList<RecordLine> Lines, long? Before);

/// <param name="Sequence">Place in the trail.</param>
/// <param name="At">When.</param>
/// <param name="Who">Who did it.</param>
/// <param name="Via">Where they did it.</param>
/// <param name="Headline">What was done to what.</param>
/// <param name="Changes">Each changed field: 'Phone: 555 0100 → 555 0199'.</param>
/// <param name="Reason">The written reason, where there is one.</param>
/// <param name="JobId">The job it belongs to.</param>
/// <param name="JobReference">Its reference, in the record of the whole shop.</param>
public sealed record RecordLine(
    long Sequence, DateTimeOffset At, string Who, string Via, string Headline, IReadOnlyList<string> Changes, string Reason, Guid? JobId, string JobReference);
