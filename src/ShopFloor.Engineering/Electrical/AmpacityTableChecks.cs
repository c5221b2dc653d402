using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Electrical;

/// <summary>Checks an ampacity table that someone entered, naming row and column.</summary>
internal static class AmpacityTableChecks
{
    public static IReadOnlyList<InputProblem> Find(AmpacityTable table, UnitText text)
    {
        var checks = new InputChecks(text);
        checks.Named(nameof(AmpacityTable.Name), "Table name", table.Name);
        checks.Named(nameof(AmpacityTable.Source), "Table source", table.Source);
        checks.InRange(nameof(AmpacityTable.AmbientCelsius), "Ambient of the table", table.AmbientCelsius, -40, 150, QuantityKind.Temperature);
        checks.InRange(
            nameof(AmpacityTable.FuseCeilingRatio), "Largest fuse as a multiple of the table value", table.FuseCeilingRatio, 1, 2.5);
        checks.InRange(
            nameof(AmpacityTable.MinimumAreaSquareMillimeters), "Thinnest conductor", table.MinimumAreaSquareMillimeters, 0, 150, QuantityKind.ConductorArea);
        checks.InRange(
            nameof(AmpacityTable.MinimumSheathedAreaSquareMillimeters), "Thinnest conductor in a sheath", table.MinimumSheathedAreaSquareMillimeters, 0, 150,
            QuantityKind.ConductorArea);
        if (table.Rows.Count == 0 || table.InsulationCelsius.Count == 0)
            checks.Add(nameof(AmpacityTable.Rows), "Table: it has no rows or no columns; enter at least one of each.");

        CheckColumns(checks, table, text);
        CheckRows(checks, table, text);
        CheckFactors(checks, table, text);
        return checks.Problems;
    }

    private static void CheckColumns(InputChecks checks, AmpacityTable table, UnitText text)
    {
        for (var c = 0; c < table.InsulationCelsius.Count; c++)
        {
            var celsius = table.InsulationCelsius[c];
            var least = c == 0 ? table.AmbientCelsius : table.InsulationCelsius[c - 1];
            if (!double.IsFinite(celsius) || celsius <= least || celsius > 300)
            {
                checks.Add(
                    nameof(AmpacityTable.InsulationCelsius),
                    $"Column {c + 1}, insulation class: {text.Celsius(celsius)} is not accepted; enter more than {text.Celsius(least)}, "
                    + $"{(c == 0 ? "the ambient of the table" : "the class of the column before it")}, and up to {text.Celsius(300)}.");
            }
        }
    }

    private static void CheckRows(InputChecks checks, AmpacityTable table, UnitText text)
    {
        var labels = new HashSet<string>(StringComparer.Ordinal);
        AmpacityRow? before = null;
        for (var r = 0; r < table.Rows.Count; r++)
        {
            var row = table.Rows[r];
            var name = string.IsNullOrWhiteSpace(row.Conductor.Label) ? $"Row {r + 1}" : $"Row {r + 1} ({row.Conductor.Label})";
            var field = $"{nameof(AmpacityTable.Rows)}[{r}]";
            checks.Named($"{field}.Conductor.Label", $"{name}, size", row.Conductor.Label);
            if (!labels.Add(row.Conductor.Label))
                checks.Add(nameof(AmpacityTable.Rows), $"{name}: the size is in the table twice; keep one row.");
            var area = row.Conductor.AreaSquareMillimeters;
            if (!double.IsFinite(area) || area is < 0.05 or > 300)
                checks.Add($"{field}.Conductor.AreaSquareMillimeters", $"{name}, cross-section: {text.Number(area)} mm² is not accepted; enter 0.05 to 300 mm².");
            else if (before is not null && area <= before.Conductor.AreaSquareMillimeters)
                checks.Add(nameof(AmpacityTable.Rows), $"{name}: conductors must be in order, thinnest first; {text.Number(area)} mm² does not come after {text.Number(before.Conductor.AreaSquareMillimeters)} mm².");
            CheckCells(checks, table, row, before, name, field, text);
            before = row;
        }
    }

    private static void CheckCells(
        InputChecks checks, AmpacityTable table, AmpacityRow row, AmpacityRow? before, string name, string field, UnitText text)
    {
        if (row.Amperes.Count != table.InsulationCelsius.Count)
        {
            checks.Add(field, $"{name}: it has {row.Amperes.Count} currents; enter {table.InsulationCelsius.Count}, one per insulation class.");
            return;
        }

        for (var c = 0; c < row.Amperes.Count; c++)
        {
            var amperes = row.Amperes[c];
            var cell = $"{name}, {text.Celsius(table.InsulationCelsius[c])} column";
            var at = $"{field}.Amperes[{c}]";
            if (!double.IsFinite(amperes) || amperes is <= 0 or > 5000)
                checks.Add(at, $"{cell}: {text.Amperes(amperes)} is not accepted; enter a current above 0 A, up to 5000 A.");
            else if (c > 0 && amperes < row.Amperes[c - 1])
                checks.Add(at, $"{cell}: {text.Amperes(amperes)} is below {text.Amperes(row.Amperes[c - 1])} of the cooler class; warmer insulation cannot carry less.");
            else if (before is not null && c < before.Amperes.Count && amperes < before.Amperes[c])
                checks.Add(at, $"{cell}: {text.Amperes(amperes)} is below {text.Amperes(before.Amperes[c])} of {before.Conductor.Label}; a thicker conductor cannot carry less.");
        }
    }

    private static void CheckFactors(InputChecks checks, AmpacityTable table, UnitText text)
    {
        if (table.EngineSpaceFactors.Count != 0 && table.EngineSpaceFactors.Count != table.InsulationCelsius.Count)
            checks.Add(nameof(AmpacityTable.EngineSpaceFactors), "Engine-space factors: enter one per insulation class, or none.");
        for (var c = 0; c < table.EngineSpaceFactors.Count; c++)
            CheckFactor(checks, nameof(AmpacityTable.EngineSpaceFactors), $"Engine-space factor of column {c + 1}", table.EngineSpaceFactors[c], text);

        for (var b = 0; b < table.BundlingFactors.Count; b++)
        {
            var factor = table.BundlingFactors[b];
            CheckFactor(checks, nameof(AmpacityTable.BundlingFactors), $"Bundling factor from {factor.FromConductors} conductors", factor.Factor, text);
            if (b > 0 && (factor.FromConductors <= table.BundlingFactors[b - 1].FromConductors || factor.Factor > table.BundlingFactors[b - 1].Factor))
            {
                checks.Add(
                    nameof(AmpacityTable.BundlingFactors),
                    $"Bundling factor from {factor.FromConductors} conductors: numbers must rise and factors must not; "
                    + $"the one before is {text.Number(table.BundlingFactors[b - 1].Factor)} from {table.BundlingFactors[b - 1].FromConductors} conductors.");
            }
        }
    }

    private static void CheckFactor(InputChecks checks, string field, string label, double factor, UnitText text)
    {
        if (!double.IsFinite(factor) || factor is <= 0 or > 1)
            checks.Add(field, $"{label}: {text.Number(factor)} is not accepted; enter more than 0 and up to 1.");
    }
}
