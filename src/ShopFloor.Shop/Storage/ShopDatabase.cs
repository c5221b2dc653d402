using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Design;

namespace ShopFloor.Shop.Storage;

/// <summary>Brings the database file up to the model at start.</summary>
public sealed class ShopDatabase(IDbContextFactory<ShopDbContext> contexts, ShopFolder folder)
{
    /// <summary>First SQLite release without the WAL-reset fault of 3.7.0 to 3.51.2.</summary>
    private static readonly Version OldestSafe = new(3, 51, 3);

    // Made at every start rather than in a migration: a rebuilt table would lose its triggers without a word.
    private const string Seals =
        """
        PRAGMA journal_mode=WAL;
        PRAGMA synchronous=FULL;
        CREATE TRIGGER IF NOT EXISTS "AuditEntries_no_update" BEFORE UPDATE ON "AuditEntries"
        BEGIN SELECT RAISE(ABORT, 'the audit trail is append-only'); END;
        CREATE TRIGGER IF NOT EXISTS "AuditEntries_no_delete" BEFORE DELETE ON "AuditEntries"
        BEGIN SELECT RAISE(ABORT, 'the audit trail is append-only'); END;
        """;

    /// <exception cref="InvalidOperationException">The SQLite library in use is too old to be trusted with a WAL file.</exception>
    public async Task PrepareAsync(CancellationToken cancellationToken)
    {
        folder.Create();
        await using var db = await contexts.CreateDbContextAsync(cancellationToken);
        await db.Database.OpenConnectionAsync(cancellationToken);
        var version = ((SqliteConnection)db.Database.GetDbConnection()).ServerVersion;
        if (Version.Parse(version) < OldestSafe)
        {
            throw new InvalidOperationException($"SQLite {version} is in use; {OldestSafe} or newer is needed.");
        }

        await ClearAbandonedMigrationLockAsync(db, cancellationToken);
        var pending = (await db.Database.GetPendingMigrationsAsync(cancellationToken)).ToList();
        var exists = (await db.Database.GetAppliedMigrationsAsync(cancellationToken)).Any();
        if (pending.Count > 0 && exists)
        {
            await CopyAsideAsync(pending[0], cancellationToken);
        }

        await db.Database.MigrateAsync(cancellationToken);
        await db.Database.ExecuteSqlRawAsync(Seals, cancellationToken);
    }

    /// <summary>A migration that was killed leaves its lock behind and every later start would wait for ever; one process owns this file.</summary>
    private static async Task ClearAbandonedMigrationLockAsync(ShopDbContext db, CancellationToken cancellationToken)
    {
        var found = await db.Database
            .SqlQueryRaw<int>("SELECT COUNT(*) AS \"Value\" FROM sqlite_master WHERE type = 'table' AND name = '__EFMigrationsLock'")
            .SingleAsync(cancellationToken);
        if (found > 0)
        {
            await db.Database.ExecuteSqlRawAsync("DELETE FROM \"__EFMigrationsLock\"", cancellationToken);
        }
    }

    private async Task CopyAsideAsync(string migration, CancellationToken cancellationToken)
    {
        Directory.CreateDirectory(folder.Backups);
        var copy = Path.Combine(folder.Backups, $"before-{migration}.db");
        if (File.Exists(copy))
        {
            return;
        }

        await using var source = new SqliteConnection(folder.ConnectionString);
        await using var target = new SqliteConnection($"Data Source={copy};Pooling=False");
        await source.OpenAsync(cancellationToken);
        await target.OpenAsync(cancellationToken);
        source.BackupDatabase(target);
    }
}

/// <summary>Lets the migration tool build a context without the program.</summary>
internal sealed class ShopDbContextForDesign : IDesignTimeDbContextFactory<ShopDbContext>
{
    public ShopDbContext CreateDbContext(string[] args) => new(
        new DbContextOptionsBuilder<ShopDbContext>().UseSqlite("Data Source=design.db").Options,
        new WriteGate(),
        TimeProvider.System);
}
