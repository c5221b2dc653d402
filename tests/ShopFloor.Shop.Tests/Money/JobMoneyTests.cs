using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Money;
using ShopFloor.Shop.Phases.Build;
using ShopFloor.Shop.Phases.Estimate;
using ShopFloor.Shop.Staff;

namespace ShopFloor.Shop.Tests.Money;

public sealed class JobMoneyTests : IAsyncLifetime
{
    private readonly TestShop _shop = new();

    public Task InitializeAsync() => _shop.InitializeAsync();

    public Task DisposeAsync() => _shop.DisposeAsync();

    [Fact]
    public async Task Margin_now_and_forecast_agree_with_the_hand_worked_example()
    {
        await _shop.SettingsAsync(settings => (settings.PricePerHour, settings.TaxPercent) = (85, 20));
        var jobId = await _shop.OpenJobAsync();
        await _shop.AddPartAsync(jobId, "Amplifier", part => (part.Kind, part.UnitCost, part.UnitPrice) = (PartKind.Amplifier, 400, 650), PartState.Fitted);
        await _shop.AddPartAsync(jobId, "Loudspeakers", part => (part.Kind, part.Quantity, part.UnitCost, part.UnitPrice) = (PartKind.Loudspeaker, 2, 75.25m, 120), PartState.Ordered);
        await _shop.AddPartAsync(jobId, "Panel damping", part => (part.Kind, part.Unit, part.Quantity, part.UnitCost, part.UnitPrice) = (PartKind.Treatment, PartUnit.SquareMeter, 3.5m, 18, 30), PartState.Received);
        await _shop.AddPartAsync(jobId, "Processor", part => (part.Kind, part.UnitCost, part.UnitPrice) = (PartKind.Processor, 260, 390));
        await _shop.AddPartAsync(jobId, "Factory amplifier", part => (part.Direction, part.UnitCost) = (PartDirection.Removed, 1_000), PartState.Fitted);
        var wiring = await _shop.AddStageAsync(jobId, "Wiring", 8, "Run the cable");
        await _shop.AddStageAsync(jobId, "Trim", 4, "Fit the trim");
        var start = _shop.Time.GetUtcNow();
        await _shop.SaveAsync(db =>
        {
            var done = new TimeEntry(jobId, wiring.Id, "Wiring", _shop.Technician.Id!.Value, "Tom Tech", 30, start.AddHours(-5)); // a technician has an id
            done.Stop(start.AddHours(-2));
            db.TimeEntries.Add(done);
            db.TimeEntries.Add(new TimeEntry(jobId, wiring.Id, "Wiring", _shop.SecondTechnician.Id!.Value, "Tess Tech", 42, start)); // likewise
        });
        _shop.Time.Advance(TimeSpan.FromMinutes(90));
        await ApproveAsync(jobId);

        var sheet = await _shop.Get<JobMoney>().SheetAsync(_shop.Owner, jobId, CancellationToken.None);

        // By hand. Quoted: 650 + 240 + 105 + 390 + 12 h × 85 = 2405.
        Assert.Equal(2405m, sheet.Quoted);
        // Parts ordered or beyond: 400 + 2 × 75.25 = 550.50; materials 3.5 × 18 = 63; what came out of the car costs nothing.
        Assert.Equal((550.50m, 63m, 400m), (sheet.Parts, sheet.Materials, sheet.Fitted));
        // Labour: 3 h × 30 + 1.5 h still running × 42 = 153. So far 550.50 + 63 + 153 = 766.50.
        Assert.Equal((4.5m, 153m, 766.50m), (sheet.HoursWorked, sheet.Labour, sheet.CostSoFar));
        // Left: the processor 260; hours 8 - 4.5 = 3.5 and 4, so 7.5 h at 153 / 4.5 = 34 an hour = 255.
        Assert.Equal((260m, 7.5m, 34m, 255m), (sheet.ToBuy, sheet.HoursLeft, sheet.CostPerHour, sheet.LabourLeft));
        // Forecast 766.50 + 260 + 255 = 1281.50; margin now 2405 - 766.50, forecast 2405 - 1281.50 = 1123.50, which is 46.7 %.
        Assert.Equal((1281.50m, 1638.50m, 1123.50m), (sheet.ForecastCost, sheet.MarginNow, sheet.MarginForecast));
        Assert.Equal(0.467m, decimal.Round(sheet.MarginForecastShare!.Value, 3)); // there is a price
        Assert.Empty(sheet.Gaps);
    }

    [Fact]
    public async Task Missing_costs_and_rates_are_named()
    {
        var jobId = await _shop.OpenJobAsync();
        await _shop.AddPartAsync(jobId, "Mystery box", part => part.UnitCost = null, PartState.Fitted);
        var stage = await _shop.AddStageAsync(jobId, "Wiring", 8, "Run the cable");
        await _shop.SaveAsync(db => db.TimeEntries.Add(new TimeEntry(jobId, stage.Id, "Wiring", Guid.CreateVersion7(), "Tom Tech", 0, _shop.Time.GetUtcNow())));
        _shop.Time.Advance(TimeSpan.FromHours(1));

        var sheet = await _shop.Get<JobMoney>().SheetAsync(_shop.Owner, jobId, CancellationToken.None);

        Assert.Equal(["'Mystery box' has no cost.", "Hours of Tom Tech have no cost rate.", "Nobody has a cost rate, so the hours still to work are counted without cost."], sheet.Gaps);
        Assert.Null(sheet.MarginNow);
        Assert.Null(sheet.MarginForecast);
    }

    [Fact]
    public async Task Month_holds_what_was_delivered_in_it_by_the_shops_own_clock()
    {
        await _shop.SettingsAsync(settings => settings.TimeZoneId = "Pacific/Auckland");
        var (march, april, open) = (await _shop.OpenJobAsync(), await _shop.OpenJobAsync(), await _shop.OpenJobAsync());

        // New Zealand is 13 hours ahead of UTC until April: 31 March 10:30 UTC is still March there, 11:30 UTC is April.
        await _shop.SaveAsync(db =>
        {
            db.Jobs.Single(job => job.Id == march).Deliver(new DateTimeOffset(2031, 3, 31, 10, 30, 0, TimeSpan.Zero));
            db.Jobs.Single(job => job.Id == april).Deliver(new DateTimeOffset(2031, 3, 31, 11, 30, 0, TimeSpan.Zero));
        });
        var money = _shop.Get<JobMoney>();

        var inMarch = await money.ShopAsync(_shop.Owner, new DateOnly(2031, 3, 15), CancellationToken.None);
        var inApril = await money.ShopAsync(_shop.Owner, new DateOnly(2031, 4, 1), CancellationToken.None);
        var now = await money.ShopAsync(_shop.Owner, null, CancellationToken.None);

        Assert.Equal(march, Assert.Single(inMarch.Jobs).JobId);
        Assert.Equal(april, Assert.Single(inApril.Jobs).JobId);
        Assert.Equal(open, Assert.Single(now.Jobs).JobId);
        Assert.Equal([new DateOnly(2031, 4, 1), new DateOnly(2031, 3, 1)], now.MonthsWithDeliveries);
    }

    [Fact]
    public async Task Only_the_owner_sees_money()
    {
        var jobId = await _shop.OpenJobAsync();
        var money = _shop.Get<JobMoney>();
        foreach (var other in new[] { _shop.Desk, _shop.Technician })
        {
            await Assert.ThrowsAsync<NotAllowedException>(() => money.SheetAsync(other, jobId, CancellationToken.None));
            await Assert.ThrowsAsync<NotAllowedException>(() => money.ShopAsync(other, null, CancellationToken.None));
        }
    }

    private async Task ApproveAsync(Guid jobId)
    {
        var estimates = _shop.Get<Estimates>();
        var draft = (await estimates.SheetAsync(_shop.Desk, jobId, CancellationToken.None)).Draft;
        var issued = await estimates.IssueAsync(_shop.Desk, jobId, draft.ContentHash, "", CancellationToken.None);
        Assert.True(issued.Succeeded, issued.Message);
        Assert.True((await estimates.AnswerAsync(_shop.Desk, issued.Value, true, "Clea", AnswerWay.Phone, CancellationToken.None)).Succeeded);
    }
}
