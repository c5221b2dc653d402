using ShopFloor.Engineering.Electrical;

namespace ShopFloor.Engineering.Tests.Electrical;

public class ElectricalPlanInputTests
{
    public static TheoryData<string, string, ElectricalPlanInput> Bad()
    {
        var plan = Plans.Of(Plans.Fixed("a", 40));
        ElectricalPlanInput With(Func<ElectricalLoad, ElectricalLoad> change) => plan with { Loads = [change(plan.Loads[0])] };
        return new TheoryData<string, string, ElectricalPlanInput>
        {
            { "SupplyVolts", "6\u00a0V to 49.9\u00a0V", plan with { SupplyVolts = double.NaN } },
            { "Points[0].DemandFactor", "0.3 to 1", plan.WithMain(m => m with { DemandFactor = 0 }) },
            { "Loads", "enter 1 to 200", plan with { Loads = [] } },
            { "Loads", "more than once", plan with { Loads = [Plans.Fixed("a", 1), Plans.Fixed("a", 2)] } },
            { "Points[0].Run.LengthMeters", "Main run, length one way: -1\u00a0m", plan.WithMain(_ => Plans.MainPoint(-1)) },
            { "Points[0].Name", "nothing was entered", plan.WithMain(m => m with { Name = " " }) },
            { "Points[0].Kind", "“7”", plan.WithMain(m => m with { Kind = (FeedPointKind)7 }) },
            { "Points[0].FedFrom", "“rear” is no point; use one of main", plan.WithMain(m => m with { FedFrom = "rear" }) },
            { "Points[0].FedFrom", "fed from itself by way of “main”", plan.WithMain(m => m with { FedFrom = "main" }) },
            { "Rules.MaxDropPercent", "50 is not accepted", plan with { Rules = Runs.EverySize with { MaxDropPercent = 50 } } },
            { "Loads", "“main” is used more than once", With(l => l with { Id = Plans.MainId }) },
            { "Loads[0].Name", "nothing was entered", With(l => l with { Name = "" }) },
            { "Loads[0].Branch.LengthMeters", "Load a, branch, length one way: 99\u00a0m", With(l => l with { Branch = Runs.Data(99) }) },
            { "Loads[0].Branch.ForcedSize", "“7 AWG”", With(l => l with { Branch = l.Branch with { ForcedSize = "7 AWG" } }) },
            { "Loads[0].MakerFuseAmperes", "0.5\u00a0A", With(l => l with { MakerFuseAmperes = -2 }) },
            { "Loads[0].Fixed.RatedAmperes", "not a number", With(l => l with { Fixed = new FixedLoad { RatedAmperes = double.NaN } }) },
            { "Loads[0].Fixed.MusicAmperes", "0\u00a0A to 5\u00a0A", With(l => l with { Fixed = new FixedLoad { RatedAmperes = 5, MusicAmperes = 6 } }) },
            { "Loads[0].Fixed.IdleAmperes", "0\u00a0A to 5\u00a0A", With(l => l with { Fixed = new FixedLoad { RatedAmperes = 5, IdleAmperes = 6 } }) },
            { "Loads[0].Amplifier.RatedOutputWatts", "Amplifier a, rated output power", plan with { Loads = [Plans.Amplifier("a", -4)] } },
            { "Loads[0].Amplifier.Class", "“42”", plan with { Loads = [Plans.Amplifier("a", 100, (AmplifierClass)42)] } },
            { "Loads[0].Kind", "“7”", With(l => l with { Kind = (LoadKind)7 }) },
            { "Loads[0].FedFrom", "“rear” is no point", With(l => l with { FedFrom = "rear" }) },
            { "Alternator.RatedAmperes", "10\u00a0A to 1000\u00a0A", plan with { Alternator = new AlternatorData { RatedAmperes = 0 } } },
            { "Alternator.IdleFraction", "0.1 to 1", plan with { Alternator = new AlternatorData { RatedAmperes = 100, IdleFraction = 2 } } },
            { "Alternator.HotFraction", "0.1 to 1", plan with { Alternator = new AlternatorData { RatedAmperes = 100, HotFraction = 0 } } },
            { "Alternator.VehicleBaseAmperes", "-1\u00a0A", plan with { Alternator = new AlternatorData { RatedAmperes = 100, VehicleBaseAmperes = -1 } } },
        };
    }

    [Theory]
    [MemberData(nameof(Bad), DisableDiscoveryEnumeration = true)]
    public void What_cannot_be_computed_is_refused_naming_the_field(string field, string inMessage, ElectricalPlanInput input)
    {
        var problem = Assert.Single(input.Validate());
        Assert.Equal(field, problem.Field);
        Assert.Contains(inMessage, problem.Message, StringComparison.Ordinal);

        Assert.Equal(field, Assert.Throws<ArgumentOutOfRangeException>(() => ElectricalPlan.Compute(input)).ParamName);
    }

    [Fact]
    public void Missing_data_are_no_problem_of_the_input()
    {
        var input = Plans.Of(Plans.Fixed("a", null), Plans.Amplifier("b", null, null)) with { Points = [Plans.MainPoint(null)] };

        Assert.Empty(input.Validate());
    }

    [Fact]
    public void A_plan_of_two_hundred_loads_is_accepted_and_one_more_is_not()
    {
        var loads = Enumerable.Range(0, 201).Select(i => Plans.Fixed($"l{i}", 1)).ToArray();

        Assert.Empty(Plans.Of(loads[..200]).Validate());
        Assert.Equal("Loads", Assert.Single(Plans.Of(loads).Validate()).Field);
        Assert.Equal(200, ElectricalPlan.Compute(Plans.Of(loads[..200])).Loads.Count);
    }
}
