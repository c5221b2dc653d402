namespace ShopFloor.Web.Components;

/// <summary>A named place on an outline drawing, for people who do not tap.</summary>
/// <param name="Name">Name of the place, for example "Left front door".</param>
/// <param name="X">From the left edge, 0 to 1.</param>
/// <param name="Y">From the top edge, 0 to 1.</param>
public sealed record OutlineArea(string Name, double X, double Y);
