namespace ShopFloor.Documents.Diagrams;

/// <summary>What a node of a feed diagram is.</summary>
public enum FeedNodeKind
{
    /// <summary>Battery or other supply; the root.</summary>
    Source,

    /// <summary>Splits the feed.</summary>
    Distribution,

    /// <summary>Uses it.</summary>
    Load,

    /// <summary>A further battery, fed like a distribution and feeding like one.</summary>
    Battery,

    /// <summary>A circuit the car has, drawn as a beginning of its own.</summary>
    Circuit,
}

/// <summary>How a mark on a feed diagram is meant.</summary>
public enum FeedMarkKind
{
    Warn,
    Stop,
    Fine,
}

/// <summary>Something wrong at a node or run, shown by shape and word.</summary>
public sealed record FeedMark(FeedMarkKind Kind, string Text);

/// <summary>A battery, distribution block or load, and what it feeds.</summary>
/// <param name="Kind">What it is.</param>
/// <param name="Label">Its name.</param>
/// <param name="Lines">Facts below the name, such as "60 A · 13.9 V".</param>
public sealed record FeedNode(FeedNodeKind Kind, string Label, params IReadOnlyList<string> Lines)
{
    public IReadOnlyList<FeedRun> Runs { get; init; } = [];

    public FeedMark? Mark { get; init; }

    /// <summary>Names the node to whoever works with the drawing; empty where it is only looked at.</summary>
    public string Key { get; init; } = "";
}

/// <summary>A conductor from a node to the next.</summary>
/// <param name="To">What it feeds.</param>
/// <param name="Lines">Labels along it, such as "Main run · 2 AWG (33.6 mm²) · 4.2 m".</param>
public sealed record FeedRun(FeedNode To, params IReadOnlyList<string> Lines)
{
    /// <summary>Label of the fuse at its beginning, such as "F1 150 A"; empty for no fuse.</summary>
    public string Fuse { get; init; } = "";

    public FeedMark? Mark { get; init; }
}
