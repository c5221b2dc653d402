using ShopFloor.Shop.Storage.Audit;

namespace ShopFloor.Shop.Phases.Build;

/// <summary>Whether a report stops the work or only tells of something.</summary>
public enum BlockerKind
{
    Blocker,
    FoundProblem,
}

/// <summary>Something a technician reported: what stops the work, or what was found in the car.</summary>
public sealed class Blocker : IAudited
{
    public Blocker(Guid jobId, Guid? stageId, BlockerKind kind, string text, string by, DateTimeOffset at)
    {
        Id = Guid.CreateVersion7();
        JobId = jobId;
        StageId = stageId;
        Kind = kind;
        Text = text;
        ReportedBy = by;
        ReportedAt = at;
    }

    private Blocker()
    {
    }

    public Guid Id { get; private set; }

    public Guid JobId { get; private set; }

    public Guid? StageId { get; private set; }

    public BlockerKind Kind { get; private set; }

    public string Text { get; private set; } = "";

    public string ReportedBy { get; private set; } = "";

    public DateTimeOffset ReportedAt { get; private set; }

    public string Resolution { get; private set; } = "";

    public string ResolvedBy { get; private set; } = "";

    public DateTimeOffset? ResolvedAt { get; private set; }

    public bool IsOpen => ResolvedAt is null;

    public void Resolve(string resolution, string by, DateTimeOffset at)
    {
        Resolution = resolution;
        ResolvedBy = by;
        ResolvedAt = at;
    }

    public void Reopen()
    {
        Resolution = "";
        ResolvedBy = "";
        ResolvedAt = null;
    }

    string IAudited.AuditName => Text;

    Guid? IAudited.AuditJobId => JobId;
}
