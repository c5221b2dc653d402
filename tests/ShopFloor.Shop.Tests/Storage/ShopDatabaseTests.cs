using Microsoft.EntityFrameworkCore;

namespace ShopFloor.Shop.Tests.Storage;

public sealed class ShopDatabaseTests : IAsyncLifetime
{
    private readonly TestShop _shop = new();

    public Task InitializeAsync() => _shop.InitializeAsync();

    public Task DisposeAsync() => _shop.DisposeAsync();

    [Fact]
    public async Task The_migrations_bring_the_database_to_the_model()
    {
        Assert.False(await _shop.Store.ReadAsync(db => Task.FromResult(db.Database.HasPendingModelChanges()), CancellationToken.None));
        Assert.Empty(await _shop.Store.ReadAsync(db => db.Database.GetPendingMigrationsAsync(), CancellationToken.None));
    }

    [Fact]
    public async Task The_file_is_kept_so_that_a_commit_survives_a_power_cut()
    {
        var (journal, synchronous, foreignKeys) = await _shop.Store.ReadAsync(
            async db =>
            {
                await db.Database.OpenConnectionAsync();
                return (await PragmaAsync(db, "journal_mode"), await PragmaAsync(db, "synchronous"), await PragmaAsync(db, "foreign_keys"));
            },
            CancellationToken.None);

        // sqlite.org/pragma.html: 2 is FULL.
        Assert.Equal(("wal", "2", "1"), (journal, synchronous, foreignKeys));
    }

    private static async Task<string?> PragmaAsync(Shop.Storage.ShopDbContext db, string name)
    {
        await using var command = db.Database.GetDbConnection().CreateCommand();
#pragma warning disable CA2100 // names stand above
        command.CommandText = $"PRAGMA {name}";
#pragma warning restore CA2100
        return Convert.ToString(await command.ExecuteScalarAsync(), System.Globalization.CultureInfo.InvariantCulture);
    }
}
