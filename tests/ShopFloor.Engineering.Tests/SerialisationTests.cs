using System.Text.Json;
using System.Text.Json.Serialization;
using ShopFloor.Engineering.Electrical;
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
}
