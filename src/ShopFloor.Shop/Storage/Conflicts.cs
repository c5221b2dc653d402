using Microsoft.EntityFrameworkCore;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Storage.Audit;

namespace ShopFloor.Shop.Storage;

/// <summary>Finds out whether somebody saved a thing after the editor loaded it.</summary>
public static class Conflicts
{
    /// <returns>Null when <paramref name="expectedVersion"/> is still current; else both versions and who made the other.</returns>
    public static async Task<EditConflict?> ConflictAsync<TEntity, TDetails>(
        this ShopDbContext db,
        TEntity entity,
        Guid expectedVersion,
        TDetails mine,
        TDetails theirs,
        CancellationToken cancellationToken)
        where TEntity : class, IVersioned, IAudited
        where TDetails : class
    {
        if (entity.Version == expectedVersion)
        {
            return null;
        }

        var id = (Guid)db.Entry(entity).Property("Id").CurrentValue!; // audited entities have a Guid key named Id
        var last = await db.AuditEntries
            .Where(entry => entry.SubjectId == id)
            .OrderByDescending(entry => entry.Sequence)
            .Select(entry => new { entry.ActorName, entry.At })
            .FirstOrDefaultAsync(cancellationToken);
        return new EditConflict(
            entity.AuditName,
            last?.ActorName ?? "somebody",
            last?.At ?? default,
            entity.Version,
            EditConflict.Compare(mine, theirs));
    }
}
