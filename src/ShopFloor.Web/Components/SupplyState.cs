namespace ShopFloor.Web.Components;

/// <summary>Where a part is on its way into the car, as shown by <see cref="StateChip"/>.</summary>
public enum SupplyState
{
    /// <summary>On the list, not ordered.</summary>
    Needed,

    /// <summary>Ordered from a supplier.</summary>
    Ordered,

    /// <summary>In the shop.</summary>
    Received,

    /// <summary>In the car.</summary>
    Fitted,
}
