using ShopFloor.Shop.Common;
using ShopFloor.Shop.Phases.Build;
using ShopFloor.Shop.Staff;
using static ShopFloor.Shop.Tests.Phases.Build.StageBuilder;

namespace ShopFloor.Shop.Tests.Phases.Build;

public sealed class StagePlanTests : IAsyncLifetime
{
    private readonly TestShop _shop = new();

    public Task InitializeAsync() => _shop.InitializeAsync();

    public Task DisposeAsync() => _shop.DisposeAsync();

    private StagePlan Plan => _shop.Get<StagePlan>();

    private StageTemplates Templates => _shop.Get<StageTemplates>();

    [Fact]
    public async Task A_shop_without_templates_plans_the_usual_eleven_stages()
    {
        var jobId = await _shop.OpenJobAsync();

        var planned = await Plan.PlanAsync(_shop.Desk, jobId, null, CancellationToken.None);

        Assert.Equal(11, planned.Value);
        var sheet = await _shop.SheetAsync(jobId);
        Assert.Equal(UsualStages.Stages.Select(stage => stage.Name), sheet.Stages.Select(stage => stage.Name));
        Assert.Equal(UsualStages.Stages.SelectMany(stage => stage.For(highVoltage: false).Steps).Select(step => step.Text), sheet.Stages.SelectMany(stage => stage.Steps).Select(step => step.Text));
        Assert.Equal(("Check-in", 0, 11), ((await _shop.ProgressAsync(jobId)).StageName, (await _shop.ProgressAsync(jobId)).StagesDone, (await _shop.ProgressAsync(jobId)).StagesTotal));
    }

    [Fact]
    public void The_usual_stages_pass_the_rules_templates_must_pass() =>
        Assert.Empty(StageTemplate.ProblemsIn(UsualStages.Name, UsualStages.Stages));

    [Fact]
    public void The_usual_stages_fit_the_main_fuse_last_before_two_people() =>
        Assert.Contains(
            UsualStages.Stages.Single(stage => stage.Name == "Commissioning").Steps,
            step => step.NeedsSecondPerson && step.Text.StartsWith("Main fuse fitted last", StringComparison.Ordinal));

    [Fact]
    public async Task Progress_follows_the_required_steps_in_order()
    {
        var sheet = await _shop.PlannedJobAsync(
            Stage("Teardown", Step("a"), Step("b") with { Required = false }), Stage("Cabling", Step("c"), Step("d")), Stage("Fitting", Step("e")));

        await TickAsync(sheet.Stages[0].Steps[0]);
        await TickAsync(sheet.Stages[1].Steps[1]);

        var progress = await _shop.ProgressAsync(sheet.JobId);
        Assert.Equal(("Cabling", 1, 1, 3, "dpo"), (progress.StageName, progress.StageOrder, progress.StagesDone, progress.StagesTotal, progress.Track));
    }

    [Fact]
    public async Task Planning_again_keeps_what_was_worked_on_and_takes_the_rest_from_the_template()
    {
        var sheet = await _shop.PlannedJobAsync(Stage("Teardown", Step("a")), Stage("Own stage", Step("b")), Stage("Fitting", Step("c")));
        await TickAsync(sheet.Stages[1].Steps[0]);

        await _shop.PlanAsync(sheet.JobId, Stage("Cabling", Step("x")), Stage("Fitting", Step("y")));

        var after = await _shop.SheetAsync(sheet.JobId);
        Assert.Equal(["Own stage", "Cabling", "Fitting"], after.Stages.Select(stage => stage.Name));
        Assert.True(after.Stages[0].Steps[0].IsTicked);
        Assert.Equal("y", after.Stages[2].Steps[0].Text);
    }

    [Fact]
    public async Task A_touched_stage_of_the_template_keeps_its_steps_in_the_template_s_place()
    {
        var sheet = await _shop.PlannedJobAsync(Stage("Fitting", Step("c")));
        await _shop.Get<TimeClock>().StartAsync(_shop.Technician, NewId(), sheet.Stages[0].Id, null, CancellationToken.None);

        await _shop.PlanAsync(sheet.JobId, Stage("Cabling", Step("x")), Stage("Fitting", Step("y")));

        var after = await _shop.SheetAsync(sheet.JobId);
        Assert.Equal(["Cabling", "Fitting"], after.Stages.Select(stage => stage.Name));
        Assert.Equal("c", after.Stages[1].Steps[0].Text);
    }

    [Fact]
    public async Task A_stage_and_a_step_can_be_added_for_one_job()
    {
        var sheet = await _shop.PlannedJobAsync(Stage("Cabling", Step()), Stage("Fitting", Step()));

        var stage = await Plan.AddStageAsync(_shop.Desk, sheet.JobId, sheet.Stages[0].Id, new StageForm { Name = "Roof lining", PlannedHours = 4 }, CancellationToken.None);
        var step = await Plan.AddStepAsync(_shop.Desk, stage.Value, new StepForm { Text = "Steam, not water" }, CancellationToken.None);

        Assert.True(step.Succeeded, step.Message);
        var after = await _shop.SheetAsync(sheet.JobId);
        Assert.Equal(["Cabling", "Roof lining", "Fitting"], after.Stages.Select(found => found.Name));
        Assert.Equal("Steam, not water", after.Stages[1].Steps[0].Text);
        Assert.Equal(3, (await _shop.ProgressAsync(sheet.JobId)).StagesTotal);
    }

    [Fact]
    public async Task Stages_move_up_and_down_and_stay_at_the_ends()
    {
        var sheet = await _shop.PlannedJobAsync(Stage("A", Step()), Stage("B", Step()), Stage("C", Step()));

        await Plan.MoveStageAsync(_shop.Desk, sheet.Stages[2].Id, -1, CancellationToken.None);
        await Plan.MoveStageAsync(_shop.Desk, sheet.Stages[0].Id, -1, CancellationToken.None);

        Assert.Equal(["A", "C", "B"], (await _shop.SheetAsync(sheet.JobId)).Stages.Select(stage => stage.Name));
    }

    [Fact]
    public async Task What_somebody_worked_on_is_not_removed()
    {
        var sheet = await _shop.PlannedJobAsync(Stage("A", Step("a"), Step("b")), Stage("B", Step("c")));
        await TickAsync(sheet.Stages[0].Steps[0]);

        Assert.False((await Plan.RemoveStageAsync(_shop.Desk, sheet.Stages[0].Id, CancellationToken.None)).Succeeded);
        Assert.False((await Plan.RemoveStepAsync(_shop.Desk, sheet.Stages[0].Steps[0].Id, CancellationToken.None)).Succeeded);
        Assert.True((await Plan.RemoveStepAsync(_shop.Desk, sheet.Stages[0].Steps[1].Id, CancellationToken.None)).Succeeded);
        Assert.True((await Plan.RemoveStageAsync(_shop.Desk, sheet.Stages[1].Id, CancellationToken.None)).Succeeded);

        Assert.Equal((1, "d"), ((await _shop.ProgressAsync(sheet.JobId)).StagesTotal, (await _shop.ProgressAsync(sheet.JobId)).Track));
    }

    [Fact]
    public async Task Two_people_changing_a_stage_are_told_of_each_other()
    {
        var stage = (await _shop.PlannedJobAsync(Stage("Cabling", Step()))).Stages[0];
        await Plan.ChangeStageAsync(_shop.Desk, stage.Id, stage.Version, new StageForm { Name = "Cabling, rear", PlannedHours = 2 }, CancellationToken.None);

        var second = await Plan.ChangeStageAsync(_shop.Owner, stage.Id, stage.Version, new StageForm { Name = "Cabling", PlannedHours = 9 }, CancellationToken.None);

        Assert.NotNull(second.Conflict);
        Assert.Equal("Dora Desk", second.Conflict.ChangedBy);
        Assert.Contains(second.Conflict.Differences, difference => difference.Field == nameof(StageForm.Name));
    }

    [Fact]
    public async Task Limits_that_contradict_each_other_are_refused()
    {
        var form = new TemplateForm
        {
            Name = "Short",
            Stages = [new StageForm { Name = "Check", Steps = [new StepForm { Text = "Measure", MeasureName = "Voltage", MeasureUnit = "V", Lowest = 13, Highest = 12 }] }],
        };

        var outcome = await Templates.AddAsync(_shop.Owner, form, CancellationToken.None);

        Assert.Contains("lowest is above the highest", outcome.Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task There_is_one_default_template_and_it_plans_jobs()
    {
        var form = new TemplateForm { Name = "Small job", IsDefault = true, Stages = [new StageForm { Name = "All of it", Steps = [new StepForm { Text = "Do it" }] }] };
        await Templates.AddAsync(_shop.Owner, TemplateForm.OfUsual(), CancellationToken.None);
        await Templates.AddAsync(_shop.Owner, form, CancellationToken.None);
        form.Name = "Smaller job";
        await Templates.AddAsync(_shop.Owner, form, CancellationToken.None);
        var jobId = await _shop.OpenJobAsync();

        await Plan.PlanAsync(_shop.Desk, jobId, null, CancellationToken.None);

        var rows = await Templates.ListAsync(_shop.Owner, CancellationToken.None);
        Assert.Equal(["Smaller job"], rows.Where(row => row.IsDefault).Select(row => row.Name));
        Assert.Equal("All of it", Assert.Single((await _shop.SheetAsync(jobId)).Stages).Name);
    }

    [Fact]
    public async Task A_template_is_duplicated_removed_and_brought_back()
    {
        var original = await Templates.AddAsync(_shop.Owner, TemplateForm.OfUsual(), CancellationToken.None);
        var copy = await Templates.DuplicateAsync(_shop.Owner, original.Value, CancellationToken.None);

        await Templates.RemoveAsync(_shop.Owner, original.Value, CancellationToken.None);
        Assert.Equal(["Usual stages (copy)"], (await Templates.ListAsync(_shop.Owner, CancellationToken.None)).Select(row => row.Name));
        Assert.Equal(original.Value, Assert.Single(await Templates.RemovedAsync(_shop.Owner, CancellationToken.None)).Id);
        await Templates.BringBackAsync(_shop.Owner, original.Value, CancellationToken.None);

        Assert.Equal(2, (await Templates.ListAsync(_shop.Owner, CancellationToken.None)).Count);
        Assert.Equal(11, (await Templates.FindAsync(_shop.Owner, copy.Value, CancellationToken.None))?.Form.Stages.Count);
    }

    [Fact]
    public async Task Two_people_editing_a_template_are_told_of_each_other()
    {
        var id = (await Templates.AddAsync(_shop.Owner, TemplateForm.OfUsual(), CancellationToken.None)).Value;
        var mine = await Templates.FindAsync(_shop.Owner, id, CancellationToken.None);
        var theirs = await Templates.FindAsync(_shop.Owner, id, CancellationToken.None);
        theirs!.Form.Name = "Theirs"; // just added
        await Templates.EditAsync(_shop.Owner, id, theirs.Version, theirs.Form, CancellationToken.None);

        var outcome = await Templates.EditAsync(_shop.Owner, id, mine!.Version, mine.Form, CancellationToken.None); // just added

        Assert.Equal(["Name"], outcome.Conflict?.Differences.Select(difference => difference.Field));
    }

    public static TheoryData<ShopRole, bool, bool> Matrix => new()
    {
        { ShopRole.Technician, false, false },
        { ShopRole.FrontDesk, true, false },
        { ShopRole.Owner, true, true },
    };

    [Theory]
    [MemberData(nameof(Matrix))]
    public async Task Planning_is_the_desk_s_and_templates_are_the_owner_s(ShopRole role, bool plans, bool templates)
    {
        var sheet = await _shop.PlannedJobAsync(Stage("A", Step()));
        var actor = _shop.Owner with { Role = role };
        var stageId = sheet.Stages[0].Id;

        await MayAsync(plans, () => Plan.PlanAsync(actor, sheet.JobId, null, CancellationToken.None));
        await MayAsync(plans, () => Plan.AddStageAsync(actor, sheet.JobId, null, new StageForm { Name = "B" }, CancellationToken.None));
        await MayAsync(plans, () => Plan.AddStepAsync(actor, stageId, new StepForm { Text = "x" }, CancellationToken.None));
        await MayAsync(plans, () => Plan.MoveStageAsync(actor, stageId, 1, CancellationToken.None));
        await MayAsync(plans, () => Plan.RemoveStepAsync(actor, Guid.Empty, CancellationToken.None));
        await MayAsync(plans, () => Plan.RemoveStageAsync(actor, stageId, CancellationToken.None));
        await MayAsync(templates, () => Templates.AddAsync(actor, TemplateForm.OfUsual(), CancellationToken.None));
        await MayAsync(templates, () => Templates.DuplicateAsync(actor, Guid.Empty, CancellationToken.None));
        await MayAsync(templates, () => Templates.RemoveAsync(actor, Guid.Empty, CancellationToken.None));
    }

    private static async Task MayAsync<T>(bool allowed, Func<Task<Outcome<T>>> act)
    {
        if (allowed)
        {
            _ = await act();
        }
        else
        {
            await Assert.ThrowsAsync<NotAllowedException>(act);
        }
    }

    private async Task TickAsync(SheetStep step)
    {
        var outcome = await _shop.Get<StageWork>().TickAsync(_shop.Technician, NewId(), new TickStep(step.Id), null, CancellationToken.None);
        Assert.True(outcome.Succeeded, outcome.Message);
    }
}
