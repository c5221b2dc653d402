using ShopFloor.Shop.Storage;
using ShopFloor.Shop.Storage.Audit;

namespace ShopFloor.Shop.Jobs;

/// <summary>What a photo shows, so it turns up in the right place.</summary>
public enum PhotoSubject
{
    Job,
    CheckIn,
    ConditionMark,
    Step,
    Blocker,
    Part,
    Finished,
}

/// <summary>A photo of a job. The picture itself lies in the photo store under its hash.</summary>
public sealed class Photo : IAudited, IRemovable
{
    public Photo(Guid jobId, string hash, int width, int height, PhotoSubject subject, Guid? subjectId, string takenBy, DateTimeOffset at)
    {
        Id = Guid.CreateVersion7();
        JobId = jobId;
        Hash = hash;
        Width = width;
        Height = height;
        Subject = subject;
        SubjectId = subjectId;
        TakenBy = takenBy;
        TakenAt = at;
    }

    private Photo()
    {
    }

    public Guid Id { get; private set; }

    public Guid JobId { get; private set; }

    public string Hash { get; private set; } = "";

    public int Width { get; private set; }

    public int Height { get; private set; }

    public PhotoSubject Subject { get; private set; }

    public Guid? SubjectId { get; private set; }

    public string Caption { get; set; } = "";

    /// <summary>Whether the client sees it behind their link and in the handover.</summary>
    public bool ShownToClient { get; set; }

    public string TakenBy { get; private set; } = "";

    public DateTimeOffset TakenAt { get; private set; }

    public DateTimeOffset? RemovedAt { get; private set; }

    public void Remove(DateTimeOffset at) => RemovedAt ??= at;

    public void BringBack() => RemovedAt = null;

    string IAudited.AuditName => Caption.Length > 0 ? $"Photo '{Caption}'" : "Photo";

    Guid? IAudited.AuditJobId => JobId;
}
