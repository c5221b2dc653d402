using ShopFloor.Shop.Storage.Audit;

namespace ShopFloor.Shop.Staff;

/// <summary>A bearer token for the HTTP API, made by the owner. Only its hash is kept.</summary>
public sealed class ApiToken : IAudited
{
    public ApiToken(string name, string hash, IEnumerable<Permission> scope, Guid? personId, string createdBy, DateTimeOffset at, DateTimeOffset expiresAt)
    {
        Id = Guid.CreateVersion7();
        Name = name;
        Hash = hash;
        Scope = [.. scope];
        PersonId = personId;
        CreatedBy = createdBy;
        CreatedAt = at;
        ExpiresAt = expiresAt;
    }

    private ApiToken()
    {
    }

    public Guid Id { get; private set; }

    public string Name { get; private set; } = "";

    [NotAudited]
    public string Hash { get; private set; } = "";

    public List<Permission> Scope { get; private set; } = [];

    /// <summary>The person it acts as, or null when it acts under its own name; time and ticks need a person.</summary>
    public Guid? PersonId { get; private set; }

    public string CreatedBy { get; private set; } = "";

    public DateTimeOffset CreatedAt { get; private set; }

    public DateTimeOffset ExpiresAt { get; private set; }

    public DateTimeOffset? RevokedAt { get; private set; }

    public void Revoke(DateTimeOffset at) => RevokedAt ??= at;

    public bool IsLive(DateTimeOffset now) => RevokedAt is null && now < ExpiresAt;

    string IAudited.AuditName => Name;

    Guid? IAudited.AuditJobId => null;
}
