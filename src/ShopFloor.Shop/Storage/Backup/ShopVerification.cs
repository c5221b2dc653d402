using System.Globalization;
using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;
using ShopFloor.Shop.Storage.Audit;
using ShopFloor.Shop.Storage.Photos;

namespace ShopFloor.Shop.Storage.Backup;

/// <summary>Looks a whole shop over: the database file, the chain of the audit trail, every photo a row names.</summary>
public sealed class ShopVerification(IDbContextFactory<ShopDbContext> contexts, ShopFolder folder, TimeProvider time)
{
    public async Task<VerificationReport> RunAsync(CancellationToken cancellationToken)
    {
        if (!File.Exists(folder.Database))
        {
            return new VerificationReport([$"There is no shop in '{folder.Root}'."], 0, 0);
        }

        var problems = new List<string>();
        await using var db = await contexts.CreateDbContextAsync(cancellationToken);
        await db.Database.OpenConnectionAsync(cancellationToken);
        problems.AddRange(DatabaseCheck.Problems((SqliteConnection)db.Database.GetDbConnection()).Select(problem => $"Database: {problem}."));

        var trail = db.AuditEntries.AsNoTracking().OrderBy(entry => entry.Sequence);
        var lines = await trail.CountAsync(cancellationToken);
        if (await AuditChain.FirstBrokenAsync(trail.AsAsyncEnumerable(), cancellationToken) is { } broken)
        {
            problems.Add(string.Create(CultureInfo.InvariantCulture, $"Audit trail: line {broken} of {lines} was changed, or one before it is missing."));
        }

        var photos = new PhotoStore(folder.Photos, time);
        var hashes = await db.Photos.IgnoreQueryFilters().Select(photo => photo.Hash).Distinct().ToListAsync(cancellationToken);
        foreach (var hash in hashes)
        {
            if (!await photos.IsIntactAsync(hash, cancellationToken))
            {
                problems.Add($"Photo {hash}: missing or changed.");
            }
        }

        return new VerificationReport(problems, lines, hashes.Count);
    }
}

/// <param name="Problems">What is wrong; empty when all is well.</param>
/// <param name="AuditLines">Lines of the trail that were followed.</param>
/// <param name="Photos">Photos that were read back.</param>
public sealed record VerificationReport(IReadOnlyList<string> Problems, int AuditLines, int Photos)
{
    public bool IsSound => Problems.Count == 0;
}
