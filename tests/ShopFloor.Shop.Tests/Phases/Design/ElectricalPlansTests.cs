using ShopFloor.Engineering.Electrical;
using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Phases.Design;
using ShopFloor.Shop.Phases.Parts;
using ShopFloor.Shop.Staff;

namespace ShopFloor.Shop.Tests.Phases.Design;

public sealed class ElectricalPlansTests : IAsyncLifetime
{
    private static readonly CancellationToken None = CancellationToken.None;
    private readonly TestShop _shop = new();
    private Guid _job;
    private Guid _amplifier;

    private ElectricalPlans Plans => _shop.Get<ElectricalPlans>();

    private PlanReleases Releases => _shop.Get<PlanReleases>();

    private PartsList List => _shop.Get<PartsList>();

    public async Task InitializeAsync()
    {
        await _shop.InitializeAsync();
        _job = await _shop.OpenJobAsync();
        _amplifier = await _shop.AddPartAsync(_job, PartBuilder.Amplifier());
    }

    public Task DisposeAsync() => _shop.DisposeAsync();

    [Fact]
    public async Task Settings_are_kept_and_the_second_editor_is_warned()
    {
        var before = await ViewAsync();
        Assert.Equal(Guid.Empty, before.SettingsVersion);
        (await Plans.EditSettingsAsync(_shop.Desk, _job, Guid.Empty, before.Settings with { SupplyVolts = 14.4 }, None)).Must();
        Assert.Equal(14.4, (await ViewAsync()).Settings.SupplyVolts);

        var outcome = await Plans.EditSettingsAsync(_shop.Owner, _job, Guid.Empty, before.Settings with { SupplyVolts = 13.2 }, None);

        var difference = Assert.Single(outcome.Conflict!.Differences);
        Assert.Equal(("13.2", "14.4"), (difference.Mine, difference.Theirs));
    }

    [Fact]
    public async Task A_fuse_that_breaks_a_limit_is_kept_and_found()
    {
        (await ChooseAsync(ElectricalPlanBuilder.MainRunId, new RunChoiceForm { Awg = "8", FuseAmperes = 200 })).Must();

        var finding = Assert.Single((await ViewAsync()).Findings, found => found.Code == "fuse-above-ampacity");
        Assert.Equal((Severity.Stop, ElectricalPlanBuilder.MainRunId), (finding.Severity, finding.SubjectId));
    }

    [Fact]
    public async Task A_choice_that_makes_no_sense_is_refused_at_its_field()
    {
        var longer = await ChooseAsync(ElectricalPlanBuilder.MainRunId, new RunChoiceForm { LengthMeters = 3, FuseDistanceMeters = 4 });
        Assert.Equal(nameof(RunChoiceForm.FuseDistanceMeters), Assert.Single(longer.Problems).Field);

        var unknown = await ChooseAsync(ElectricalPlanBuilder.MainRunId, new RunChoiceForm { Awg = "thick" });
        Assert.Equal(nameof(RunChoiceForm.Awg), Assert.Single(unknown.Problems).Field);

        var gone = await ChooseAsync("nothing", new RunChoiceForm { LengthMeters = 3 });
        Assert.Contains("no longer in the plan", gone.Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_choice_made_impossible_later_becomes_a_finding_and_no_crash()
    {
        (await ChooseAsync(ElectricalPlanBuilder.MainRunId, new RunChoiceForm { FuseDistanceMeters = 4 })).Must();
        // The distribution moves to the dash: the suggested run is now shorter than the distance to its fuse.
        var settings = (await ViewAsync()).Settings;
        (await Plans.EditSettingsAsync(_shop.Desk, _job, Guid.Empty, settings with { DistributionZone = "dash" }, None)).Must();

        var view = await ViewAsync();

        Assert.Null(view.Result);
        Assert.Contains(view.Findings, finding => finding is { Code: "plan-input-refused", Severity: Severity.Stop, SubjectId: ElectricalPlanBuilder.MainRunId });
    }

    [Fact]
    public async Task Planned_cable_and_fuses_go_on_the_list_once_however_often_it_is_asked()
    {
        var first = (await Plans.AddPlannedPartsAsync(_shop.Desk, _job, None)).Must();
        var rows = await List.RowsAsync(_shop.Desk, _job, None);

        // Main run through the body: cable and fuse; branch with its own return: two cables and a fuse; the distribution; a spare of the branch's fuse.
        Assert.Equal(7, first.Added);
        Assert.Equal(8, rows.Count);
        Assert.Equal(7, first.WithoutPrice.Count);
        Assert.DoesNotContain((await ViewAsync()).Findings, finding => finding.Code is "run-without-parts" or "cable-part-thinner" or "fuse-part-differs");

        var second = (await Plans.AddPlannedPartsAsync(_shop.Desk, _job, None)).Must();

        Assert.Equal((0, 0, 0), (second.Added, second.Updated, second.Removed));
        Assert.Equal(rows, await List.RowsAsync(_shop.Desk, _job, None), (left, right) => (left.Id, left.Version) == (right.Id, right.Version));
    }

    [Fact]
    public async Task Spares_of_plug_in_fuses_go_on_the_list_once_and_into_the_handover_without_a_place_in_the_fuse_map()
    {
        await _shop.AddPartAsync(_job, PartBuilder.Amplifier(part => part.Name = "Second amplifier"));
        (await Plans.AddPlannedPartsAsync(_shop.Desk, _job, None)).Must();
        var view = await ViewAsync();
        var branch = view.Runs.First(run => run.Place.RunId == _amplifier.ToString()).Sizing!.Fuse!;

        // Two alike amplifiers: one spare for both. The main fuse is bolted in.
        var spare = Assert.Single(await List.RowsAsync(_shop.Desk, _job, None), row => row.PlanRunId.StartsWith("spare:", StringComparison.Ordinal));
        Assert.Equal((1m, branch.RatingAmperes, branch.FormName), (spare.Quantity, ((FuseData)spare.Data).RatingAmperes!.Value, ((FuseData)spare.Data).Form));

        var facts = await _shop.Get<ShopFloor.Shop.Phases.Handover.Handovers>().FactsAsync(_shop.Technician, _job, None);
        Assert.Equal(3, facts.Fuses.Count);
        Assert.Equal([new SpareFuse(branch.RatingAmperes, branch.FormName)], facts.Spares);
    }

    [Fact]
    public async Task A_changed_plan_changes_its_lines_and_a_vanished_run_takes_them_away()
    {
        (await Plans.AddPlannedPartsAsync(_shop.Desk, _job, None)).Must();
        (await ChooseAsync(ElectricalPlanBuilder.MainRunId, new RunChoiceForm { LengthMeters = 6.2 })).Must();
        (await Plans.AddPlannedPartsAsync(_shop.Desk, _job, None)).Must();
        var cable = Assert.Single(await List.RowsAsync(_shop.Desk, _job, None), row => row is { PlanRunId: ElectricalPlanBuilder.MainRunId, Kind: PartKind.Cable });
        Assert.Equal(6.5m, cable.Quantity); // up to the half metre

        await _shop.AddPartAsync(_job, PartBuilder.Of(PartKind.Processor, "Processor", new ProcessorData { WorkingAmperes = 2 }));
        (await List.RemoveAsync(_shop.Desk, _amplifier, None)).Must();
        var result = (await Plans.AddPlannedPartsAsync(_shop.Desk, _job, None)).Must();

        Assert.Equal(4, result.Removed); // the amplifier's two cables, its fuse and the spare of it
        Assert.Equal(4, result.Added); // the processor's
        Assert.DoesNotContain(await List.RowsAsync(_shop.Desk, _job, None), row => row.PlanRunId == _amplifier.ToString());
    }

    [Fact]
    public async Task What_is_ordered_already_is_left_alone_and_told()
    {
        (await Plans.AddPlannedPartsAsync(_shop.Desk, _job, None)).Must();
        var fuse = Assert.Single(await List.RowsAsync(_shop.Desk, _job, None), row => row is { PlanRunId: ElectricalPlanBuilder.MainRunId, Kind: PartKind.Fuse });
        (await _shop.Get<Purchasing>().OrderAsync(_shop.Desk, [fuse.Id], "NH-1", null, None)).Must();
        await _shop.AddPartAsync(_job, PartBuilder.Amplifier(part => part.Name = "Second amplifier"));

        var result = (await Plans.AddPlannedPartsAsync(_shop.Desk, _job, None)).Must();

        Assert.Contains(result.Kept, text => text.StartsWith(fuse.Name, StringComparison.Ordinal));
        Assert.Equal(fuse.Data.ToString(), (await List.RowsAsync(_shop.Desk, _job, None)).Single(row => row.Id == fuse.Id).Data.ToString());
        Assert.Contains((await ViewAsync()).Findings, finding => finding.Code == "fuse-part-differs" && finding.SubjectId == fuse.Id.ToString());
    }

    [Fact]
    public async Task Cable_of_the_catalogue_is_taken_when_size_and_insulation_fit()
    {
        var size = (await ViewAsync()).Result!.Points[0].Run!.Conductor.Label;
        var cold = await _shop.AddToCatalogueAsync(PartBuilder.Cable(size, part => (part.PartNumber, part.Data) = ("COLD", new CableData { Awg = size, InsulationCelsius = 60 })));
        var fit = await _shop.AddToCatalogueAsync(PartBuilder.Cable(size));

        (await Plans.AddPlannedPartsAsync(_shop.Desk, _job, None)).Must();

        var cable = Assert.Single(await List.RowsAsync(_shop.Desk, _job, None), row => row is { PlanRunId: ElectricalPlanBuilder.MainRunId, Kind: PartKind.Cable });
        Assert.Equal($"C-{size}", cable.PartNumber);
        Assert.NotEqual(cold, fit);
    }

    [Fact]
    public async Task A_thinner_cable_put_in_by_hand_stops()
    {
        (await Plans.AddPlannedPartsAsync(_shop.Desk, _job, None)).Must();
        var cable = Assert.Single(await List.RowsAsync(_shop.Desk, _job, None), row => row is { PlanRunId: ElectricalPlanBuilder.MainRunId, Kind: PartKind.Cable });
        var form = (await List.ForEditAsync(_shop.Owner, cable.Id, None))!;
        form.Details.Data = new CableData { Awg = "12", InsulationCelsius = 105 };
        (await List.EditAsync(_shop.Owner, cable.Id, form.Version, form.Details, None)).Must();

        Assert.Contains((await Plans.GetAsync(_shop.Owner, _job, UnitText.Invariant, None)).Findings, finding => finding.Code == "cable-part-thinner" && finding.Severity == Severity.Stop);
    }

    [Fact]
    public async Task A_release_stays_as_it_was_when_the_parts_change()
    {
        (await Releases.ReleaseAsync(_shop.Owner, _job, "bench needs it today", None)).Must();
        var before = (await ViewAsync()).Result!;
        await _shop.AddPartAsync(_job, PartBuilder.Amplifier(part => part.Name = "Second amplifier"));

        var released = (await Releases.ReleasedAsync(_shop.Technician, _job, 1, None))!;

        Assert.Equal(before.Totals, released.Result.Totals);
        Assert.Equal(before.Points[0].Run!.Conductor, released.Result.Points[0].Run!.Conductor);
        Assert.Equal(before.Findings, released.Result.Findings);
        Assert.NotEqual(before.Totals, (await ViewAsync()).Result!.Totals);
        // What was frozen can be computed again and gives the same.
        Assert.Equal(before.Totals, ElectricalPlan.Compute(released.Input).Totals);
        Assert.Equal("Odile Owner", Assert.Single(await Releases.ReleasesAsync(_shop.Technician, _job, None)).ReleasedBy);
    }

    [Fact]
    public async Task A_plan_with_a_stop_is_released_by_the_owner_with_a_reason_only()
    {
        (await ChooseAsync(ElectricalPlanBuilder.MainRunId, new RunChoiceForm { Awg = "8", FuseAmperes = 200 })).Must();

        Assert.Contains("stop findings", (await Releases.ReleaseAsync(_shop.Desk, _job, "because", None)).Message, StringComparison.Ordinal);
        Assert.False((await Releases.ReleaseAsync(_shop.Owner, _job, " ", None)).Succeeded);
        (await Releases.ReleaseAsync(_shop.Owner, _job, "client brings the cable", None)).Must();
        await Assert.ThrowsAsync<NotAllowedException>(() => Releases.ReleaseAsync(_shop.Technician, _job, "", None));
    }

    [Fact]
    public async Task A_job_without_consumers_has_no_plan_and_no_findings()
    {
        (await List.RemoveAsync(_shop.Desk, _amplifier, None)).Must();

        var view = await ViewAsync();

        Assert.Null(view.Result);
        Assert.Empty(view.Findings);
        Assert.False((await Releases.ReleaseAsync(_shop.Desk, _job, "", None)).Succeeded);
        Assert.False((await Plans.AddPlannedPartsAsync(_shop.Desk, _job, None)).Succeeded);
    }

    private Task<ElectricalPlanView> ViewAsync() => Plans.GetAsync(_shop.Desk, _job, UnitText.Invariant, None);

    private async Task<ShopFloor.Shop.Common.Outcome<Guid>> ChooseAsync(string runId, RunChoiceForm form)
    {
        var version = (await ViewAsync()).Runs.FirstOrDefault(run => run.Place.RunId == runId)?.ChoiceVersion ?? Guid.Empty;
        return await Plans.EditChoiceAsync(_shop.Desk, _job, runId, version, form, None);
    }
}
