namespace ShopFloor.Engineering.Electrical.Conductors;

/// <summary>A size and the tabulated size whose current it is allowed.</summary>
/// <param name="Conductor">The size.</param>
/// <param name="EquivalentCopperSquareMillimeters">Copper cross-section of the same resistance, never above the nominal one, mm².</param>
/// <param name="TabulatedLabel">The thickest size of the table that is not above it.</param>
/// <param name="TabulatedSquareMillimeters">Cross-section of that size, mm².</param>
public sealed record AreaMatchRow(
    ConductorSize Conductor, double EquivalentCopperSquareMillimeters, string TabulatedLabel, double TabulatedSquareMillimeters);

/// <summary>A table for sizes of another system or material, made by matching cross-sections.</summary>
/// <param name="Table">The table; its statement says how it was made.</param>
/// <param name="Rows">Which tabulated size each row was taken from.</param>
/// <param name="LeftOut">Sizes thinner than the thinnest of the table: no current is known for them.</param>
public sealed record AreaMatch(AmpacityTable Table, IReadOnlyList<AreaMatchRow> Rows, IReadOnlyList<ConductorSize> LeftOut);

/// <summary>Uses an ampacity table for sizes it does not list, without interpolating.</summary>
/// <remarks>
/// A size is allowed the current of the thickest tabulated conductor whose cross-section is not above the copper cross-section that has the
/// size's own resistance. It then warms no more than the tabulated conductor at the same current, with at least its surface. The rule is
/// this program's own and is named in the table it makes.
/// </remarks>
public static class AmpacityByArea
{
    /// <summary>Name of the rule, shown with every result.</summary>
    public const string Rule = "nearest smaller tabulated size by copper cross-section of the same resistance; rule of this program, no interpolation";

    /// <summary>Makes a table for the sizes.</summary>
    /// <param name="table">The published table, of copper conductors.</param>
    /// <param name="sizes">Sizes of one system and material, thinnest first.</param>
    /// <exception cref="ArgumentOutOfRangeException">The table cannot be used, or no size is as thick as its thinnest; the parameter name is the field.</exception>
    public static AreaMatch Match(AmpacityTable table, IReadOnlyList<ConductorSize> sizes)
    {
        ArgumentNullException.ThrowIfNull(table);
        ArgumentNullException.ThrowIfNull(sizes);
        Explained.InputChecks.ThrowIfAny(table.Validate());
        var rows = new List<AreaMatchRow>();
        var cells = new List<AmpacityRow>();
        var leftOut = new List<ConductorSize>();
        foreach (var size in sizes)
        {
            var area = size.EquivalentCopperSquareMillimeters;
            var match = table.Rows.LastOrDefault(r => FuseRatings.AtLeast(area, r.Conductor.EquivalentCopperSquareMillimeters));
            if (match is null)
            {
                leftOut.Add(size);
                continue;
            }

            rows.Add(new AreaMatchRow(size, area, match.Conductor.Label, match.Conductor.AreaSquareMillimeters));
            cells.Add(match with { Conductor = size });
        }

        if (cells.Count == 0)
        {
            throw new ArgumentOutOfRangeException(
                nameof(sizes), $"No size is as thick as {table.Rows[0].Conductor.Label}, the thinnest of {table.Name}; enter at least one that is.");
        }

        var matched = table with
        {
            Name = $"{table.Name}, by cross-section",
            Source = $"{table.Source}; {Rule}",
            Statement = $"{table.Statement} The table does not list these sizes; each is allowed the current of the {Rule}.",
            Rows = cells,
        };
        return new AreaMatch(matched, rows, leftOut);
    }
}
