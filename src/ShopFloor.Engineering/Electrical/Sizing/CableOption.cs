namespace ShopFloor.Engineering.Electrical.Sizing;

/// <summary>A cable that may be chosen, with the table its current is taken from.</summary>
/// <param name="Conductor">The conductor.</param>
/// <param name="Table">Ampacity table; it must have a row of the conductor's label.</param>
public sealed record CableOption(ConductorSize Conductor, AmpacityTable Table)
{
    /// <summary>Whether the shop keeps it.</summary>
    public bool Stocked { get; init; } = true;

    /// <summary>Price of one meter in the shop's currency, or null when unknown.</summary>
    public decimal? PricePerMeter { get; init; }

    /// <summary>Every size of a table, thinnest first.</summary>
    /// <param name="table">The table.</param>
    /// <param name="stocked">Labels the shop keeps; null marks all as kept.</param>
    public static IReadOnlyList<CableOption> FromTable(AmpacityTable table, IEnumerable<string>? stocked = null)
    {
        ArgumentNullException.ThrowIfNull(table);
        var kept = stocked?.ToHashSet(StringComparer.Ordinal);
        return [.. table.Rows.Select(r => new CableOption(r.Conductor, table) { Stocked = kept?.Contains(r.Conductor.Label) ?? true })];
    }
}
