using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Clients;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Phases.Estimate;
using ShopFloor.Shop.Staff;

namespace ShopFloor.Shop.Tests.Phases.Estimate;

public sealed class EstimatesTests : IAsyncLifetime
{
    private readonly TestShop _shop = new();

    private Estimates Estimates => _shop.Get<Estimates>();

    public Task InitializeAsync() => _shop.InitializeAsync();

    public Task DisposeAsync() => _shop.DisposeAsync();

    [Fact]
    public async Task Draft_is_parts_times_price_plus_planned_hours_times_the_hour_plus_tax()
    {
        await _shop.SettingsAsync(settings => (settings.PricePerHour, settings.TaxPercent) = (85, 19));
        var jobId = await _shop.OpenJobAsync();
        await _shop.AddPartAsync(jobId, "Amplifier", part => (part.Kind, part.UnitPrice) = (PartKind.Amplifier, 749.90m));
        await _shop.AddPartAsync(jobId, "Cable", part => (part.Kind, part.Unit, part.Quantity, part.UnitPrice) = (PartKind.Cable, PartUnit.Meter, 5.5m, 12.35m));
        await _shop.AddPartAsync(jobId, "Factory radio", part => (part.Direction, part.UnitPrice) = (PartDirection.Removed, 500));
        await _shop.AddStageAsync(jobId, "Wiring", 7.5m);

        var draft = (await Estimates.SheetAsync(_shop.Desk, jobId, CancellationToken.None)).Draft;

        // By hand: 749.90 + 5.5 × 12.35 = 67.925, kept as 67.93; 7.5 × 85 = 637.50; net 1455.33; 19 % = 276.5127, kept as 276.51.
        Assert.Equal([749.90m, 67.93m, 637.50m], draft.Lines.Select(line => line.Total));
        Assert.Equal(["Amplifiers", "Cables", EstimateDraft.WorkGroup], draft.Groups.Select(group => group.Key));
        Assert.Equal((1455.33m, 276.51m, 1731.84m), (draft.Net, draft.Tax, draft.Gross));
        Assert.Empty(draft.Gaps);
    }

    [Fact]
    public async Task Part_without_a_price_is_named_and_keeps_the_estimate_from_being_issued()
    {
        var jobId = await _shop.OpenJobAsync();
        await _shop.AddPartAsync(jobId, "Mystery box", part => part.UnitPrice = null);
        await _shop.AddPartAsync(jobId, "Gift", part => part.UnitPrice = 0);
        var draft = (await Estimates.SheetAsync(_shop.Desk, jobId, CancellationToken.None)).Draft;

        Assert.Equal("Mystery box", Assert.Single(draft.Gaps).Subject);
        Assert.Equal("Gift", Assert.Single(draft.Lines).Text);
        var outcome = await Estimates.IssueAsync(_shop.Desk, jobId, draft.ContentHash, "", CancellationToken.None);
        Assert.Contains("Mystery box", outcome.Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Issued_version_stays_as_it_was_when_prices_change()
    {
        var (jobId, partId) = await PricedJobAsync();
        await IssueAsync(jobId);

        await _shop.EditPartAsync(partId, part => (part.Name, part.UnitPrice) = ("Renamed", 999));

        var sheet = await Estimates.SheetAsync(_shop.Desk, jobId, CancellationToken.None);
        var issued = Assert.Single(sheet.Versions);
        Assert.Equal(("Amplifier", 100m, 100m), (issued.Lines[0].Text, issued.Lines[0].Total, issued.NetTotal));
        Assert.Equal(999m, sheet.Draft.Net);
    }

    [Fact]
    public async Task Draft_nobody_has_seen_is_not_issued()
    {
        var (jobId, partId) = await PricedJobAsync();
        var seen = (await Estimates.SheetAsync(_shop.Desk, jobId, CancellationToken.None)).Draft.ContentHash;
        await _shop.EditPartAsync(partId, part => part.UnitPrice = 120);

        var outcome = await Estimates.IssueAsync(_shop.Desk, jobId, seen, "", CancellationToken.None);

        Assert.Contains("changed since", outcome.Message, StringComparison.Ordinal);
        Assert.Empty((await Estimates.SheetAsync(_shop.Desk, jobId, CancellationToken.None)).Versions);
    }

    [Fact]
    public async Task Change_after_approval_is_told_line_by_line()
    {
        var (jobId, partId) = await PricedJobAsync();
        var issued = await IssueAsync(jobId);
        Assert.True((await Estimates.AnswerAsync(_shop.Desk, issued, true, "Clea Client", AnswerWay.Phone, CancellationToken.None)).Succeeded);
        Assert.Null((await Estimates.SheetAsync(_shop.Desk, jobId, CancellationToken.None)).Difference);

        await _shop.EditPartAsync(partId, part => part.UnitPrice = 130);
        await _shop.AddPartAsync(jobId, "Lamp", part => part.UnitPrice = 15);

        var difference = (await Estimates.SheetAsync(_shop.Desk, jobId, CancellationToken.None)).Difference;
        Assert.NotNull(difference);
        Assert.Equal(45m, difference.By);
        Assert.Equal([("Amplifier", 30m), ("Lamp", 15m)], difference.Lines.Select(line => (line.Text, line.By)).Order());
    }

    [Fact]
    public async Task Answered_or_replaced_version_takes_no_second_answer()
    {
        var (jobId, partId) = await PricedJobAsync();
        var first = await IssueAsync(jobId);
        await _shop.EditPartAsync(partId, part => part.UnitPrice = 90);
        var second = await IssueAsync(jobId);

        var onReplaced = await Estimates.AnswerAsync(_shop.Desk, first, true, "Clea", AnswerWay.InPerson, CancellationToken.None);
        Assert.True((await Estimates.AnswerAsync(_shop.Desk, second, false, "Clea", AnswerWay.InPerson, CancellationToken.None)).Succeeded);
        var again = await Estimates.AnswerAsync(_shop.Desk, second, true, "Clea", AnswerWay.InPerson, CancellationToken.None);

        Assert.Contains("replaced", onReplaced.Message, StringComparison.Ordinal);
        Assert.Contains("already declined", again.Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Client_approves_exactly_what_was_shown_and_nothing_else()
    {
        var (jobId, _) = await PricedJobAsync();
        var access = await AccessAsync(jobId);
        await IssueAsync(jobId);
        var paper = await Estimates.PaperForClientAsync(access, CancellationToken.None);
        Assert.NotNull(paper);

        var stale = await Estimates.AnswerAsClientAsync(access, new ClientAnswer(paper.VersionId, new string('a', 64), true, "Clea"), CancellationToken.None);
        var unnamed = await Estimates.AnswerAsClientAsync(access, new ClientAnswer(paper.VersionId, paper.ContentHash, true, "  "), CancellationToken.None);
        var otherJob = await PricedJobAsync();
        var foreign = await Estimates.AnswerAsClientAsync(await AccessAsync(otherJob.JobId), new ClientAnswer(paper.VersionId, paper.ContentHash, true, "Mallory"), CancellationToken.None);
        var good = await Estimates.AnswerAsClientAsync(access, new ClientAnswer(paper.VersionId, paper.ContentHash, true, "Clea Client"), CancellationToken.None);

        Assert.False(stale.Succeeded);
        Assert.False(unnamed.Succeeded);
        Assert.False(foreign.Succeeded);
        Assert.True(good.Succeeded, good.Message);
        var version = Assert.Single((await Estimates.SheetAsync(_shop.Desk, jobId, CancellationToken.None)).Versions);
        Assert.Equal((EstimateState.Approved, "Clea Client", "through the client link"), (version.State, version.AnsweredBy, version.AnsweredHow));
    }

    [Fact]
    public async Task Technician_sees_no_estimate()
    {
        var (jobId, _) = await PricedJobAsync();
        await Assert.ThrowsAsync<NotAllowedException>(() => Estimates.SheetAsync(_shop.Technician, jobId, CancellationToken.None));
        await Assert.ThrowsAsync<NotAllowedException>(() => Estimates.PaperAsync(_shop.Technician, jobId, null, CancellationToken.None));
    }

    private async Task<(Guid JobId, Guid PartId)> PricedJobAsync()
    {
        var jobId = await _shop.OpenJobAsync();
        return (jobId, await _shop.AddPartAsync(jobId, "Amplifier", part => (part.Kind, part.UnitPrice) = (PartKind.Amplifier, 100)));
    }

    private async Task<Guid> IssueAsync(Guid jobId)
    {
        var draft = (await Estimates.SheetAsync(_shop.Desk, jobId, CancellationToken.None)).Draft;
        var outcome = await Estimates.IssueAsync(_shop.Desk, jobId, draft.ContentHash, "As talked over.", CancellationToken.None);
        Assert.True(outcome.Succeeded, outcome.Message);
        return outcome.Value;
    }

    private async Task<ClientAccess> AccessAsync(Guid jobId)
    {
        var link = await _shop.Get<ClientLinks>().CreateAsync(_shop.Desk, jobId, CancellationToken.None);
        var access = await _shop.Get<ClientLinks>().ResolveAsync(link.Value!.Path[3..], CancellationToken.None); // the link was just made
        Assert.NotNull(access);
        return access;
    }
}
