using ShopFloor.Engineering.Electrical.Budget;
using ShopFloor.Engineering.Electrical.Network;
using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Phases.Design;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Vehicles;

namespace ShopFloor.Shop.Tests.Phases.Design;

public sealed class BudgetPlansTests : IAsyncLifetime
{
    private static readonly CancellationToken None = CancellationToken.None;
    private readonly TestShop _shop = new();
    private Guid _job;

    private BudgetPlans Budgets => _shop.Get<BudgetPlans>();

    public async Task InitializeAsync()
    {
        await _shop.InitializeAsync();
        _job = await _shop.OpenJobAsync(job =>
        {
            job.NewVehicle!.AlternatorAmperes = 120; // SomeJob has a new vehicle
            job.NewVehicle.BatteryAmpereHours = 60;
        });
    }

    public Task DisposeAsync() => _shop.DisposeAsync();

    [Fact]
    public async Task The_alternator_carries_what_the_parts_list_and_the_car_take_together()
    {
        await _shop.AddPartAsync(_job, PartBuilder.Of(PartKind.Accessory, "Heater", new AccessoryData { WorkingAmperes = 20 }, part => part.Quantity = 2));
        await SaveAsync(new BudgetSettingsForm { AlternatorStamp = "60/120 A 13.5 V", PulleyRatio = 2, IdleRpm = 750, CruiseRpm = 3000 });

        var view = await ViewAsync();

        // SAE J56: 60 A at 1500 1/min = 750 · 2 and 120 A at 6000 1/min = 3000 · 2, times 0.85 hot. 35 A for the car and 2 · 20 A added.
        Assert.Equal(0.85 * 60 - 75, view.Alternator!.Idle.SurplusAmperes, 9);
        Assert.Equal(0.85 * 120 - 75, view.Alternator.Cruise.SurplusAmperes, 9);
        Assert.Contains(view.Findings, finding => finding is { Code: "alternator-deficit-idle", Severity: Severity.Note });
    }

    [Fact]
    public async Task A_load_on_a_circuit_of_the_car_counts_for_the_alternator_all_the_same()
    {
        var part = await _shop.AddPartAsync(_job, PartBuilder.Of(PartKind.Accessory, "Camera", new AccessoryData { WorkingAmperes = 3 }));
        (await _shop.Get<ElectricalPlans>().EditChoiceAsync(_shop.Desk, _job, part.ToString(), Guid.Empty, new RunChoiceForm { From = FeedSources.VehicleCircuit }, None)).Must();

        Assert.Equal(3, (await ViewAsync()).Alternator!.AddedMusicAmperes, 9);
    }

    [Theory]
    [InlineData("60/120 A 13.5 V")] // SAE J56: 60 A at 1500 1/min of the shaft, 120 A at 6000
    [InlineData(null)] // the job card's 120 A alone
    public async Task Budget_plan_and_network_take_the_alternator_from_one_place(string? stamp)
    {
        await _shop.AddPartAsync(_job, PartBuilder.Of(PartKind.Accessory, "Heater", new AccessoryData { WorkingAmperes = 20 }));
        await SaveAsync(new BudgetSettingsForm { AlternatorStamp = stamp, PulleyRatio = 2.2, IdleRpm = 800, CruiseRpm = 2600 });

        var budget = (await ViewAsync()).Alternator!;
        var plan = (await _shop.Get<ElectricalPlans>().GetAsync(_shop.Technician, _job, UnitText.Invariant, None)).Result!.Alternator!;
        var feed = (await _shop.Get<FeedStates>().GetAsync(_shop.Technician, _job, UnitText.Invariant, None))!;
        var alternator = feed.Network.Elements.OfType<Alternator>().Single();
        double Network(EngineState engine) => alternator.LimitAmperes(feed.States.First(state => state.Scenario.Engine == engine).Scenario.EngineRpm * alternator.PulleyRatio);

        // By hand: 0.85 · (60 + 60 · (1760 − 1500) / 4500) with the label, 0.4 · 120 without.
        Assert.Equal(stamp is null ? 48 : 0.85 * (60 + (60 * 260 / 4500.0)), budget.Idle.AvailableAmperes, 9);
        Assert.Equal((budget.Idle.AvailableAmperes, budget.Cruise.AvailableAmperes), (plan.AvailableAtIdleAmperes, plan.AvailableAtCruiseAmperes));
        Assert.Equal(budget.Idle.AvailableAmperes, Network(EngineState.Idle), 9);
        Assert.Equal(budget.Cruise.AvailableAmperes, Network(EngineState.Cruise), 9);
        Assert.Equal(budget.Idle.SurplusAmperes, plan.SurplusAtIdleAmperes, 9);
    }

    [Theory]
    [InlineData("60/120 A 13.5 V", false)]
    [InlineData("70/140 A 13.5 V", true)] // the job card says 120 A
    public async Task A_label_that_disagrees_with_the_job_card_is_said_on_plan_and_budget(string stamp, bool said)
    {
        await _shop.AddPartAsync(_job, PartBuilder.Of(PartKind.Accessory, "Heater", new AccessoryData { WorkingAmperes = 20 }));
        await SaveAsync(new BudgetSettingsForm { AlternatorStamp = stamp });

        var plan = await _shop.Get<ElectricalPlans>().GetAsync(_shop.Technician, _job, UnitText.Invariant, None);

        Assert.Equal(said ? 1 : 0, (await ViewAsync()).Findings.Count(finding => finding.Code == "alternator-rating-differs"));
        Assert.Equal(said ? 1 : 0, plan.Findings.Count(finding => finding.Code == "alternator-rating-differs"));
        Assert.Equal(said ? 140 : 120, plan.Input!.Alternator!.RatedAmperes);
    }

    [Fact]
    public async Task Without_an_alternator_or_a_battery_the_budget_says_what_to_enter()
    {
        var bare = await _shop.OpenJobAsync(job => job.NewVehicle!.Plate = "ZZ 1"); // SomeJob has a new vehicle
        await _shop.AddPartAsync(bare, PartBuilder.Amplifier());

        var view = await Budgets.GetAsync(_shop.Technician, bare, UnitText.Invariant, None);

        Assert.Null(view.Alternator);
        Assert.Null(view.Drain!.DaysToNoStart);
        Assert.Contains(view.Findings, finding => finding.Code == "alternator-not-known");
        Assert.Contains(view.Findings, finding => finding.Code == "battery-not-known");
        Assert.All(view.Findings, finding => Assert.False(string.IsNullOrWhiteSpace(finding.Remedy)));
    }

    [Fact]
    public async Task Battery_time_is_peukerts_hour_rate_form()
    {
        await SaveAsync(new BudgetSettingsForm { EndPercent = 50 });
        await _shop.AddPartAsync(_job, PartBuilder.Of(PartKind.Accessory, "Heater", new AccessoryData { WorkingAmperes = 10 }));

        var row = Assert.Single((await ViewAsync()).Batteries);

        // 10 A and 5 A of the listening car: t = 20 · (60 / (15 · 20))^1.25 · 0.5, by hand 1.3375 h.
        Assert.Equal(15, row.MusicAmperes, 9);
        Assert.Equal(20 * Math.Pow(0.2, 1.25) * 0.5, row.Music!.Hours, 9);
        Assert.Equal(1.3375, row.Music.Hours, 4);
    }

    [Fact]
    public async Task What_hangs_on_a_second_battery_is_taken_from_that_one_alone()
    {
        var battery = await _shop.AddPartAsync(_job, PartBuilder.Of(PartKind.Battery, "Reserve", new BatteryData { CapacityAmpereHours = 100, Chemistry = "AGM lead-acid" }));
        var heater = await _shop.AddPartAsync(_job, PartBuilder.Of(PartKind.Accessory, "Heater", new AccessoryData { WorkingAmperes = 5 }));
        (await _shop.Get<ElectricalPlans>().EditChoiceAsync(_shop.Desk, _job, heater.ToString(), Guid.Empty, new RunChoiceForm { From = battery.ToString() }, None)).Must();

        var rows = (await ViewAsync()).Batteries;

        Assert.Empty(rows[0].Feeds);
        Assert.Equal(("Reserve", 5.0), (rows[1].Name, rows[1].MusicAmperes));
        // 100 Ah at the 20-hour rate and 5 A last 20 h whatever the exponent; half of it to 50 %.
        Assert.Equal(10, rows[1].Music!.Hours, 9);
        Assert.Equal(1.10, rows[1].Music!.PeukertExponent);
    }

    [Fact]
    public async Task Every_part_that_can_draw_asleep_is_a_row_and_an_unknown_one_is_never_zero()
    {
        await _shop.AddPartAsync(_job, PartBuilder.Amplifier(part => ((AmplifierData)part.Data).OffMilliamperes = null));
        await _shop.AddPartAsync(_job, PartBuilder.Of(PartKind.Processor, "Processor", new ProcessorData { WorkingAmperes = 1, OffMilliamperes = 3 }));
        await _shop.AddPartAsync(_job, PartBuilder.Of(PartKind.Accessory, "Recorder", new AccessoryData { WorkingAmperes = 1, OffMilliamperes = 0, ParkedMilliamperes = 27 }));
        await _shop.AddPartAsync(_job, PartBuilder.Of(PartKind.Accessory, "Trim ring", new AccessoryData { WorkingAmperes = 0 }));
        await SaveAsync(new BudgetSettingsForm { VehicleSleepMilliamperes = 20, MakersLimitMilliamperes = 40, ParkedDays = 30 });

        var view = await ViewAsync();

        Assert.Equal(["Recorder", "The car itself, asleep", "Processor", "Four-channel amplifier"], view.DrainRows.Select(row => row.Name));
        Assert.Null(view.DrainRows[3].Milliamperes);
        Assert.Equal(0.05, view.Drain!.KnownAmperes, 9);
        Assert.False(view.Drain.IsComplete);
        // 40 % of 60 Ah may go before the car may not start: 24 Ah / (24 h · 0.05 A) = 20 d.
        Assert.Equal(20, view.Drain.DaysToNoStart!.Value, 9);
        Assert.Contains(view.Findings, finding => finding.Code == "standby-current-missing" && finding.Subject == "Four-channel amplifier");
        Assert.Contains(view.Findings, finding => finding.Code == "key-off-drain-above-limit");
    }

    [Fact]
    public async Task A_capacitor_lifts_the_voltage_of_a_peak_and_carries_no_steady_current()
    {
        await _shop.AddPartAsync(_job, PartBuilder.Amplifier());
        var before = await ViewAsync();
        var stateBefore = await LowestAsync();
        await _shop.AddPartAsync(_job, PartBuilder.Of(PartKind.Capacitor, "Capacitor", new CapacitorData { Farads = 5, SeriesMilliohms = 2, RatedVolts = 20 }, part => part.Zone = VehicleZones.BootFloorLeft));

        var after = await ViewAsync();

        Assert.Null(before.Peak!.Helped);
        Assert.Equal(before.Peak.Alone.EndVolts, after.Peak!.Alone.EndVolts);
        Assert.True(after.Peak.Helped!.EndVolts > after.Peak.Alone.EndVolts, $"{after.Peak.Helped.EndVolts} V with, {after.Peak.Alone.EndVolts} V without");
        // The supply alone: v = (V0 + √(V0² − 4 · R · P)) / 2.
        var (volts, ohms, watts) = (after.Peak.SourceVolts, after.Peak.SourceOhms, after.Peak.BurstWatts);
        Assert.Equal((volts + Math.Sqrt((volts * volts) - (4 * ohms * watts))) / 2, after.Peak.Alone.EndVolts!.Value, 9);
        Assert.Equal(stateBefore, await LowestAsync(), 9);
        var network = (await _shop.Get<FeedStates>().GetAsync(_shop.Owner, _job, UnitText.Invariant, None))!.Network;
        Assert.Equal(5, Assert.Single(network.Elements.OfType<FeedCapacitor>()).Farads);
    }

    [Fact]
    public async Task A_second_battery_the_amplifier_hangs_on_helps_right_there_and_the_thin_cable_to_it_is_what_is_left_without()
    {
        var battery = await _shop.AddPartAsync(_job, PartBuilder.Of(PartKind.Battery, "Reserve", new BatteryData { CapacityAmpereHours = 60, Chemistry = "AGM", InternalMilliohms = 5 }, part => part.Zone = VehicleZones.BootFloorLeft));
        var amplifier = await _shop.AddPartAsync(_job, PartBuilder.Amplifier());
        (await _shop.Get<ElectricalPlans>().EditChoiceAsync(_shop.Desk, _job, amplifier.ToString(), Guid.Empty, new RunChoiceForm { From = battery.ToString() }, None)).Must();

        var peak = (await ViewAsync()).Peak!;
        var plan = await _shop.Get<ElectricalPlans>().GetAsync(_shop.Owner, _job, UnitText.Invariant, None);
        var cable = plan.Runs.Single(run => run.Place.PartId == battery).Sizing!.RatedDrop;

        // 6 mΩ of the car's battery, 0.5 mΩ of a fuse holder and the cable between the batteries.
        Assert.Equal(0.006 + 0.0005 + cable.ConductorOhms + cable.BodyOhms, peak.SourceOhms, 9);
        // 12.65 V of the car's battery and 12.8 V of an AGM one behind 5 mΩ, side by side: one source by Millman.
        var together = 1 / ((1 / peak.SourceOhms) + (1 / 0.005));
        var volts = together * ((12.65 / peak.SourceOhms) + (12.8 / 0.005));
        Assert.Equal((volts + Math.Sqrt((volts * volts) - (4 * together * peak.BurstWatts))) / 2, peak.Helped!.EndVolts!.Value, 6);
    }

    [Fact]
    public async Task A_capacitor_below_the_supplys_voltage_is_a_stop_and_one_without_data_is_left_out()
    {
        await _shop.AddPartAsync(_job, PartBuilder.Amplifier());
        await _shop.AddPartAsync(_job, PartBuilder.Of(PartKind.Capacitor, "Unknown", new CapacitorData { Farads = 1 }));
        Assert.Null((await ViewAsync()).Peak!.Helped);
        await _shop.AddPartAsync(_job, PartBuilder.Of(PartKind.Capacitor, "Too low", new CapacitorData { Farads = 1, SeriesMilliohms = 2, RatedVolts = 12 }));

        var view = await ViewAsync();

        Assert.Contains(view.Findings, finding => finding is { Code: "capacitor-overvoltage", Severity: Severity.Stop });
        Assert.Contains(view.Findings, finding => finding is { Code: "capacitor-data-missing", Subject: "Unknown" });
    }

    [Fact]
    public async Task The_box_around_an_amplifier_gives_its_rise_and_without_one_the_air_alone_is_told()
    {
        await _shop.AddPartAsync(_job, PartBuilder.Amplifier());
        var open = Assert.Single((await ViewAsync()).Compartments);
        Assert.Null(open.Result);
        // P / (ρ · c_p · 15 K) an hour; dry air at 50 °C and sea level: ρ = 1.092 kg/m³, c_p = 1.007 kJ/(kg·K), handbook tables of air.
        var air = 3600 * open.MusicWatts / (1.092 * 1007 * 15);
        Assert.InRange(open.AirAloneCubicMetersPerHour, 0.995 * air, 1.005 * air);

        await SaveAsync(new BudgetSettingsForm { Compartments = [new CompartmentForm { Zone = VehicleZones.BootFloorRight, LengthMeters = 1, WidthMeters = 0.5, HeightMeters = 0.2, Wall = WallBuild.BareSteel.Name }] });
        var boxed = Assert.Single((await ViewAsync()).Compartments);

        // Six sides: 2 · (0.5 + 0.2 + 0.1) = 1.6 m². ISO 6946: two still-air films of 0.13 m²·K/W, and steel that adds 0.000016.
        Assert.Equal(boxed.MusicWatts / (1.6 / (0.26 + 0.0008 / 50)), boxed.Result!.Music.SteadyRiseKelvin, 6);
    }

    [Fact]
    public async Task Settings_are_kept_and_the_second_editor_is_warned()
    {
        await SaveAsync(new BudgetSettingsForm { EndPercent = 40 });

        var outcome = await Budgets.EditSettingsAsync(_shop.Owner, _job, Guid.Empty, new BudgetSettingsForm { EndPercent = 70 }, None);

        var difference = Assert.Single(outcome.Conflict!.Differences);
        Assert.Equal(("70", "40"), (difference.Mine, difference.Theirs));
    }

    [Fact]
    public async Task A_refused_setting_names_field_value_and_range_and_a_technician_may_only_look()
    {
        var outcome = await Budgets.EditSettingsAsync(_shop.Desk, _job, Guid.Empty, new BudgetSettingsForm { AlternatorStamp = "big", EndPercent = 120 }, None);

        Assert.Equal([nameof(BudgetSettingsForm.AlternatorStamp), nameof(BudgetSettingsForm.EndPercent)], outcome.Problems.Select(problem => problem.Field));
        Assert.Contains("120", outcome.Problems[1].Message, StringComparison.Ordinal);
        Assert.Contains("0 to 99", outcome.Problems[1].Message, StringComparison.Ordinal);
        await Assert.ThrowsAsync<NotAllowedException>(() => Budgets.EditSettingsAsync(_shop.Technician, _job, Guid.Empty, new BudgetSettingsForm(), None));
        Assert.NotNull(await Budgets.GetAsync(_shop.Technician, _job, UnitText.Invariant, None));
    }

    private Task<BudgetView> ViewAsync() => Budgets.GetAsync(_shop.Owner, _job, UnitText.Invariant, None);

    private async Task SaveAsync(BudgetSettingsForm form) => (await Budgets.EditSettingsAsync(_shop.Desk, _job, Guid.Empty, form, None)).Must();

    private async Task<double> LowestAsync() => (await _shop.Get<FeedStates>().GetAsync(_shop.Owner, _job, UnitText.Invariant, None))!.States
        .Single(state => state.Scenario is { Engine: EngineState.Cruise, Level: LoadLevel.Full }).Elements.Where(element => element.TerminalVolts is not null).Min(element => element.TerminalVolts!.Value); // filtered
}
