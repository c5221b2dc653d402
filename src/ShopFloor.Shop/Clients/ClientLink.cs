using ShopFloor.Shop.Storage.Audit;

namespace ShopFloor.Shop.Clients;

/// <summary>A private link to one job for its client. Only the hash of its secret is kept.</summary>
public sealed class ClientLink : IAudited
{
    public ClientLink(Guid jobId, string hash, string createdBy, DateTimeOffset at, DateTimeOffset expiresAt)
    {
        Id = Guid.CreateVersion7();
        JobId = jobId;
        Hash = hash;
        CreatedBy = createdBy;
        CreatedAt = at;
        ExpiresAt = expiresAt;
    }

    private ClientLink()
    {
    }

    public Guid Id { get; private set; }

    public Guid JobId { get; private set; }

    [NotAudited]
    public string Hash { get; private set; } = "";

    public string CreatedBy { get; private set; } = "";

    public DateTimeOffset CreatedAt { get; private set; }

    public DateTimeOffset ExpiresAt { get; private set; }

    public DateTimeOffset? RevokedAt { get; private set; }

    [NotAudited]
    public DateTimeOffset? LastOpenedAt { get; private set; }

    [NotAudited]
    public int OpenedCount { get; private set; }

    public bool IsLive(DateTimeOffset now) => RevokedAt is null && now < ExpiresAt;

    public void Revoke(DateTimeOffset at) => RevokedAt ??= at;

    public void Opened(DateTimeOffset at)
    {
        LastOpenedAt = at;
        OpenedCount++;
    }

    string IAudited.AuditName => "Client link";

    Guid? IAudited.AuditJobId => JobId;
}
