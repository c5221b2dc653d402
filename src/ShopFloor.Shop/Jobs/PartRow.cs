using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Vehicles;

namespace ShopFloor.Shop.Jobs;

/// <summary>A part on a job as everybody may see it; money has rows of its own.</summary>
public sealed record PartRow
{
    public required Guid Id { get; init; }

    public required Guid Version { get; init; }

    public required PartKind Kind { get; init; }

    public required string Name { get; init; }

    public required string Supplier { get; init; }

    public required string PartNumber { get; init; }

    public required PartDirection Direction { get; init; }

    public required decimal Quantity { get; init; }

    public required PartUnit Unit { get; init; }

    public required string Zone { get; init; }

    public required string Place { get; init; }

    public required string Access { get; init; }

    public required PartState State { get; init; }

    public required string OrderReference { get; init; }

    public required DateOnly? ExpectedOn { get; init; }

    /// <summary>The run of the electrical plan that asked for it, or empty.</summary>
    public required string PlanRunId { get; init; }

    public required double? UnitMassKilograms { get; init; }

    public required PartData Data { get; init; }

    public required string Notes { get; init; }

    public string ZoneName => VehicleZones.NameOf(Zone);

    public double? TotalMassKilograms => UnitMassKilograms * (double)Quantity;

    public bool IsLateOn(DateOnly today) => State == PartState.Ordered && ExpectedOn < today;

    internal static PartRow Of(JobPart part) => new()
    {
        Id = part.Id,
        Version = part.Version,
        Kind = part.Kind,
        Name = part.Name,
        Supplier = part.Supplier,
        PartNumber = part.PartNumber,
        Direction = part.Direction,
        Quantity = part.Quantity,
        Unit = part.Unit,
        Zone = part.Zone,
        Place = part.Place,
        Access = part.Access,
        State = part.State,
        OrderReference = part.OrderReference,
        ExpectedOn = part.ExpectedOn,
        PlanRunId = part.PlanRunId,
        UnitMassKilograms = part.UnitMassKilograms,
        Data = part.Data,
        Notes = part.Notes,
    };
}

/// <summary>What a part sells for. Only for those who may see prices.</summary>
public sealed record PartMoneyRow(Guid PartId, decimal? UnitPrice, decimal? TotalPrice);

/// <summary>What a part costs the shop and leaves. Only for those who may see costs.</summary>
/// <param name="MarginPercent">Share of the price that is left, %; null without both numbers or with a price of 0.</param>
public sealed record PartCostRow(Guid PartId, decimal? UnitCost, decimal? TotalCost, decimal? MarginPercent);

/// <summary>A part as its form loads it.</summary>
/// <param name="Details">What can be edited; money the actor may not see is blank and stays as it is on saving.</param>
public sealed record PartForm(Guid Id, Guid Version, JobPartDetails Details, PartState State);
