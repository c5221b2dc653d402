using ShopFloor.Shop.Phases.Intake;

namespace ShopFloor.Documents.Diagrams;

/// <summary>A mark on the outline drawing.</summary>
/// <param name="X">0 at the left edge of the whole drawing, 1 at its right; values outside are brought to the edge.</param>
/// <param name="Y">0 at the top, 1 at the bottom.</param>
/// <param name="Kind">What it stands for.</param>
/// <param name="Label">Short label, usually a number; empty for none.</param>
public sealed record DrawnMark(double X, double Y, ConditionKind Kind, string Label);
