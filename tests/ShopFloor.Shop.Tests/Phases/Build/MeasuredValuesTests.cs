using Microsoft.EntityFrameworkCore;
using ShopFloor.Engineering.Electrical.Budget;
using ShopFloor.Engineering.Electrical.Commissioning;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Phases.Build;
using ShopFloor.Shop.Phases.Design;
using ShopFloor.Shop.Phases.Handover;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Vehicles;

namespace ShopFloor.Shop.Tests.Phases.Build;

public sealed class MeasuredValuesTests : IAsyncLifetime
{
    private const string Reason = "The owner has looked at it with the bench.";
    private static readonly CancellationToken None = CancellationToken.None;
    private readonly TestShop _shop = new();
    private Guid _job;

    private MeasuredValues Measured => _shop.Get<MeasuredValues>();

    public async Task InitializeAsync()
    {
        await _shop.InitializeAsync();
        _job = await _shop.OpenJobAsync();
    }

    public Task DisposeAsync() => _shop.DisposeAsync();

    [Fact]
    public async Task A_job_without_a_load_has_nothing_to_measure_and_nothing_held()
    {
        var sheet = await SheetAsync();

        Assert.Empty(sheet.Rows);
        Assert.True(sheet.MayFinish);
    }

    [Fact]
    public async Task What_is_measured_comes_from_the_parts_list_and_the_network_and_nothing_is_typed()
    {
        var heater = await HeaterAsync(charging: true);
        await _shop.AddPartAsync(_job, PartBuilder.Of(PartKind.Battery, "Second battery", new BatteryData { CapacityAmpereHours = 60, Chemistry = "Lithium iron phosphate" }));

        var rows = (await SheetAsync()).Rows;

        Assert.Equal(["rest:car", "charging", $"load:{heater}", "key-off-drain"], rows.Select(row => row.Point.Id).Where(id => !id.StartsWith("rest:", StringComparison.Ordinal) || id == "rest:car"));
        // A rested lithium iron phosphate battery stands above any lead-acid one: from memory.
        Assert.Equal(13.0, Assert.Single(rows, row => row.Point.Name.StartsWith("Second battery", StringComparison.Ordinal)).Point.Lowest);
        var view = await _shop.Get<FeedStates>().GetAsync(_shop.Technician, _job, UnitText.Invariant, None);
        var solved = view!.States.Single(state => state.Scenario is { Engine: Engineering.Electrical.Network.EngineState.Idle, Level: Engineering.Electrical.Network.LoadLevel.Music });
        Assert.Equal(solved.Elements.Single(element => element.ElementId == $"load:{heater}").TerminalVolts, Row(rows, $"load:{heater}").Point.Predicted);
        Assert.NotEmpty(Row(rows, $"load:{heater}").Point.Explanation.Inputs);
    }

    [Fact]
    public async Task The_key_off_current_is_measured_with_what_watches_the_car_switched_off_and_says_what_that_is()
    {
        await HeaterAsync();
        Assert.DoesNotContain("watches", Row((await SheetAsync()).Rows, "key-off-drain").Point.How, StringComparison.Ordinal);
        await _shop.AddPartAsync(_job, PartBuilder.Of(PartKind.Accessory, "Recorder", new AccessoryData { WorkingAmperes = 0.4, OffMilliamperes = 3, ParkedMilliamperes = 180 }));
        await _shop.AddPartAsync(_job, PartBuilder.Of(PartKind.Accessory, "Old recorder", new AccessoryData { WorkingAmperes = 0.4, ParkedMilliamperes = 90 }, part => part.Direction = PartDirection.Removed));

        var point = Row((await SheetAsync()).Rows, "key-off-drain").Point;
        var parked = await _shop.Get<BudgetPlans>().GetAsync(_shop.Technician, _job, UnitText.Invariant, None);

        // The heater's 2 mA and the recorder's 3 mA when off, as entered; watching it takes 180 mA and counts in the budget of the parked car.
        Assert.Equal(5, point.Predicted!.Value, 9);
        Assert.EndsWith("what watches the parked car: Recorder", point.How, StringComparison.Ordinal);
        Assert.Equal(180, parked.DrainRows.Single(row => row.Name == "Recorder").Milliamperes);
    }

    [Fact]
    public async Task The_cars_battery_rests_as_its_kind_in_the_budget_does()
    {
        await HeaterAsync();
        var unknown = Row((await SheetAsync()).Rows, "rest:car").Point;
        (await _shop.Get<BudgetPlans>().EditSettingsAsync(_shop.Desk, _job, Guid.Empty, new BudgetSettingsForm { BatteryKind = BatteryChemistry.GlassMat }, None)).Must();

        var rest = Row((await SheetAsync()).Rows, "rest:car").Point;

        Assert.Contains("flooded", Assert.Single(unknown.Explanation.Inputs).Origin, StringComparison.Ordinal);
        Assert.DoesNotContain("flooded", Assert.Single(rest.Explanation.Inputs).Origin, StringComparison.Ordinal);
        // A rested AGM battery between half and full charge: from memory.
        Assert.Equal((12.3, 13.2), (rest.Lowest, rest.Highest));
    }

    [Fact]
    public async Task A_load_may_lose_the_plans_drop_from_what_was_measured_at_the_battery()
    {
        var heater = await HeaterAsync();
        var plan = await _shop.Get<ElectricalPlans>().GetAsync(_shop.Technician, _job, UnitText.Invariant, None);

        await EnterAsync("charging", 14.2);

        // 3 % of 13.8 V is 0.414 V: 14.2 − 0.414 = 13.786, to a tenth below.
        Assert.Equal(0.414, plan.Result!.MaxDropVolts, 1e-9);
        Assert.Equal(13.7, Row((await SheetAsync()).Rows, $"load:{heater}").Point.Lowest);
    }

    [Theory]
    [InlineData(12.1, MeasuredVerdict.Outside, -0.1)]
    [InlineData(12.2, MeasuredVerdict.Within, 0)]
    [InlineData(13.0, MeasuredVerdict.Within, 0)]
    [InlineData(13.4, MeasuredVerdict.Outside, 0.4)]
    public async Task A_value_is_judged_at_once_and_kept_with_time_and_name_also_outside_its_limits(double volts, MeasuredVerdict verdict, double outside)
    {
        await HeaterAsync();

        (await EnterAsync("rest:car", volts)).Must();

        var row = Row((await SheetAsync()).Rows, "rest:car");
        Assert.Equal(verdict, row.Verdict);
        Assert.Equal(outside, row.Outside!.Value, 1e-9);
        Assert.Equal((volts, _shop.Technician.Name, _shop.Time.GetUtcNow()), (row.Current!.Value, row.Current.By, row.Current.At));
    }

    [Fact]
    public async Task Repeats_are_kept_and_one_taken_back_gives_way_to_the_one_before()
    {
        await HeaterAsync();
        await EnterAsync("rest:car", 12.0);
        _shop.Time.Advance(TimeSpan.FromMinutes(5));
        await EnterAsync("rest:car", 12.6);
        var second = Row((await SheetAsync()).Rows, "rest:car").Current!;

        (await Measured.UndoAsync(_shop.Technician, Guid.CreateVersion7(), second.Id, None)).Must();

        var row = Row((await SheetAsync()).Rows, "rest:car");
        Assert.Equal(12.0, row.Current!.Value);
        Assert.Equal([12.6, 12.0], row.Entries.Select(entry => entry.Value));
        Assert.Equal(_shop.Technician.Name, row.Entries[0].WithdrawnBy);
    }

    [Fact]
    public async Task A_command_that_comes_twice_counts_once_and_keeps_the_time_of_the_press()
    {
        await HeaterAsync();
        var command = Guid.CreateVersion7();
        var pressed = _shop.Time.GetUtcNow().AddHours(-1);

        for (var sent = 0; sent < 2; sent++)
        {
            (await Measured.EnterAsync(_shop.Technician, command, new EnterMeasured(_job, "rest:car", 12.6), pressed, None)).Must();
        }

        Assert.Equal(pressed, Assert.Single(Row((await SheetAsync()).Rows, "rest:car").Entries).At);
    }

    [Theory]
    [InlineData(-1d, "-1 V")]
    [InlineData(126d, "126 V")]
    [InlineData(double.NaN, "NaN V")]
    [InlineData(null, "nothing")]
    public async Task What_no_meter_shows_is_refused_by_name_value_and_range(double? typed, string named)
    {
        await HeaterAsync();

        var outcome = await EnterAsync("rest:car", typed);

        var problem = Assert.Single(outcome.Problems);
        Assert.Equal("Value", problem.Field);
        Assert.Contains(named, problem.Message, StringComparison.Ordinal);
        Assert.Contains("0 to 60 V", problem.Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_value_keeps_what_was_predicted_then_and_is_judged_by_the_plan_of_today()
    {
        var heater = await HeaterAsync(charging: true);
        var before = Row((await SheetAsync()).Rows, $"load:{heater}").Point;
        await EnterAsync($"load:{heater}", 13.2);
        Assert.False(Row((await SheetAsync()).Rows, $"load:{heater}").PredictionMoved);

        (await _shop.Get<ElectricalPlans>().EditSettingsAsync(_shop.Desk, _job, Guid.Empty, new ElectricalSettingsForm { SupplyVolts = 14.4, MaxDropPercent = 1 }, None)).Must();

        var row = Row((await SheetAsync()).Rows, $"load:{heater}");
        Assert.Equal(before.Predicted, row.Current!.Predicted);
        Assert.True(row.PredictionMoved);
        // 13.5 V, the least that charges, less 1 % of 14.4 V, to a tenth below: 13.3 V. 13.2 V was good and is not any more.
        Assert.Equal((13.3, MeasuredVerdict.Outside), (row.Point.Lowest, row.Verdict));
    }

    [Fact]
    public async Task Commissioning_is_held_by_missing_and_bad_values_only_at_its_last_tick()
    {
        await HeaterAsync(charging: true);
        var steps = await CommissioningAsync();
        await ReleaseDesignAsync();

        (await TickAsync(steps[0])).Must();
        var refused = await TickAsync(steps[1]);
        Assert.Contains("Commissioning cannot be finished", refused.Message, StringComparison.Ordinal);
        Assert.Contains("Not measured", refused.Message, StringComparison.Ordinal);
        Assert.Contains("the owner signs them off", refused.Message, StringComparison.Ordinal);
        Assert.False((await _shop.SheetAsync(_job)).Stages.Single(stage => stage.IsCommissioning).IsDone);

        await MeasureAllAsync(bad: "rest:car");
        Assert.Contains("below what is accepted", (await TickAsync(steps[1])).Message, StringComparison.Ordinal);

        var bad = Assert.Single((await SheetAsync()).Values);
        (await Measured.SignOffAsync(_shop.Owner, _job, bad.Finding.Code, [new ReadFinding(bad.Finding.SubjectId, bad.Finding.Text)], Reason, None)).Must();
        (await TickAsync(steps[1])).Must();
        Assert.True((await _shop.SheetAsync(_job)).Stages.Single(stage => stage.IsCommissioning).IsDone);

        // Measured again, the old signature does not cover the new value.
        await EnterAsync("rest:car", 11.9);
        Assert.True(Assert.Single((await SheetAsync()).Values).Stands);
    }

    [Fact]
    public async Task A_stop_of_the_plan_holds_the_start_of_commissioning_and_of_nothing_else()
    {
        await _shop.AddPartAsync(_job, PartBuilder.Amplifier(part => part.Zone = "")); // No place: its run cannot be sized.
        await _shop.PlanAsync(_job, StageBuilder.Stage("Cabling", StageBuilder.Step()), StageBuilder.Stage("Switching on", StageBuilder.Step("Branch by branch")) with { IsCommissioning = true });
        var stages = (await _shop.SheetAsync(_job)).Stages;
        var clock = _shop.Get<TimeClock>();

        (await clock.StartAsync(_shop.Technician, Guid.CreateVersion7(), stages[0].Id, null, None)).Must();
        var start = await clock.StartAsync(_shop.Technician, Guid.CreateVersion7(), stages[1].Id, null, None);
        var tick = await TickAsync(stages[1].Steps[0].Id);

        Assert.Contains("Switching on is held: Four-channel amplifier", start.Message, StringComparison.Ordinal);
        Assert.Contains("the owner signs them off", start.Message, StringComparison.Ordinal);
        Assert.False(tick.Succeeded);
        (await TickAsync(stages[0].Steps[0].Id)).Must();
        await Assert.ThrowsAsync<NotAllowedException>(() => Measured.SignOffAsync(_shop.Technician, _job, "load-data-missing", [new ReadFinding("x", "y")], Reason, None));

        await ReleaseDesignAsync();
        (await clock.StartAsync(_shop.Technician, Guid.CreateVersion7(), stages[1].Id, null, None)).Must();
    }

    [Fact]
    public async Task One_signature_holds_before_both_gates_and_the_delivery_gate_lists_each_finding_once()
    {
        await HeaterAsync(charging: true);
        await ReleaseDesignAsync();
        var missing = (await SheetAsync()).Values;

        var report = await _shop.Get<DeliveryGate>().ReportAsync(_shop.Owner, _job, None);

        Assert.All(missing, gated => Assert.Contains(report.Standing, found => found.Finding == gated.Finding));
        Assert.Equal(report.Findings.Count, report.Findings.DistinctBy(gated => (gated.Finding.Code, gated.Finding.SubjectId)).Count());
        var first = missing[0].Finding;
        (await _shop.Get<DeliveryGate>().SignOffAsync(_shop.Owner, _job, first.Code, first.SubjectId, first.Text, Reason, None)).Must();
        Assert.False((await SheetAsync()).Values.Single(gated => gated.Finding.SubjectId == first.SubjectId).Stands);
    }

    [Fact]
    public async Task A_delivered_job_takes_no_more_values_and_the_trail_names_each()
    {
        await HeaterAsync();
        await EnterAsync("rest:car", 12.6);
        await _shop.SaveAsync(db => db.Jobs.Single().Deliver(_shop.Time.GetUtcNow()));

        var outcome = await EnterAsync("rest:car", 12.7);

        Assert.Contains("delivered", outcome.Message, StringComparison.Ordinal);
        Assert.Contains(await _shop.ReadAsync(db => db.AuditEntries.ToListAsync()), entry => entry.SubjectName == "The car's battery: voltage at rest");
    }

    [Theory]
    [InlineData(Drivetrain.Electric, true)]
    [InlineData(Drivetrain.PlugInHybrid, true)]
    [InlineData(Drivetrain.Petrol, false)]
    public async Task A_high_voltage_vehicle_gets_a_step_two_people_answer_for_from_any_template(Drivetrain drive, bool expected)
    {
        await _shop.SaveAsync(db =>
        {
            var vehicle = db.Vehicles.Single();
            var details = VehicleDetails.Of(vehicle);
            details.DriveType = drive;
            vehicle.Apply(details);
        });

        await _shop.PlanAsync(_job, StageBuilder.Stage("Teardown", StageBuilder.Step("Panels off")));
        var own = (await _shop.SheetAsync(_job)).Stages[0].Steps;
        var usual = UsualStages.Stages.SelectMany(stage => stage.For(drive.IsHighVoltage()).Steps).ToList();

        Assert.Equal(expected, own.Any(step => step is { Required: true, NeedsSecondPerson: true } && step.Text.Contains("service disconnect", StringComparison.Ordinal)));
        Assert.Equal(expected ? 1 : 0, usual.Count(step => step.HighVoltageOnly));
    }

    private Task<MeasuredSheet> SheetAsync() => Measured.SheetAsync(_shop.Technician, _job, UnitText.Invariant, None);

    private Task<Outcome<Done>> EnterAsync(string point, double? value) =>
        Measured.EnterAsync(_shop.Technician, Guid.CreateVersion7(), new EnterMeasured(_job, point, value), null, None);

    private Task<Outcome<Done>> TickAsync(Guid step) => _shop.Get<StageWork>().TickAsync(_shop.Technician, Guid.CreateVersion7(), new TickStep(step), null, None);

    private static MeasuredRow Row(IReadOnlyList<MeasuredRow> rows, string point) => rows.Single(row => row.Point.Id == point);

    private async Task<Guid> HeaterAsync(bool charging = false)
    {
        if (charging)
        {
            await _shop.SaveAsync(db =>
            {
                var vehicle = db.Vehicles.Single();
                var details = VehicleDetails.Of(vehicle);
                details.AlternatorAmperes = 180;
                vehicle.Apply(details);
            });
        }

        return await _shop.AddPartAsync(_job, PartBuilder.Of(PartKind.Accessory, "Heater", new AccessoryData { WorkingAmperes = 20, OffMilliamperes = 2 }));
    }

    private async Task<IReadOnlyList<Guid>> CommissioningAsync()
    {
        await _shop.PlanAsync(_job, StageBuilder.Stage("Commissioning", StageBuilder.Step("Main fuse in"), StageBuilder.Step("Branch by branch")) with { IsCommissioning = true });
        return [.. (await _shop.SheetAsync(_job)).Stages.Single(stage => stage.IsCommissioning).Steps.Select(step => step.Id)];
    }

    private async Task ReleaseDesignAsync()
    {
        foreach (var gated in (await SheetAsync()).Design.Where(gated => gated.Stands))
        {
            (await Measured.SignOffAsync(_shop.Owner, _job, gated.Finding.Code, [new ReadFinding(gated.Finding.SubjectId, gated.Finding.Text)], Reason, None)).Must();
        }
    }

    private async Task MeasureAllAsync(string bad)
    {
        foreach (var row in (await SheetAsync()).Rows)
        {
            var good = row.Point.Kind == CommissioningKind.KeyOffDrain ? 20 : row.Point.Kind == CommissioningKind.RestVoltage ? 12.6 : 13.7;
            (await EnterAsync(row.Point.Id, row.Point.Id == bad ? 11.8 : good)).Must();
        }
    }
}
