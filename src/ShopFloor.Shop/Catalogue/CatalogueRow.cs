namespace ShopFloor.Shop.Catalogue;

/// <summary>A catalogue part as everybody may see it; money has rows of its own.</summary>
public sealed record CatalogueRow(
    Guid Id,
    PartKind Kind,
    string Name,
    string Supplier,
    string PartNumber,
    PartUnit Unit,
    double? UnitMassKilograms,
    PartData Data);

/// <summary>What a catalogue part sells for. Only for those who may see prices.</summary>
public sealed record CatalogueMoneyRow(Guid PartId, decimal? UnitPrice);

/// <summary>What a catalogue part costs the shop. Only for those who may see costs.</summary>
public sealed record CatalogueCostRow(Guid PartId, decimal? UnitCost);

/// <summary>Where a page of the catalogue ended; the next one starts behind it.</summary>
public sealed record CatalogueCursor(string SearchText, Guid Id);

/// <param name="Next">Null on the last page.</param>
public sealed record CatalogueRows(IReadOnlyList<CatalogueRow> Rows, CatalogueCursor? Next);

/// <summary>A catalogue part as its form loads it; money the actor may not see is blank and stays as it is on saving.</summary>
public sealed record CatalogueForm(Guid Id, Guid Version, PartFacts Facts);
