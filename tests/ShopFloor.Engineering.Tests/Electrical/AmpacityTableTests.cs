using ShopFloor.Engineering.Electrical;

namespace ShopFloor.Engineering.Tests.Electrical;

public class AmpacityTableTests
{
    private static readonly AmpacityTable _table = PublishedTables.Cfr33Part183425;

    // 33 CFR 183.425 table 5, transcribed row by row: AWG; 60, 75, 80, 90, 105, 125, 200 °C.
    private const string Table5 = """
        18 AWG;10 10 15 20 20 25 25
        16 AWG;15 15 20 25 25 30 35
        14 AWG;20 20 25 30 35 40 45
        12 AWG;25 25 35 40 45 50 55
        10 AWG;40 40 50 55 60 70 70
        8 AWG;55 65 70 70 80 90 100
        6 AWG;80 95 100 100 120 125 135
        4 AWG;105 125 130 135 160 170 180
        3 AWG;120 145 150 155 180 195 210
        2 AWG;140 170 175 180 210 225 240
        1 AWG;165 195 210 210 245 265 280
        1/0 AWG;195 230 245 245 285 305 325
        2/0 AWG;225 265 285 285 330 355 370
        3/0 AWG;260 310 330 330 385 410 430
        4/0 AWG;300 360 385 385 445 475 510
        """;

    private static readonly double[] _classes = [60, 75, 80, 90, 105, 125, 200];

    [Fact]
    public void Every_cell_matches_the_regulation()
    {
        var rows = Table5.Split('\n', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries);

        Assert.Equal(rows.Length, _table.Rows.Count);
        foreach (var row in rows)
        {
            var (label, cells) = (row.Split(';')[0], row.Split(';')[1].Split(' '));
            for (var column = 0; column < _classes.Length; column++)
                Assert.Equal(double.Parse(cells[column], System.Globalization.CultureInfo.InvariantCulture), _table.Amperes(label, _classes[column]));
        }
    }

    // 33 CFR 183.425 note 1.
    [Theory]
    [InlineData(60, 0.58)]
    [InlineData(75, 0.75)]
    [InlineData(80, 0.78)]
    [InlineData(90, 0.82)]
    [InlineData(105, 0.85)]
    [InlineData(125, 0.89)]
    [InlineData(200, 1.00)]
    public void Engine_space_factors_match_note_1_and_the_root_law_reproduces_them(double insulation, double factor)
    {
        Assert.Equal(factor, _table.AmbientFactor(insulation, 50, engineSpace: true));
        // Only the 200 °C column is printed more generously than the law at 50 °C gives.
        if (insulation < 200)
            Assert.Equal(factor, _table.AmbientFactor(insulation, 50, engineSpace: false), 0.0085);
    }

    // 33 CFR 183.425 note 2.
    [Theory]
    [InlineData(1, 1)]
    [InlineData(2, 1)]
    [InlineData(3, 0.70)]
    [InlineData(4, 0.60)]
    [InlineData(6, 0.60)]
    [InlineData(7, 0.50)]
    [InlineData(24, 0.50)]
    [InlineData(25, 0.40)]
    [InlineData(200, 0.40)]
    public void Bundling_factors_match_note_2(int conductors, double factor)
    {
        Assert.Equal(factor, _table.BundlingFactor(conductors));
    }

    [Fact]
    public void Bundling_below_50_v_is_said_to_be_good_practice_only()
    {
        Assert.Contains("183.435(b)", _table.BundlingStatement, StringComparison.Ordinal);
        Assert.Contains("good practice", _table.BundlingStatement, StringComparison.Ordinal);
    }

    [Fact]
    public void The_table_says_it_was_written_for_boats()
    {
        Assert.Contains("boats", _table.Statement, StringComparison.Ordinal);
        Assert.Contains("vehicle maker", _table.Statement, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(30, 1)]
    [InlineData(10, 1)] // cooler gives no bonus
    [InlineData(50, 0.7746)] // √(30/50)
    [InlineData(70, 0.4472)] // √(10/50)
    [InlineData(80, 0)]
    [InlineData(95, 0)]
    public void Ambient_factor_of_80_degree_insulation_follows_the_root_law(double ambient, double factor)
    {
        Assert.Equal(factor, _table.AmbientFactor(80, ambient, engineSpace: false), 0.0001);
    }

    [Fact]
    public void A_hotter_engine_space_than_the_table_stands_for_uses_the_lower_factor()
    {
        Assert.Equal(Math.Sqrt(25 / 75.0), _table.AmbientFactor(105, 80, engineSpace: true), 9);
        Assert.Equal(0.85, _table.AmbientFactor(105, 20, engineSpace: true));
    }

    [Fact]
    public void A_class_between_columns_uses_the_cooler_column_and_one_below_all_is_refused()
    {
        Assert.Equal(105, _table.ColumnCelsius(110));
        Assert.Equal(60, _table.ColumnCelsius(70));
        Assert.Equal("insulationCelsius", Assert.Throws<ArgumentOutOfRangeException>(() => _table.ColumnCelsius(55)).ParamName);
        Assert.Equal("label", Assert.Throws<ArgumentOutOfRangeException>(() => _table.Amperes("5 AWG", 80)).ParamName);
    }

    [Fact]
    public void The_shipped_table_is_valid_and_a_shops_own_table_is_checked()
    {
        Assert.Empty(_table.Validate());

        var twisted = _table with { Rows = [.. _table.Rows.Reverse()] };
        Assert.Contains(twisted.Validate(), p => p.Field == "Rows");

        var shrinking = _table with { Rows = [_table.Rows[0], _table.Rows[1] with { Amperes = [5, 5, 5, 5, 5, 5, 5] }] };
        Assert.Contains(shrinking.Validate(), p => p.Message.Contains("cannot carry less", StringComparison.Ordinal));

        Assert.Contains((_table with { Name = " " }).Validate(), p => p.Field == "Name");
        Assert.Contains((_table with { InsulationCelsius = [20, 75, 80, 90, 105, 125, 200] }).Validate(), p => p.Field == "InsulationCelsius");
        Assert.Contains((_table with { EngineSpaceFactors = [1] }).Validate(), p => p.Field == "EngineSpaceFactors");
    }

    private static AmpacityTable Own { get; } = new()
    {
        Name = "Cable maker's sheet",
        Source = "maker's data sheet, edition on the shelf",
        Statement = "single cable in free air",
        AmbientCelsius = 40,
        InsulationCelsius = [70, 105],
        Rows = [new(new ConductorSize("4 mm²", 4), [30, 42]), new(new ConductorSize("6 mm²", 6), [40, 55])],
        BundlingFactors = [new(3, 0.8), new(6, 0.6)],
    };

    private static AmpacityTable WithCells(params double[] second) => Own with { Rows = [Own.Rows[0], Own.Rows[1] with { Amperes = second }] };

    [Fact]
    public void A_table_of_the_shop_with_a_named_source_is_accepted_and_used_between_ambients()
    {
        Assert.Empty(Own.Validate());
        // √((105 − 70)/(105 − 40)), the root law of 33 CFR 183.425 note 1 with this table's own ambient.
        Assert.Equal(Math.Sqrt(35.0 / 65), Own.AmbientFactor(105, 70, engineSpace: false), 12);
    }

    public static TheoryData<string, AmpacityTable, string, string> Faults => new()
    {
        { "source", Own with { Source = "" }, "Source", "nothing was entered" },
        { "falls with size", WithCells(29, 55), "Rows[1].Amperes[0]", "29" },
        { "falls with class", WithCells(40, 39), "Rows[1].Amperes[1]", "warmer insulation" },
        { "zero", WithCells(40, 0), "Rows[1].Amperes[1]", "Row 2 (6 mm²), 105" },
        { "not a number", WithCells(double.NaN, 55), "Rows[1].Amperes[0]", "above 0 A" },
        { "infinite", WithCells(40, double.PositiveInfinity), "Rows[1].Amperes[1]", "above 0 A" },
        { "cells missing", WithCells(40), "Rows[1]", "enter 2" },
        { "same size twice", Own with { Rows = [Own.Rows[0], Own.Rows[1] with { Conductor = new ConductorSize("4 mm²", 6) }] }, "Rows", "twice" },
        { "out of order", Own with { Rows = [Own.Rows[1], Own.Rows[0]] }, "Rows", "thinnest first" },
        { "no area", Own with { Rows = [Own.Rows[0] with { Conductor = new ConductorSize("x", double.NaN) }, Own.Rows[1]] }, "Rows[0].Conductor.AreaSquareMillimeters", "0.05 to 300" },
        { "classes fall", Own with { InsulationCelsius = [105, 70] }, "InsulationCelsius", "Column 2" },
        { "class below ambient", Own with { AmbientCelsius = 80 }, "InsulationCelsius", "Column 1" },
        { "ambient not a number", Own with { AmbientCelsius = double.NaN }, "AmbientCelsius", "Ambient of the table" },
        { "engine factor", Own with { EngineSpaceFactors = [0.8, 1.2] }, "EngineSpaceFactors", "column 2" },
        { "bundling factor", Own with { BundlingFactors = [new(3, 0)] }, "BundlingFactors", "from 3 conductors" },
        { "bundling order", Own with { BundlingFactors = [new(6, 0.6), new(3, 0.8)] }, "BundlingFactors", "must rise" },
        { "ceiling", Own with { FuseCeilingRatio = 0.5 }, "FuseCeilingRatio", "1 to 2.5" },
    };

    [Theory]
    [MemberData(nameof(Faults))]
    public void A_faulty_table_is_refused_by_row_and_column(string fault, AmpacityTable table, string field, string says)
    {
        Assert.NotEmpty(fault);
        Assert.Contains(table.Validate(), p => p.Field == field && p.Message.Contains(says, StringComparison.Ordinal));
    }
}
