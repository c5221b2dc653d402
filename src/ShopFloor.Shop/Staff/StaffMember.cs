using Microsoft.AspNetCore.Identity;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Storage;
using ShopFloor.Shop.Storage.Audit;

namespace ShopFloor.Shop.Staff;

/// <summary>A person who works in the shop.</summary>
public sealed class StaffMember : IdentityUser<Guid>, IAudited, IVersioned
{
    public StaffMember(string userName, string displayName, ShopRole role)
        : base(userName)
    {
        Id = Guid.CreateVersion7();
        DisplayName = displayName;
        Role = role;
    }

    private StaffMember()
    {
    }

    public Guid Version { get; private set; }

    public string DisplayName { get; set; } = "";

    public ShopRole Role { get; set; }

    /// <summary>What an hour of this person costs the shop, in the shop's currency.</summary>
    public decimal CostPerHour { get; set; }

    public UnitSystem Units { get; set; }

    public bool IsActive { get; set; } = true;

    [NotAudited]
    public string? PinHash { get; set; }

    /// <summary>State of the guard that slows down and locks guessing of the PIN.</summary>
    [NotAudited]
    public string? PinGuardState { get; set; }

    [NotAudited]
    public override string? PasswordHash { get; set; }

    [NotAudited]
    public override string? SecurityStamp { get; set; }

    [NotAudited]
    public override string? ConcurrencyStamp { get; set; }

    [NotAudited]
    public override int AccessFailedCount { get; set; }

    [NotAudited]
    public override string? NormalizedUserName { get; set; }

    [NotAudited]
    public override string? NormalizedEmail { get; set; }

    string IAudited.AuditName => DisplayName;

    Guid? IAudited.AuditJobId => null;
}
