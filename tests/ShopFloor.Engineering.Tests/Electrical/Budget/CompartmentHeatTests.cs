using CsCheck;
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
}
