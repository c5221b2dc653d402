using Microsoft.EntityFrameworkCore;
using ShopFloor.Shop.Storage;

namespace ShopFloor.Shop.Jobs;

/// <summary>The job with whom it is for and on what, as papers and the client's pages need it.</summary>
internal static class WholeJob
{
    public static Task<Job> WholeJobAsync(this ShopDbContext db, Guid jobId, CancellationToken cancellationToken) =>
        db.Jobs.AsNoTracking().Include(found => found.Client).Include(found => found.Vehicle).SingleAsync(found => found.Id == jobId, cancellationToken);
}
