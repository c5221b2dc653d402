using System.Globalization;
using CsCheck;
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
    public void Us_units_use_the_exact_factors(QuantityKind kind, double stored, double shown)
    {
        Assert.Equal(shown, Quantity.ToShown(stored, kind, UnitSystem.Us), 12);
        Assert.Equal(stored, Quantity.FromShown(shown, kind, UnitSystem.Us), 12);
    }

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

    [Theory]
    [InlineData("10", QuantityKind.Mass, 4.5359237)]
    [InlineData("10 kg", QuantityKind.Mass, 10)]
    [InlineData("16oz", QuantityKind.Mass, 0.45359237)]
    [InlineData("5 ft", QuantityKind.Length, 1.524)]
    [InlineData("18", QuantityKind.SmallLength, 0.4572)]
    [InlineData("457.2 mm", QuantityKind.SmallLength, 0.4572)]
    [InlineData("212", QuantityKind.Temperature, 100)]
    [InlineData("100 °C", QuantityKind.Temperature, 100)]
    [InlineData("500 mA", QuantityKind.Current, 0.5)]
    [InlineData("1.2 kW", QuantityKind.Power, 1200)]
    [InlineData("7200 J", QuantityKind.Energy, 2)]
    public void A_number_without_unit_is_in_the_readers_unit_and_a_named_unit_is_obeyed(string text, QuantityKind kind, double stored)
    {
        var parsed = Quantity.Parse(text, kind, UnitSystem.Us, _us);

        Assert.Null(parsed.Problem);
        Assert.Equal(stored, parsed.Value!.Value, 10);
    }

    [Theory]
    [InlineData("4", 4)]
    [InlineData("4 AWG", 4)]
    [InlineData("1/0", 0)]
    [InlineData("0", 0)]
    [InlineData("2/0 awg", -1)]
    [InlineData("0000", -3)]
    [InlineData("4/0", -3)]
    public void Wire_gauges_are_read_as_areas(string text, int awg)
    {
        Assert.Equal(WireGauge.AreaSquareMillimeters(awg), Quantity.Parse(text, QuantityKind.ConductorArea, UnitSystem.Us, _us).Value);
    }

    [Theory]
    [InlineData("5/0")]
    [InlineData("3.5")]
    [InlineData("41")]
    [InlineData("00000")]
    [InlineData("AWG")]
    public void What_is_no_gauge_is_refused(string text)
    {
        Assert.False(Quantity.Parse(text, QuantityKind.ConductorArea, UnitSystem.Us, _us).IsRead);
    }

    [Fact]
    public void Metric_areas_are_read_in_both_systems_and_a_bare_metric_number_is_no_gauge()
    {
        Assert.Equal(25, Quantity.Parse("25 mm²", QuantityKind.ConductorArea, UnitSystem.Us, _us).Value);
        Assert.Equal(2.5, Quantity.Parse("2,5 mm2", QuantityKind.ConductorArea, UnitSystem.Metric, _de).Value);
        Assert.Equal(4, Quantity.Parse("4", QuantityKind.ConductorArea, UnitSystem.Metric, _de).Value);
        Assert.Equal(WireGauge.AreaSquareMillimeters(4), Quantity.Parse("4 AWG", QuantityKind.ConductorArea, UnitSystem.Metric, _de).Value);
    }

    [Fact]
    public void A_unit_of_another_kind_is_refused_with_what_fits()
    {
        Assert.Equal("“kg” is not a unit that fits here; use m, cm, mm, ft or in.", Quantity.Parse("5 kg", QuantityKind.Length, UnitSystem.Metric, _us).Problem);
    }

    [Fact]
    public void A_value_out_of_range_is_refused_with_value_and_range_in_the_readers_unit()
    {
        var parsed = Quantity.Parse("400", QuantityKind.Length, UnitSystem.Us, _us, 0.3048, 30.48);

        Assert.Equal("400\u00a0ft is not accepted; enter 1\u00a0ft to 100\u00a0ft.", parsed.Problem);
        Assert.Equal("-1\u00a0A is not accepted; enter 0\u00a0A or more.", Quantity.Parse("-1", QuantityKind.Current, UnitSystem.Metric, _us, 0).Problem);
    }

    [Fact]
    public void What_is_shown_can_be_typed_back_within_the_digits_shown()
    {
        var kinds = Enum.GetValues<QuantityKind>().Where(k => k != QuantityKind.ConductorArea).ToArray();
        var cultures = new[] { _us, _de, CultureInfo.GetCultureInfo("fr-FR"), CultureInfo.GetCultureInfo("de-CH") };
        Gen.Select(Gen.Double[0.001, 999_999], Gen.Int[0, kinds.Length - 1], Gen.Int[0, 3], Gen.Bool).Sample((value, k, c, us) =>
        {
            var system = us ? UnitSystem.Us : UnitSystem.Metric;
            var shown = Quantity.Format(value, kinds[k], system, cultures[c], 4);

            var parsed = Quantity.Parse(shown, kinds[k], system, cultures[c]);

            // Four significant digits: half a unit of the fourth digit is at most 5e-4 of the shown number.
            var shownValue = Quantity.ToShown(value, kinds[k], system);
            var back = parsed.Value is { } v ? Quantity.ToShown(v, kinds[k], system) : double.NaN;
            return Math.Abs(back - shownValue) <= 5.01e-4 * Math.Abs(shownValue) + 1e-12;
        });
    }

    [Fact]
    public void Converting_there_and_back_loses_nothing_that_matters()
    {
        Gen.Select(Gen.Double[-1e6, 1e6], Gen.Enum<QuantityKind>(), Gen.Enum<UnitSystem>()).Sample((value, kind, system) =>
            Math.Abs(Quantity.FromShown(Quantity.ToShown(value, kind, system), kind, system) - value) <= 1e-9 * Math.Max(1, Math.Abs(value)));
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
}
