using ShopFloor.Web.Components;

namespace ShopFloor.Web.Phases.Build;

internal static class FormUnits
{
    /// <summary>Working time is planned in hours, not in seconds.</summary>
    public static UnitScale Hours { get; } = new("h", "hours", 1, 2);
}
