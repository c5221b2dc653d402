namespace ShopFloor.Engineering.Electrical.Conductors;

/// <summary>An ampacity table for the cables a shop works with: another size system or another metal than the table was printed for.</summary>
public static class SizedTable
{
    /// <summary>Sizes of a system, copper, thinnest first.</summary>
    /// <param name="system">Gauge, vehicle cable or flexible class 5.</param>
    /// <exception cref="ArgumentOutOfRangeException">The system has no published sizes.</exception>
    public static IReadOnlyList<ConductorSize> Sizes(SizeSystem system) => system switch
    {
        SizeSystem.Awg => ConductorSize.Gauges,
        SizeSystem.Class5Metric => PublishedSizes.Class5,
        SizeSystem.VehicleMetric => PublishedSizes.Vehicle,
        _ => throw new ArgumentOutOfRangeException(nameof(system), system, "The system has no published sizes."),
    };

    /// <summary>The table for copper cables of a size system.</summary>
    /// <remarks>
    /// A table printed for the system is used as it is. One printed in mm² gives its currents to the cables of the same nominal size, with
    /// their own published resistance. Any other goes through <see cref="AmpacityByArea"/>, which rounds down and says so.
    /// </remarks>
    /// <param name="table">The table, of copper conductors.</param>
    /// <param name="system">Size system wanted.</param>
    /// <returns>Null when no size of the system is as thick as the thinnest of the table.</returns>
    public static AmpacityTable? Copper(AmpacityTable table, SizeSystem system)
    {
        ArgumentNullException.ThrowIfNull(table);
        var gauges = table.Rows.Count(r => r.Conductor.SizeSystem == SizeSystem.Awg);
        if (system == SizeSystem.Awg && gauges == table.Rows.Count)
            return table;
        var sizes = Sizes(system);
        if (system == SizeSystem.Awg || gauges > 0)
            return Matched(table, sizes);
        var byArea = sizes.ToDictionary(s => s.AreaSquareMillimeters);
        return table with { Rows = [.. table.Rows.Select(r => byArea.TryGetValue(r.Conductor.AreaSquareMillimeters, out var size) ? r with { Conductor = size } : r)] };
    }

    /// <summary>The table for copper-clad aluminium cables of a size system, by cross-section of the same resistance.</summary>
    /// <param name="table">The table, of copper conductors.</param>
    /// <param name="system">Size system wanted.</param>
    /// <param name="material">Clad material.</param>
    /// <returns>Null when no size of it conducts as well as the thinnest of the table.</returns>
    public static AmpacityTable? Clad(AmpacityTable table, SizeSystem system, ConductorMaterial material)
    {
        ArgumentNullException.ThrowIfNull(table);
        ArgumentNullException.ThrowIfNull(material);
        return Matched(table, [.. Sizes(system).Select(size => size with
        {
            Label = $"{size.Label} {material.Name}",
            Material = material,
            SaeAreaSquareMillimeters = null,
            TabulatedOhmsPerMeterAt20Celsius = null,
            Source = $"area: nominal; {material.Source}",
        })]);
    }

    private static AmpacityTable? Matched(AmpacityTable table, IReadOnlyList<ConductorSize> sizes)
    {
        var thinnest = table.Rows[0].Conductor.EquivalentCopperSquareMillimeters;
        return sizes.Any(s => FuseRatings.AtLeast(s.EquivalentCopperSquareMillimeters, thinnest)) ? AmpacityByArea.Match(table, sizes).Table : null;
    }
}
