namespace ShopFloor.Documents.Diagrams;

/// <summary>A rectangle in units of the drawing.</summary>
public readonly record struct DiagramBox(double X, double Y, double Width, double Height)
{
    public double Right => X + Width;

    public double Bottom => Y + Height;

    public double MiddleY => Y + (Height / 2);

    public bool Overlaps(DiagramBox other) => X < other.Right && other.X < Right && Y < other.Bottom && other.Y < Bottom;
}

/// <summary>A node with its place and its wrapped text.</summary>
public sealed record ArrangedNode(FeedNode Node, DiagramBox Box, IReadOnlyList<string> Title, IReadOnlyList<string> Lines,
    IReadOnlyList<string> Mark);

/// <summary>A run with the places of its wire and labels.</summary>
/// <param name="Run">The run.</param>
/// <param name="FromX">Right edge of the node it leaves.</param>
/// <param name="FromY">Height at which it leaves.</param>
/// <param name="TrunkX">Where the runs of one node part.</param>
/// <param name="ToX">Left edge of the node it reaches.</param>
/// <param name="WireY">Height of its own stretch of wire.</param>
/// <param name="Labels">Everything written and drawn along that stretch.</param>
public sealed record ArrangedRun(
    FeedRun Run, double FromX, double FromY, double TrunkX, double ToX, double WireY, DiagramBox Labels, IReadOnlyList<string> Lines,
        IReadOnlyList<string> Mark);

/// <summary>A feed diagram with every place settled.</summary>
public sealed record FeedArrangement(double Width, double Height, IReadOnlyList<ArrangedNode> Nodes, IReadOnlyList<ArrangedRun> Runs);
