using ShopFloor.Engineering.Electrical;

namespace ShopFloor.Engineering.Tests.Electrical;

public class RunSizingInputTests
{
    public static TheoryData<string, string, RunSizingInput> Bad()
    {
        var run = Runs.Run(20, 3);
        return new TheoryData<string, string, RunSizingInput>
        {
            { "ContinuousAmperes", "0.001\u00a0A to 2000\u00a0A", run with { ContinuousAmperes = double.NaN } },
            { "ContinuousAmperes", "-5\u00a0A", run with { ContinuousAmperes = -5 } },
            { "ContinuousAmperes", "0\u00a0A", run with { ContinuousAmperes = 0 } },
            { "ContinuousAmperes", "1\u00a0000\u00a0000\u00a0A", run with { ContinuousAmperes = 1e6 } },
            { "MusicAmperes", "0\u00a0A to 20\u00a0A", run with { MusicAmperes = 21 } },
            { "IdleAmperes", "-1\u00a0A", run with { IdleAmperes = -1 } },
            { "SupplyVolts", "6\u00a0V to 49.9\u00a0V", run with { SupplyVolts = 400 } },
            { "MakerFuseAmperes", "0.5\u00a0A", run with { MakerFuseAmperes = 0 } },
            { "MaxDropVolts", "0.005\u00a0V", run with { MaxDropVolts = 0 } },
            { "Run.LengthMeters", "0.05\u00a0m to 30\u00a0m", run.WithRun(r => r with { LengthMeters = 0 }) },
            { "Run.LengthMeters", "nothing was entered", run.WithRun(r => r with { LengthMeters = null }) },
            { "Run.LengthMeters", "3000\u00a0m", run.WithRun(r => r with { LengthMeters = 3000 }) },
            { "Run.AmbientCelsius", "not a number", run.WithRun(r => r with { AmbientCelsius = double.NegativeInfinity }) },
            { "Run.InsulationCelsius", "60\u00a0°C to 300\u00a0°C", run.WithRun(r => r with { InsulationCelsius = 40 }) },
            { "Run.BundledConductors", "1 to 200", run.WithRun(r => r with { BundledConductors = 0 }) },
            { "Run.BodyReturnOhms", "0 to 0.1", run.WithRun(r => r with { BodyReturnOhms = 5 }) },
            { "Run.SourceToFuseMeters", "0\u00a0m to 3\u00a0m", run.WithRun(r => r with { SourceToFuseMeters = 3.5 }) },
            { "Run.ForcedSize", "“5 AWG”", run.WithRun(r => r with { ForcedSize = "5 AWG" }) },
            { "Run.ForcedFuseAmperes", "1000\u00a0A", run.WithRun(r => r with { ForcedFuseAmperes = 5000 }) },
            { "Run.CopperClad", "enter its table and sizes, or use copper", run.WithRun(r => r with { CopperClad = true }) },
            { "Run.ReturnPath", "“9”", run.WithRun(r => r with { ReturnPath = (ReturnPath)9 }) },
            { "Rules.ContinuousLoading", "0.5 to 1", run with { Rules = Runs.EverySize with { ContinuousLoading = 0 } } },
            { "Rules.MaxDropPercent", "0.1 to 20", run with { Rules = Runs.EverySize with { MaxDropPercent = 0 } } },
            { "Rules.AvailableSizes", "none is chosen", run with { Rules = Runs.EverySize with { AvailableSizes = [] } } },
            { "Rules.AvailableSizes", "“25 mm²”", run with { Rules = Runs.EverySize with { AvailableSizes = ["25 mm²"] } } },
            { "Rules.Fuses", "at least one form", run with { Rules = Runs.EverySize with { Fuses = [] } } },
            { "Id", "nothing was entered", run with { Id = "" } },
        };
    }

    [Theory]
    [MemberData(nameof(Bad), DisableDiscoveryEnumeration = true)]
    public void What_cannot_be_sized_is_refused_naming_field_and_accepted_range(string field, string inMessage, RunSizingInput input)
    {
        var problem = Assert.Single(input.Validate());
        Assert.Equal(field, problem.Field);
        Assert.Contains(inMessage, problem.Message, StringComparison.Ordinal);

        var thrown = Assert.Throws<ArgumentOutOfRangeException>(() => RunSizing.Size(input));
        Assert.Equal(field, thrown.ParamName);
        Assert.StartsWith(problem.Message, thrown.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void No_input_at_all_is_a_programming_error()
    {
        Assert.Throws<ArgumentNullException>(() => RunSizing.Size(null!));
    }

    [Fact]
    public void Messages_are_in_the_units_of_the_person()
    {
        var us = new Engineering.Units.UnitText(Engineering.Units.UnitSystem.Us, System.Globalization.CultureInfo.GetCultureInfo("en-US"));

        var problem = Assert.Single(Runs.Run(20, 60).Validate(us));

        Assert.Equal("Run, length one way: 196.85\u00a0ft is not accepted; enter 0.164\u00a0ft to 98.43\u00a0ft.", problem.Message);
    }
}
