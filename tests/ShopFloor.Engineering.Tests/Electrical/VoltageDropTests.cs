using ShopFloor.Engineering.Electrical;

namespace ShopFloor.Engineering.Tests.Electrical;

public class VoltageDropTests
{
    // FAA AC 43.13-1B CHG 1, table 11-7, with the table's own Ω/ft (20 °C tinned copper, one conductor).
    // Its 19.5 ft row is left out: it prints .366 V where its own numbers give 0.491 V.
    [Theory]
    [InlineData(0.00044, 107, 20, 0.942, 0.0005)]
    [InlineData(0.00028, 90, 20, 0.504, 0.0005)]
    [InlineData(0.00202, 88, 20, 3.60, 0.05)] // printed rounded up from 3.555
    [InlineData(0.00306, 100, 20, 6.12, 0.005)]
    [InlineData(0.00126, 39, 20, 0.98, 0.005)]
    [InlineData(0.00126, 156, 20, 3.93, 0.005)]
    [InlineData(0.00126, 273, 20, 6.88, 0.005)]
    public void Drop_matches_the_faa_circular(double ohmsPerFoot, double feet, double amperes, double volts, double rounding)
    {
        Assert.Equal(volts, VoltageDrop.Volts(ohmsPerFoot / 0.3048, feet * 0.3048, amperes), rounding);
    }

    [Fact]
    public void The_faa_example_of_50_ft_at_20_a_and_1_v_needs_8_awg()
    {
        // FAA AC 43.13-1B, figure 11-2 example; table 11-9: 10 AWG 1.26 and 8 AWG 0.70 Ω per 1000 ft.
        Assert.True(VoltageDrop.Volts(0.00126 / 0.3048, 50 * 0.3048, 20) > 1);
        Assert.True(VoltageDrop.Volts(0.00070 / 0.3048, 50 * 0.3048, 20) < 1);
    }

    [Fact]
    public void A_two_wire_run_from_the_nec_table_drops_4_volts()
    {
        // 16 AWG, 4.99 Ω per 1000 ft at 75 °C, 100 ft one way, 4 A: published as 4.0 V.
        var volts = VoltageDrop.Volts(ConductorSize.Awg(16).OhmsPerMeter(75), 2 * 100 * 0.3048, 4);

        Assert.Equal(3.992, volts, 0.04);
    }

    [Fact]
    public void A_metric_class_5_cable_uses_its_tabulated_resistance()
    {
        // IEC 60228 class 5, 2.5 mm²: 7.98 Ω/km at 20 °C; 3 m one way, 10 A.
        Assert.Equal(0.479, VoltageDrop.Volts(7.98e-3, 6, 10), 0.0005);
    }

    // Computed from the copper standard without stranding; ours is 2 % above.
    [Theory]
    [InlineData(4, 100, 5, 20, 0.815)]
    [InlineData(4, 100, 5, 60, 0.943)]
    [InlineData(0, 150, 6, 20, 0.580)]
    public void Typical_runs_agree_with_the_copper_standard(int awg, double amperes, double meters, double celsius, double volts)
    {
        var ours = VoltageDrop.Volts(ConductorSize.Awg(awg).OhmsPerMeter(celsius), 2 * meters, amperes);

        Assert.Equal(volts * 1.02, ours, 0.001);
    }

    [Fact]
    public void A_fully_loaded_conductor_is_at_its_insulation_class_and_an_idle_one_at_ambient()
    {
        Assert.Equal(105, VoltageDrop.ConductorCelsius(50, 105, 100, 100), 9);
        Assert.Equal(50, VoltageDrop.ConductorCelsius(50, 105, 0, 100), 9);
        Assert.Equal(77.5, VoltageDrop.ConductorCelsius(50, 105, 25, 100), 9);
        Assert.Equal(110, VoltageDrop.ConductorCelsius(110, 105, 5, 0), 9);
    }

    [Fact]
    public void The_estimate_is_warmer_than_heating_by_the_square_of_the_current()
    {
        for (var share = 0.05; share < 1; share += 0.05)
            Assert.True(VoltageDrop.ConductorCelsius(40, 80, share * 100, 100) > 40 + 40 * share * share);
    }

    [Theory]
    [InlineData(double.NaN, 1, 1, "ohmsPerMeter")]
    [InlineData(0.1, -1, 1, "conductorMeters")]
    [InlineData(0.1, 1, double.PositiveInfinity, "amperes")]
    public void Impossible_values_are_refused_by_name(double ohms, double meters, double amperes, string name)
    {
        Assert.Equal(name, Assert.Throws<ArgumentOutOfRangeException>(() => VoltageDrop.Volts(ohms, meters, amperes)).ParamName);
    }

    [Fact]
    public void Circular_mils_for_no_drop_at_all_are_refused()
    {
        Assert.Equal("dropVolts", Assert.Throws<ArgumentOutOfRangeException>(() => VoltageDrop.CircularMils(1, 1, 0)).ParamName);
    }
}
