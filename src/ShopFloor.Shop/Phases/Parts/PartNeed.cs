using ShopFloor.Shop.Catalogue;

namespace ShopFloor.Shop.Phases.Parts;

/// <summary>A part that is to be bought or on its way. Holds no money, so technicians may see it.</summary>
public sealed record PartNeed(
    Guid PartId,
    Guid JobId,
    string JobReference,
    string Name,
    string Supplier,
    string PartNumber,
    decimal Quantity,
    PartUnit Unit,
    string OrderReference,
    DateOnly? ExpectedOn,
    DateOnly? JobPromisedOn);

/// <param name="Supplier">Name, or empty for parts without one.</param>
public sealed record SupplierNeeds(string Supplier, IReadOnlyList<PartNeed> Parts);

/// <param name="DaysLate">Whole days since it was expected.</param>
public sealed record LatePart(PartNeed Part, int DaysLate);
