using CsCheck;
using ShopFloor.Engineering.Electrical;
using ShopFloor.Engineering.Electrical.Budget;

namespace ShopFloor.Engineering.Tests.Electrical.Budget;

public class CompartmentHeatTests
{
    private static CompartmentHeatInput Box(double watts, double area = 2) => new()
    {
        Sources = [new HeatSource { Id = "a", Name = "Amplifier", IdleWatts = watts / 4, MusicWatts = watts, FullWatts = watts * 3 }],
        Walls = [CompartmentWall.Of("wall", area, WallBuild.BareSteel)],
        AmbientCelsius = 25,
        HeatCapacityJoulesPerKelvin = 10_000,
    };

    [Fact]
    public void Airflow_matches_the_rule_of_electronics_cooling()
    {
        // Handbook rule at sea level: ft³/min = 1.76 · W / K. 100 W at 10 K: 17.6 ft³/min; the rule's air is a little denser, so 3 %.
        var flow = CompartmentHeat.AirflowCubicMetersPerSecond(100, 10, 20) * CompartmentHeat.CubicFeetPerMinutePerCubicMeterPerSecond;

        Assert.InRange(flow, 17.6 * 0.97, 17.6 * 1.03);
    }

    // ISA sea level air: 1.225 kg/m³ at 15 °C.
    [Fact]
    public void Density_is_that_of_the_standard_atmosphere() => Assert.Equal(1.225, CompartmentHeat.AirKilogramsPerCubicMeter(15), 0.0005);

    [Fact]
    public void Steel_in_still_air_has_the_sum_of_two_surface_resistances()
    {
        // 1/(0.13 + 0.13 + 0.0008/50) = 3.846 W/(m²·K); 50 W through 2 m²: 6.50 K.
        Assert.Equal(3.846, WallBuild.BareSteel.WattsPerSquareMeterKelvin, 0.001);
        Assert.Equal(6.50, CompartmentHeat.Compute(Box(50)).Music.SteadyRiseKelvin, 0.01);
    }

    [Fact]
    public void Time_constant_is_heat_capacity_over_conductance()
    {
        // 10 000 J/K / 7.692 W/K = 1300 s = 21.67 min.
        Assert.Equal(21.67, CompartmentHeat.Compute(Box(50)).TimeConstantMinutes, 0.01);
    }

    [Fact]
    public void Unknown_heat_is_listed()
    {
        var result = CompartmentHeat.Compute(Box(50) with { Sources = [new HeatSource { Id = "x", Name = "Amplifier" }] });

        Assert.Equal(["x"], result.MissingSourceIds);
        Assert.Contains(result.Findings, f => f.SubjectId == "x");
    }

    [Fact]
    public void More_heat_is_warmer_and_more_wall_is_cooler() =>
        Gen.Select(Gen.Double[1, 500], Gen.Double[1.01, 3], Gen.Double[0.2, 5]).Sample((watts, factor, area) =>
        {
            double Rise(double q, double a) => CompartmentHeat.Compute(Box(q, a)).Music.SteadyRiseKelvin;
            return Rise(watts * factor, area) > Rise(watts, area) && Rise(watts, area * factor) < Rise(watts, area);
        });

    [Fact]
    public void Single_glazing_matches_its_published_u_value()
    {
        // 4 mm single glazing: 5.7 to 5.8 W/(m²·K) in building tables, still air inside and wind outside.
        Assert.InRange((WallBuild.Glass with { OuterResistance = WallBuild.WindResistance }).WattsPerSquareMeterKelvin, 5.65, 5.85);
    }

    [Fact]
    public void Needed_air_holds_the_rise_and_its_vents_pass_it()
    {
        // 200 W, 2 m² · 3.846 W/(m²·K) = 7.69 W/K take 115.4 W at 15 K; 84.6 W are left for the air of 25 °C: 1.1839 kg/m³ · 1006 · 15 K.
        var result = CompartmentHeat.Compute(Box(200));
        var flow = result.Music.NeededAirflowCubicMetersPerSecond;

        Assert.Equal(84.6 / (1.1839 * 1006 * 15), flow, 0.00001);
        Assert.Equal(flow * 3600, result.NeededCubicMetersPerHour, 9);
        Assert.Equal(flow * 2118.88, result.NeededCubicFeetPerMinute, 0.001); // 1 m³/s = 2118.88 ft³/min, NIST SP 811
        Assert.Equal(flow / 1.5, result.FreeVentAreaSquareMeters, 9);
        Assert.Equal(15, CompartmentHeat.Compute(Box(200) with { AirflowCubicMetersPerSecond = flow }).Music.SteadyRiseKelvin, 6);
    }

    [Fact]
    public void Allowed_rise_is_reached_when_the_exponential_says()
    {
        // 200 W: 26 K in the end; 15 K after −21.67 min · ln(1 − 15/26) = 18.6 min. 50 W: 6.5 K, never.
        Assert.Equal(-1300.0 / 60 * Math.Log(1 - 15 / 26.0), CompartmentHeat.Compute(Box(200)).Music.MinutesToAllowedRise!.Value, 0.01);
        Assert.Null(CompartmentHeat.Compute(Box(50)).Music.MinutesToAllowedRise);
    }

    [Fact]
    public void Course_ends_within_one_percent_of_the_steady_rise()
    {
        var result = CompartmentHeat.Compute(Box(200));

        Assert.Equal(0, result.Course[0].RiseKelvin);
        Assert.InRange(result.Course[^1].RiseKelvin, 0.99 * result.Music.SteadyRiseKelvin, result.Music.SteadyRiseKelvin);
    }

    [Theory]
    [InlineData(70, true)] // 25 + 26 + 20 = 71 °C
    [InlineData(72, false)]
    public void Amplifier_that_reaches_its_protection_is_named(double protection, bool expected)
    {
        var box = Box(200);

        var result = CompartmentHeat.Compute(box with { Sources = [box.Sources[0] with { ProtectionCelsius = protection }] });

        Assert.Equal(expected, result.Findings.Any(f => f.Code == "amplifier-protection-reached"));
    }

    [Fact]
    public void Covered_compartments_are_warned_about()
    {
        Assert.Contains(CompartmentHeat.Compute(Box(20) with { Covered = true }).Findings, f => f.Code == "covered-heat");
        Assert.DoesNotContain(CompartmentHeat.Compute(Box(20)).Findings, f => f.Code == "covered-heat");
    }

    [Fact]
    public void Heat_of_an_amplifier_comes_from_its_levels()
    {
        var levels = AmplifierCurrent.Compute(new AmplifierCurrentInput { RatedOutputWatts = 1000, Class = AmplifierClass.D, FullPowerEfficiency = 0.8, IdleAmperes = 1, SupplyVolts = 14 });

        var source = HeatSource.Of("a", "Amplifier", levels);

        // 1000/0.8 − 1000 + 14 W idle.
        Assert.Equal(264, source.FullWatts!.Value, 6);
        Assert.Equal(14, source.IdleWatts!.Value, 6);
    }

    [Fact]
    public void Compartment_nothing_can_leave_is_refused() =>
        Assert.Equal("Walls", Assert.Single((Box(50) with { Walls = [] }).Validate()).Field);
}
