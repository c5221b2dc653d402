namespace ShopFloor.Engineering.Electrical;

/// <summary>What decided the conductor size.</summary>
public enum SizeDecision
{
    /// <summary>The thinnest size available or allowed already does.</summary>
    MinimumSize,

    /// <summary>The current it may carry.</summary>
    Ampacity,

    /// <summary>No standard fuse fits between the load and the ampacity of a thinner size.</summary>
    FuseRating,

    /// <summary>The voltage drop allowed.</summary>
    VoltageDrop,

    /// <summary>Someone chose the size.</summary>
    Forced,

    /// <summary>No size available carries the load; the largest is shown.</summary>
    NoneFits,
}
