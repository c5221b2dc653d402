using System.Globalization;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Tests.Units;

public class QuantityTests
{
    private static readonly CultureInfo _us = CultureInfo.GetCultureInfo("en-US");
    private static readonly CultureInfo _de = CultureInfo.GetCultureInfo("de-DE");

    // Exact by definition: international yard and pound agreement 1959; NIST SP 811 appendix B.8.
    [Theory]
    [InlineData(QuantityKind.Mass, 0.45359237, 1)]
    [InlineData(QuantityKind.Length, 0.3048, 1)]
    [InlineData(QuantityKind.SmallLength, 0.0254, 1)]
    [InlineData(QuantityKind.Distance, 1.609344, 1)]
    [InlineData(QuantityKind.Temperature, 0, 32)]
    [InlineData(QuantityKind.Temperature, 100, 212)]
    [InlineData(QuantityKind.Temperature, -40, -40)]
    public void Us_units_use_the_exact_factors(QuantityKind kind, double stored, double shown) =>
        Assert.Equal(shown, Quantity.ToShown(stored, kind, UnitSystem.Us), 12);

    [Theory]
    [InlineData(12.345, QuantityKind.Mass, "12.3 kg")]
    [InlineData(1234.5, QuantityKind.Mass, "1235 kg")]
    [InlineData(123456.0, QuantityKind.Distance, "123 456 km")]
    [InlineData(0.0254, QuantityKind.SmallLength, "25.4 mm")]
    [InlineData(5.0, QuantityKind.Length, "5 m")]
    [InlineData(0.004567, QuantityKind.Current, "0.00457 A")]
    [InlineData(0.0, QuantityKind.Voltage, "0 V")]
    [InlineData(-0.0001, QuantityKind.Temperature, "-0.0001 °C")]
    [InlineData(21.151, QuantityKind.ConductorArea, "21.2 mm²")]
    [InlineData(double.NaN, QuantityKind.Power, "— W")]
    public void Metric_values_keep_three_significant_digits_and_all_whole_digits(double value, QuantityKind kind, string expected)
    {
        Assert.Equal(expected.Replace(' ', '\u00a0'), Quantity.Format(value, kind, UnitSystem.Metric, CultureInfo.InvariantCulture));
    }

    [Fact]
    public void The_culture_of_the_reader_sets_the_decimal_mark_and_groups_never_use_point_or_comma()
    {
        Assert.Equal("12,3\u00a0kg", Quantity.Format(12.345, QuantityKind.Mass, UnitSystem.Metric, _de));
        Assert.Equal("27.2\u00a0lb", Quantity.Format(12.345, QuantityKind.Mass, UnitSystem.Us, _us));
        Assert.Equal("76\u00a0712\u00a0mi", Quantity.Format(123456, QuantityKind.Distance, UnitSystem.Us, _us));
    }

    [Fact]
    public void An_area_that_is_a_gauge_shows_as_gauge_and_any_other_shows_its_neighbours()
    {
        Assert.Equal("4 AWG", Quantity.Format(WireGauge.AreaSquareMillimeters(4), QuantityKind.ConductorArea, UnitSystem.Us, _us));
        Assert.Equal("1/0 AWG", Quantity.Format(53.475, QuantityKind.ConductorArea, UnitSystem.Us, _us));
        Assert.Equal("25\u00a0mm² (between 4 AWG and 3 AWG)", Quantity.Format(25, QuantityKind.ConductorArea, UnitSystem.Us, _us));
        Assert.Equal("120\u00a0mm² (above 4/0 AWG)", Quantity.Format(120, QuantityKind.ConductorArea, UnitSystem.Us, _us));
    }

    [Fact]
    public void Every_kind_has_a_symbol_in_both_systems()
    {
        foreach (var kind in Enum.GetValues<QuantityKind>())
        {
            Assert.NotEmpty(Quantity.Symbol(kind, UnitSystem.Metric));
            Assert.NotEmpty(Quantity.Symbol(kind, UnitSystem.Us));
        }
    }

    [Fact]
    public void Digits_out_of_range_name_the_parameter()
    {
        Assert.Equal("significantDigits", Assert.Throws<ArgumentOutOfRangeException>(
            () => Quantity.Format(1, QuantityKind.Mass, UnitSystem.Metric, _us, 0)).ParamName);
    }

    [Theory]
    [InlineData(1234.5678, 2, "1234.57")]
    [InlineData(12345.678, 2, "12\u00a0345.68")]
    [InlineData(9999.6, 0, "10\u00a0000")]
    [InlineData(-0.001, 2, "0")]
    [InlineData(double.NaN, 2, "\u2014")]
    public void Decimals_are_rounded_and_grouped_with_a_space(double value, int decimals, string shown) =>
        Assert.Equal(shown, Quantity.FormatRounded(value, decimals, CultureInfo.InvariantCulture));
}
