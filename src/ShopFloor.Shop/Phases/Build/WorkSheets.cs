using Microsoft.EntityFrameworkCore;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Storage;

namespace ShopFloor.Shop.Phases.Build;

/// <summary>What the bay sees of a job: stages, steps, proofs, reports, clocks. No field of it carries money.</summary>
public sealed class WorkSheets(ShopStore store)
{
    /// <returns>The sheet, or null when there is no such job.</returns>
    public Task<WorkSheet?> SheetAsync(Actor actor, Guid jobId, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.SeeJobs);
        return store.ReadAsync<WorkSheet?>(
            async db =>
            {
                var head = await db.Jobs.Where(job => job.Id == jobId)
                    .Select(job => new
                    {
                        job.Number, job.Title, job.State, job.PromisedOn, job.NothingCut, job.KeepSpareWheel, job.RestrictionNotes, job.VehicleId,
                    })
                    .FirstOrDefaultAsync(cancellationToken);
                if (head is null)
                {
                    return null;
                }

                var vehicle = await db.Vehicles.SingleAsync(found => found.Id == head.VehicleId, cancellationToken);
                var photos = await PhotosAsync(db, jobId, cancellationToken);
                var hours = await HoursAsync(db, jobId, cancellationToken);
                var running = await db.TimeEntries.Where(entry => entry.JobId == jobId && entry.StoppedAt == null).OrderBy(entry => entry.StartedAt)
                    .Select(entry => new SheetClock(entry.StageId, entry.StaffId, entry.StaffName, entry.StartedAt)).ToListAsync(cancellationToken);
                var stages = await db.JobStages.Include(stage => stage.Steps).Where(stage => stage.JobId == jobId).OrderBy(stage => stage.Order).ToListAsync(cancellationToken);
                var reports = await db.Blockers.Where(blocker => blocker.JobId == jobId)
                    .OrderBy(blocker => blocker.ResolvedAt != null).ThenByDescending(blocker => blocker.ReportedAt).ToListAsync(cancellationToken);
                return new WorkSheet(
                    jobId, Job.ReferenceOf(head.Number), head.Title, head.State, vehicle.Title, vehicle.Plate, vehicle.Colour, vehicle.DriveType,
                    head.PromisedOn, head.NothingCut, head.KeepSpareWheel, head.RestrictionNotes,
                    [.. stages.Select(stage => SheetStage.Of(
                        stage,
                        photos,
                        hours.GetValueOrDefault(stage.Id),
                        running,
                        reports.Any(report => report.IsOpen && report.Kind == BlockerKind.Blocker && report.StageId == stage.Id)))],
                    [.. reports.Select(report => SheetReport.Of(report, photos.GetValueOrDefault(report.Id) ?? []))],
                    running);
            },
            cancellationToken);
    }

    /// <summary>Planned against spent hours of every stage, and who spent them.</summary>
    public Task<List<PersonHours>> HoursByPersonAsync(Actor actor, Guid jobId, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.SeeJobs);
        var now = store.Time.GetUtcNow();
        return store.ReadAsync(
            async db => (await db.TimeEntries.Where(entry => entry.JobId == jobId)
                    .Select(entry => new { entry.StageId, entry.StaffId, entry.StaffName, entry.StartedAt, entry.StoppedAt })
                    .ToListAsync(cancellationToken))
                .GroupBy(entry => new { entry.StageId, entry.StaffId })
                .Select(group => new PersonHours(
                    group.Key.StageId, group.Key.StaffId, group.Last().StaffName, group.Sum(entry => Hours(entry.StartedAt, entry.StoppedAt ?? now))))
                .ToList(),
            cancellationToken);
    }

    private async Task<Dictionary<Guid, decimal>> HoursAsync(ShopDbContext db, Guid jobId, CancellationToken cancellationToken)
    {
        // Summed here, not in the query: a difference of two instants is not something every database can add up.
        var now = store.Time.GetUtcNow();
        var entries = await db.TimeEntries.Where(entry => entry.JobId == jobId)
            .Select(entry => new { entry.StageId, entry.StartedAt, entry.StoppedAt }).ToListAsync(cancellationToken);
        return entries.GroupBy(entry => entry.StageId).ToDictionary(group => group.Key, group => group.Sum(entry => Hours(entry.StartedAt, entry.StoppedAt ?? now)));
    }

    private static decimal Hours(DateTimeOffset from, DateTimeOffset to) => Math.Max(0, (decimal)(to - from).TotalHours);

    private static async Task<Dictionary<Guid, List<Guid>>> PhotosAsync(ShopDbContext db, Guid jobId, CancellationToken cancellationToken) =>
        (await db.Photos
            .Where(photo => photo.JobId == jobId && photo.SubjectId != null && (photo.Subject == PhotoSubject.Step || photo.Subject == PhotoSubject.Blocker))
            .OrderBy(photo => photo.TakenAt)
            .Select(photo => new { photo.Id, photo.SubjectId })
            .ToListAsync(cancellationToken))
        .GroupBy(photo => photo.SubjectId!.Value, photo => photo.Id) // the query asks for one
        .ToDictionary(group => group.Key, group => group.ToList());
}
