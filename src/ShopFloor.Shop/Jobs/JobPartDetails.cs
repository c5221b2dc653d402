using System.ComponentModel.DataAnnotations;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Vehicles;

namespace ShopFloor.Shop.Jobs;

/// <summary>What is typed about a part on a job.</summary>
public sealed class JobPartDetails : PartFacts
{
    [Display(Name = "Direction")]
    public PartDirection Direction { get; set; }

    [Display(Name = "Quantity")]
    public decimal Quantity { get; set; } = 1;

    [Display(Name = "Where it sits")]
    public string Zone { get; set; } = "";

    [Display(Name = "Exact place")]
    public string Place { get; set; } = "";

    [Display(Name = "Measured place")]
    public PartPosition Position { get; set; } = new();

    [Display(Name = "How to reach it")]
    public string Access { get; set; } = "";

    [Display(Name = "Order reference")]
    public string OrderReference { get; set; } = "";

    [Display(Name = "Expected on")]
    public DateOnly? ExpectedOn { get; set; }

    [Display(Name = "Run of the plan")]
    public string PlanRunId { get; set; } = "";

    public static JobPartDetails FromCatalogue(PartFacts facts)
    {
        var details = new JobPartDetails();
        details.CopyFrom(facts);
        return details;
    }

    public static JobPartDetails Of(JobPart part)
    {
        var details = FromCatalogue(part);
        details.Direction = part.Direction;
        details.Quantity = part.Quantity;
        details.Zone = part.Zone;
        details.Place = part.Place;
        details.Position = part.Position with { };
        details.Access = part.Access;
        details.OrderReference = part.OrderReference;
        details.ExpectedOn = part.ExpectedOn;
        details.PlanRunId = part.PlanRunId;
        return details;
    }

    public override List<Problem> Problems()
    {
        var check = new Check()
            .That(
                Quantity >= 0.001m && Quantity <= 10_000,
                nameof(Quantity),
                $"The quantity is {Quantity}; accepted is 0.001 to 10,000.")
            .That(
                Unit is not (PartUnit.Piece or PartUnit.Set) || decimal.Truncate(Quantity) == Quantity,
                nameof(Quantity),
                $"The quantity is {Quantity}; pieces and sets are counted whole.")
            .That(Zone.Length == 0 || VehicleZones.Exists(Zone), nameof(Zone), $"'{Zone}' is no place in the vehicle.")
            .Longest(Place, nameof(Place), "The place", Limits.Line)
            .Longest(Access, nameof(Access), "The way to reach it", Limits.Line)
            .Longest(OrderReference, nameof(OrderReference), "The order reference", Limits.Name)
            .Longest(PlanRunId, nameof(PlanRunId), "The run of the plan", Limits.Name);
        Position.AddProblems(check);
        check.Problems.AddRange(base.Problems());
        return check.Problems;
    }
}
