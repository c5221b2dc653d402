using Microsoft.EntityFrameworkCore;
using ShopFloor.Engineering.Explained;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Phases.Build;
using ShopFloor.Shop.Staff;
using static ShopFloor.Shop.Tests.Phases.Build.StageBuilder;

namespace ShopFloor.Shop.Tests.Phases.Build;

public sealed class StageWorkTests : IAsyncLifetime
{
    private readonly TestShop _shop = new();

    public Task InitializeAsync() => _shop.InitializeAsync();

    public Task DisposeAsync() => _shop.DisposeAsync();

    private StageWork Work => _shop.Get<StageWork>();

    [Fact]
    public async Task A_tick_says_who_and_when_and_counts_once()
    {
        var sheet = await _shop.PlannedJobAsync(Stage("Cabling", Step()));
        var step = sheet.Stages[0].Steps[0];
        var command = NewId();

        var first = await Work.TickAsync(_shop.Technician, command, new TickStep(step.Id), null, CancellationToken.None);
        _shop.Time.Advance(TimeSpan.FromMinutes(3));
        var again = await Work.TickAsync(_shop.Technician, command, new TickStep(step.Id), null, CancellationToken.None);

        Assert.True(first.Succeeded, first.Message);
        Assert.True(again.Succeeded, again.Message);
        var ticked = await StepAsync(sheet.JobId, step.Id);
        Assert.Equal("Tom Tech", ticked.TickedBy);
        Assert.Equal(_shop.Time.GetUtcNow() - TimeSpan.FromMinutes(3), ticked.TickedAt);
        Assert.Equal(1, await TrailCountAsync(step.Id, "Changed"));
    }

    [Fact]
    public async Task A_tick_taken_back_does_not_return_when_its_command_is_sent_again()
    {
        var sheet = await _shop.PlannedJobAsync(Stage("Cabling", Step()));
        var stepId = sheet.Stages[0].Steps[0].Id;
        var tick = NewId();
        await Work.TickAsync(_shop.Technician, tick, new TickStep(stepId), null, CancellationToken.None);
        await Work.UntickAsync(_shop.Technician, NewId(), stepId, CancellationToken.None);

        await Work.TickAsync(_shop.Technician, tick, new TickStep(stepId), null, CancellationToken.None);

        Assert.False((await StepAsync(sheet.JobId, stepId)).IsTicked);
    }

    [Fact]
    public async Task A_command_sent_again_by_somebody_else_is_refused()
    {
        var sheet = await _shop.PlannedJobAsync(Stage("Cabling", Step(), Step("Mount the fuse holder")));
        var command = NewId();
        await Work.TickAsync(_shop.Technician, command, new TickStep(sheet.Stages[0].Steps[0].Id), null, CancellationToken.None);

        var replay = await Work.TickAsync(_shop.SecondTechnician, command, new TickStep(sheet.Stages[0].Steps[1].Id), null, CancellationToken.None);

        Assert.False(replay.Succeeded);
        Assert.False((await StepAsync(sheet.JobId, sheet.Stages[0].Steps[1].Id)).IsTicked);
    }

    [Theory]
    [InlineData(12.2, true)]
    [InlineData(13.0, true)]
    [InlineData(12.19, false)]
    [InlineData(13.01, false)]
    [InlineData(double.NaN, false)]
    public async Task A_measured_value_must_lie_within_its_limits(double value, bool accepted)
    {
        var sheet = await _shop.PlannedJobAsync(Stage("Check-in", Step("Measure the battery") with { Measure = Resting }));
        var stepId = sheet.Stages[0].Steps[0].Id;

        var outcome = await Work.TickAsync(_shop.Technician, NewId(), new TickStep(stepId, value), null, CancellationToken.None);

        Assert.Equal(accepted, outcome.Succeeded);
        Assert.Equal(accepted, (await StepAsync(sheet.JobId, stepId)).IsTicked);
    }

    [Fact]
    public async Task A_value_outside_the_limits_is_refused_by_name_value_and_limits_but_kept()
    {
        var sheet = await _shop.PlannedJobAsync(Stage("Check-in", Step("Measure the battery") with { Measure = Resting }));
        var stepId = sheet.Stages[0].Steps[0].Id;

        var outcome = await Work.TickAsync(_shop.Technician, NewId(), new TickStep(stepId, 11.8), null, CancellationToken.None);

        var problem = Assert.Single(outcome.Problems);
        Assert.Equal("Value", problem.Field);
        Assert.Contains("Battery voltage at rest", problem.Message, StringComparison.Ordinal);
        Assert.Contains($"{11.8} V", problem.Message, StringComparison.Ordinal);
        Assert.Contains($"{12.2} to {13.0} V", problem.Message, StringComparison.Ordinal);
        var step = await StepAsync(sheet.JobId, stepId);
        Assert.False(step.IsTicked);
        Assert.Equal(11.8, step.RefusedValue);
        Assert.Equal("Tom Tech", step.RefusedBy);
    }

    [Fact]
    public async Task The_same_refused_value_sent_again_is_refused_again_and_kept_once()
    {
        var sheet = await _shop.PlannedJobAsync(Stage("Check-in", Step("Measure the battery") with { Measure = Resting }));
        var stepId = sheet.Stages[0].Steps[0].Id;
        var command = NewId();

        await Work.TickAsync(_shop.Technician, command, new TickStep(stepId, 11.8), null, CancellationToken.None);
        var again = await Work.TickAsync(_shop.Technician, command, new TickStep(stepId, 11.8), null, CancellationToken.None);

        Assert.False(again.Succeeded);
        Assert.Equal(1, await TrailCountAsync(stepId, "Changed"));
    }

    [Fact]
    public async Task A_good_value_clears_the_refused_one()
    {
        var sheet = await _shop.PlannedJobAsync(Stage("Check-in", Step("Measure the battery") with { Measure = Resting }));
        var stepId = sheet.Stages[0].Steps[0].Id;
        await Work.TickAsync(_shop.Technician, NewId(), new TickStep(stepId, 11.8), null, CancellationToken.None);

        await Work.TickAsync(_shop.Technician, NewId(), new TickStep(stepId, 12.6), null, CancellationToken.None);

        var step = await StepAsync(sheet.JobId, stepId);
        Assert.Equal(12.6, step.MeasuredValue);
        Assert.Null(step.RefusedValue);
    }

    [Fact]
    public async Task A_second_value_does_not_overwrite_the_first_without_a_word()
    {
        var sheet = await _shop.PlannedJobAsync(Stage("Check-in", Step("Measure the battery") with { Measure = Resting }));
        var stepId = sheet.Stages[0].Steps[0].Id;
        await Work.TickAsync(_shop.Technician, NewId(), new TickStep(stepId, 12.6), null, CancellationToken.None);

        var second = await Work.TickAsync(_shop.SecondTechnician, NewId(), new TickStep(stepId, 12.4), null, CancellationToken.None);

        Assert.Contains("Tom Tech", second.Message, StringComparison.Ordinal);
        Assert.Equal(12.6, (await StepAsync(sheet.JobId, stepId)).MeasuredValue);
    }

    [Fact]
    public async Task A_step_that_wants_a_photo_is_not_ticked_without_one()
    {
        var sheet = await _shop.PlannedJobAsync(Stage("Cabling", Step() with { NeedsPhoto = true }));
        var stepId = sheet.Stages[0].Steps[0].Id;

        var without = await Work.TickAsync(_shop.Technician, NewId(), new TickStep(stepId), null, CancellationToken.None);
        await _shop.AddPhotoRowAsync(sheet.JobId, PhotoSubject.Job, null);
        var withAnother = await Work.TickAsync(_shop.Technician, NewId(), new TickStep(stepId), null, CancellationToken.None);
        await _shop.AddPhotoRowAsync(sheet.JobId, PhotoSubject.Step, stepId);
        var with = await Work.TickAsync(_shop.Technician, NewId(), new TickStep(stepId), null, CancellationToken.None);

        Assert.Equal(StageWork.PhotoField, Assert.Single(without.Problems).Field);
        Assert.False(withAnother.Succeeded);
        Assert.True(with.Succeeded, with.Message);
    }

    [Fact]
    public async Task The_second_person_must_be_another_one_and_comes_after_the_first()
    {
        var sheet = await _shop.PlannedJobAsync(Stage("Commissioning", Step("Fit the main fuse last") with { NeedsSecondPerson = true }));
        var stepId = sheet.Stages[0].Steps[0].Id;

        var early = await Work.ConfirmAsync(_shop.SecondTechnician, NewId(), stepId, null, CancellationToken.None);
        await Work.TickAsync(_shop.Technician, NewId(), new TickStep(stepId), null, CancellationToken.None);
        var half = await StepAsync(sheet.JobId, stepId);
        var same = await Work.ConfirmAsync(_shop.Technician, NewId(), stepId, null, CancellationToken.None);
        var other = await Work.ConfirmAsync(_shop.SecondTechnician, NewId(), stepId, null, CancellationToken.None);

        Assert.False(early.Succeeded);
        Assert.False(half.IsDone);
        Assert.False(same.Succeeded);
        Assert.True(other.Succeeded, other.Message);
        var done = await StepAsync(sheet.JobId, stepId);
        Assert.True(done.IsDone);
        Assert.Equal("Tess Tech", done.ConfirmedBy);
    }

    [Fact]
    public async Task Taking_a_tick_back_takes_the_confirmation_with_it()
    {
        var sheet = await _shop.PlannedJobAsync(Stage("Commissioning", Step("Fit the main fuse last") with { NeedsSecondPerson = true }));
        var stepId = sheet.Stages[0].Steps[0].Id;
        await Work.TickAsync(_shop.Technician, NewId(), new TickStep(stepId), null, CancellationToken.None);
        await Work.ConfirmAsync(_shop.SecondTechnician, NewId(), stepId, null, CancellationToken.None);

        await Work.UntickAsync(_shop.Technician, NewId(), stepId, CancellationToken.None);
        await Work.TickAsync(_shop.Technician, NewId(), new TickStep(stepId), null, CancellationToken.None);

        Assert.False((await StepAsync(sheet.JobId, stepId)).IsDone);
    }

    [Fact]
    public async Task Remarks_of_two_people_stand_side_by_side()
    {
        var sheet = await _shop.PlannedJobAsync(Stage("Cabling", Step()));
        var stepId = sheet.Stages[0].Steps[0].Id;

        await Work.RemarkAsync(_shop.Technician, NewId(), new RemarkStep(stepId, "Grommet is 22 mm"), CancellationToken.None);
        await Work.RemarkAsync(_shop.SecondTechnician, NewId(), new RemarkStep(stepId, "Left side only"), CancellationToken.None);

        Assert.Equal("Tom Tech: Grommet is 22 mm\nTess Tech: Left side only", (await StepAsync(sheet.JobId, stepId)).Note);
    }

    [Fact]
    public async Task A_tick_made_offline_keeps_its_own_time_when_that_is_plausible()
    {
        var sheet = await _shop.PlannedJobAsync(Stage("Cabling", Step("a"), Step("b"), Step("c")));
        var steps = sheet.Stages[0].Steps;
        var now = _shop.Time.GetUtcNow();

        await Work.TickAsync(_shop.Technician, NewId(), new TickStep(steps[0].Id), now.AddHours(-2), CancellationToken.None);
        await Work.TickAsync(_shop.Technician, NewId(), new TickStep(steps[1].Id), now.AddHours(-13), CancellationToken.None);
        await Work.TickAsync(_shop.Technician, NewId(), new TickStep(steps[2].Id), now.AddMinutes(5), CancellationToken.None);

        var ticked = (await _shop.SheetAsync(sheet.JobId)).Stages[0].Steps;
        Assert.Equal([now.AddHours(-2), now, now], ticked.Select(step => step.TickedAt!.Value)); // all three were ticked above
    }

    [Fact]
    public async Task A_delivered_job_is_not_ticked_any_more()
    {
        var sheet = await _shop.PlannedJobAsync(Stage("Cabling", Step()));
        await _shop.Store.WriteAsync<Common.Done>(
            _shop.Owner,
            async db =>
            {
                (await db.Jobs.SingleAsync()).Deliver(_shop.Time.GetUtcNow());
                return Common.Done.Value;
            },
            CancellationToken.None);

        var outcome = await Work.TickAsync(_shop.Technician, NewId(), new TickStep(sheet.Stages[0].Steps[0].Id), null, CancellationToken.None);

        Assert.Contains("delivered", outcome.Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Many_ticks_at_once_all_count_and_the_progress_is_right()
    {
        var stages = Enumerable.Range(1, 5).Select(stage => Stage($"Stage {stage}", [.. Enumerable.Range(1, 8).Select(step => Step($"Step {step}"))])).ToArray();
        var sheet = await _shop.PlannedJobAsync(stages);
        var steps = sheet.Stages.SelectMany(stage => stage.Steps).ToList();

        var outcomes = await Task.WhenAll(steps.Select((step, at) => Task.Run(() => Work.TickAsync(
            at % 2 == 0 ? _shop.Technician : _shop.SecondTechnician, NewId(), new TickStep(step.Id), null, CancellationToken.None))));

        Assert.All(outcomes, outcome => Assert.True(outcome.Succeeded, outcome.Message));
        var after = await _shop.SheetAsync(sheet.JobId);
        Assert.All(after.Stages.SelectMany(stage => stage.Steps), step => Assert.True(step.IsTicked));
        var progress = await _shop.ProgressAsync(sheet.JobId);
        Assert.Equal((5, 5, "", "ddddd"), (progress.StagesDone, progress.StagesTotal, progress.StageName, progress.Track));
    }

    [Fact]
    public async Task One_command_sent_many_times_at_once_counts_once()
    {
        var sheet = await _shop.PlannedJobAsync(Stage("Cabling", Step()));
        var stepId = sheet.Stages[0].Steps[0].Id;
        var command = NewId();

        var outcomes = await Task.WhenAll(Enumerable.Range(0, 20).Select(_ => Task.Run(() =>
            Work.RemarkAsync(_shop.Technician, command, new RemarkStep(stepId, "Once"), CancellationToken.None))));

        Assert.All(outcomes, outcome => Assert.True(outcome.Succeeded, outcome.Message));
        Assert.Equal("Tom Tech: Once", (await StepAsync(sheet.JobId, stepId)).Note);
    }

    [Fact]
    public async Task Ticking_does_not_turn_an_open_job_card_into_a_conflict()
    {
        var sheet = await _shop.PlannedJobAsync(Stage("Cabling", Step()));
        var job = await _shop.Store.ReadAsync(db => db.Jobs.SingleAsync(), CancellationToken.None);

        await Work.TickAsync(_shop.Technician, NewId(), new TickStep(sheet.Stages[0].Steps[0].Id), null, CancellationToken.None);

        Assert.Equal(job.Version, await _shop.Store.ReadAsync(db => db.Jobs.Select(found => found.Version).SingleAsync(), CancellationToken.None));
    }

    [Fact]
    public async Task Open_screens_are_told_which_job_was_ticked()
    {
        var sheet = await _shop.PlannedJobAsync(Stage("Cabling", Step()));
        var told = new List<JobsChanged>();
        using var subscription = _shop.Get<JobChangeFeed>().Subscribe(told.Add);

        await Work.TickAsync(_shop.Technician, NewId(), new TickStep(sheet.Stages[0].Steps[0].Id), null, CancellationToken.None);

        Assert.Contains(sheet.JobId, Assert.Single(told).JobIds);
    }

    [Fact]
    public async Task The_delivery_gate_hears_of_open_steps_blockers_and_found_problems()
    {
        var sheet = await _shop.PlannedJobAsync(Stage("Cabling", Step("Lay the run"), Step("Sweep the floor") with { Required = false }));
        await ReportAsync(sheet.JobId, BlockerKind.Blocker, "Grommet missing");
        await ReportAsync(sheet.JobId, BlockerKind.FoundProblem, "Rust under the mat");

        var findings = await Work.FindingsAsync(sheet.JobId, CancellationToken.None);

        Assert.Equal(
            [("required-step-open", Severity.Stop), ("blocker-open", Severity.Stop), ("found-problem-open", Severity.Warn)],
            findings.Select(finding => (finding.Code, finding.Severity)));
    }

    [Fact]
    public async Task The_delivery_gate_is_quiet_when_all_is_done()
    {
        var sheet = await _shop.PlannedJobAsync(Stage("Cabling", Step()));
        await Work.TickAsync(_shop.Technician, NewId(), new TickStep(sheet.Stages[0].Steps[0].Id), null, CancellationToken.None);

        Assert.Empty(await Work.FindingsAsync(sheet.JobId, CancellationToken.None));
    }

    [Fact]
    public async Task A_sign_in_without_the_permission_is_turned_away()
    {
        var sheet = await _shop.PlannedJobAsync(Stage("Cabling", Step()));
        var reader = _shop.Technician with { OnlyPermissions = new HashSet<Permission> { Permission.SeeJobs } };
        var stepId = sheet.Stages[0].Steps[0].Id;

        await Assert.ThrowsAsync<NotAllowedException>(() => Work.TickAsync(reader, NewId(), new TickStep(stepId), null, CancellationToken.None));
        await Assert.ThrowsAsync<NotAllowedException>(() => Work.UntickAsync(reader, NewId(), stepId, CancellationToken.None));
        await Assert.ThrowsAsync<NotAllowedException>(() => Work.ConfirmAsync(reader, NewId(), stepId, null, CancellationToken.None));
        await Assert.ThrowsAsync<NotAllowedException>(() => Work.RemarkAsync(reader, NewId(), new RemarkStep(stepId, "x"), CancellationToken.None));
    }

    private async Task ReportAsync(Guid jobId, BlockerKind kind, string text)
    {
        var outcome = await _shop.Get<Blockers>().ReportAsync(_shop.Technician, NewId(), new ReportBlocker(jobId, null, kind, text), null, CancellationToken.None);
        Assert.True(outcome.Succeeded, outcome.Message);
    }

    private async Task<SheetStep> StepAsync(Guid jobId, Guid stepId) =>
        (await _shop.SheetAsync(jobId)).Stages.SelectMany(stage => stage.Steps).Single(step => step.Id == stepId);

    private Task<int> TrailCountAsync(Guid subjectId, string action) =>
        _shop.Store.ReadAsync(db => db.AuditEntries.CountAsync(line => line.SubjectId == subjectId && line.Action == action), CancellationToken.None);
}
