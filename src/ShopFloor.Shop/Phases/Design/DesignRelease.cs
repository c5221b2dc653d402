using ShopFloor.Shop.Storage.Audit;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>A frozen electrical plan: the inputs and the results as they were when it was given to the bench.</summary>
public sealed class DesignRelease : IAudited
{
    public DesignRelease(Guid jobId, int number, string planInputJson, string planResultJson, string by, DateTimeOffset at)
    {
        Id = Guid.CreateVersion7();
        JobId = jobId;
        Number = number;
        PlanInputJson = planInputJson;
        PlanResultJson = planResultJson;
        ReleasedBy = by;
        ReleasedAt = at;
    }

    private DesignRelease()
    {
    }

    public Guid Id { get; private set; }

    public Guid JobId { get; private set; }

    public int Number { get; private set; }

    [NotAudited]
    public string PlanInputJson { get; private set; } = "";

    [NotAudited]
    public string PlanResultJson { get; private set; } = "";

    public string ReleasedBy { get; private set; } = "";

    public DateTimeOffset ReleasedAt { get; private set; }

    string IAudited.AuditName => $"Electrical plan {Number}";

    Guid? IAudited.AuditJobId => JobId;
}
