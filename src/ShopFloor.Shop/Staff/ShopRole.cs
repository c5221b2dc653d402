namespace ShopFloor.Shop.Staff;

/// <summary>What a person is in the shop. Clients have no role: they hold a link.</summary>
public enum ShopRole
{
    Technician,
    FrontDesk,
    Owner,
}

public static class ShopRoles
{
    public static string Text(this ShopRole role) => role switch
    {
        ShopRole.Technician => "Technician",
        ShopRole.FrontDesk => "Front desk",
        ShopRole.Owner => "Owner",
        _ => throw new ArgumentOutOfRangeException(nameof(role), role, null),
    };
}
