using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Tests.Units;

public class WireGaugeTests
{
    // ASTM B258: 36 AWG is 0.0050 in and 4/0 is 0.4600 in by definition.
    [Theory]
    [InlineData(36, 0.0050)]
    [InlineData(-3, 0.4600)]
    public void The_two_defining_sizes_are_exact(int awg, double inches)
    {
        Assert.Equal(inches * 25.4, WireGauge.DiameterMillimeters(awg), 10);
    }

    // Diameters in mm and areas in mm² computed independently from ASTM B258 in double precision; circular mils as commonly tabulated.
    [Theory]
    [InlineData(22, 0.6438, 0.326, 642)]
    [InlineData(20, 0.8118, 0.518, 1022)]
    [InlineData(18, 1.0237, 0.823, 1624)]
    [InlineData(16, 1.2908, 1.309, 2583)]
    [InlineData(14, 1.6277, 2.081, 4107)]
    [InlineData(12, 2.0525, 3.309, 6530)]
    [InlineData(10, 2.5882, 5.261, 10383)]
    [InlineData(8, 3.2636, 8.366, 16510)]
    [InlineData(6, 4.1154, 13.302, 26251)]
    [InlineData(4, 5.1894, 21.151, 41741)]
    [InlineData(3, 5.8273, 26.670, 52635)]
    [InlineData(2, 6.5437, 33.631, 66371)]
    [InlineData(1, 7.3481, 42.408, 83693)]
    [InlineData(0, 8.2515, 53.475, 105535)]
    [InlineData(-1, 9.2658, 67.431, 133077)]
    [InlineData(-2, 10.405, 85.029, 167806)]
    [InlineData(-3, 11.684, 107.219, 211600)]
    public void Diameter_area_and_circular_mils_follow_the_formula(int awg, double millimeters, double squareMillimeters, double circularMils)
    {
        Assert.Equal(millimeters, WireGauge.DiameterMillimeters(awg), 0.0006);
        Assert.Equal(squareMillimeters, WireGauge.AreaSquareMillimeters(awg), 0.0006);
        Assert.Equal(circularMils, WireGauge.CircularMils(awg), 0.6);
    }

    [Theory]
    [InlineData(18, "18 AWG")]
    [InlineData(0, "1/0 AWG")]
    [InlineData(-3, "4/0 AWG")]
    public void Labels_are_written_and_read_alike(int awg, string label)
    {
        Assert.Equal(label, WireGauge.Label(awg));
        Assert.True(WireGauge.TryParse(label, out var read));
        Assert.Equal(awg, read);
    }

    [Theory]
    [InlineData(-4)]
    [InlineData(41)]
    public void A_number_that_is_no_gauge_is_refused(int awg)
    {
        Assert.Equal("awg", Assert.Throws<ArgumentOutOfRangeException>(() => WireGauge.AreaSquareMillimeters(awg)).ParamName);
    }

    [Fact]
    public void Metric_sizes_are_not_taken_for_gauges_by_name()
    {
        Assert.Null(WireGauge.Matching(25));
        Assert.Null(WireGauge.Matching(2.5));
        Assert.Equal(4, WireGauge.Matching(21.15));
    }
}
