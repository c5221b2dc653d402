namespace ShopFloor.Web.Components;

/// <summary>Where a mark was put on an outline drawing.</summary>
/// <param name="X">From the left edge, 0 to 1.</param>
/// <param name="Y">From the top edge, 0 to 1.</param>
/// <param name="AreaName">The named place when it was chosen from the list, else null.</param>
public sealed record OutlinePoint(double X, double Y, string? AreaName = null);
