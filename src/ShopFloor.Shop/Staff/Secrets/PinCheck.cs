namespace ShopFloor.Shop.Staff.Secrets;

/// <summary>What checking a PIN found.</summary>
public enum PinCheck
{
    /// <summary>Not this PIN.</summary>
    Wrong,

    /// <summary>This PIN.</summary>
    Right,

    /// <summary>This PIN, stored with fewer iterations than today's: store a new hash of it now.</summary>
    RightButOutdated,

    /// <summary>The hash was made under another pepper; the person needs a new PIN, or the server its old pepper.</summary>
    OtherPepper,

    /// <summary>The stored text is missing or not one of ours.</summary>
    Unreadable,
}
