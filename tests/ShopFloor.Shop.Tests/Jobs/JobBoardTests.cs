using Microsoft.EntityFrameworkCore;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Phases.Build;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Tests.Phases.Build;
using static ShopFloor.Shop.Tests.Phases.Build.StageBuilder;

namespace ShopFloor.Shop.Tests.Jobs;

public sealed class JobBoardTests : IAsyncLifetime
{
    private readonly TestShop _shop = new();

    public Task InitializeAsync() => _shop.InitializeAsync();

    public Task DisposeAsync() => _shop.DisposeAsync();

    private JobBoard Board => _shop.Get<JobBoard>();

    [Fact]
    public async Task Jobs_come_by_promised_date_and_those_without_one_last()
    {
        await OpenAsync("third", null);
        await OpenAsync("second", new DateOnly(2031, 3, 9));
        await OpenAsync("first", new DateOnly(2031, 3, 4));

        Assert.Equal(["first", "second", "third"], (await PageAsync(new BoardQuery())).Rows.Select(row => row.Title));
    }

    [Fact]
    public async Task Pages_read_from_key_to_key_give_every_job_once_and_in_order()
    {
        for (var number = 0; number < 23; number++)
        {
            await OpenAsync($"Job {number}", number % 5 == 4 ? null : new DateOnly(2031, 3, 1).AddDays(number % 4));
        }

        var whole = (await PageAsync(new BoardQuery { Size = 100 })).Rows.Select(row => row.JobId).ToList();
        var pages = new List<Guid>();
        BoardKey? after = null;
        do
        {
            var page = await PageAsync(new BoardQuery { Size = 4, After = after });
            Assert.InRange(page.Rows.Count, 1, 4);
            pages.AddRange(page.Rows.Select(row => row.JobId));
            after = page.Next;
        }
        while (after is not null);

        Assert.Equal(23, whole.Distinct().Count());
        Assert.Equal(whole, pages);
    }

    [Fact]
    public async Task A_job_opened_while_paging_neither_repeats_nor_skips_another()
    {
        for (var day = 1; day <= 6; day++)
        {
            await OpenAsync($"Day {day}", new DateOnly(2031, 3, day));
        }

        var first = await PageAsync(new BoardQuery { Size = 3 });
        await OpenAsync("Early", new DateOnly(2031, 3, 1));
        var second = await PageAsync(new BoardQuery { Size = 3, After = first.Next });

        Assert.Equal(["Day 4", "Day 5", "Day 6"], second.Rows.Select(row => row.Title));
    }

    // At 23:30 UTC on 4 March it is already 5 March in Vienna (UTC+1) and still 4 March in New York (UTC-5).
    [Theory]
    [InlineData("Europe/Vienna", true, "1 day late")]
    [InlineData("America/New_York", false, "due today")]
    public async Task Lateness_is_reckoned_by_the_shop_s_own_day(string zone, bool late, string words)
    {
        await _shop.SetZoneAsync(zone);
        _shop.Time.SetUtcNow(new DateTimeOffset(2031, 3, 4, 23, 30, 0, TimeSpan.Zero));
        await OpenAsync("Job", new DateOnly(2031, 3, 4));

        var row = Assert.Single((await PageAsync(new BoardQuery())).Rows);

        Assert.Equal((late, words), (row.IsLate, row.PromiseText));
        Assert.Equal(late ? 1 : 0, (await PageAsync(new BoardQuery { Late = true })).Rows.Count);
    }

    [Theory]
    [InlineData(-3, "3 days late")]
    [InlineData(-1, "1 day late")]
    [InlineData(0, "due today")]
    [InlineData(1, "due tomorrow")]
    [InlineData(12, "in 12 days")]
    public void Lateness_is_said_in_words(int days, string words) =>
        Assert.Equal(words, Promise.Words(new DateOnly(2031, 3, 10).AddDays(days), new DateOnly(2031, 3, 10)));

    [Fact]
    public async Task A_row_shows_stage_track_blockers_and_who_works()
    {
        var sheet = await _shop.PlannedJobAsync(Stage("Teardown", Step()), Stage("Cabling", Step()), Stage("Fitting", Step()));
        await _shop.Get<StageWork>().TickAsync(_shop.Technician, NewId(), new TickStep(sheet.Stages[0].Steps[0].Id), null, CancellationToken.None);
        await _shop.Get<TimeClock>().StartAsync(_shop.Technician, NewId(), sheet.Stages[2].Id, null, CancellationToken.None);
        await _shop.Get<Blockers>().ReportAsync(_shop.Technician, NewId(), new ReportBlocker(sheet.JobId, null, BlockerKind.Blocker, "No key"), null, CancellationToken.None);

        var row = Assert.Single((await PageAsync(new BoardQuery())).Rows);

        Assert.Equal(("Cabling", "dbw", 1), (row.StageName, row.Track, row.OpenBlockers));
        Assert.Equal(["Tom Tech"], row.Working);
        Assert.Equal(("2028 Verano Lince", "AB 123", "Clea Client"), (row.VehicleTitle, row.Plate, row.ClientName));
    }

    [Fact]
    public async Task Filters_narrow_by_stage_blocked_mine_and_words()
    {
        var cabling = await _shop.PlannedJobAsync(Stage("Cabling", Step()));
        var fitting = await _shop.PlannedJobAsync(Stage("Fitting", Step()));
        var unplanned = await OpenAsync("Horn repair", null);
        await _shop.Get<Blockers>().ReportAsync(_shop.Technician, NewId(), new ReportBlocker(fitting.JobId, null, BlockerKind.Blocker, "No key"), null, CancellationToken.None);
        await _shop.Get<StageWork>().TickAsync(_shop.SecondTechnician, NewId(), new TickStep(cabling.Stages[0].Steps[0].Id), null, CancellationToken.None);

        Assert.Equal([fitting.JobId], await IdsAsync(new BoardQuery { Place = BoardPlace.Stage, StageName = "Fitting" }));
        Assert.Equal([unplanned], await IdsAsync(new BoardQuery { Place = BoardPlace.NotPlanned }));
        Assert.Equal([cabling.JobId], await IdsAsync(new BoardQuery { Place = BoardPlace.AllStagesDone }));
        Assert.Equal([fitting.JobId], await IdsAsync(new BoardQuery { Blocked = true }));
        Assert.Equal([unplanned], await IdsAsync(new BoardQuery { Search = "HÖRN clea" }));
        Assert.Empty(await IdsAsync(new BoardQuery { Mine = true }));
        Assert.Equal([cabling.JobId], (await Board.PageAsync(_shop.SecondTechnician, new BoardQuery { Mine = true }, CancellationToken.None)).Rows.Select(row => row.JobId));
    }

    [Fact]
    public async Task Counts_follow_the_filters_but_not_the_chosen_stage()
    {
        await _shop.PlannedJobAsync(Stage("Cabling", Step()), Stage("Fitting", Step()));
        var fitting = await _shop.PlannedJobAsync(Stage("Cabling", Step()), Stage("Fitting", Step()));
        await _shop.Get<StageWork>().TickAsync(_shop.Technician, NewId(), new TickStep(fitting.Stages[0].Steps[0].Id), null, CancellationToken.None);
        await OpenAsync("Horn repair", new DateOnly(2031, 3, 1));

        var counts = await Board.CountsAsync(_shop.Technician, new BoardQuery { Place = BoardPlace.Stage, StageName = "Fitting" }, CancellationToken.None);
        var late = await Board.CountsAsync(_shop.Technician, new BoardQuery { Late = true }, CancellationToken.None);

        Assert.Equal((3, 1, 0, 1, 0), (counts.Jobs, counts.Late, counts.Blocked, counts.NotPlanned, counts.AllStagesDone));
        Assert.Equal([("Cabling", 1), ("Fitting", 1)], counts.Stages.Select(stage => (stage.Name, stage.Jobs)));
        Assert.Equal((1, 1), (late.Jobs, late.NotPlanned));
    }

    [Fact]
    public async Task Delivered_jobs_leave_the_board()
    {
        var open = await OpenAsync("Open", null);
        var delivered = await OpenAsync("Delivered", null);
        await _shop.Store.WriteAsync<Common.Done>(
            _shop.Owner,
            async db =>
            {
                (await db.Jobs.SingleAsync(job => job.Id == delivered)).Deliver(_shop.Time.GetUtcNow());
                return Common.Done.Value;
            },
            CancellationToken.None);

        Assert.Equal([open], await IdsAsync(new BoardQuery()));
    }

    [Fact]
    public async Task Nobody_without_a_role_sees_the_board() =>
        await Assert.ThrowsAsync<NotAllowedException>(() => Board.PageAsync(Actor.Client("Clea"), new BoardQuery(), CancellationToken.None));

    private Task<BoardPage> PageAsync(BoardQuery query) => Board.PageAsync(_shop.Technician, query, CancellationToken.None);

    private async Task<IEnumerable<Guid>> IdsAsync(BoardQuery query) => (await PageAsync(query)).Rows.Select(row => row.JobId);

    private Task<Guid> OpenAsync(string title, DateOnly? promisedOn) => _shop.OpenJobAsync(command =>
    {
        command.Card.Title = title;
        command.Card.PromisedOn = promisedOn;
    });
}
