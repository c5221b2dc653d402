using System.Globalization;
using ShopFloor.Engineering.Electrical;
using ShopFloor.Engineering.Electrical.Conductors;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Tests.Electrical.Conductors;

public class PublishedSizesTests
{
    // IEC 60228 class 5: mm², highest Ω/km at 20 °C plain and tinned, transcribed from the standard's table.
    [Theory]
    [InlineData(0.5, 39.0, 40.1)]
    [InlineData(0.75, 26.0, 26.7)]
    [InlineData(1, 19.5, 20.0)]
    [InlineData(1.5, 13.3, 13.7)]
    [InlineData(2.5, 7.98, 8.21)]
    [InlineData(4, 4.95, 5.09)]
    [InlineData(6, 3.30, 3.39)]
    [InlineData(10, 1.91, 1.95)]
    [InlineData(16, 1.21, 1.24)]
    [InlineData(25, 0.780, 0.795)]
    [InlineData(35, 0.554, 0.565)]
    [InlineData(50, 0.386, 0.393)]
    [InlineData(70, 0.272, 0.277)]
    [InlineData(95, 0.206, 0.210)]
    [InlineData(120, 0.161, 0.164)]
    [InlineData(150, 0.129, 0.132)]
    public void Class_5_resistances_are_the_standards(double area, double plain, double tinned)
    {
        Assert.Equal(plain, PublishedSizes.Class5.Single(s => s.AreaSquareMillimeters == area).OhmsPerMeterAt20Celsius * 1000, 9);
        Assert.Equal(tinned, PublishedSizes.Class5Tinned.Single(s => s.AreaSquareMillimeters == area).OhmsPerMeterAt20Celsius * 1000, 9);
    }

    [Fact]
    public void Every_class_5_size_is_checked()
    {
        Assert.Equal(16, PublishedSizes.Class5.Count);
        Assert.Equal(16, PublishedSizes.Class5Tinned.Count);
    }

    // IS 2465, the Indian standard for vehicle cable, Ω/km at 20 °C (a cable maker's table). Another standard than ISO 6722-1, so within 8 %.
    [Theory]
    [InlineData(0.35, 50.2)]
    [InlineData(0.5, 39)]
    [InlineData(0.75, 26)]
    [InlineData(1, 18.36)]
    [InlineData(1.5, 11.87)]
    [InlineData(2, 8.703)]
    [InlineData(2.5, 7.256)]
    [InlineData(4, 4.583)]
    [InlineData(6, 3.073)]
    [InlineData(10, 1.866)]
    [InlineData(16, 1.15)]
    [InlineData(25, 0.6911)]
    [InlineData(35, 0.5277)]
    [InlineData(50, 0.3572)]
    [InlineData(70, 0.2639)]
    [InlineData(95, 0.204)]
    [InlineData(120, 0.153)]
    public void Vehicle_cable_is_close_to_another_national_standard(double area, double ohmsPerKilometer)
    {
        var size = PublishedSizes.Vehicle.Single(s => s.AreaSquareMillimeters == area);

        Assert.Equal(1, size.OhmsPerMeterAt20Celsius * 1000 / ohmsPerKilometer, 0.085);
    }

    [Fact]
    public void Vehicle_cable_resistances_say_that_they_are_from_memory_and_are_physically_possible()
    {
        // No stranded copper conductor can have less than 17.24 Ω·mm²/km by nominal area; published cables reach 20.
        Assert.Equal(28, PublishedSizes.Vehicle.Count);
        Assert.All(PublishedSizes.Vehicle, s => Assert.Contains("from memory", s.Source, StringComparison.Ordinal));
        Assert.All(PublishedSizes.Vehicle, s => Assert.InRange(s.OhmsPerMeterAt20Celsius * 1000 * s.AreaSquareMillimeters, 17.24, 20));
    }

    // ASTM B258 diameters in mm, computed from its formula and rounded as wire tables print them.
    [Theory]
    [InlineData(36, 0.1270)]
    [InlineData(22, 0.6438)]
    [InlineData(18, 1.0237)]
    [InlineData(12, 2.0525)]
    [InlineData(10, 2.5882)]
    [InlineData(4, 5.1894)]
    [InlineData(1, 7.3481)]
    [InlineData(0, 8.2515)]
    [InlineData(-1, 9.2658)]
    [InlineData(-2, 10.405)]
    [InlineData(-3, 11.684)]
    public void Gauge_diameters_match_wire_tables(int awg, double millimeters)
    {
        Assert.Equal(millimeters, ConductorSize.Awg(awg).SolidDiameterMillimeters, 0.0005);
    }

    // IEC 60228 class 5, 100 A, 5 m one way: 0.780 V with 25 mm²; ISO 6722-1 0.743 V. 10 A, 3 m one way, 2.5 mm²: 0.479 V.
    [Fact]
    public void Drops_of_metric_cable_agree_with_their_tables()
    {
        double Volts(IReadOnlyList<ConductorSize> sizes, double area, double meters, double amperes) =>
            VoltageDrop.Volts(sizes.Single(s => s.AreaSquareMillimeters == area).OhmsPerMeter(20), 2 * meters, amperes);

        Assert.Equal(0.780, Volts(PublishedSizes.Class5, 25, 5, 100), 0.0005);
        Assert.Equal(0.743, Volts(PublishedSizes.Vehicle, 25, 5, 100), 0.0005);
        Assert.Equal(0.479, Volts(PublishedSizes.Class5, 2.5, 3, 10), 0.0005);
    }

    // NEC chapter 9 table 8 prints 1.5 % to 3 % more than solid copper for stranded 4 AWG; a metric size never passes as a gauge by its name.
    [Fact]
    public void A_nominal_metric_size_counts_only_by_the_copper_its_resistance_proves()
    {
        var nominal25 = PublishedSizes.Class5.Single(s => s.AreaSquareMillimeters == 25);

        // 1.02 · 17.241 / 0.780 = 22.55 mm², not 25.
        Assert.Equal(22.55, nominal25.EquivalentCopperSquareMillimeters, 0.005);
        Assert.Equal(ConductorSize.Awg(4).AreaSquareMillimeters, ConductorSize.Awg(4).EquivalentCopperSquareMillimeters, 9);
        Assert.All(
            PublishedSizes.Class5.Concat(PublishedSizes.Vehicle), s => Assert.True(s.EquivalentCopperSquareMillimeters <= s.AreaSquareMillimeters));
    }

    [Fact]
    public void Labels_name_system_and_material_so_that_no_two_sizes_share_one()
    {
        var labels = ConductorSize.Gauges
            .Concat(PublishedSizes.Class5).Concat(PublishedSizes.Class5Tinned).Concat(PublishedSizes.Vehicle)
            .Concat(ConductorMaterial.All.Where(m => m.IsCopperClad).SelectMany(PublishedSizes.Gauges))
            .Select(s => s.Label)
            .ToList();

        Assert.Equal(labels.Count, labels.Distinct().Count());
        Assert.Contains(string.Create(CultureInfo.InvariantCulture, $"{2.5} mm² class 5"), labels);
    }

    [Fact]
    public void Every_list_is_thinnest_first()
    {
        foreach (var list in new[] { PublishedSizes.Class5, PublishedSizes.Class5Tinned, PublishedSizes.Vehicle })
        {
            Assert.Equal(list.OrderBy(s => s.AreaSquareMillimeters), list);
            Assert.Equal(list.OrderByDescending(s => s.OhmsPerMeterAt20Celsius), list);
        }

        Assert.Equal(WireGauge.AreaSquareMillimeters(18), PublishedSizes.Gauges(ConductorMaterial.CopperCladAluminium15A)[0].AreaSquareMillimeters);
    }
}
