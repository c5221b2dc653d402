using ShopFloor.Shop.Catalogue;

namespace ShopFloor.Shop.Phases.Estimate;

/// <summary>
/// Lines of an estimate that read the same, as one: several runs of one cable become its total length. Only the reading is folded;
/// what was issued and what the client agreed to stays line by line.
/// </summary>
/// <param name="Lines">The lines behind it, at least one.</param>
public sealed record FoldedLine(IReadOnlyList<EstimateLine> Lines)
{
    private static readonly string CableGroup = PartKinds.Of(PartKind.Cable).Plural;

    public string Group => Lines[0].Group;

    public string Text => Lines[0].Text;

    public string Unit => Lines[0].Unit;

    public decimal UnitPrice => Lines[0].UnitPrice;

    public decimal Quantity => Lines.Sum(line => line.Quantity);

    /// <summary>Sum of the rounded lines, so that folding never moves a cent; length times price may differ from it by one.</summary>
    public decimal Total => Lines.Sum(line => line.Total);

    public bool IsFolded => Lines.Count > 1;

    /// <summary>Cables with the same words, unit and price as one line where the first of them stood; everything else as it is.</summary>
    public static IReadOnlyList<FoldedLine> Fold(IEnumerable<EstimateLine> lines) =>
    [
        .. lines
            .GroupBy(line => line.Group == CableGroup && !line.IsLabour
                ? (line.Group, line.Text, line.Unit, line.UnitPrice, Single: Guid.Empty)
                : (line.Group, line.Text, line.Unit, line.UnitPrice, Single: line.SourceId))
            .Select(alike => new FoldedLine([.. alike])),
    ];
}
