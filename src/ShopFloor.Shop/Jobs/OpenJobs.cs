using Microsoft.EntityFrameworkCore;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Storage;

namespace ShopFloor.Shop.Jobs;

/// <summary>Work is only done on a job that is open.</summary>
internal static class OpenJobs
{
    /// <returns>Why the job cannot be worked on, or null when it is open.</returns>
    public static async Task<Problem?> OpenJobProblemAsync(this ShopDbContext db, Guid jobId, CancellationToken cancellationToken)
    {
        var job = await db.Jobs.AsNoTracking().Where(found => found.Id == jobId)
            .Select(found => new { found.Number, found.State })
            .FirstOrDefaultAsync(cancellationToken);
        return job switch
        {
            null => new Problem("", "That job is not on file."),
            { State: JobState.Open } => null,
            { State: JobState.Delivered } => new Problem("", $"{Job.ReferenceOf(job.Number)} has been delivered; it has to be opened again before anything is entered."),
            _ => new Problem("", $"{Job.ReferenceOf(job.Number)} was cancelled; it has to be opened again before anything is entered."),
        };
    }
}
