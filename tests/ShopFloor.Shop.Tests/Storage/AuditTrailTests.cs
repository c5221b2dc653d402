using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;
using ShopFloor.Shop.Clients;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Phases.Intake;
using ShopFloor.Shop.Storage.Audit;

namespace ShopFloor.Shop.Tests.Storage;

public sealed class AuditTrailTests : IAsyncLifetime
{
    private readonly TestShop _shop = new();

    public Task InitializeAsync() => _shop.InitializeAsync();

    public Task DisposeAsync() => _shop.DisposeAsync();

    [Fact]
    public async Task A_change_is_recorded_with_who_when_before_and_after()
    {
        var jobId = await _shop.OpenJobAsync();
        var client = await _shop.Store.ReadAsync(db => db.Clients.SingleAsync(), CancellationToken.None);
        _shop.Time.Advance(TimeSpan.FromMinutes(5));
        var details = ClientDetails.Of(client);
        details.Phone = "555 0199";

        await _shop.Get<JobDesk>().EditClientAsync(_shop.Owner, client.Id, client.Version, details, CancellationToken.None);

        var line = (await TrailAsync())[^1];
        Assert.Equal("Odile Owner", line.ActorName);
        Assert.Equal("Changed", line.Action);
        Assert.Contains("555 0199", line.ChangesJson, StringComparison.Ordinal);
        Assert.Contains("555 0100", line.ChangesJson, StringComparison.Ordinal);
        Assert.Equal(_shop.Time.GetUtcNow(), line.At);
        Assert.NotEqual(Guid.Empty, jobId);
    }

    [Fact]
    public async Task The_database_refuses_to_change_or_delete_a_line()
    {
        await _shop.OpenJobAsync();

        foreach (var attack in new[] { "UPDATE AuditEntries SET ActorName = 'nobody'", "DELETE FROM AuditEntries" })
        {
            await using var connection = new SqliteConnection(_shop.Folder.ConnectionString);
            await connection.OpenAsync();
            await using var command = connection.CreateCommand();
#pragma warning disable CA2100 // both texts stand above
            command.CommandText = attack;
#pragma warning restore CA2100
            var refusal = await Assert.ThrowsAsync<SqliteException>(() => command.ExecuteNonQueryAsync());
            Assert.Contains("append-only", refusal.Message, StringComparison.Ordinal);
        }
    }

    [Fact]
    public async Task An_untouched_trail_is_whole_and_an_edited_or_shortened_one_is_not()
    {
        await _shop.OpenJobAsync();
        await _shop.OpenJobAsync();
        Assert.Null(await FirstBrokenAsync());

        await TamperAsync("UPDATE AuditEntries SET ActorName = 'nobody' WHERE Sequence = 3");

        Assert.Equal(3, await FirstBrokenAsync());

        await TamperAsync("DELETE FROM AuditEntries WHERE Sequence = 2");

        Assert.Equal(2, await FirstBrokenAsync());
    }

    [Fact]
    public async Task A_refused_command_leaves_neither_data_nor_lines()
    {
        var before = (await TrailAsync()).Count;

        var outcome = await _shop.Store.WriteAsync<Done>(
            _shop.Owner,
            async db =>
            {
                db.Clients.Add(new Client(new ClientDetails { Name = "Half Saved" }, _shop.Time.GetUtcNow()));
                await db.SaveChangesAsync();
                return new Problem("", "No.");
            },
            CancellationToken.None);

        Assert.False(outcome.Succeeded);
        Assert.Equal(before, (await TrailAsync()).Count);
        Assert.Equal(0, await _shop.Store.ReadAsync(db => db.Clients.CountAsync(), CancellationToken.None));
    }

    private Task<List<AuditEntry>> TrailAsync() =>
        _shop.Store.ReadAsync(db => db.AuditEntries.OrderBy(entry => entry.Sequence).ToListAsync(), CancellationToken.None);

    private Task<long?> FirstBrokenAsync() => _shop.Store.ReadAsync(
        db => AuditChain.FirstBrokenAsync(db.AuditEntries.OrderBy(entry => entry.Sequence).AsAsyncEnumerable(), CancellationToken.None),
        CancellationToken.None);

    private async Task TamperAsync(string attack)
    {
        await using var connection = new SqliteConnection(_shop.Folder.ConnectionString);
        await connection.OpenAsync();
        await using var command = connection.CreateCommand();
#pragma warning disable CA2100 // fixed texts of this file
        command.CommandText = "DROP TRIGGER IF EXISTS AuditEntries_no_update; DROP TRIGGER IF EXISTS AuditEntries_no_delete; " + attack;
#pragma warning restore CA2100
        await command.ExecuteNonQueryAsync();
    }
}
