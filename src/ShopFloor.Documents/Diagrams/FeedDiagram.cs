namespace ShopFloor.Documents.Diagrams;

/// <summary>Single-line diagram of a small supply tree, from the battery on the left to the loads on the right.</summary>
public static class FeedDiagram
{
    private static readonly SvgPaint _wire = new("none", Look.Ink, 2);
    private static readonly SvgPaint _thin = new("none", Look.Ink, 1.6);
    private static readonly SvgTextStyle _text = new(FeedLayout.TextSize);
    private static readonly SvgTextStyle _heavy = new(FeedLayout.TextSize, Heavy: true);

    /// <summary>The words of a mark: its kind first, so that it does not hang on colour or shape alone.</summary>
    public static string MarkText(FeedMark mark)
    {
        ArgumentNullException.ThrowIfNull(mark);
        var word = mark.Kind switch { FeedMarkKind.Stop => "Stop", FeedMarkKind.Warn => "Warn", _ => "OK" };
        return mark.Text.Length == 0 ? word : $"{word}: {mark.Text}";
    }

    /// <summary>Settles every place without drawing.</summary>
    public static FeedArrangement Arrange(FeedNode source)
    {
        ArgumentNullException.ThrowIfNull(source);
        return Arrange([source]);
    }

    /// <summary>Settles every place of several trees, one below the other.</summary>
    public static FeedArrangement Arrange(IReadOnlyList<FeedNode> sources)
    {
        ArgumentNullException.ThrowIfNull(sources);
        return FeedLayout.Arrange(sources);
    }

    /// <summary>The diagram as SVG; its width and height follow from the tree.</summary>
    public static string Draw(FeedNode source)
    {
        ArgumentNullException.ThrowIfNull(source);
        return Draw(Arrange(source), $"Single-line diagram of the feed from {source.Label}", Describe(source));
    }

    /// <summary>The tree in words, for who cannot see the drawing.</summary>
    public static string Describe(FeedNode source)
    {
        ArgumentNullException.ThrowIfNull(source);
        var said = new List<string>();
        Say(source, said);
        return string.Join(' ', said);
    }

    /// <summary>An arrangement as SVG.</summary>
    /// <param name="arrangement">Where everything stands.</param>
    /// <param name="title">What the drawing shows.</param>
    /// <param name="description">Its content in words.</param>
    public static string Draw(FeedArrangement arrangement, string title, string description)
    {
        ArgumentNullException.ThrowIfNull(arrangement);
        var svg = new SvgWriter(arrangement.Width, arrangement.Height, title, description);
        svg.Rectangle(0, 0, arrangement.Width, arrangement.Height, new SvgPaint(Look.Paper));
        foreach (var run in arrangement.Runs)
            DrawRun(svg, run);
        foreach (var node in arrangement.Nodes)
            DrawNode(svg, node);
        return svg.Finish();
    }

    private static void Say(FeedNode node, List<string> said)
    {
        if (node.Runs.Count > 0)
        {
            said.Add($"{node.Label} feeds {string.Join("; ", node.Runs.Select(run => string.Join(", ", run.Lines.Append(run.Fuse).Prepend(run.To.Label).Where(words => words.Length > 0))))}.");
        }

        foreach (var run in node.Runs)
            Say(run.To, said);
    }

    private static void DrawRun(SvgWriter svg, ArrangedRun run)
    {
        svg.Polyline(_wire, (run.FromX, run.FromY), (run.TrunkX, run.FromY), (run.TrunkX, run.WireY), (run.ToX, run.WireY));
        var left = run.Labels.X;
        var hasFuse = run.Run.Fuse.Length > 0;
        var y = run.WireY - ((run.Lines.Count - 1) * FeedLayout.LineHeight) - (hasFuse ? 14 : 7);
        foreach (var line in run.Lines)
        {
            svg.Text(left, y, line, _text);
            y += FeedLayout.LineHeight;
        }
        y = run.WireY + (hasFuse ? 23 : 17);
        if (hasFuse)
        {
            // Fuse symbol of IEC 60617: a rectangle with the conductor running through.
            svg.Rectangle(left, run.WireY - 7, FeedLayout.FuseWidth, 14, new SvgPaint(Look.Paper, Look.Ink, 1.6));
            svg.Line(left, run.WireY, left + FeedLayout.FuseWidth, run.WireY, _thin);
            foreach (var line in TextMeasure.Wrap(run.Run.Fuse, FeedLayout.TextSize, run.Labels.Width, heavy: true))
            {
                svg.Text(left, y, line, _heavy);
                y += FeedLayout.LineHeight;
            }
        }
        if (run.Run.Mark is { } mark)
            DrawMark(svg, mark, run.Mark, left, y);
    }

    private static void DrawNode(SvgWriter svg, ArrangedNode node)
    {
        var box = node.Box;
        if (node.Node.Key.Length > 0)
            svg.BeginGroup(node.Node.Key);
        var outline = new SvgPaint(node.Node.Kind == FeedNodeKind.Load ? Look.Paper : Look.Wash, Look.Ink,
            node.Node.Kind == FeedNodeKind.Load ? 1.6 : 2.2);
        svg.Rectangle(box.X, box.Y, box.Width, box.Height, outline, node.Node.Kind == FeedNodeKind.Distribution ? 0 : 6);
        if (node.Node.Kind is FeedNodeKind.Distribution or FeedNodeKind.Battery)
        {
            // Terminals where the feed comes in and where it goes out.
            svg.Circle(box.X, box.MiddleY, 4.5, new SvgPaint(Look.Paper, Look.Ink, 2));
            svg.Circle(box.Right, box.MiddleY, 4.5, new SvgPaint(Look.Paper, Look.Ink, 2));
        }
        var x = box.X + FeedLayout.BoxPadding;
        var y = box.Y + FeedLayout.BoxPadding;
        if (node.Node.Kind is FeedNodeKind.Source or FeedNodeKind.Battery)
        {
            DrawBattery(svg, x, y + 10);
            y += FeedLayout.SymbolHeight;
        }
        y += 13;
        foreach (var line in node.Title)
        {
            svg.Text(x, y, line, new SvgTextStyle(FeedLayout.TitleSize, Heavy: true));
            y += FeedLayout.LineHeight;
        }
        foreach (var line in node.Lines)
        {
            svg.Text(x, y, line, _text);
            y += FeedLayout.LineHeight;
        }
        if (node.Node.Mark is { } mark)
            DrawMark(svg, mark, node.Mark, x, y);
        if (node.Node.Key.Length > 0)
            svg.EndGroup();
    }

    /// <summary>Battery symbol of IEC 60617: two cells, the longer line is positive.</summary>
    private static void DrawBattery(SvgWriter svg, double x, double middle)
    {
        svg.Line(x, middle, x + 14, middle, _thin);
        for (var cell = 0; cell < 2; cell++)
        {
            var left = x + 14 + (cell * 14);
            svg.Line(left, middle - 5, left, middle + 5, new SvgPaint("none", Look.Ink, 3.4));
            svg.Line(left + 7, middle - 10, left + 7, middle + 10, _thin);
            if (cell == 0)
                svg.Line(left + 7, middle, left + 14, middle, _thin);
        }
        svg.Line(x + 35, middle, x + 49, middle, _thin);
        svg.Text(x + 54, middle + 5, "+", _heavy);
    }

    private static void DrawMark(SvgWriter svg, FeedMark mark, IReadOnlyList<string> lines, double x, double y)
    {
        var (cx, cy) = (x + 8, y - 5);
        svg.BeginGroup(mark.Kind switch { FeedMarkKind.Stop => "stop", FeedMarkKind.Warn => "warn", _ => "fine" });
        switch (mark.Kind)
        {
            case FeedMarkKind.Stop:
                Octagon(svg, cx, cy);
                break;
            case FeedMarkKind.Warn:
                svg.Polygon(new SvgPaint(Look.Accent, Look.Accent, 2), (cx, cy - 6.5), (cx + 7.5, cy + 6.5), (cx - 7.5, cy + 6.5));
                break;
            default:
                svg.Circle(cx, cy, 8, new SvgPaint(Look.Fine));
                svg.Polyline(new SvgPaint("none", Look.Paper, 2), (cx - 4, cy), (cx - 1, cy + 3), (cx + 4, cy - 3.5));
                break;
        }
        if (mark.Kind != FeedMarkKind.Fine)
            svg.Text(cx, cy + 5, "!", new SvgTextStyle(12, Look.Paper, Heavy: true, Anchor: SvgAnchor.Middle));
        foreach (var line in lines)
        {
            svg.Text(x + FeedLayout.MarkIcon, y, line, _heavy with { Fill = mark.Kind switch { FeedMarkKind.Stop => Look.Ink, FeedMarkKind.Warn => Look.Accent, _ => Look.Fine } });
            y += FeedLayout.LineHeight;
        }
        svg.EndGroup();
    }

    private static void Octagon(SvgWriter svg, double x, double y)
    {
        const double Outer = 8;
        const double Inner = 3.3;
        svg.Polygon(
            new SvgPaint(Look.Ink),
            (x - Inner, y - Outer), (x + Inner, y - Outer), (x + Outer, y - Inner), (x + Outer, y + Inner),
            (x + Inner, y + Outer), (x - Inner, y + Outer), (x - Outer, y + Inner), (x - Outer, y - Inner));
    }
}
