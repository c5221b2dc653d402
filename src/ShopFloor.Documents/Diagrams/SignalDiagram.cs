using ShopFloor.Shop.Phases.Design;

namespace ShopFloor.Documents.Diagrams;

/// <summary>Drawing of a signal path: sources on the left, loudspeakers on the right, every cable from connector to connector.</summary>
public static class SignalDiagram
{
    private static readonly SvgPaint _cable = new("none", Look.Ink, 1.6);
    private static readonly SvgPaint _halo = new("none", Look.Paper, 4.5);
    private static readonly SvgTextStyle _text = new(SignalLayout.TextSize);
    private static readonly ViewFrame _frame = new(0, 0, 1);

    /// <summary>Settles every place without drawing.</summary>
    /// <param name="graph">The path.</param>
    /// <param name="sweep">False keeps the order given, for comparison.</param>
    public static SignalArrangement Arrange(SignalGraph graph, bool sweep = true)
    {
        ArgumentNullException.ThrowIfNull(graph);
        return SignalLayout.Arrange(graph, sweep);
    }

    /// <summary>The path in words, for who cannot see the drawing.</summary>
    public static string Describe(SignalGraph graph)
    {
        ArgumentNullException.ThrowIfNull(graph);
        var names = graph.Nodes.ToDictionary(node => node.Key, node => node.Label);
        return string.Join(' ', graph.Edges.GroupBy(edge => edge.From).Select(group => $"{names[group.Key]} feeds {string.Join(", ", group.Select(edge => names[edge.To]).Distinct())}."));
    }

    /// <summary>The drawing as SVG.</summary>
    /// <param name="graph">The path.</param>
    /// <param name="title">What it shows, for who cannot see it.</param>
    public static string Draw(SignalGraph graph, string title = "Signal path from sources to loudspeakers")
    {
        var arrangement = Arrange(graph);
        var svg = new SvgWriter(arrangement.Width, arrangement.Height, title, Describe(graph));
        svg.Rectangle(0, 0, arrangement.Width, arrangement.Height, new SvgPaint(Look.Paper));
        foreach (var edge in arrangement.Edges)
        {
            // A pale edge under the later line shows which passes over.
            svg.Path(Path(edge), _halo);
            svg.Path(Path(edge), _cable);
        }

        foreach (var node in arrangement.Nodes)
            DrawNode(svg, node, arrangement);
        return svg.Finish();
    }

    internal static SvgPath Path(ArrangedSignalEdge edge)
    {
        // The frame counts upwards.
        var path = new SvgPath(_frame).Move(edge.Points[0].X, -edge.Points[0].Y);
        for (var at = 1; at < edge.Points.Count; at++)
        {
            var ((x1, y1), (x2, y2)) = (edge.Points[at - 1], edge.Points[at]);
            if (at % 2 == 0)
                path.Line(x2, -y2);
            else
                path.Curve((x1 + x2) / 2, -y1, (x1 + x2) / 2, -y2, x2, -y2);
        }

        return path;
    }

    private static void DrawNode(SvgWriter svg, ArrangedSignalNode node, SignalArrangement arrangement)
    {
        var box = node.Box;
        var end = node.Node.Outputs.Count == 0;
        svg.BeginGroup(node.Node.Key);
        svg.Rectangle(box.X, box.Y, box.Width, box.Height, new SvgPaint(end ? Look.Paper : Look.Wash, Look.Ink, end ? 1.6 : 2), 6);
        var y = box.Y + SignalLayout.Padding + 12;
        foreach (var line in node.Title)
        {
            svg.Text(box.X + SignalLayout.Padding, y, line, new SvgTextStyle(SignalLayout.TitleSize, Heavy: true));
            y += SignalLayout.LineHeight;
        }

        foreach (var line in node.Lines)
        {
            svg.Text(box.X + SignalLayout.Padding, y, line, _text);
            y += SignalLayout.LineHeight;
        }

        for (var port = 0; port < node.Node.Inputs.Count; port++)
            svg.Text(box.X + SignalLayout.Padding, Baseline(node, port), node.Node.Inputs[port], _text);
        for (var port = 0; port < node.Node.Outputs.Count; port++)
            svg.Text(box.Right - SignalLayout.Padding, Baseline(node, port), node.Node.Outputs[port], _text with { Anchor = SvgAnchor.End });
        foreach (var (x, at) in arrangement.Edges.SelectMany(edge => new[] { (edge.Edge.From, edge.Points[0]), (edge.Edge.To, edge.Points[^1]) }).Where(pair => pair.Item1 == node.Node.Key).Select(pair => pair.Item2).Distinct())
            svg.Circle(x, at, 3.2, new SvgPaint(Look.Paper, Look.Ink, 1.6));
        svg.EndGroup();
    }

    private static double Baseline(ArrangedSignalNode node, int port) => node.Box.Y + node.PortTop + ((port + 0.5) * SignalLayout.LineHeight) + 4.5;
}
