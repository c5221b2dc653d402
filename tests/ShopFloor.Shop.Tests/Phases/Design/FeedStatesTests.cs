using ShopFloor.Engineering.Electrical.Network;
using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Phases.Design;

namespace ShopFloor.Shop.Tests.Phases.Design;

public sealed class FeedStatesTests : IAsyncLifetime
{
    private static readonly CancellationToken None = CancellationToken.None;
    private readonly TestShop _shop = new();
    private Guid _job;

    public async Task InitializeAsync()
    {
        await _shop.InitializeAsync();
        _job = await _shop.OpenJobAsync();
    }

    public Task DisposeAsync() => _shop.DisposeAsync();

    [Fact]
    public async Task A_job_without_a_sized_run_has_nothing_to_solve()
    {
        Assert.Null(await _shop.Get<FeedStates>().GetAsync(_shop.Technician, _job, UnitText.Invariant, None));
    }

    [Fact]
    public async Task The_solved_drop_agrees_with_the_plan_and_every_watt_is_accounted_for()
    {
        await _shop.AddPartAsync(_job, PartBuilder.Of(PartKind.Accessory, "Heater", new AccessoryData { WorkingAmperes = 40 }));

        var (plan, view) = await ReadAsync();
        var full = view.States.Single(state => state.Scenario is { Engine: EngineState.Cruise, Level: LoadLevel.Full });
        var battery = full.Nodes.Single(node => node.NodeId == FeedSources.Battery).Volts!.Value;
        var load = full.Elements.Single(element => element.ElementId.StartsWith("load:", StringComparison.Ordinal));
        var planned = plan.Result!.Loads[0].RatedDrop!.TotalVolts;

        // Two fuses of 0.5 mΩ at 40 A come on top; the plan's conductors are taken a little warmer (root instead of square of the current).
        Assert.InRange(battery - load.TerminalVolts!.Value - (2 * 40 * 0.0005), planned * 0.9, planned);
        Assert.All(view.States, state => Assert.Equal(0, state.Balance!.MismatchWatts, 1e-6 * (1 + state.Balance.SourceWatts)));
        Assert.Equal(9, view.States.Count);
    }

    [Fact]
    public async Task Each_fuse_with_another_before_it_says_which_opens_first_by_the_bands_at_its_short_circuit()
    {
        await _shop.AddPartAsync(_job, PartBuilder.Of(PartKind.Accessory, "Clock", new AccessoryData { WorkingAmperes = 2 }));
        await _shop.AddPartAsync(_job, PartBuilder.Of(PartKind.Accessory, "Heater", new AccessoryData { WorkingAmperes = 60 }));

        var (plan, view) = await ReadAsync();

        var clock = view.Orders.Single(order => order.Own.Name == "Clock");
        Assert.Equal(2, view.Orders.Count);
        Assert.Equal("F1", clock.Before.Mark);
        Assert.True(clock.Result!.RestsOnMemory);
        var ratio = clock.Own.Amperes / clock.Own.RatingAmperes;
        // Blade of ISO 8820-3, from memory: above six times its rating it has opened after 0.1 s, and not before 0.02 s at six times, by I²t from there.
        Assert.True(ratio > 6);
        Assert.Equal(0.1, clock.Own.LatestSeconds!.Value, 9);
        Assert.Equal(0.02 * 36 / (ratio * ratio), clock.Own.EarliestSeconds!.Value, 9);
        Assert.Equal(clock.Own.LatestSeconds < clock.Before.EarliestSeconds, clock.OpensFirst);
        Assert.Equal(view.Faults!.Faults.Single(fault => fault.NodeId == clock.RunId).Fuses.Single(fuse => fuse.FuseId == FeedNetworkBuilder.FuseId(clock.RunId)).Amperes, clock.Own.Amperes);
        Assert.Equal(plan.Runs.Single(run => run.Place.RunId == clock.RunId).Sizing!.Fuse!.RatingAmperes, clock.Own.RatingAmperes);
    }

    [Fact]
    public async Task A_short_behind_each_fuse_is_cleared_and_one_before_the_main_fuse_is_not()
    {
        await _shop.AddPartAsync(_job, PartBuilder.Amplifier());
        // A tired battery: its short-circuit current stays within what a small bolt-in fuse interrupts.
        (await _shop.Get<ElectricalPlans>().EditSettingsAsync(_shop.Desk, _job, Guid.Empty, new ElectricalSettingsForm { BatteryMilliohms = 12 }, None)).Must();

        var (plan, view) = await ReadAsync();
        var behind = view.Faults!.Faults.Where(fault => plan.Runs.Any(run => run.Place.RunId == fault.NodeId)).ToList();

        Assert.Equal(2, behind.Count);
        Assert.All(behind, fault => Assert.True(fault.IsCleared, $"{fault.Name}: {fault.ProspectiveAmperes} A"));
        Assert.False(view.Faults.Faults.Single(fault => fault.NodeId == FeedSources.Battery).IsCleared);
        // Nearer the battery more current flows.
        Assert.True(behind[0].ProspectiveAmperes > behind[1].ProspectiveAmperes);
    }

    [Fact]
    public async Task A_fuse_form_not_remembered_to_interrupt_what_a_strong_battery_gives_is_warned_of()
    {
        await _shop.AddPartAsync(_job, PartBuilder.Amplifier());
        (await _shop.Get<ElectricalPlans>().EditSettingsAsync(_shop.Desk, _job, Guid.Empty, new ElectricalSettingsForm { BatteryMilliohms = 2 }, None)).Must();

        var (_, view) = await ReadAsync();

        var finding = view.Findings.Single(finding => finding.Code == "fuse-cannot-interrupt" && finding.SubjectId == FeedNetworkBuilder.FuseId(ElectricalPlanBuilder.MainRunId));
        Assert.Equal(Severity.Warn, finding.Severity);
        Assert.Contains("from memory", finding.Text, StringComparison.Ordinal);
        Assert.False(view.Faults!.Faults.Single(fault => fault.NodeId == ElectricalPlanBuilder.MainRunId).Fuses[0].IsWithinInterruptRating);
    }

    [Fact]
    public async Task Far_more_load_than_the_feed_can_carry_collapses_and_names_the_load()
    {
        await _shop.AddPartAsync(_job, PartBuilder.Amplifier(part => part.Data = new AmplifierData { Channels = 4, WattsAtFourOhms = 150, IdleAmperes = 1, FuseAmperes = 70 }));
        var (plan, view) = await ReadAsync();
        var absurd = view.Network with { Elements = [.. view.Network.Elements.Select(element => element is ConstantPowerLoad load ? load with { FullWatts = 60_000 } : element)] };

        var state = FeedStates.Solve(plan, absurd, UnitText.Invariant).States.Single(found => found.Scenario is { Engine: EngineState.Off, Level: LoadLevel.Full });

        Assert.False(state.IsSolved);
        Assert.Equal("Four-channel amplifier", state.Collapse!.LoadName);
        Assert.InRange(state.Collapse.LargestLoadFactor, 0.01, 0.99);
    }

    [Fact]
    public async Task A_second_battery_holds_up_what_hangs_on_it_with_the_engine_off()
    {
        var amplifier = await _shop.AddPartAsync(_job, PartBuilder.Amplifier());
        var alone = LowestAtFull((await ReadAsync()).View);
        var second = await _shop.AddPartAsync(_job, PartBuilder.Of(PartKind.Battery, "Second battery", new BatteryData { CapacityAmpereHours = 60, InternalMilliohms = 4 }, part => part.Zone = "spare-well"));
        (await _shop.Get<ElectricalPlans>().EditChoiceAsync(_shop.Desk, _job, amplifier.ToString(), Guid.Empty, new RunChoiceForm { From = second.ToString() }, None)).Must();

        var (plan, view) = await ReadAsync();

        Assert.Contains(view.Network.Elements, element => element is Battery && element.Id == $"battery:{second}");
        Assert.True(LowestAtFull(view) > alone);
        Assert.DoesNotContain(plan.Findings, finding => finding is { Code: "plan-input-refused" } or { Severity: Severity.Stop, Code: "run-data-missing" });
    }

    [Fact]
    public async Task Two_batteries_on_one_line_are_half_the_resistance_and_twice_the_capacity_in_network_and_peak()
    {
        var amplifier = await _shop.AddPartAsync(_job, PartBuilder.Amplifier());
        var second = await _shop.AddPartAsync(_job, PartBuilder.Of(PartKind.Battery, "Second battery", new BatteryData { CapacityAmpereHours = 60, InternalMilliohms = 4 }, part => (part.Quantity, part.Zone) = (2, "spare-well")));
        (await _shop.Get<ElectricalPlans>().EditChoiceAsync(_shop.Desk, _job, amplifier.ToString(), Guid.Empty, new RunChoiceForm { From = second.ToString() }, None)).Must();

        var battery = (await ReadAsync()).View.Network.Elements.OfType<Battery>().Single(element => element.Id == $"battery:{second}");
        var peak = (await _shop.Get<BudgetPlans>().GetAsync(_shop.Owner, _job, UnitText.Invariant, None)).Peak!;

        Assert.Equal((0.002, 120), (battery.InternalOhms, battery.CapacityAmpereHours));
        // Both at 12.65 V: the car's behind its cable, the pair behind 2 mΩ.
        var together = 1 / ((1 / peak.SourceOhms) + (1 / 0.002));
        Assert.Equal((12.65 + Math.Sqrt((12.65 * 12.65) - (4 * together * peak.BurstWatts))) / 2, peak.Helped!.EndVolts!.Value, 6);
    }

    private static double LowestAtFull(FeedStatesView view) => view.States
        .Single(state => state.Scenario is { Engine: EngineState.Off, Level: LoadLevel.Full }).Elements
        .Where(element => element.ElementId.StartsWith("load:", StringComparison.Ordinal)).Min(element => element.TerminalVolts!.Value);

    private async Task<(ElectricalPlanView Plan, FeedStatesView View)> ReadAsync()
    {
        var plan = await _shop.Get<ElectricalPlans>().GetAsync(_shop.Technician, _job, UnitText.Invariant, None);
        var view = await _shop.Get<FeedStates>().GetAsync(_shop.Technician, _job, UnitText.Invariant, None);
        return (plan, view ?? throw new InvalidOperationException("The job has sized runs."));
    }
}
