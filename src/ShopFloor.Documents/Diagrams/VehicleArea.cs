namespace ShopFloor.Documents.Diagrams;

/// <summary>The five views of the outline drawing.</summary>
public enum VehicleView
{
    Top,
    LeftSide,
    RightSide,
    Front,
    Rear,
}

/// <summary>Where a point of the outline drawing lies.</summary>
/// <param name="View">Which view, or null beside all of them.</param>
/// <param name="Text">In words, for example "left side, front door".</param>
public sealed record VehicleArea(VehicleView? View, string Text);
