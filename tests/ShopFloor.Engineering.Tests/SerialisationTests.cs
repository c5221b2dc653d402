using System.Text.Json;
using System.Text.Json.Serialization;
using ShopFloor.Engineering.Acoustics.Drivers;
using ShopFloor.Engineering.Acoustics.Enclosures;
using ShopFloor.Engineering.Electrical;
using ShopFloor.Engineering.Electrical.Accessories;
using ShopFloor.Engineering.Electrical.Budget;
using ShopFloor.Engineering.Electrical.Lighting;
using ShopFloor.Engineering.Electrical.Runs;
using ShopFloor.Engineering.Fabrication.Laminates;
using ShopFloor.Engineering.Fabrication.Restraint;
using ShopFloor.Engineering.Fabrication.Treatment;
using ShopFloor.Engineering.Mass;
using ShopFloor.Engineering.Tests.Electrical;

namespace ShopFloor.Engineering.Tests;

/// <summary>The same records go out through an HTTP API and are kept as snapshots, so they must survive JSON unchanged.</summary>
public class SerialisationTests
{
    private static readonly JsonSerializerOptions _web = new(JsonSerializerDefaults.Web) { Converters = { new JsonStringEnumConverter() } };

    private static readonly ElectricalPlanInput _plan = Plans.Of(
        Plans.Amplifier("sub", 1000), Plans.Fixed("dsp", 3, from: null), Plans.Fixed("missing", null), Plans.Fixed("huge", 440)) with
    {
        Alternator = new AlternatorData { RatedAmperes = 120 },
    };

    [Fact]
    public void A_plan_input_read_back_gives_the_same_result()
    {
        var json = JsonSerializer.Serialize(_plan, _web);

        var back = JsonSerializer.Deserialize<ElectricalPlanInput>(json, _web)!;

        Assert.Equal(json, JsonSerializer.Serialize(back, _web));
        Assert.Equal(JsonSerializer.Serialize(ElectricalPlan.Compute(_plan), _web), JsonSerializer.Serialize(ElectricalPlan.Compute(back), _web));
    }

    [Fact]
    public void A_plan_result_survives_and_carries_units_in_its_names()
    {
        var json = JsonSerializer.Serialize(ElectricalPlan.Compute(_plan), _web);

        var back = JsonSerializer.Deserialize<ElectricalPlanResult>(json, _web)!;

        Assert.Equal(json, JsonSerializer.Serialize(back, _web));
        Assert.Contains("\"copperKilograms\":", json, StringComparison.Ordinal);
        Assert.Contains("\"decidedBy\":\"NoneFits\"", json, StringComparison.Ordinal);
    }

    [Fact]
    public void A_short_plan_takes_the_defaults_for_all_that_is_left_out()
    {
        const string Json = """
            {"points":[{"id":"boot","name":"Boot","run":{"lengthMeters":4}}],"loads":[{"id":"a","name":"A","kind":"Fixed","fedFrom":"boot","fixed":{"ratedAmperes":10},"branch":{"lengthMeters":1}}]}
            """;

        var plan = ElectricalPlan.Compute(JsonSerializer.Deserialize<ElectricalPlanInput>(Json, _web)!);

        Assert.Equal("33 CFR 183.425 table 5", plan.MainRun()!.TableName);
        Assert.Equal(10, plan.MainAmperes());
    }

    [Fact]
    public void A_result_without_any_current_left_is_still_valid_json()
    {
        // Surroundings as warm as the insulation: no division by zero may leak into the record.
        var plan = _plan.WithMainRun(r => r with { AmbientCelsius = 150 });

        Assert.NotEmpty(JsonSerializer.Serialize(ElectricalPlan.Compute(plan), _web));
    }

    [Fact]
    public void Added_mass_survives()
    {
        var input = new AddedMassInput { Items = [new AddedMassItem { Id = "a", Name = "A", Zone = "trunk" }], Label = new PayloadLabel { PayloadKilograms = 400 } };
        var json = JsonSerializer.Serialize(AddedMass.Compute(input), _web);

        Assert.Equal(json, JsonSerializer.Serialize(JsonSerializer.Deserialize<AddedMassResult>(json, _web), _web));
        Assert.Equal(json, JsonSerializer.Serialize(AddedMass.Compute(JsonSerializer.Deserialize<AddedMassInput>(JsonSerializer.Serialize(input, _web), _web)!), _web));
    }

    /// <summary>One input of each budget with the result that follows from it.</summary>
    public static TheoryData<object, object> Budgets()
    {
        var alternator = new AlternatorBudgetInput { StampedRating = "50/120 A 13.5 V", Loads = [new("a", "A", 20), new("b", "B", null)], BatteryAmpereHours = 70 };
        var battery = new BatteryTimeInput { Chemistry = BatteryChemistry.Flooded, ReserveCapacityMinutes = 100, LoadAmperes = 5 };
        var drain = new KeyOffDrainInput { Draws = [new("a", "A", 0.01), new("b", "B", null)], ReserveCapacityMinutes = 100 };
        // A burst the supply cannot carry: no endless number may leak into the record.
        var peak = new PeakSupportInput { SourceOhms = 0.02, BurstWatts = 3000, BurstSeconds = 0.2, LeastVolts = 12, Capacitor = new SupportCapacitor(1, 0), SecondBattery = new SupportBattery(12.6, 0.2, 60) };
        var heat = new CompartmentHeatInput
        {
            Sources = [new HeatSource { Id = "a", Name = "A", MusicWatts = 0 }],
            Walls = [CompartmentWall.Of("floor", 1, WallBuild.Plywood)],
            HeatCapacityJoulesPerKelvin = 5000,
        };
        var strip = new LedStripInput { SupplyVolts = 12, LedsPerMeter = 60, LedsPerSegment = 3, WattsPerMeter = 14.4, Zones = [new LedZone { Id = "z", Name = "Z", LengthMeters = 90 }] };
        var speaker = new SpeakerRunInput { LengthMeters = 5, LoadOhms = 4 };
        var signal = new SignalRunInput { LengthMeters = 5, SourceOhms = 100 };
        var cuts = new CableCutListInput { Cuts = [new("a", "A", "pair", 4), new("b", "B", "pair", null)] };
        var chain = new TurnOnInput { Devices = [new TurnOnDevice { Id = "a", Name = "A", Stage = TurnOnStage.Source }] };
        var accessories = new AccessoryPowerInput { Accessories = [new Accessory { Id = "a", Name = "A", Kind = AccessoryKind.Camera, WatchesParked = true, ParkedAmperes = 0.2 }], Battery = battery };
        var laminate = new LaminateInput
        {
            Layers = [new ClothLayer { Name = "A", ArealKilogramsPerSquareMeter = 0.3 }, new CoreLayer { Name = "B", ThicknessMeters = 0.01, KilogramsPerCubicMeter = 80 }],
            SquareMeters = 1,
            Mix = new ResinMix { HardenerParts = 30, PotLifeMinutes = 20 },
        };
        // One bolt at the edge it tips over: no endless margin may leak into the record.
        var restraint = new RestraintInput { Name = "A", Kilograms = 5, BaseLengthMeters = 0.2, BaseWidthMeters = 0.2, CenterHeightMeters = 0.1, Hold = new MagnetHold { PullNewtons = 50 }, Fasteners = [new("a", 0.1, 0)] };
        var treatment = new SoundTreatmentInput([new("m", "M", TreatmentKind.Damping, 3, 0.5, 0.5)], [new("p", "P", 1, [new("m", 0.5)])]);
        var corners = new CornerLoadsInput { WheelbaseMeters = 2.7, TrackMeters = 1.5, Before = new(440, 430, 320, 310), After = new(440, 430, 320, 320) };
        var sheet = new DriverSheet { ResonanceHertz = 28, Qes = 0.52, Qms = 6, VasCubicMeters = 0.062, PistonSquareMeters = 0.033, ReOhms = 3.4 };
        var goal = new EnclosureGoalInput { Driver = sheet, Goal = new QtcGoal(0.8), Filters = [new FilterSection(FilterKind.HighPass, 25)] };
        // No magnitude tells a lossy coil here, and an error that is not known is null.
        var measured = new DriverMeasurementInput { FreeAir = "10 4\n14 5\n18 8\n22 15\n25 27\n27 37\n28 39\n29 37\n31 28\n35 16\n40 10\n50 6\n70 4.4" };
        return new TheoryData<object, object>
        {
            { alternator, AlternatorBudget.Compute(alternator) },
            { battery, BatteryTime.Compute(battery) },
            { drain, KeyOffDrain.Compute(drain) },
            { peak, PeakSupport.Compute(peak) },
            { heat, CompartmentHeat.Compute(heat) },
            { strip, LedStrip.Compute(strip) },
            { speaker, SpeakerRun.Compute(speaker) },
            { signal, SignalRun.Compute(signal) },
            { cuts, CableCutList.Compute(cuts) },
            { chain, TurnOnChain.Compute(chain) },
            { accessories, AccessoryPower.Compute(accessories) },
            { laminate, Laminate.Compute(laminate) },
            { restraint, ItemRestraint.Compute(restraint) },
            { treatment, SoundTreatment.Compute(treatment) },
            { corners, CornerLoads.Compute(corners) },
            { goal, EnclosureGoalSearch.Compute(goal) },
            { measured, DriverMeasurement.Compute(measured) },
        };
    }

    [Theory]
    [MemberData(nameof(Budgets), DisableDiscoveryEnumeration = true)]
    public void Budgets_survive(object input, object result)
    {
        foreach (var record in new[] { input, result })
        {
            var json = JsonSerializer.Serialize(record, record.GetType(), _web);

            Assert.Equal(json, JsonSerializer.Serialize(JsonSerializer.Deserialize(json, record.GetType(), _web), record.GetType(), _web));
        }
    }
}
