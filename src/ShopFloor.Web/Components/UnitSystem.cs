namespace ShopFloor.Web.Components;

/// <summary>Which units quantities are shown and read in. Cascaded by the shell.</summary>
public enum UnitSystem
{
    /// <summary>Metric units.</summary>
    Metric,

    /// <summary>US customary units.</summary>
    Us,
}
