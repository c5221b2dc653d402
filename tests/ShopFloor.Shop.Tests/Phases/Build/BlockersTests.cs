using ShopFloor.Shop.Phases.Build;
using ShopFloor.Shop.Staff;
using static ShopFloor.Shop.Tests.Phases.Build.StageBuilder;

namespace ShopFloor.Shop.Tests.Phases.Build;

public sealed class BlockersTests : IAsyncLifetime
{
    private readonly TestShop _shop = new();

    public Task InitializeAsync() => _shop.InitializeAsync();

    public Task DisposeAsync() => _shop.DisposeAsync();

    private Blockers Reports => _shop.Get<Blockers>();

    [Fact]
    public async Task A_blocker_shows_on_its_stage_and_in_the_progress_until_it_is_cleared_and_again_when_reopened()
    {
        var sheet = await _shop.PlannedJobAsync(Stage("Cabling", Step()), Stage("Fitting", Step()));
        await ReportAsync(new ReportBlocker(sheet.JobId, sheet.Stages[1].Id, BlockerKind.Blocker, "Bracket missing"));
        Assert.Equal((1, "ob"), await BlockersAndTrackAsync(sheet.JobId));
        var report = Assert.Single((await _shop.SheetAsync(sheet.JobId)).Reports);

        await ResolveAsync(report.Id, "Bracket came");
        Assert.Equal((0, "oo"), await BlockersAndTrackAsync(sheet.JobId));
        await Reports.ReopenAsync(_shop.Technician, NewId(), report.Id, CancellationToken.None);

        Assert.Equal((1, "ob"), await BlockersAndTrackAsync(sheet.JobId));
        Assert.True((await _shop.SheetAsync(sheet.JobId)).Reports[0].IsOpen);
    }

    [Fact]
    public async Task A_found_problem_does_not_stop_the_stage()
    {
        var sheet = await _shop.PlannedJobAsync(Stage("Cabling", Step()));

        await ReportAsync(new ReportBlocker(sheet.JobId, sheet.Stages[0].Id, BlockerKind.FoundProblem, "Rust under the mat"));

        Assert.Equal((0, "o"), await BlockersAndTrackAsync(sheet.JobId));
    }

    [Fact]
    public async Task A_report_sent_again_is_there_once()
    {
        var sheet = await _shop.PlannedJobAsync(Stage("Cabling", Step()));
        var (command, report) = (NewId(), new ReportBlocker(sheet.JobId, null, BlockerKind.Blocker, "No key"));

        await Reports.ReportAsync(_shop.Technician, command, report, null, CancellationToken.None);
        await Reports.ReportAsync(_shop.Technician, command, report, null, CancellationToken.None);

        Assert.Single((await _shop.SheetAsync(sheet.JobId)).Reports);
    }

    [Fact]
    public async Task A_report_needs_words_and_a_stage_of_the_same_job()
    {
        var (sheet, other) = (await _shop.PlannedJobAsync(Stage("Cabling", Step())), await _shop.PlannedJobAsync(Stage("Cabling", Step())));

        var empty = await Reports.ReportAsync(_shop.Technician, NewId(), new ReportBlocker(sheet.JobId, null, BlockerKind.Blocker, " "), null, CancellationToken.None);
        var astray = await Reports.ReportAsync(_shop.Technician, NewId(), new ReportBlocker(sheet.JobId, other.Stages[0].Id, BlockerKind.Blocker, "x"), null, CancellationToken.None);

        Assert.Equal("Text", Assert.Single(empty.Problems).Field);
        Assert.Equal("StageId", Assert.Single(astray.Problems).Field);
    }

    [Fact]
    public async Task Two_people_clearing_the_same_report_do_not_overwrite_each_other()
    {
        var sheet = await _shop.PlannedJobAsync(Stage("Cabling", Step()));
        await ReportAsync(new ReportBlocker(sheet.JobId, null, BlockerKind.Blocker, "No key"));
        var reportId = (await _shop.SheetAsync(sheet.JobId)).Reports[0].Id;
        await ResolveAsync(reportId, "Key found");

        var second = await Reports.ResolveAsync(_shop.SecondTechnician, NewId(), new ResolveBlocker(reportId, "New key made"), CancellationToken.None);

        Assert.Contains("Key found", second.Message, StringComparison.Ordinal);
        Assert.Equal("Key found", (await _shop.SheetAsync(sheet.JobId)).Reports[0].Resolution);
    }

    [Fact]
    public async Task A_reader_may_not_report()
    {
        var sheet = await _shop.PlannedJobAsync(Stage("Cabling", Step()));
        var reader = _shop.Technician with { OnlyPermissions = new HashSet<Permission> { Permission.SeeJobs } };

        await Assert.ThrowsAsync<NotAllowedException>(() =>
            Reports.ReportAsync(reader, NewId(), new ReportBlocker(sheet.JobId, null, BlockerKind.Blocker, "x"), null, CancellationToken.None));
    }

    private async Task ReportAsync(ReportBlocker report)
    {
        var outcome = await Reports.ReportAsync(_shop.Technician, NewId(), report, null, CancellationToken.None);
        Assert.True(outcome.Succeeded, outcome.Message);
    }

    private async Task ResolveAsync(Guid reportId, string how)
    {
        var outcome = await Reports.ResolveAsync(_shop.Technician, NewId(), new ResolveBlocker(reportId, how), CancellationToken.None);
        Assert.True(outcome.Succeeded, outcome.Message);
    }

    private async Task<(int Blockers, string Track)> BlockersAndTrackAsync(Guid jobId)
    {
        var progress = await _shop.ProgressAsync(jobId);
        return (progress.OpenBlockers, progress.Track);
    }
}
