namespace ShopFloor.Shop.Staff.Secrets;

/// <summary>What is remembered about tries, for one person or for one device. Plain values, to be stored as they are.</summary>
/// <param name="Misses">Tries in a row without success.</param>
/// <param name="NotBefore">No try is looked at before this instant.</param>
/// <param name="AllowanceFullAt">When the hourly allowance will be whole again; the later, the more of it is used up.</param>
/// <param name="Locked">Closed until an owner resets it.</param>
public sealed record PinCounter(int Misses, DateTimeOffset? NotBefore, DateTimeOffset? AllowanceFullAt, bool Locked)
{
    public static PinCounter Fresh { get; } = new(0, null, null, false);
}
