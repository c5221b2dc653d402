using ShopFloor.Engineering.Electrical;
using ShopFloor.Engineering.Electrical.Conductors;

namespace ShopFloor.Engineering.Tests.Electrical.Conductors;

public class AmpacityByAreaTests
{
    private static readonly AmpacityTable _cfr = PublishedTables.Cfr33Part183425;

    // Worked by hand from 33 CFR 183.425 table 5 (105 °C) and IEC 60228 class 5: 1.02 · 17.241 / (Ω/km) gives the copper area.
    [Theory]
    [InlineData(1, "18 AWG", 20)] // 0.902 mm²: 18 AWG has 0.823, 16 AWG 1.309
    [InlineData(2.5, "14 AWG", 35)] // 2.204 mm²: 14 AWG has 2.081
    [InlineData(16, "6 AWG", 120)] // 14.53 mm²: 6 AWG has 13.30
    [InlineData(25, "4 AWG", 160)] // 22.55 mm²: 4 AWG has 21.15
    [InlineData(50, "1 AWG", 245)] // 45.56 mm²: 1 AWG has 42.41
    public void A_metric_size_takes_the_next_thinner_gauge(double area, string gauge, double amperes)
    {
        var match = AmpacityByArea.Match(_cfr, PublishedSizes.Class5);
        var row = match.Rows.Single(r => r.Conductor.AreaSquareMillimeters == area);

        Assert.Equal(gauge, row.TabulatedLabel);
        Assert.Equal(amperes, match.Table.Amperes(row.Conductor.Label, 105));
    }

    [Fact]
    public void Sizes_thinner_than_the_table_are_left_out_and_never_given_a_current()
    {
        var match = AmpacityByArea.Match(_cfr, PublishedSizes.Class5);

        Assert.Equal([0.5, 0.75], match.LeftOut.Select(s => s.AreaSquareMillimeters));
        Assert.Null(match.Table.Row("0.5 mm² class 5"));
        Assert.Equal("sizes", Assert.Throws<ArgumentOutOfRangeException>(() => AmpacityByArea.Match(_cfr, [new ConductorSize("hair", 0.1)])).ParamName);
    }

    [Fact]
    public void The_rule_is_named_in_the_table_it_makes_and_the_table_is_valid()
    {
        foreach (var sizes in new[] { PublishedSizes.Class5, PublishedSizes.Class5Tinned, PublishedSizes.Vehicle, PublishedSizes.Gauges(ConductorMaterial.CopperCladAluminium10A) })
        {
            var match = AmpacityByArea.Match(_cfr, sizes);

            Assert.Empty(match.Table.Validate());
            Assert.Contains("no interpolation", match.Table.Source, StringComparison.Ordinal);
            Assert.Contains("does not list these sizes", match.Table.Statement, StringComparison.Ordinal);
        }
    }

    [Fact]
    public void A_clad_gauge_is_allowed_the_current_of_copper_two_gauges_thinner()
    {
        // Common practice; 62.9 % of the area of 4 AWG is 13.304 mm², and 6 AWG has 13.302 mm².
        var match = AmpacityByArea.Match(_cfr, PublishedSizes.Gauges(ConductorMaterial.CopperCladAluminium10A));

        Assert.Equal("6 AWG", match.Rows.Single(r => r.Conductor.Label.StartsWith("4 AWG", StringComparison.Ordinal)).TabulatedLabel);
    }

    [Fact]
    public void No_matched_conductor_warms_more_than_the_tabulated_one_at_its_current()
    {
        // Heat per meter I²·R at equal temperature, with no less surface.
        foreach (var sizes in new[] { PublishedSizes.Class5, PublishedSizes.Vehicle, PublishedSizes.Gauges(ConductorMaterial.CopperCladAluminium15A) })
        {
            foreach (var row in AmpacityByArea.Match(_cfr, sizes).Rows)
            {
                var tabulated = _cfr.Row(row.TabulatedLabel)!.Conductor;
                Assert.True(row.Conductor.OhmsPerMeterAt20Celsius <= tabulated.OhmsPerMeterAt20Celsius * (1 + 1e-9), row.Conductor.Label);
                Assert.True(row.Conductor.AreaSquareMillimeters >= tabulated.AreaSquareMillimeters * (1 - 1e-9), row.Conductor.Label);
            }
        }
    }

    [Fact]
    public void A_run_can_be_sized_from_a_matched_metric_table()
    {
        var match = AmpacityByArea.Match(_cfr, PublishedSizes.Vehicle);
        var rules = new SizingRules { Table = match.Table, AvailableSizes = [.. match.Rows.Select(r => r.Conductor.Label)] };

        var result = RunSizing.Size(Runs.Run(60, 4) with { Rules = rules });

        Assert.True(result.KeepsAllLimits);
        Assert.EndsWith("mm² vehicle cable", result.Conductor.Label, StringComparison.Ordinal);
        Assert.Equal(match.Table.Name, result.TableName);
    }

    // FAA AC 43.13-1B table 11-9, 105 °C column: amperes in a bundle at 70 °C.
    [Theory]
    [InlineData(22, 3)]
    [InlineData(20, 4)]
    [InlineData(18, 6)]
    [InlineData(16, 7)]
    [InlineData(14, 10)]
    [InlineData(12, 13)]
    [InlineData(10, 17)]
    [InlineData(8, 38)]
    [InlineData(6, 50)]
    [InlineData(4, 68)]
    [InlineData(2, 95)]
    [InlineData(1, 113)]
    [InlineData(0, 128)]
    [InlineData(-1, 147)]
    [InlineData(-2, 172)]
    [InlineData(-3, 204)]
    public void The_aircraft_bundle_table_matches_the_circular(int awg, double amperes)
    {
        var table = PublishedTables.FaaAc43Table119Bundled;

        Assert.Equal(amperes, table.Amperes(Engineering.Units.WireGauge.Label(awg), 105));
        Assert.Equal(16, table.Rows.Count);
        Assert.Empty(table.Validate());
        Assert.Equal(1, table.BundlingFactor(40)); // the bundle is in the figures
        Assert.Equal(1, table.AmbientFactor(105, 70, engineSpace: false), 12);
    }
}
