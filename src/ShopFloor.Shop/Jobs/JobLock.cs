using Microsoft.EntityFrameworkCore;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Storage;

namespace ShopFloor.Shop.Jobs;

/// <summary>Keeps a job that is out of the shop's hands as it was.</summary>
internal static class JobLock
{
    /// <returns>Null while the job is open, else why it cannot be changed.</returns>
    public static async Task<Problem?> ProblemAsync(ShopDbContext db, Guid jobId, CancellationToken cancellationToken)
    {
        var job = await db.Jobs.AsNoTracking()
            .Where(found => found.Id == jobId)
            .Select(found => new { found.Number, found.State })
            .SingleOrDefaultAsync(cancellationToken);
        return job switch
        {
            null => new Problem("", "That job is no longer on file."),
            { State: JobState.Delivered } => new Problem("", $"{Job.ReferenceOf(job.Number)} is delivered; reopen it to change it."),
            { State: JobState.Cancelled } => new Problem("", $"{Job.ReferenceOf(job.Number)} is cancelled; reopen it to change it."),
            _ => null,
        };
    }
}
