using ShopFloor.Engineering.Electrical;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Tests.Electrical;

public class ConductorSizeTests
{
    private const double MetersPerThousandFeet = 304.8;

    // NEC chapter 9 table 8, stranded uncoated copper, Ω per 1000 ft at 75 °C.
    [Theory]
    [InlineData(18, 7.95)]
    [InlineData(16, 4.99)]
    [InlineData(14, 3.14)]
    [InlineData(12, 1.98)]
    [InlineData(10, 1.24)]
    [InlineData(8, 0.778)]
    [InlineData(6, 0.491)]
    [InlineData(4, 0.308)]
    [InlineData(3, 0.245)]
    [InlineData(2, 0.194)]
    [InlineData(1, 0.154)]
    [InlineData(0, 0.122)]
    [InlineData(-1, 0.0967)]
    [InlineData(-2, 0.0766)]
    [InlineData(-3, 0.0608)]
    public void Resistance_at_75_degrees_is_within_one_percent_of_the_nec_table(int awg, double ohmsPerThousandFeet)
    {
        var ours = ConductorSize.Awg(awg).OhmsPerMeter(75) * MetersPerThousandFeet;

        Assert.Equal(1, ours / ohmsPerThousandFeet, 0.01);
    }

    // Solid copper at 20 °C, Ω per 1000 ft, as commonly tabulated (HyperPhysics wire table); ours is stranded, 2 % higher.
    [Theory]
    [InlineData(18, 6.385)]
    [InlineData(12, 1.588)]
    [InlineData(8, 0.6282)]
    [InlineData(4, 0.2485)]
    [InlineData(0, 0.0983)]
    public void Resistance_at_20_degrees_is_solid_copper_with_two_percent_for_stranding(int awg, double solid)
    {
        Assert.Equal(1.02, ConductorSize.Awg(awg).OhmsPerMeterAt20Celsius * MetersPerThousandFeet / solid, 0.0006);
    }

    // FAA AC 43.13-1B: a run of 100 ft at 20 °C shrinks to 82.2 ft at 75 °C and 75.0 ft at 105 °C for the same drop.
    [Theory]
    [InlineData(75, 82.2)]
    [InlineData(105, 75.0)]
    public void Resistance_rises_with_temperature_as_the_faa_circular_has_it(double celsius, double feet)
    {
        Assert.Equal(feet, 100 / Copper.ResistanceFactor(celsius), 0.05);
    }

    [Fact]
    public void A_25_square_millimeter_conductor_matches_the_copper_standard()
    {
        // NBS Handbook 100: 0.6896 mΩ per meter at 20 °C and 0.8387 mΩ at 75 °C, without stranding.
        var conductor = new ConductorSize("25 mm²", 25);

        Assert.Equal(0.6896e-3, conductor.OhmsPerMeterAt20Celsius / Copper.StrandingFactor, 0.0001e-3);
        Assert.Equal(0.8387e-3, conductor.OhmsPerMeter(75) / Copper.StrandingFactor, 0.0002e-3);
    }

    [Fact]
    public void Copper_mass_is_area_times_density_with_stranding()
    {
        // 21.151 mm² · 8.89 g/cm³ = 188.0 g/m, 191.8 g/m stranded. Bare 4 AWG is tabulated as 126.4 lb per 1000 ft = 188.1 g/m.
        Assert.Equal(0.1918, ConductorSize.Awg(4).CopperKilogramsPerMeter, 0.0001);
        Assert.Equal(126.4 * 0.45359237 / 304.8, ConductorSize.Awg(4).CopperKilogramsPerMeter / 1.02, 0.0003);
    }

    [Fact]
    public void Insulation_is_a_positive_estimate_that_grows_with_size_but_weighs_less_and_less_of_the_whole()
    {
        var shares = ConductorSize.Gauges.Select(c => c.InsulationKilogramsPerMeterEstimate / c.CopperKilogramsPerMeter).ToList();

        Assert.All(shares, s => Assert.InRange(s, 0.08, 1.1));
        Assert.Equal(shares.OrderDescending(), shares);
        Assert.Equal(
            ConductorSize.Gauges.Select(c => c.InsulationKilogramsPerMeterEstimate).Order(),
            ConductorSize.Gauges.Select(c => c.InsulationKilogramsPerMeterEstimate));
    }

    // SAE wire areas in mm² from the circular mils tabulated in ABYC E-11.
    [Theory]
    [InlineData(18, 0.779)]
    [InlineData(12, 2.956)]
    [InlineData(8, 7.504)]
    [InlineData(4, 18.93)]
    [InlineData(0, 50.15)]
    [InlineData(-3, 104.1)]
    public void Sae_wire_of_the_same_number_is_smaller(int awg, double area)
    {
        var conductor = ConductorSize.Awg(awg);

        Assert.Equal(area, conductor.SaeAreaSquareMillimeters!.Value, 0.06);
        Assert.InRange(conductor.SaeAreaSquareMillimeters.Value / conductor.AreaSquareMillimeters, 0.88, 0.98);
    }

    [Fact]
    public void The_published_circular_mil_case_takes_12_awg_but_10_when_the_cable_is_to_sae_sizes()
    {
        // Published ABYC E-11 example: 10 A, 11 ft + 10 ft, 12 V, 3 %.
        var needed = VoltageDrop.CircularMils(10, 21, 0.36);

        Assert.Equal(6271, needed, 0.5);
        Assert.True(WireGauge.CircularMils(12) >= needed && WireGauge.CircularMils(14) < needed);
        Assert.True(ConductorSize.Awg(12).SaeAreaSquareMillimeters / WireGauge.SquareMillimetersPerCircularMil < needed);
        // The same at 10 %: 16 AWG.
        Assert.Equal(1881, VoltageDrop.CircularMils(10, 21, 1.2), 0.5);
        Assert.True(WireGauge.CircularMils(16) >= 1881 && WireGauge.CircularMils(18) < 1881);
    }
}
