namespace ShopFloor.Documents.Diagrams;

/// <summary>What a condition mark stands for; each has a shape of its own.</summary>
public enum MarkKind
{
    /// <summary>Zigzag.</summary>
    Scratch,

    /// <summary>Circle.</summary>
    Dent,

    /// <summary>Triangle.</summary>
    Chip,

    /// <summary>Lightning.</summary>
    Crack,

    /// <summary>Square.</summary>
    Worn,

    /// <summary>Cross.</summary>
    Missing,
}

/// <summary>A mark on the outline drawing.</summary>
/// <param name="X">0 at the left edge of the whole drawing, 1 at its right; values outside are brought to the edge.</param>
/// <param name="Y">0 at the top, 1 at the bottom.</param>
/// <param name="Kind">What it stands for.</param>
/// <param name="Label">Short label, usually a number; empty for none.</param>
public sealed record ConditionMark(double X, double Y, MarkKind Kind, string Label);
