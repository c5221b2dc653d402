using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Storage;
using ShopFloor.Shop.Storage.Audit;

namespace ShopFloor.Shop.Jobs;

/// <summary>Whether a part goes into the car or comes out of it.</summary>
public enum PartDirection
{
    Installed,
    Removed,
}

/// <summary>How far a part has come.</summary>
public enum PartState
{
    Needed,
    Ordered,
    Received,
    Fitted,
}

public static class PartStates
{
    public static string Text(this PartState state) => state switch
    {
        PartState.Needed => "Needed",
        PartState.Ordered => "Ordered",
        PartState.Received => "Received",
        PartState.Fitted => "Fitted",
        _ => throw new ArgumentOutOfRangeException(nameof(state), state, null),
    };
}

/// <summary>
/// A part on a job: one fact in many roles. The same row is a cost line, an electrical load, a mass at a place
/// and a line of the handover; each role reads it, none copies it.
/// </summary>
public sealed class JobPart : PartFacts, IAudited, IVersioned, IRemovable
{
    public JobPart(Guid jobId, JobPartDetails details, Guid? cataloguePartId, int order)
    {
        Id = Guid.CreateVersion7();
        JobId = jobId;
        CataloguePartId = cataloguePartId;
        Order = order;
        Apply(details);
    }

    private JobPart()
    {
    }

    public Guid Id { get; private set; }

    public Guid Version { get; private set; }

    public Guid JobId { get; private set; }

    public Guid? CataloguePartId { get; private set; }

    public int Order { get; private set; }

    public PartDirection Direction { get; private set; }

    public decimal Quantity { get; private set; }

    public string Zone { get; private set; } = "";

    public string Place { get; private set; } = "";

    /// <summary>Where its middle sits, as far as somebody measured it.</summary>
    public PartPosition Position { get; private set; } = new();

    /// <summary>How the next technician gets at it.</summary>
    public string Access { get; private set; } = "";

    public PartState State { get; private set; }

    public string OrderReference { get; private set; } = "";

    public DateOnly? ExpectedOn { get; private set; }

    /// <summary>The run of the electrical plan this cable or fuse belongs to, if the plan asked for it.</summary>
    public string PlanRunId { get; private set; } = "";

    public DateTimeOffset? RemovedAt { get; private set; }

    /// <summary>Mass of the whole line, kg; null when the mass of a unit is not known.</summary>
    public double? TotalMassKilograms => UnitMassKilograms * (double)Quantity;

    public decimal? TotalCost => UnitCost * Quantity;

    public decimal? TotalPrice => UnitPrice * Quantity;

    public void Apply(JobPartDetails details)
    {
        CopyFrom(details);
        Direction = details.Direction;
        Quantity = details.Quantity;
        Zone = details.Zone;
        Place = details.Place.Trim();
        Position = details.Position with { };
        Access = details.Access.Trim();
        OrderReference = details.OrderReference.Trim();
        ExpectedOn = details.ExpectedOn;
        PlanRunId = details.PlanRunId;
    }

    /// <summary>Makes the line another thing, for example a thicker cable.</summary>
    public void Replace(JobPartDetails details, Guid? cataloguePartId)
    {
        CataloguePartId = cataloguePartId;
        Apply(details);
    }

    public void MoveTo(PartState state) => State = state;

    public void PutOnOrder(string reference, DateOnly? expectedOn)
    {
        State = PartState.Ordered;
        OrderReference = reference.Trim();
        ExpectedOn = expectedOn;
    }

    public void PlaceAt(int order) => Order = order;

    public void Remove(DateTimeOffset at) => RemovedAt ??= at;

    public void BringBack() => RemovedAt = null;

    string IAudited.AuditName => Name;

    Guid? IAudited.AuditJobId => JobId;
}
