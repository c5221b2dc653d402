namespace ShopFloor.Web.Components;

/// <summary>A numbered mark on an outline drawing.</summary>
/// <param name="Number">Number shown.</param>
/// <param name="X">From the left edge, 0 to 1.</param>
/// <param name="Y">From the top edge, 0 to 1.</param>
/// <param name="Text">What the mark says.</param>
public sealed record OutlineMark(int Number, double X, double Y, string Text);
