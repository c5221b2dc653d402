using ShopFloor.Engineering.Electrical.Budget;
using ShopFloor.Engineering.Electrical.Commissioning;
using ShopFloor.Engineering.Electrical.Network;
using ShopFloor.Engineering.Safety;

namespace ShopFloor.Engineering.Tests.Electrical;

public sealed class CommissioningPointsTests
{
    // A regulator of 13.8 V and 2 mΩ, 20 A through 10 mΩ there and back: 13.8 − 0.04 = 13.76 V at the posts and 13.56 V at the load, by Ohm's law.
    private const double PostsVolts = 13.76;
    private const double LoadVolts = 13.56;

    [Fact]
    public void A_load_is_predicted_by_the_network_and_may_lose_the_plans_drop_from_the_lowest_charging_voltage()
    {
        var load = Point(Input(), "load:amp");

        Assert.Equal(LoadVolts, load.Predicted!.Value, 3);
        // 13.5 V charges; less 0.4 V.
        Assert.Equal((13.1, 15.0), (load.Lowest, load.Highest));
    }

    [Fact]
    public void Measured_at_the_battery_prediction_and_limit_count_from_there()
    {
        var load = Point(Input() with { MeasuredChargingVolts = 14.2 }, "load:amp");

        Assert.Equal(14.2 - (PostsVolts - LoadVolts), load.Predicted!.Value, 3);
        Assert.Equal(13.8, load.Lowest);
        Assert.Equal(2, load.Explanation.Steps.Count);
    }

    [Fact]
    public void Without_a_charger_nothing_is_predicted_and_the_limits_stand()
    {
        var points = CommissioningPoints.Of(Input() with { HasCharger = false });

        Assert.All(points.Where(point => point.Kind is CommissioningKind.ChargingVoltage or CommissioningKind.LoadVoltage), point => Assert.Null(point.Predicted));
        Assert.Equal(13.5, points.Single(point => point.Id == CommissioningPoints.ChargingId).Lowest);
    }

    [Fact]
    public void A_car_without_an_engine_is_told_of_none()
    {
        var points = CommissioningPoints.Of(Input() with { RunningWords = "car switched on and ready, converter running" });
        var running = points.Where(point => point.Kind is CommissioningKind.ChargingVoltage or CommissioningKind.LoadVoltage).ToList();

        Assert.Equal(2, running.Count);
        Assert.All(running, point =>
        {
            Assert.StartsWith("Car switched on and ready, converter running", point.How, StringComparison.Ordinal);
            Assert.Contains(point.Explanation.Inputs, said => said.Origin == "network solution, car switched on and ready, converter running, typical music");
            Assert.DoesNotContain("idl", $"{point.Name} {point.How} {string.Join(' ', point.Explanation.Inputs.Select(said => said.Origin))}", StringComparison.Ordinal);
        });
    }

    [Fact]
    public void An_alternator_at_its_limit_is_judged_by_what_the_network_predicts_of_it()
    {
        // 40 A are taken, 30 A given: the rest comes out of the battery, 12.65 − 10 · 0.006 = 12.59 V, less 0.3 V and to a tenth below.
        var charging = Point(Input(largest: 30, amperes: 40), CommissioningPoints.ChargingId);

        Assert.Equal(12.59, charging.Predicted!.Value, 2);
        Assert.Equal(12.2, charging.Lowest);
        Assert.Equal("Lowest that charges", charging.Explanation.DecidedBy);
    }

    [Theory]
    [InlineData(null, 12.2, 13.0)]
    [InlineData(BatteryKind.Sealed, 12.3, 13.2)]
    [InlineData(BatteryKind.Lithium, 13.0, 13.6)]
    public void Each_kind_of_battery_rests_at_its_own_voltage(BatteryKind? kind, double lowest, double highest)
    {
        var rest = Point(Input() with { Batteries = [new CommissioningBattery("b", "Battery", kind, null)] }, "rest:b");

        Assert.Equal((lowest, highest), (rest.Lowest, rest.Highest));
        Assert.InRange(rest.Predicted!.Value, lowest, highest);
    }

    [Fact]
    public void A_car_of_24_volts_is_judged_by_twice_the_voltages_of_12()
    {
        // Two 12 V batteries in series: at rest 2 · 12.2 to 2 · 13.0 V, charging 2 · 13.5 to 2 · 15 V; 12 V limits from memory and common practice.
        var input = Input(volts: 27.6) with { SupplyVolts = 27.6, Batteries = [new CommissioningBattery("car", "The car's battery", null, null)] };
        var points = CommissioningPoints.Of(input).ToDictionary(point => point.Id);

        Assert.Equal((24.4, 26.0), (points["rest:car"].Lowest, points["rest:car"].Highest));
        Assert.Equal(25.3, points["rest:car"].Predicted!.Value, 9);
        Assert.Equal((27.0, 30.0), (points[CommissioningPoints.ChargingId].Lowest, points[CommissioningPoints.ChargingId].Highest));
        Assert.Equal((26.6, 30.0), (points["load:amp"].Lowest, points["load:amp"].Highest));
        Assert.Equal(50, points["key-off-drain"].Highest);
        Assert.All(points.Values.Where(point => point.Unit == "V"), point => Assert.Equal(0, point.Outside(point.Predicted!.Value)));
        Assert.All(points.Values.Where(point => point.Unit == "V"), point => Assert.Contains(point.Explanation.Inputs, said => said is { Name: "12 V batteries in series", Value: 2 } && said.Origin.Contains("no source", StringComparison.Ordinal)));
        Assert.DoesNotContain(Point(Input(), CommissioningPoints.ChargingId).Explanation.Inputs, said => said.Name == "12 V batteries in series");
    }

    // 13.8 V a battery: a 12 V car charges at 12.6 to 15 V, a 24 V one at 26 to 30 V.
    [Theory]
    [InlineData(9, 1)]
    [InlineData(15, 1)]
    [InlineData(26, 2)]
    [InlineData(30, 2)]
    [InlineData(41.4, 3)]
    public void The_charging_voltage_says_how_many_batteries_are_in_series(double volts, double batteries) =>
        Assert.Equal(batteries, CommissioningPoints.BatteriesInSeries(volts));

    [Fact]
    public void What_a_part_takes_asleep_is_summed_and_what_is_not_known_is_said_and_never_zero()
    {
        var known = Point(Input() with { Draws = [new StandbyDraw("a", "Amplifier", 0.0015)], VehicleSleepAmperes = 0.02 }, "key-off-drain");
        var part = Point(Input() with { Draws = [new StandbyDraw("a", "Amplifier", 0.0015), new StandbyDraw("p", "Player", null)], VehicleSleepAmperes = 0.02 }, "key-off-drain");

        Assert.Equal(21.5, known.Predicted!.Value, 6);
        Assert.False(known.PredictedIsPart);
        Assert.True(part.PredictedIsPart);
        Assert.Contains("Player", part.Explanation.Answer, StringComparison.Ordinal);
        Assert.Equal(50, part.Highest);
    }

    [Theory]
    [InlineData(13.0, -0.1)]
    [InlineData(13.1, 0)]
    [InlineData(15.0, 0)]
    [InlineData(15.3, 0.3)]
    public void How_far_outside_a_value_is_has_a_sign(double volts, double outside) =>
        Assert.Equal(outside, Point(Input(), "load:amp").Outside(volts), 9);

    [Theory]
    [InlineData("AGM lead-acid", BatteryKind.Sealed)]
    [InlineData("AGM long life", BatteryKind.Sealed)]
    [InlineData("Absorbent glass mat", BatteryKind.Sealed)]
    [InlineData("Flooded, lifetime guarantee, automatic", BatteryKind.Flooded)]
    [InlineData("Lithium iron phosphate", BatteryKind.Lithium)]
    [InlineData("LiFePO4", BatteryKind.Lithium)]
    [InlineData("Flooded lead-acid", BatteryKind.Flooded)]
    [InlineData("Unobtainium", null)]
    [InlineData(null, null)]
    public void Words_of_a_data_sheet_say_which_kind_of_battery_it_is(string? words, BatteryKind? kind)
    {
        BatteryKind? read = BatteryWords.ChemistryOf(words) is { } chemistry ? WorkSafety.KindOf(chemistry) : null;
        Assert.Equal(kind, read);
        var caution = WorkSafety.Battery(words);
        Assert.True(caution.IsDanger);
        Assert.Equal(kind == BatteryKind.Lithium, caution.Text.Contains("protection circuit", StringComparison.Ordinal));
        Assert.Equal(kind is null, caution.Text.Contains("Chemistry not known", StringComparison.Ordinal));
    }

    [Fact]
    public void Only_a_high_voltage_vehicle_starts_with_the_licensed_person_and_the_wait_follows_the_disconnecting()
    {
        var steps = WorkSafety.BeforeWork(highVoltage: true);

        Assert.Contains("licensed", steps[0], StringComparison.Ordinal);
        Assert.Equal(steps.Skip(1), WorkSafety.BeforeWork(highVoltage: false));
        Assert.True(steps.ToList().IndexOf(WorkSafety.MemorySaver) < steps.ToList().IndexOf(WorkSafety.Disconnect));
        Assert.Equal(WorkSafety.RestraintWait, steps[^1]);
        Assert.Null(WorkSafety.Restraints([]));
        Assert.Contains("head curtain", WorkSafety.Restraints([RestraintPlace.PillarOrRoof])!, StringComparison.Ordinal);
    }

    private static CommissioningPoint Point(CommissioningInput input, string id) => CommissioningPoints.Of(input).Single(point => point.Id == id);

    private static CommissioningInput Input(double largest = 100, double amperes = 20, double volts = 13.8)
    {
        var network = new FeedNetwork
        {
            ReferenceNodeId = "ground",
            Nodes = [new("ground", "Ground"), new("battery", "Battery"), new("amp", "Amplifier")],
            Elements =
            [
                new Battery { Id = "b", Name = "Battery", From = "ground", To = "battery", OpenCircuitVolts = 12.65 / 13.8 * volts, InternalOhms = 0.006, ChargingOhms = 1000 },
                new Alternator { Id = "a", Name = "Alternator", From = "ground", To = "battery", SetPointVolts = volts, SlopeOhms = 0.002, OutputCurve = [new(1000, largest), new(6000, largest)] },
                new LumpedResistance { Id = "r", Name = "Run", From = "battery", To = "amp", Ohms = 0.01 },
                new ConstantCurrentLoad { Id = "load:amp", Name = "Amplifier", From = "amp", To = "ground", MusicAmperes = amperes, FullAmperes = amperes },
            ],
        };
        return new CommissioningInput
        {
            Running = NetworkSolver.SolveAll(network).Single(state => state.Scenario is { Engine: EngineState.Idle, Level: LoadLevel.Music }),
            BatteryNodeId = "battery",
            HasCharger = true,
            Loads = [new CommissioningLoad("load:amp", "Amplifier", 0.4)],
            Batteries = [],
            Draws = [],
        };
    }
}
