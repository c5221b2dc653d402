namespace ShopFloor.Shop.Storage.Audit;

/// <summary>One line of the append-only trail. The database refuses to change or delete it.</summary>
public sealed class AuditEntry
{
    public AuditEntry(
        DateTimeOffset at,
        Guid? actorId,
        string actorName,
        string via,
        string action,
        string subjectType,
        Guid subjectId,
        string subjectName,
        Guid? jobId,
        string changesJson,
        string reason)
    {
        At = at;
        ActorId = actorId;
        ActorName = actorName;
        Via = via;
        Action = action;
        SubjectType = subjectType;
        SubjectId = subjectId;
        SubjectName = subjectName;
        JobId = jobId;
        ChangesJson = changesJson;
        Reason = reason;
    }

    private AuditEntry()
    {
    }

    public long Sequence { get; private set; }

    public DateTimeOffset At { get; private set; }

    public Guid? ActorId { get; private set; }

    public string ActorName { get; private set; } = "";

    public string Via { get; private set; } = "";

    /// <summary>Added, Changed, Removed, BroughtBack, or the name of an act such as Delivered.</summary>
    public string Action { get; private set; } = "";

    public string SubjectType { get; private set; } = "";

    public Guid SubjectId { get; private set; }

    public string SubjectName { get; private set; } = "";

    public Guid? JobId { get; private set; }

    public string ChangesJson { get; private set; } = "[]";

    /// <summary>The written reason, where one was asked for.</summary>
    public string Reason { get; private set; } = "";

    public string PreviousHash { get; private set; } = "";

    /// <summary>SHA-256 over the previous hash and this line, so that a changed or missing line shows.</summary>
    public string Hash { get; private set; } = "";

    public void Chain(string previousHash)
    {
        PreviousHash = previousHash;
        Hash = AuditChain.HashOf(this);
    }
}

/// <param name="Field">Name of the property.</param>
/// <param name="From">Value before, or null when it was added.</param>
/// <param name="To">Value after, or null when it was taken away.</param>
public sealed record AuditChange(string Field, string? From, string? To);
