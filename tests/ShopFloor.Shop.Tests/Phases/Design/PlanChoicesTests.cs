using ShopFloor.Engineering.Electrical;
using ShopFloor.Engineering.Electrical.Conductors;
using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Phases.Build;
using ShopFloor.Shop.Phases.Design;
using ShopFloor.Shop.Staff;

namespace ShopFloor.Shop.Tests.Phases.Design;

public sealed class PlanChoicesTests : IAsyncLifetime
{
    private static readonly CancellationToken None = CancellationToken.None;
    private readonly TestShop _shop = new();
    private Guid _job;
    private string _amplifier = "";

    private ElectricalPlans Plans => _shop.Get<ElectricalPlans>();

    public async Task InitializeAsync()
    {
        await _shop.InitializeAsync();
        _job = await _shop.OpenJobAsync();
        _amplifier = (await _shop.AddPartAsync(_job, PartBuilder.Amplifier())).ToString();
    }

    public Task DisposeAsync() => _shop.DisposeAsync();

    [Fact]
    public async Task Metric_sizes_are_chosen_from_the_published_table_by_area_and_it_says_so()
    {
        await SetAsync(form => form.Sizes = SizeSystem.VehicleMetric);

        var view = await ViewAsync();

        Assert.All(view.Runs, run => Assert.EndsWith("mm² vehicle cable", run.Sizing!.Conductor.Label, StringComparison.Ordinal));
        Assert.Contains("no interpolation", view.Rules.Table.Statement, StringComparison.Ordinal);
        (await Plans.AddPlannedPartsAsync(_shop.Desk, _job, None)).Must();
        var cables = (await _shop.ReadAsync(db => Task.FromResult(db.JobParts.Where(part => part.Kind == PartKind.Cable).ToList()))).Select(part => (CableData)part.Data).ToList();
        Assert.NotEmpty(cables);
        Assert.All(cables, cable => Assert.Null(cable.Awg));
    }

    [Fact]
    public async Task Fuses_in_hot_surroundings_are_rerated_when_the_plan_says_so()
    {
        var plain = RunOf(await ViewAsync(), _amplifier);
        await SetAsync(form => (form.FuseLossPercentPerCelsius, form.CabinCelsius) = (0.5, 65));

        var hot = RunOf(await ViewAsync(), _amplifier);

        // kT = 1 − 0.005 · (65 − 25) = 0.8: a quarter more than at 25 °C.
        Assert.Equal(plain.MinimumFuseAmperes / 0.8, hot.MinimumFuseAmperes, 9);
        Assert.True(hot.Fuse!.RatingAmperes >= hot.MinimumFuseAmperes);
        var refused = await Plans.EditSettingsAsync(_shop.Desk, _job, (await ViewAsync()).SettingsVersion, new ElectricalSettingsForm { FuseLossPercentPerCelsius = 2 }, None);
        Assert.Equal(nameof(ElectricalSettingsForm.FuseLossPercentPerCelsius), Assert.Single(refused.Problems).Field);
    }

    [Fact]
    public async Task A_table_that_starts_warmer_than_the_assumed_insulation_is_refused_at_the_insulation()
    {
        // FAA AC 43.13-1B table 11-9 has the 105 °C column only; the assumption is 80 °C.
        var form = new ElectricalSettingsForm { Table = PublishedTables.FaaAc43Table119Bundled.Name };
        var outcome = await Plans.EditSettingsAsync(_shop.Desk, _job, Guid.Empty, form, None);
        Assert.Equal(nameof(form.InsulationCelsius), Assert.Single(outcome.Problems).Field);

        form.InsulationCelsius = 105;
        (await Plans.EditSettingsAsync(_shop.Desk, _job, Guid.Empty, form, None)).Must();
        Assert.Equal(PublishedTables.FaaAc43Table119Bundled.Name, (await ViewAsync()).Runs[0].Sizing!.TableName);
    }

    [Fact]
    public async Task A_run_of_copper_clad_aluminium_gets_its_own_sizes_and_a_caution()
    {
        (await ChooseAsync(_amplifier, new RunChoiceForm { Metal = CableMetal.CopperCladAluminium })).Must();

        var view = await ViewAsync();

        Assert.True(RunOf(view, _amplifier).Conductor.Material.IsCopperClad);
        Assert.False(RunOf(view, ElectricalPlanBuilder.MainRunId).Conductor.Material.IsCopperClad);
        Assert.Contains(view.Findings, finding => finding.Code == "copper-clad-conductor" && finding.SubjectId == _amplifier);
    }

    [Fact]
    public async Task Insulation_surroundings_and_lay_of_a_run_go_before_the_assumptions()
    {
        (await ChooseAsync(_amplifier, new RunChoiceForm { InsulationCelsius = 105, AmbientCelsius = 60, EngineSpace = true, Lies = RunLay.Bundled, BundledConductors = 3 })).Must();

        var run = RunOf(await ViewAsync(), _amplifier);

        // 33 CFR 183.425, 105 °C: engine space 0.85 up to 50 °C; above it the lower of that and √((105 − 60)/(105 − 30)) = 0.775. Note 2: 0.70 for three.
        Assert.Equal((105.0, 60.0, 0.70), (run.InsulationCelsius, run.AmbientCelsius, run.BundlingFactor));
        Assert.Equal(Math.Sqrt(45.0 / 75), run.AmbientFactor, 9);
        var wire = (await _shop.Get<WiringSchedules>().GetAsync(_shop.Technician, _job, UnitText.Invariant, None))!.Wires.First(row => row.RunId == _amplifier);
        Assert.Equal(105, wire.InsulationCelsius);
    }

    [Fact]
    public async Task A_bundle_without_a_number_is_refused_at_its_field() =>
        Assert.Equal(nameof(RunChoiceForm.BundledConductors), Assert.Single((await ChooseAsync(_amplifier, new RunChoiceForm { Lies = RunLay.Bundled })).Problems).Field);

    [Fact]
    public async Task A_load_may_have_a_tighter_drop_limit_than_the_plan()
    {
        (await ChooseAsync(_amplifier, new RunChoiceForm { MaxDropPercent = 1 })).Must();

        var load = (await ViewAsync()).Result!.Loads.Single();

        // 1 % of 13.8 V.
        Assert.Equal(0.138, load.LimitVolts, 9);
        Assert.True(load.MusicDrop!.TotalVolts <= 0.138 + 1e-9);
    }

    [Fact]
    public async Task Only_stocked_sizes_are_chosen_on_request()
    {
        await _shop.AddToCatalogueAsync(PartBuilder.Cable("1/0"));
        await SetAsync(form => form.StockedSizesOnly = true);

        Assert.All((await ViewAsync()).Runs, run => Assert.Equal("1/0 AWG", run.Sizing!.Conductor.Label));
    }

    [Fact]
    public async Task An_empty_stock_is_told_and_leaves_every_size()
    {
        await SetAsync(form => form.StockedSizesOnly = true);

        var view = await ViewAsync();

        Assert.Contains(view.Findings, finding => finding.Code == "no-size-stocked");
        Assert.All(view.Runs, run => Assert.NotNull(run.Sizing));
    }

    [Fact]
    public async Task A_size_chosen_by_hand_that_the_new_sizes_do_not_have_is_told_and_the_plan_chooses()
    {
        (await ChooseAsync(_amplifier, new RunChoiceForm { Awg = "2 AWG" })).Must();
        await SetAsync(form => form.Sizes = SizeSystem.Class5Metric);

        var view = await ViewAsync();

        Assert.Contains(view.Findings, finding => finding.Code == "size-not-in-table" && finding.SubjectId == _amplifier);
        Assert.NotEqual(SizeDecision.Forced, RunOf(view, _amplifier).DecidedBy);
    }

    [Fact]
    public async Task The_main_fuse_reaches_the_short_circuit_current_and_the_solved_network_agrees()
    {
        await SetAsync(form => form.BatteryMilliohms = 8);

        var view = await ViewAsync();
        var network = (await _shop.Get<FeedStates>().GetAsync(_shop.Technician, _job, UnitText.Invariant, None))!;

        // 12.65 V / 8 mΩ alone is 1581 A: above the small bolt-in's 1000 A from memory.
        var main = RunOf(view, ElectricalPlanBuilder.MainRunId);
        Assert.True(main.Fuse!.InterruptAmperes >= main.ProspectiveAmperes && main.ProspectiveAmperes > 1581);
        Assert.DoesNotContain(network.Findings, finding => finding.Code == "fuse-cannot-interrupt" && finding.SubjectId == FeedNetworkBuilder.FuseId(ElectricalPlanBuilder.MainRunId));
        // The bound is never below what the whole network sends through a fuse.
        Assert.All(network.Faults!.Faults.SelectMany(fault => fault.Fuses), fuse =>
            Assert.True(fuse.Amperes <= view.Runs.Single(run => FeedNetworkBuilder.FuseId(run.Place.RunId) == fuse.FuseId).Sizing!.ProspectiveAmperes!.Value + 1e-6, fuse.Name));
    }

    [Fact]
    public async Task A_small_fuse_no_form_of_reaches_is_warned_of_until_its_part_says_what_its_maker_vouches_for()
    {
        var lamp = (await _shop.AddPartAsync(_job, PartBuilder.Of(PartKind.Accessory, "Clock", new AccessoryData { WorkingAmperes = 2 }))).ToString();
        await SetAsync(form => form.BatteryMilliohms = 3);
        Finding? Found(ElectricalPlanView view) => view.Findings.SingleOrDefault(finding => finding.Code == "fuse-cannot-interrupt" && finding.SubjectId == lamp);

        var before = await ViewAsync();
        Assert.Equal(Severity.Warn, Found(before)!.Severity);
        Assert.Contains("1000", Found(before)!.Text, StringComparison.Ordinal);

        var fuse = RunOf(before, lamp).Fuse!;
        await _shop.AddPartAsync(_job, PartBuilder.Of(PartKind.Fuse, "Strong blade", new FuseData { RatingAmperes = fuse.RatingAmperes, Form = fuse.FormName, InterruptAmperes = 10_000 }, part => part.PlanRunId = lamp));
        Assert.Null(Found(await ViewAsync()));
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public async Task A_figure_on_a_fuse_part_below_the_short_circuit_is_one_stop_of_plan_and_network_together(bool inTheCatalogue)
    {
        var lamp = (await _shop.AddPartAsync(_job, PartBuilder.Of(PartKind.Accessory, "Clock", new AccessoryData { WorkingAmperes = 2 }))).ToString();
        await SetAsync(form => form.BatteryMilliohms = 3);
        var fuse = RunOf(await ViewAsync(), lamp).Fuse!;
        var data = new FuseData { RatingAmperes = fuse.RatingAmperes, Form = fuse.FormName, InterruptAmperes = 20 };
        foreach (var form in inTheCatalogue ? FuseRatings.All.Where(form => form.RatingsAmperes.Contains(fuse.RatingAmperes)).Select(form => form.Name) : [fuse.FormName])
        {
            var part = PartBuilder.Of(PartKind.Fuse, $"Weak {form}", new FuseData { RatingAmperes = data.RatingAmperes, Form = form, InterruptAmperes = data.InterruptAmperes }, part => part.PlanRunId = inTheCatalogue ? "" : lamp);
            await (inTheCatalogue ? _shop.AddToCatalogueAsync(part) : _shop.AddPartAsync(_job, part));
        }

        var network = (await _shop.Get<FeedStates>().GetAsync(_shop.Technician, _job, UnitText.Invariant, None))!;
        var gated = (await _shop.Get<MeasuredValues>().SheetAsync(_shop.Technician, _job, UnitText.Invariant, None)).Design;

        Assert.Contains((await ViewAsync()).Findings, finding => finding is { Code: "fuse-cannot-interrupt", Severity: Severity.Stop } && finding.SubjectId == lamp);
        Assert.Contains(network.Findings, finding => finding is { Code: "fuse-cannot-interrupt", Severity: Severity.Stop } && finding.SubjectId == FeedNetworkBuilder.FuseId(lamp));
        Assert.Single(gated, each => each.Finding.Code == "fuse-cannot-interrupt" && each.Finding.SubjectId.EndsWith(lamp, StringComparison.Ordinal));
    }

    [Fact]
    public async Task A_remembered_figure_is_not_written_on_the_planned_fuse_as_its_makers()
    {
        (await _shop.Get<ElectricalPlans>().AddPlannedPartsAsync(_shop.Owner, _job, None)).Must();

        var fuses = (await _shop.ReadAsync(db => Task.FromResult(db.JobParts.Where(part => part.Kind == PartKind.Fuse).ToList())));
        Assert.NotEmpty(fuses);
        Assert.All(fuses, part => Assert.Null(((FuseData)part.Data).InterruptAmperes));
    }

    [Fact]
    public async Task The_cost_of_the_cables_is_told_against_run_by_run_and_to_nobody_who_may_not_see_costs()
    {
        foreach (var size in ConductorSize.CommonlyStocked)
        {
            await _shop.AddToCatalogueAsync(PartBuilder.Cable(size.Split(' ')[0]));
        }

        var cost = (await _shop.Get<CableCosts>().GetAsync(_shop.Owner, _job, None))!;
        var view = await ViewAsync();

        // 4 a metre for every size in the test's catalogue.
        Assert.Equal(Math.Round(4 * (decimal)view.Runs.Sum(run => run.Sizing!.ConductorMeters), 2), cost.Lightest!.Value.Value);
        Assert.Equal(cost.Lightest, cost.RunByRun);
        Assert.Empty(cost.WithoutCost);
        await Assert.ThrowsAsync<NotAllowedException>(() => _shop.Get<CableCosts>().GetAsync(_shop.Technician, _job, None));
    }

    [Fact]
    public async Task A_size_without_a_cost_leaves_the_sum_open_and_is_named()
    {
        var cost = (await _shop.Get<CableCosts>().GetAsync(_shop.Owner, _job, None))!;

        Assert.Null(cost.Lightest);
        Assert.NotEmpty(cost.WithoutCost);
    }

    [Fact]
    public async Task A_clad_cable_on_the_parts_list_is_no_copper_cable_of_the_same_size()
    {
        var size = RunOf(await ViewAsync(), ElectricalPlanBuilder.MainRunId).Conductor.Label.Split(' ')[0];
        await _shop.AddPartAsync(_job, PartBuilder.Cable(size, part => (part.PlanRunId, part.Data) = (ElectricalPlanBuilder.MainRunId, new CableData { Awg = size, Metal = CableMetal.CopperCladAluminium })));

        Assert.Contains((await ViewAsync()).Findings, finding => finding is { Code: "cable-part-clad", Severity: Severity.Stop });
    }

    [Fact]
    public async Task The_wiring_table_carries_the_fuse_of_each_wire_with_rating_and_form()
    {
        var schedule = (await _shop.Get<WiringSchedules>().GetAsync(_shop.Technician, _job, UnitText.Invariant, None))!;

        var table = WiringTable.Of(schedule);

        Assert.Equal(schedule.Wires.Select(wire => (wire.Mark, wire.CutMeters)), table.Wires.Select(wire => (wire.Mark, wire.CutMeters)));
        Assert.Equal(schedule.Fuses[0].RatingAmperes, table.Wires[0].FuseRatingAmperes);
        Assert.Equal(schedule.Fuses[0].Form, table.Wires[0].FuseForm);
        Assert.All(table.Wires.Where(wire => wire.IsReturn), wire => Assert.Null(wire.FuseRatingAmperes));
    }

    private static RunSizingResult RunOf(ElectricalPlanView view, string run) => view.Runs.Single(found => found.Place.RunId == run).Sizing!;

    private Task<ElectricalPlanView> ViewAsync() => Plans.GetAsync(_shop.Owner, _job, UnitText.Invariant, None);

    private Task<ShopFloor.Shop.Common.Outcome<Guid>> ChooseAsync(string run, RunChoiceForm form) => Plans.EditChoiceAsync(_shop.Desk, _job, run, Guid.Empty, form, None);

    private async Task SetAsync(Action<ElectricalSettingsForm> change)
    {
        var form = new ElectricalSettingsForm();
        change(form);
        (await Plans.EditSettingsAsync(_shop.Desk, _job, Guid.Empty, form, None)).Must();
    }
}
