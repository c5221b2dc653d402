namespace ShopFloor.Documents.Diagrams;

/// <summary>Arranges a supply tree in columns from left to right, each node in the middle of what it feeds.</summary>
internal sealed class FeedLayout
{
    public const double TitleSize = 15;
    public const double TextSize = 14;
    public const double LineHeight = 18;
    public const double MarkIcon = 22;
    public const double FuseWidth = 36;
    public const double BoxPadding = 11;
    public const double SymbolHeight = 30;
    public const double LabelLeft = 12;

    private const double Margin = 16;
    private const double RowGap = 18;
    private const double RootGap = 28;
    private const double TrunkGap = 22;
    private const double WidestText = 190;
    private const double WidestBoxText = 180;

    private readonly List<Column> _columns = [];
    private readonly List<ArrangedNode> _nodes = [];
    private readonly List<ArrangedRun> _runs = [];

    public static FeedArrangement Arrange(IReadOnlyList<FeedNode> sources)
    {
        var layout = new FeedLayout();
        var roots = sources.Select(source => layout.Measure(source, null, 0)).ToList();
        var x = Margin;
        foreach (var column in layout._columns)
        {
            x += column.RunWidth;
            column.X = x;
            x += column.BoxWidth;
        }
        var top = Margin;
        foreach (var root in roots)
        {
            layout.Place(root, top);
            top += root.Height + RootGap;
        }
        return new FeedArrangement(Math.Ceiling(x + Margin), Math.Ceiling(top - RootGap + Margin), layout._nodes, layout._runs);
    }

    private Measured Measure(FeedNode node, FeedRun? run, int depth)
    {
        if (_columns.Count == depth)
            _columns.Add(new Column());
        var column = _columns[depth];
        var measured = new Measured(node, run);
        var symbol = node.Kind is FeedNodeKind.Source or FeedNodeKind.Battery ? SymbolHeight : 0;
        measured.BoxHeight = (2 * BoxPadding) + symbol + ((measured.Title.Count + measured.Lines.Length + measured.Mark.Count) * LineHeight);
        column.BoxWidth = Math.Max(column.BoxWidth, measured.BoxTextWidth + (2 * BoxPadding));
        if (run is not null)
            column.RunWidth = Math.Max(column.RunWidth, measured.LabelWidth + TrunkGap + LabelLeft + 10);
        foreach (var child in node.Runs)
            measured.Children.Add(Measure(child.To, child, depth + 1));
        // The wire reaches the middle of the box, so labels need the same room above and below it.
        var own = Math.Max(measured.BoxHeight, 2 * Math.Max(measured.AboveWire, measured.BelowWire));
        measured.Height = Math.Max(own, measured.Children.Sum(child => child.Height) + (RowGap * Math.Max(0, measured.Children.Count - 1)));
        measured.Depth = depth;
        return measured;
    }

    private ArrangedNode Place(Measured item, double top)
    {
        var column = _columns[item.Depth];
        var box = new DiagramBox(column.X, top + ((item.Height - item.BoxHeight) / 2), column.BoxWidth, item.BoxHeight);
        var placed = new ArrangedNode(item.Node, box, item.Title, item.Lines, item.Mark);
        _nodes.Add(placed);
        var childrenHeight = item.Children.Sum(child => child.Height) + (RowGap * Math.Max(0, item.Children.Count - 1));
        var childTop = top + ((item.Height - childrenHeight) / 2);
        foreach (var child in item.Children)
        {
            var reached = Place(child, childTop);
            childTop += child.Height + RowGap;
            var trunk = box.Right + TrunkGap;
            var wire = reached.Box.MiddleY;
            var labels = new DiagramBox(trunk + LabelLeft, wire - child.AboveWire, child.LabelWidth, child.AboveWire + child.BelowWire);
            _runs.Add(new ArrangedRun(child.Run!, box.Right, box.MiddleY, trunk, reached.Box.X, wire, labels, child.RunLines,
                child.RunMark));
        }
        return placed;
    }

    private sealed class Column
    {
        public double X { get; set; }

        public double BoxWidth { get; set; } = 96;

        /// <summary>Room for the runs before this column.</summary>
        public double RunWidth { get; set; }
    }

    private sealed class Measured
    {
        public Measured(FeedNode node, FeedRun? run)
        {
            Node = node;
            Run = run;
            Title = TextMeasure.Wrap(node.Label, TitleSize, WidestBoxText, heavy: true);
            Lines = Wrapped(node.Lines, WidestBoxText);
            Mark = node.Mark is null ? [] : TextMeasure.Wrap(FeedDiagram.MarkText(node.Mark), TextSize, WidestBoxText - MarkIcon,
                heavy: true);
            RunLines = run is null ? [] : Wrapped(run.Lines, WidestText);
            RunMark = run?.Mark is null ? [] : TextMeasure.Wrap(FeedDiagram.MarkText(run.Mark), TextSize, WidestText - MarkIcon,
                heavy: true);
            Fuse = run is null || run.Fuse.Length == 0 ? [] : TextMeasure.Wrap(run.Fuse, TextSize, WidestText, heavy: true);
            BoxTextWidth = Widest(Title, TitleSize, true, Widest(Lines, TextSize, false, Mark.Count == 0 ? 0 : MarkIcon + Widest(Mark,
                TextSize, true, 0)));
            var fuse = Fuse.Count == 0 ? 0 : Math.Max(FuseWidth, Widest(Fuse, TextSize, true, 0));
            LabelWidth = Math.Max(fuse, Math.Max(Widest(RunLines, TextSize, false, 0), RunMark.Count == 0 ? 0 : MarkIcon + Widest(RunMark,
                TextSize, true, 0)));
            LabelWidth = Math.Max(LabelWidth, 24);
            AboveWire = (RunLines.Length * LineHeight) + (Fuse.Count == 0 ? 4 : 12);
            BelowWire = ((Fuse.Count + RunMark.Count) * LineHeight) + (Fuse.Count == 0 ? 6 : 12);
        }

        public FeedNode Node { get; }

        public FeedRun? Run { get; }

        public int Depth { get; set; }

        public List<Measured> Children { get; } = [];

        public IReadOnlyList<string> Title { get; }

        public string[] Lines { get; }

        public IReadOnlyList<string> Mark { get; }

        public string[] RunLines { get; }

        public IReadOnlyList<string> RunMark { get; }

        public IReadOnlyList<string> Fuse { get; }

        public double BoxTextWidth { get; }

        public double BoxHeight { get; set; }

        public double LabelWidth { get; }

        public double AboveWire { get; }

        public double BelowWire { get; }

        public double Height { get; set; }

        private static string[] Wrapped(IReadOnlyList<string> lines, double width) =>
            lines.Where(line => line.Length > 0).SelectMany(line => TextMeasure.Wrap(line, TextSize, width)).ToArray();

        private static double Widest(IReadOnlyList<string> lines, double size, bool heavy, double atLeast) =>
            lines.Select(line => TextMeasure.Width(line, size, heavy)).Append(atLeast).Max();
    }
}
