using ShopFloor.Shop.Storage.Audit;

namespace ShopFloor.Shop.Staff;

/// <summary>A shared tablet of the shop on which technicians switch in by PIN.</summary>
public sealed class Tablet : IAudited
{
    public Tablet(string name, string secretHash, string registeredBy, DateTimeOffset at)
    {
        Id = Guid.CreateVersion7();
        Name = name;
        SecretHash = secretHash;
        RegisteredBy = registeredBy;
        RegisteredAt = at;
    }

    private Tablet()
    {
    }

    public Guid Id { get; private set; }

    public string Name { get; private set; } = "";

    [NotAudited]
    public string SecretHash { get; private set; } = "";

    public string RegisteredBy { get; private set; } = "";

    public DateTimeOffset RegisteredAt { get; private set; }

    public DateTimeOffset? RevokedAt { get; private set; }

    [NotAudited]
    public string? PinGuardState { get; set; }

    public void Revoke(DateTimeOffset at) => RevokedAt ??= at;

    string IAudited.AuditName => Name;

    Guid? IAudited.AuditJobId => null;
}
