using System.Globalization;
using System.Text.RegularExpressions;
using ShopFloor.Engineering.Electrical;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Common;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>Reads a table as people paste it from a sheet or a data sheet: tabs, semicolons or commas between the cells.</summary>
public static partial class OwnTableText
{
    private const int MostCharacters = 20_000;

    private const int MostRows = 100;

    /// <returns>The table, or null with what is wrong; cells are named by row and column.</returns>
    public static (AmpacityTable? Table, List<Problem> Problems) Read(OwnTableForm form)
    {
        ArgumentNullException.ThrowIfNull(form);
        var check = new Check()
            .Required(form.Name, nameof(form.Name), "The table's name", 100)
            .Required(form.Source, nameof(form.Source), "The source", Limits.Line)
            .Longest(form.Statement, nameof(form.Statement), "What it was written for", Limits.Note)
            .Longest(form.Cells, nameof(form.Cells), "The table", MostCharacters)
            .Longest(form.EngineSpaceFactors, nameof(form.EngineSpaceFactors), "The engine-space factors", Limits.Line)
            .Longest(form.BundlingFactors, nameof(form.BundlingFactors), "The bundling factors", Limits.Line)
            .That(PublishedTables.All.All(table => !table.Name.Equals(form.Name.Trim(), StringComparison.OrdinalIgnoreCase)), nameof(form.Name), $"'{form.Name.Trim()}' is the name of a table that comes with the program; give yours another.")
            .Range(form.EngineSpaceAmbientCelsius, nameof(form.EngineSpaceAmbientCelsius), "The ambient of the engine-space factors", -40, 150, "°C");
        var cells = Cells(form.Cells, nameof(form.Cells), check);
        if (check.Failed)
        {
            return (null, check.Problems);
        }

        var classes = cells.Count > 0 ? Numbers(cells[0][1..], nameof(form.Cells), column => $"Line 1, column {column + 1}, insulation class", check) : [];
        var rows = cells.Skip(1).Select((line, at) => Row(line, at, check)).OfType<AmpacityRow>().ToList();
        check.That(rows.Count <= MostRows, nameof(form.Cells), $"The table has {rows.Count} sizes; at most {MostRows} are kept.");
        var engine = Numbers(Cells(form.EngineSpaceFactors, "", check).SelectMany(line => line), nameof(form.EngineSpaceFactors), column => $"Engine-space factor {column}", check);
        var bundling = Cells(form.BundlingFactors, "", check).Select((line, at) => Bundle(line, at, check)).OfType<BundlingFactor>().ToList();
        if (check.Failed)
        {
            return (null, check.Problems);
        }

        var table = new AmpacityTable
        {
            Name = form.Name.Trim(),
            Source = form.Source.Trim(),
            Statement = form.Statement.Trim().Length > 0 ? form.Statement.Trim() : "Entered by the shop.",
            AmbientCelsius = form.AmbientCelsius,
            InsulationCelsius = classes,
            Rows = rows,
            EngineSpaceFactors = engine,
            EngineSpaceAmbientCelsius = form.EngineSpaceAmbientCelsius,
            BundlingFactors = bundling,
            BundlingStatement = bundling.Count > 0 ? "Bundling factors of the table the shop entered." : "The table has no bundling factors; none is applied.",
            FuseCeilingSource = "a fuse not above the table's current",
            MinimumAreaSource = "the table the shop entered names no least size",
        };
        var problems = table.Validate(new UnitText(UnitSystem.Metric, CultureInfo.CurrentCulture)).Select(problem => new Problem(FieldOf(problem.Field), problem.Message)).ToList();
        return (problems.Count > 0 ? null : table, problems);
    }

    /// <summary>A table as lines to edit, the way <see cref="Read"/> reads them.</summary>
    public static OwnTableForm Write(AmpacityTable table)
    {
        ArgumentNullException.ThrowIfNull(table);
        static string Line(IEnumerable<double> values) => string.Join("; ", values.Select(value => value.ToString(CultureInfo.InvariantCulture)));
        return new OwnTableForm
        {
            Name = $"{table.Name}, changed",
            Source = table.Source,
            Statement = table.Statement,
            AmbientCelsius = table.AmbientCelsius,
            Cells = string.Join('\n', table.Rows.Select(row => $"{row.Conductor.Label}; {Line(row.Amperes)}").Prepend($"size; {Line(table.InsulationCelsius)}")),
            EngineSpaceFactors = Line(table.EngineSpaceFactors),
            EngineSpaceAmbientCelsius = table.EngineSpaceAmbientCelsius,
            BundlingFactors = string.Join('\n', table.BundlingFactors.Select(factor => string.Create(CultureInfo.InvariantCulture, $"{factor.FromConductors}; {factor.Factor}"))),
        };
    }

    private static List<string[]> Cells(string text, string field, Check check)
    {
        var lines = text.Split('\n', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries);
        if (field.Length > 0 && lines.Length < 2)
        {
            check.That(false, field, "The table needs a first line with the insulation classes and a line for each size, for example: size; 60; 105 and then 4 AWG; 105; 160.");
        }

        if (lines.Length == 0)
        {
            return [];
        }

        // A comma is a decimal sign where something else parts the cells.
        var between = lines.Any(line => line.Contains('\t', StringComparison.Ordinal)) ? '\t' : lines.Any(line => line.Contains(';', StringComparison.Ordinal)) ? ';' : ',';
        return [.. lines.Select(line => line.Split(between, StringSplitOptions.TrimEntries).Select(cell => between == ',' ? cell : cell.Replace(',', '.')).ToArray())];
    }

    private static AmpacityRow? Row(string[] line, int at, Check check)
    {
        var name = $"Line {at + 2} ('{line[0]}')";
        var amperes = Numbers(line[1..], nameof(OwnTableForm.Cells), column => $"{name}, column {column + 1}", check);
        if (Size(line[0]) is { } size)
        {
            return new AmpacityRow(size, amperes);
        }

        check.That(false, nameof(OwnTableForm.Cells), $"{name}: '{line[0]}' is no size; write it with its unit, for example 4 AWG, 1/0 AWG or 25 mm².");
        return null;
    }

    private static ConductorSize? Size(string text)
    {
        if (Metric().Match(text) is { Success: true } metric && double.TryParse(metric.Groups[1].Value, NumberStyles.Float, CultureInfo.InvariantCulture, out var area))
        {
            return new ConductorSize(string.Create(CultureInfo.InvariantCulture, $"{area} mm²"), area);
        }

        return text.Contains("AWG", StringComparison.OrdinalIgnoreCase) && WireGauge.TryParse(text, out var gauge) ? ConductorSize.Awg(gauge) : null;
    }

    private static BundlingFactor? Bundle(string[] line, int at, Check check)
    {
        if (line.Length == 2 && int.TryParse(line[0], NumberStyles.None, CultureInfo.InvariantCulture, out var from) && Number(line[1]) is { } factor)
        {
            return new BundlingFactor(from, factor);
        }

        check.That(false, nameof(OwnTableForm.BundlingFactors), $"Bundling factors, line {at + 1}: '{string.Join("; ", line)}' is not accepted; write from how many conductors and the factor, for example 3; 0.7.");
        return null;
    }

    private static List<double> Numbers(IEnumerable<string> cells, string field, Func<int, string> name, Check check)
    {
        List<double> numbers = [];
        foreach (var (cell, column) in cells.Select((cell, at) => (cell, at + 1)).Where(pair => pair.cell.Length > 0))
        {
            check.That(Number(cell) is not null, field, $"{name(column)}: '{cell}' is no number.");
            numbers.Add(Number(cell) ?? 0);
        }

        return numbers;
    }

    private static double? Number(string cell) =>
        double.TryParse(Unit().Replace(cell, ""), NumberStyles.Float, CultureInfo.InvariantCulture, out var number) && double.IsFinite(number) ? number : null;

    private static string FieldOf(string field) => field switch
    {
        nameof(AmpacityTable.Name) => nameof(OwnTableForm.Name),
        nameof(AmpacityTable.Source) => nameof(OwnTableForm.Source),
        nameof(AmpacityTable.AmbientCelsius) => nameof(OwnTableForm.AmbientCelsius),
        nameof(AmpacityTable.EngineSpaceFactors) => nameof(OwnTableForm.EngineSpaceFactors),
        nameof(AmpacityTable.BundlingFactors) => nameof(OwnTableForm.BundlingFactors),
        _ => nameof(OwnTableForm.Cells),
    };

    [GeneratedRegex(@"^\s*([0-9]+(?:\.[0-9]+)?)\s*(?:mm²|mm2|qmm|sqmm)\s*$", RegexOptions.IgnoreCase | RegexOptions.CultureInvariant)]
    private static partial Regex Metric();

    [GeneratedRegex(@"\s*(?:°\s*C|A)\s*$", RegexOptions.IgnoreCase | RegexOptions.CultureInvariant)]
    private static partial Regex Unit();
}
