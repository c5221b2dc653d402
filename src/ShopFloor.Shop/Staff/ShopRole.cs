namespace ShopFloor.Shop.Staff;

/// <summary>What a person is in the shop. Clients have no role: they hold a link.</summary>
public enum ShopRole
{
    Technician,
    FrontDesk,
    Owner,
}
