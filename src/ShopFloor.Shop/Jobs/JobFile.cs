using ShopFloor.Shop.Storage;
using ShopFloor.Shop.Storage.Audit;

namespace ShopFloor.Shop.Jobs;

/// <summary>What a file of a job holds.</summary>
public enum JobFileKind
{
    /// <summary>A closed surface of triangles, from a scan or a drawing program.</summary>
    Mesh,

    /// <summary>A table of frequency, level and perhaps phase.</summary>
    MeasurementTable,

    /// <summary>What a microphone adds, as a table.</summary>
    MicrophoneCalibration,

    /// <summary>Recorded sound.</summary>
    Recording,

    /// <summary>A table of frequency, ohms and perhaps phase.</summary>
    ImpedanceTable,
}

/// <summary>A file somebody brought to a job. Its bytes are never altered.</summary>
public sealed class JobFile : IAudited, IRemovable
{
    public JobFile(Guid jobId, JobFileKind kind, string fileName, string sha256, long bytes, string addedBy, DateTimeOffset at)
    {
        Id = Guid.CreateVersion7(at);
        JobId = jobId;
        Kind = kind;
        FileName = fileName;
        Sha256 = sha256;
        Bytes = bytes;
        AddedBy = addedBy;
        AddedAt = at;
    }

    private JobFile()
    {
    }

    public Guid Id { get; private set; }

    public Guid JobId { get; private set; }

    public JobFileKind Kind { get; private set; }

    /// <summary>Name it came with, for people; never a path.</summary>
    public string FileName { get; private set; } = "";

    public string Sha256 { get; private set; } = "";

    public long Bytes { get; private set; }

    public string AddedBy { get; private set; } = "";

    public DateTimeOffset AddedAt { get; private set; }

    public DateTimeOffset? RemovedAt { get; private set; }

    public void Remove(DateTimeOffset at) => RemovedAt ??= at;

    public void BringBack() => RemovedAt = null;

    string IAudited.AuditName => $"File '{FileName}'";

    Guid? IAudited.AuditJobId => JobId;
}

/// <summary>The bytes of a <see cref="JobFile"/>, compressed; a table of its own, so that lists do not read them.</summary>
public sealed class JobFileContent
{
    public JobFileContent(Guid id, byte[] compressed)
    {
        Id = id;
        Compressed = compressed;
    }

    private JobFileContent()
    {
    }

    /// <summary>Id of its file.</summary>
    public Guid Id { get; private set; }

    public byte[] Compressed { get; private set; } = [];
}
