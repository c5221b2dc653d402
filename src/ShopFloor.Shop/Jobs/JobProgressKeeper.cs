using Microsoft.EntityFrameworkCore;
using ShopFloor.Shop.Phases.Build;
using ShopFloor.Shop.Storage;

namespace ShopFloor.Shop.Jobs;

/// <summary>
/// Works out where a job stands and writes it beside the job, inside the transaction of whatever changed it.
/// The job's version stays as it is: a tick in the bay must not turn the front desk's edit of the card into a conflict.
/// </summary>
internal static class JobProgressKeeper
{
    /// <summary>Saves what is pending, then refreshes.</summary>
    public static async Task RefreshProgressAsync(this ShopDbContext db, Guid jobId, CancellationToken cancellationToken)
    {
        await db.SaveChangesAsync(cancellationToken);
        var progress = await ComputeAsync(db, jobId, cancellationToken);
        await db.Jobs.Where(job => job.Id == jobId).ExecuteUpdateAsync(
            set => set
                .SetProperty(job => job.Progress.StageName, progress.StageName)
                .SetProperty(job => job.Progress.StageOrder, progress.StageOrder)
                .SetProperty(job => job.Progress.StagesDone, progress.StagesDone)
                .SetProperty(job => job.Progress.StagesTotal, progress.StagesTotal)
                .SetProperty(job => job.Progress.OpenBlockers, progress.OpenBlockers)
                .SetProperty(job => job.Progress.Working, progress.Working)
                .SetProperty(job => job.Progress.Track, progress.Track),
            cancellationToken);
    }

    private static async Task<JobProgress> ComputeAsync(ShopDbContext db, Guid jobId, CancellationToken cancellationToken)
    {
        var stages = await db.JobStages.AsNoTracking().Where(stage => stage.JobId == jobId)
            .Include(stage => stage.Steps).OrderBy(stage => stage.Order).ToListAsync(cancellationToken);
        var blockedStages = await db.Blockers
            .Where(blocker => blocker.JobId == jobId && blocker.ResolvedAt == null && blocker.Kind == BlockerKind.Blocker)
            .Select(blocker => blocker.StageId)
            .ToListAsync(cancellationToken);
        var running = await db.TimeEntries
            .Where(entry => entry.JobId == jobId && entry.StoppedAt == null)
            .Select(entry => new { entry.StaffId, entry.StageId })
            .ToListAsync(cancellationToken);

        var current = stages.FindIndex(stage => !stage.IsDone);
        var track = stages.Select((stage, at) =>
            blockedStages.Contains(stage.Id) || (at == current && blockedStages.Contains(null)) ? StageTrack.Blocked
            : running.Any(entry => entry.StageId == stage.Id) ? StageTrack.Worked
            : stage.IsDone ? StageTrack.Done
            : stage.Steps.Any(step => step.IsTicked) ? StageTrack.Begun
            : StageTrack.Open);
        return new JobProgress(
            current < 0 ? "" : stages[current].Name,
            current < 0 ? stages.Count : current,
            stages.Count(stage => stage.IsDone),
            stages.Count,
            blockedStages.Count,
            running.Select(entry => entry.StaffId).Distinct().Count())
        {
            Track = string.Concat(track),
        };
    }
}
