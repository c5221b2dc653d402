using ShopFloor.Engineering.Electrical;
using ShopFloor.Engineering.Electrical.Network;
using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Phases.Design;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Vehicles;

namespace ShopFloor.Shop.Tests.Phases.Design;

public sealed class FeedEditingTests : IAsyncLifetime
{
    private const string Main = ElectricalPlanBuilder.MainRunId;
    private static readonly CancellationToken None = CancellationToken.None;
    private readonly TestShop _shop = new();
    private Guid _job;
    private string _amplifier = "";

    private FeedEditing Editing => _shop.Get<FeedEditing>();

    private ElectricalPlans Plans => _shop.Get<ElectricalPlans>();

    private PartsList List => _shop.Get<PartsList>();

    public async Task InitializeAsync()
    {
        await _shop.InitializeAsync();
        _job = await _shop.OpenJobAsync();
        _amplifier = (await _shop.AddPartAsync(_job, PartBuilder.Amplifier())).ToString();
    }

    public Task DisposeAsync() => _shop.DisposeAsync();

    [Fact]
    public async Task A_preview_tells_what_the_move_then_does_and_stores_nothing()
    {
        var second = await AddPointAsync(PartKind.Battery, "Second battery");

        var preview = (await Editing.PreviewMoveAsync(_shop.Desk, _job, _amplifier, second, UnitText.Invariant, None)).Must();
        Assert.Equal(Main, (await RunAsync(_amplifier)).Place.SourceId);
        var done = await MoveAsync(_amplifier, second);

        Assert.Equal(preview.Lines, done.Lines);
        Assert.Contains(done.Lines, line => line.StartsWith("Second battery ", StringComparison.Ordinal));
        Assert.Contains("Main run not needed", done.Lines);
        Assert.Equal(second, (await RunAsync(_amplifier)).Place.SourceId);
    }

    [Fact]
    public async Task A_move_that_makes_a_stop_of_a_warning_is_told_as_worse()
    {
        var view = await ViewAsync();
        static Finding Found(Severity severity) => new("fuse-cannot-interrupt", severity, "run", "Main run", "The fuse interrupts less.", "Take another form.", "the fuse's maker");

        var worse = PlanEffect.Between(view with { Findings = [Found(Severity.Warn)] }, view with { Findings = [Found(Severity.Stop)] }, "run", UnitText.Invariant);
        var same = PlanEffect.Between(view with { Findings = [Found(Severity.Stop)] }, view with { Findings = [Found(Severity.Stop)] }, "run", UnitText.Invariant);

        Assert.True(worse.Worse);
        Assert.Equal(["stop: Main run: The fuse interrupts less."], worse.Lines);
        Assert.False(same.Worse);
    }

    [Fact]
    public async Task What_was_measured_along_the_old_way_is_let_go_and_a_chosen_size_stays()
    {
        await ChooseAsync(_amplifier, new RunChoiceForm { LengthMeters = 0.6, Route = "Under the sill", Awg = "2" });

        await MoveAsync(_amplifier, FeedSources.Battery);

        var choice = (await RunAsync(_amplifier)).Place.Choice;
        Assert.Equal(new RunChoiceForm { From = FeedSources.Battery, Awg = "2" }, choice);
        (await Editing.UndoAsync(_shop.Desk, _job, None)).Must();
        Assert.Equal(new RunChoiceForm { LengthMeters = 0.6, Route = "Under the sill", Awg = "2" }, (await RunAsync(_amplifier)).Place.Choice);
    }

    [Fact]
    public async Task How_a_run_lies_is_let_go_too_so_that_a_bundled_one_can_be_moved()
    {
        await ChooseAsync(_amplifier, new RunChoiceForm { Lies = RunLay.Bundled, BundledConductors = 4, AmbientCelsius = 85, EngineSpace = true, InsulationCelsius = 125 });

        await MoveAsync(_amplifier, FeedSources.Battery);

        Assert.Equal(new RunChoiceForm { From = FeedSources.Battery, InsulationCelsius = 125 }, (await RunAsync(_amplifier)).Place.Choice);
    }

    [Fact]
    public async Task A_distribution_cannot_hang_on_what_hangs_on_it_and_names_are_told()
    {
        var front = await AddPointAsync(PartKind.Distribution, "Front block");
        var rear = await AddPointAsync(PartKind.Distribution, "Rear block");
        await MoveAsync(_amplifier, rear);
        // The first distribution with a place is the main one; the second hangs on it.
        Assert.Null((await ViewAsync()).Sources.Find(front));

        var refused = await Editing.MoveAsync(_shop.Desk, _job, Main, Guid.Empty, rear, UnitText.Invariant, None);
        Assert.Equal("The distribution cannot take its current from Rear block, which takes its own from The distribution: nothing would come from the battery.", refused.Message);
        var edited = await Plans.EditChoiceAsync(_shop.Desk, _job, Main, Guid.Empty, new RunChoiceForm { From = rear }, None);
        Assert.Equal(nameof(RunChoiceForm.From), Assert.Single(edited.Problems).Field);
    }

    [Fact]
    public async Task A_distribution_has_a_cable_of_its_own_and_a_load_feeds_nothing()
    {
        var lamp = (await _shop.AddPartAsync(_job, PartBuilder.Of(PartKind.Processor, "Processor", new ProcessorData { WorkingAmperes = 2 }))).ToString();

        Assert.Contains("cable of its own", (await TryAsync(Main, FeedSources.VehicleCircuit)).Message, StringComparison.Ordinal);
        Assert.Contains("feeds nothing", (await TryAsync(lamp, _amplifier)).Message, StringComparison.Ordinal);
        Assert.Contains("no longer on the parts list", (await TryAsync(lamp, Guid.CreateVersion7().ToString())).Message, StringComparison.Ordinal);
        Assert.Contains("no longer in the plan", (await TryAsync("nothing", FeedSources.Battery)).Message, StringComparison.Ordinal);
        Assert.Contains("cannot feed itself", (await TryAsync(Main, Main)).Message, StringComparison.Ordinal);
        await MoveAsync(lamp, FeedSources.VehicleCircuit);
        Assert.True((await RunAsync(lamp)).Place.IsFedByTheCar);
    }

    [Fact]
    public async Task Twenty_edits_are_taken_back_one_by_one_and_done_again()
    {
        for (var centimeters = 1; centimeters <= 20; centimeters++)
        {
            await ChooseAsync(_amplifier, new RunChoiceForm { LengthMeters = 1 + (centimeters / 100.0) });
        }

        for (var centimeters = 19; centimeters >= 1; centimeters--)
        {
            (await Editing.UndoAsync(_shop.Desk, _job, None)).Must();
            Assert.Equal(1 + (centimeters / 100.0), (await RunAsync(_amplifier)).Place.LengthMeters);
        }

        (await Editing.UndoAsync(_shop.Desk, _job, None)).Must();
        Assert.False((await RunAsync(_amplifier)).Place.LengthMeasured);
        Assert.Contains("nothing of yours", (await Editing.UndoAsync(_shop.Desk, _job, None)).Message, StringComparison.Ordinal);

        for (var step = 0; step < 20; step++)
        {
            (await Editing.RedoAsync(_shop.Desk, _job, None)).Must();
        }

        Assert.Equal(1.2, (await RunAsync(_amplifier)).Place.LengthMeters);
        Assert.Contains("nothing to redo", (await Editing.RedoAsync(_shop.Desk, _job, None)).Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Undo_never_covers_what_somebody_else_saved_since_and_says_who()
    {
        await ChooseAsync(_amplifier, new RunChoiceForm { LengthMeters = 1 });
        await ChooseAsync(_amplifier, new RunChoiceForm { LengthMeters = 2 }, _shop.Owner);

        var refused = await Editing.UndoAsync(_shop.Desk, _job, None);

        Assert.Contains(_shop.Owner.Name, refused.Message, StringComparison.Ordinal);
        Assert.Equal(2, (await RunAsync(_amplifier)).Place.LengthMeters);
        Assert.Null(Editing.Steps(_shop.Desk, _job).Undo);
        Assert.NotNull(Editing.Steps(_shop.Owner, _job).Undo);
    }

    [Fact]
    public async Task An_edit_over_somebody_elses_is_taken_back_to_theirs_and_no_further()
    {
        await ChooseAsync(_amplifier, new RunChoiceForm { LengthMeters = 1 });
        await ChooseAsync(_amplifier, new RunChoiceForm { LengthMeters = 2 }, _shop.Owner);
        await ChooseAsync(_amplifier, new RunChoiceForm { LengthMeters = 3 });

        (await Editing.UndoAsync(_shop.Desk, _job, None)).Must();
        Assert.Equal(2, (await RunAsync(_amplifier)).Place.LengthMeters);

        Assert.False((await Editing.UndoAsync(_shop.Desk, _job, None)).Succeeded);
        Assert.Equal(2, (await RunAsync(_amplifier)).Place.LengthMeters);
    }

    [Fact]
    public async Task Parts_come_and_go_and_are_renamed_with_undo_for_each()
    {
        var id = (await Editing.AddAsync(_shop.Desk, _job, Details(PartKind.Battery, "Second battery"), None)).Must();
        (await Editing.RenameAsync(_shop.Desk, _job, id, await VersionAsync(id), "Boot battery", None)).Must();
        await MoveAsync(_amplifier, id.ToString());
        (await Editing.RemoveAsync(_shop.Desk, _job, id, await VersionAsync(id), None)).Must();
        Assert.Equal(Main, (await RunAsync(_amplifier)).Place.SourceId);

        await UndoAsync("Boot battery removed");
        Assert.Equal(id.ToString(), (await RunAsync(_amplifier)).Place.SourceId);
        await UndoAsync("Four-channel amplifier moved");
        await UndoAsync("Second battery renamed Boot battery");
        Assert.Equal("Second battery", (await ViewAsync()).Sources.Find(id.ToString())!.Name);
        await UndoAsync("Second battery added");
        Assert.Null((await ViewAsync()).Sources.Find(id.ToString()));
        for (var step = 0; step < 4; step++)
        {
            (await Editing.RedoAsync(_shop.Desk, _job, None)).Must();
        }

        Assert.DoesNotContain(await List.RowsAsync(_shop.Desk, _job, None), row => row.Id == id);
    }

    [Fact]
    public async Task A_part_somebody_changed_since_it_was_seen_is_neither_removed_nor_renamed()
    {
        var id = (await Editing.AddAsync(_shop.Desk, _job, Details(PartKind.Battery, "Second battery"), None)).Must();
        var seen = await VersionAsync(id);
        (await Editing.RenameAsync(_shop.Owner, _job, id, seen, "Boot battery", None)).Must();

        var removed = await Editing.RemoveAsync(_shop.Desk, _job, id, seen, None);
        var renamed = await Editing.RenameAsync(_shop.Desk, _job, id, seen, "Spare battery", None);

        Assert.Equal((_shop.Owner.Name, _shop.Owner.Name), (removed.Conflict!.ChangedBy, renamed.Conflict!.ChangedBy));
        Assert.Equal("Boot battery", (await ViewAsync()).Sources.Find(id.ToString())!.Name);
    }

    [Fact]
    public async Task A_part_somebody_changed_since_is_not_taken_off_the_list_by_an_undo()
    {
        var id = (await Editing.AddAsync(_shop.Desk, _job, Details(PartKind.Distribution, "Rear block"), None)).Must();
        var form = (await List.ForEditAsync(_shop.Owner, id, None))!;
        form.Details.Place = "Behind the left trim";
        (await List.EditAsync(_shop.Owner, id, form.Version, form.Details, None)).Must();

        Assert.Contains(_shop.Owner.Name, (await Editing.UndoAsync(_shop.Desk, _job, None)).Message, StringComparison.Ordinal);
        Assert.Contains(await List.RowsAsync(_shop.Desk, _job, None), row => row.Id == id);
    }

    [Fact]
    public async Task Assumptions_are_taken_back_too_and_the_trail_shows_an_ordinary_edit()
    {
        var before = await ViewAsync();
        (await Plans.EditSettingsAsync(_shop.Desk, _job, Guid.Empty, before.Settings with { SupplyVolts = 14.4 }, None)).Must();
        await UndoAsync("Assumptions changed");

        Assert.Equal(before.Settings.SupplyVolts, (await ViewAsync()).Settings.SupplyVolts);
        var trail = await _shop.ReadAsync(db => Task.FromResult(db.AuditEntries.Where(entry => entry.JobId == _job && entry.ActorName == _shop.Desk.Name).OrderBy(entry => entry.Sequence).ToList()));
        Assert.Contains("14.4", trail[^1].ChangesJson, StringComparison.Ordinal);
        Assert.Equal(("", nameof(ElectricalSettings)), (trail[^1].Reason, trail[^1].SubjectType));
    }

    [Fact]
    public async Task A_technician_edits_nothing()
    {
        await Assert.ThrowsAsync<NotAllowedException>(() => Editing.MoveAsync(_shop.Technician, _job, _amplifier, Guid.Empty, FeedSources.Battery, UnitText.Invariant, None));
        await Assert.ThrowsAsync<NotAllowedException>(() => Editing.PreviewMoveAsync(_shop.Technician, _job, _amplifier, FeedSources.Battery, UnitText.Invariant, None));
        await Assert.ThrowsAsync<NotAllowedException>(() => Editing.UndoAsync(_shop.Technician, _job, None));
        await Assert.ThrowsAsync<NotAllowedException>(() => Editing.RemoveAsync(_shop.Technician, _job, Guid.Parse(_amplifier), Guid.Empty, None));
    }

    [Fact]
    public async Task The_way_back_and_the_terminations_of_a_run_are_reckoned_with_in_plan_and_network()
    {
        var before = (await RunAsync(_amplifier)).Sizing!;
        Assert.Equal(ReturnPath.DedicatedConductor, before.ReturnPath);

        await ChooseAsync(_amplifier, new RunChoiceForm { Awg = before.Conductor.Label, Return = ReturnPath.VehicleBody, TerminationMilliohms = 2 });

        var after = (await RunAsync(_amplifier)).Sizing!;
        // The main run comes back through the body and counts it already: only half the conductor is left here, and 2 mΩ.
        Assert.Equal((ReturnPath.VehicleBody, 0.0, 0.002), (after.ReturnPath, after.RatedDrop.BodyOhms, after.RatedDrop.TerminationOhms));
        Assert.Equal((before.RatedDrop.Volts / 2) + (after.RatedDrop.Amperes * 0.002), after.RatedDrop.Volts, 9);
        var network = (await _shop.Get<FeedStates>().GetAsync(_shop.Desk, _job, UnitText.Invariant, None))!;
        Assert.Equal(0.002, Assert.Single(network.Network.Elements.OfType<LumpedResistance>(), element => element.Id == $"ends:{_amplifier}").Ohms);
        Assert.NotEmpty(network.States);
        Assert.Contains("0 to 50", (await Plans.EditChoiceAsync(_shop.Desk, _job, Main, Guid.Empty, new RunChoiceForm { TerminationMilliohms = 80 }, None)).Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Forty_loads_are_one_plan_and_one_of_them_moves()
    {
        for (var load = 1; load <= 39; load++)
        {
            await _shop.AddPartAsync(_job, PartBuilder.Of(PartKind.Accessory, $"Load {load}", new AccessoryData { WorkingAmperes = 0.5 + (load / 10.0) }));
        }

        var second = await AddPointAsync(PartKind.Battery, "Second battery");
        var effect = await MoveAsync(_amplifier, second);

        Assert.NotEmpty(effect.Lines);
        var view = await ViewAsync();
        Assert.Equal(40, view.Result!.Loads.Count);
        Assert.All(view.Runs, run => Assert.NotNull(run.Sizing));
    }

    private static JobPartDetails Details(PartKind kind, string name) => new()
    {
        Kind = kind, Name = name, Unit = PartKinds.Of(kind).Unit, Data = PartData.Empty(kind), Zone = VehicleZones.BootFloorLeft,
    };

    private async Task<Guid> VersionAsync(Guid part) => (await ViewAsync()).PartVersions[part];

    private async Task<string> AddPointAsync(PartKind kind, string name) => (await Editing.AddAsync(_shop.Owner, _job, Details(kind, name), None)).Must().ToString();

    private async Task<PlanEffect> MoveAsync(string runId, string source) => (await TryAsync(runId, source)).Must();

    private async Task<ShopFloor.Shop.Common.Outcome<PlanEffect>> TryAsync(string runId, string source)
    {
        var version = (await ViewAsync()).Runs.FirstOrDefault(run => run.Place.RunId == runId)?.ChoiceVersion ?? Guid.Empty;
        return await Editing.MoveAsync(_shop.Desk, _job, runId, version, source, UnitText.Invariant, None);
    }

    private async Task UndoAsync(string expected) => Assert.Equal(expected, (await Editing.UndoAsync(_shop.Desk, _job, None)).Must());

    private async Task ChooseAsync(string runId, RunChoiceForm form, Actor? actor = null) =>
        (await Plans.EditChoiceAsync(actor ?? _shop.Desk, _job, runId, (await RunAsync(runId)).ChoiceVersion, form, None)).Must();

    private async Task<PlanRun> RunAsync(string runId) => Assert.Single((await ViewAsync()).Runs, run => run.Place.RunId == runId);

    private Task<ElectricalPlanView> ViewAsync() => Plans.GetAsync(_shop.Desk, _job, UnitText.Invariant, None);
}
