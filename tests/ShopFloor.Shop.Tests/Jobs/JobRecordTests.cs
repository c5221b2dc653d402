using Microsoft.EntityFrameworkCore;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Clients;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Phases.Build;
using ShopFloor.Shop.Phases.Estimate;
using ShopFloor.Shop.Phases.Intake;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Storage.Audit;

namespace ShopFloor.Shop.Tests.Jobs;

public sealed class JobRecordTests : IAsyncLifetime
{
    private readonly TestShop _shop = new();

    private JobRecord Record => _shop.Get<JobRecord>();

    public Task InitializeAsync() => _shop.InitializeAsync();

    public Task DisposeAsync() => _shop.DisposeAsync();

    [Fact]
    public async Task Change_of_the_clients_phone_reads_as_from_and_to()
    {
        var jobId = await _shop.OpenJobAsync();
        var client = await _shop.ReadAsync(db => db.Clients.SingleAsync());
        var details = ClientDetails.Of(client);
        details.Phone = "555 0199";
        await _shop.Get<JobDesk>().EditClientAsync(_shop.Owner, client.Id, client.Version, details, CancellationToken.None);

        var line = (await Record.OfJobAsync(_shop.Desk, jobId, null, CancellationToken.None)).Lines[0];

        Assert.Equal("changed the client 'Clea Client'", line.Headline);
        Assert.Equal(["Phone: 555 0100 → 555 0199"], line.Changes);
        Assert.Equal(("Odile Owner", "at the desk"), (line.Who, line.Via));
    }

    [Fact]
    public async Task Change_inside_technical_data_is_told_by_its_field()
    {
        var jobId = await _shop.OpenJobAsync();
        var part = await _shop.AddPartAsync(jobId, "Amplifier", details => (details.Kind, details.Data) = (PartKind.Amplifier, new AmplifierData { Channels = 4, FuseAmperes = 40 }));
        await _shop.EditPartAsync(part, details => ((AmplifierData)details.Data).Channels = 5);

        var line = (await Record.OfJobAsync(_shop.Technician, jobId, null, CancellationToken.None)).Lines[0];

        Assert.Equal(["Channels: 4 → 5"], line.Changes);
    }

    [Fact]
    public async Task Costs_are_for_the_owner_and_prices_not_for_technicians()
    {
        var jobId = await _shop.OpenJobAsync();
        var part = await _shop.AddPartAsync(jobId, "Amplifier", details => (details.UnitCost, details.UnitPrice) = (411.11m, 622.22m));
        await _shop.EditPartAsync(part, details => (details.UnitCost, details.UnitPrice, details.Quantity) = (433.33m, 644.44m, 2));
        var stage = await _shop.AddStageAsync(jobId, "Wiring", 2);
        await _shop.SaveAsync(db => db.TimeEntries.Add(new TimeEntry(jobId, stage.Id, "Wiring", Guid.CreateVersion7(), "Tom Tech", 37.77m, _shop.Time.GetUtcNow())));
        var estimates = _shop.Get<Estimates>();
        var draft = (await estimates.SheetAsync(_shop.Desk, jobId, CancellationToken.None)).Draft;
        Assert.True((await estimates.IssueAsync(_shop.Desk, jobId, draft.ContentHash, "", CancellationToken.None)).Succeeded);

        var (owner, desk, technician) = (await TextAsync(_shop.Owner, jobId), await TextAsync(_shop.Desk, jobId), await TextAsync(_shop.Technician, jobId));

        string[] costs = ["411.11", "433.33", "37.77"];
        string[] prices = ["622.22", "644.44", "1458.88", "1288.88"];
        Assert.All(costs, cost => Assert.Contains(cost, owner, StringComparison.Ordinal));
        Assert.All(prices, price => Assert.Contains(price, owner, StringComparison.Ordinal));
        Assert.All(costs, cost => Assert.DoesNotContain(cost, desk, StringComparison.Ordinal));
        Assert.All(prices, price => Assert.Contains(price, desk, StringComparison.Ordinal));
        Assert.All([.. costs, .. prices], money => Assert.DoesNotContain(money, technician, StringComparison.Ordinal));
        Assert.Contains("Quantity: 1 → 2", technician, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Every_field_that_carries_money_by_its_name_is_guarded()
    {
        var named = typeof(Job).Assembly.GetTypes()
            .Where(type => typeof(IAudited).IsAssignableFrom(type) && type.IsClass)
            .SelectMany(type => type.GetProperties())
            .Where(property => (Nullable.GetUnderlyingType(property.PropertyType) ?? property.PropertyType) == typeof(decimal) && property.CanWrite)
            .Select(property => property.Name)
            .ToHashSet();

        // What is a decimal on an audited thing and no money; anything new has to be guarded or put here on purpose.
        named.ExceptWith(["Quantity", "PlannedHours"]);

        Assert.NotEmpty(named);
        var jobId = await _shop.OpenJobAsync();
        await _shop.SaveAsync(db => db.AuditEntries.Add(LineWith(jobId, named)));
        var text = await TextAsync(_shop.Technician, jobId);
        Assert.DoesNotContain("777", text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Pages_follow_each_other_without_a_gap_or_a_repeat()
    {
        var jobId = await _shop.OpenJobAsync();
        var part = await _shop.AddPartAsync(jobId, "Cable");
        for (var quantity = 2; quantity < 2 + Limits.Page + 20; quantity++)
        {
            var now = quantity;
            await _shop.EditPartAsync(part, details => details.Quantity = now);
        }

        var sequences = new List<long>();
        long? before = null;
        do
        {
            var page = await Record.OfJobAsync(_shop.Desk, jobId, before, CancellationToken.None);
            sequences.AddRange(page.Lines.Select(line => line.Sequence));
            before = page.Before;
        }
        while (before is not null);

        var all = await _shop.ReadAsync(db => db.AuditEntries.OrderByDescending(entry => entry.Sequence).Select(entry => entry.Sequence).ToListAsync());
        Assert.Equal(all, sequences);
    }

    [Fact]
    public async Task Whole_shops_record_is_for_the_owner()
    {
        var jobId = await _shop.OpenJobAsync();
        await Assert.ThrowsAsync<NotAllowedException>(() => Record.OfShopAsync(_shop.Desk, "", null, CancellationToken.None));

        var page = await Record.OfShopAsync(_shop.Owner, "Clea", null, CancellationToken.None);

        Assert.All(page.Lines, line => Assert.Contains("Clea", line.Headline, StringComparison.Ordinal));
        Assert.NotEmpty(page.Lines);
        Assert.Contains((await Record.OfShopAsync(_shop.Owner, "", null, CancellationToken.None)).Lines, line => line.JobId == jobId && line.JobReference == "J-0001");
    }

    private async Task<string> TextAsync(Actor actor, Guid jobId) =>
        string.Join('\n', (await Record.OfJobAsync(actor, jobId, null, CancellationToken.None)).Lines.SelectMany(line => line.Changes.Append(line.Headline).Append(line.Reason)));

    private AuditEntry LineWith(Guid jobId, IEnumerable<string> fields)
    {
        var changes = System.Text.Json.JsonSerializer.Serialize(fields.Select(field => new AuditChange(field, "777", "777.7")));
        var line = new AuditEntry(_shop.Time.GetUtcNow(), null, "Test", "Desk", "Changed", "JobPart", Guid.CreateVersion7(), "Part", jobId, changes, "");
        line.Chain("");
        return line;
    }
}
