using ShopFloor.Shop.Phases.Design;

namespace ShopFloor.Documents.Diagrams;

/// <summary>
/// Drawing to connect in: every device with all its connectors, in rows tall enough for a finger, and the cables between them. Names of connectors
/// are not drawn: whoever shows it lays its own keys over their places.
/// </summary>
public static class ConnectionDiagram
{
    /// <summary>Height of a connector, in units of the drawing.</summary>
    public const double RowHeight = 50;

    private static readonly SvgPaint _cable = new("none", Look.Ink, 2);
    private static readonly SvgPaint _misfit = new("none", "#A3201A", 3) { Dash = "7 5" };
    private static readonly SvgPaint _halo = new("none", Look.Paper, 5);

    /// <summary>Settles every place.</summary>
    public static SignalArrangement Arrange(ConnectionsView view) => SignalLayout.Arrange(GraphOf(view), rowHeight: RowHeight, leastColumns: Stages(view));

    // What nothing feeds yet stands where sound would reach it, so that outputs and inputs face each other before the first cable is drawn.
    private static Dictionary<string, int> Stages(ConnectionsView view)
    {
        var kinds = view.Units.Select(unit => unit.Kind).Distinct().ToList();
        return view.Units.ToDictionary(unit => unit.Key, unit => kinds.IndexOf(unit.Kind));
    }

    /// <summary>Boxes, names of devices and cables as SVG; a cable between ends that do not fit is broken and red.</summary>
    public static string Draw(SignalArrangement arrangement, ConnectionsView view)
    {
        ArgumentNullException.ThrowIfNull(arrangement);
        ArgumentNullException.ThrowIfNull(view);
        var graph = GraphOf(view);
        var misfits = view.Units.SelectMany(unit => unit.Inputs.Select((input, at) => (unit.Key, at, input.Fits))).Where(each => !each.Fits).Select(each => (each.Key, each.at)).ToHashSet();
        var svg = new SvgWriter(arrangement.Width, arrangement.Height, "Connections from sources to loudspeakers", SignalDiagram.Describe(graph));
        svg.Rectangle(0, 0, arrangement.Width, arrangement.Height, new SvgPaint(Look.Paper));
        foreach (var edge in arrangement.Edges)
        {
            svg.Path(SignalDiagram.Path(edge), _halo);
            svg.Path(SignalDiagram.Path(edge), misfits.Contains((edge.Edge.To, edge.Edge.Input)) ? _misfit : _cable);
        }

        foreach (var node in arrangement.Nodes)
        {
            var box = node.Box;
            svg.Rectangle(box.X, box.Y, box.Width, box.Height, new SvgPaint(Look.Wash, Look.Ink, 1.6), 6);
            if (node.Node.Inputs is [""] && node.Node.Outputs.Count == 0)
                continue; // the key over it says its name
            var y = box.Y + SignalLayout.Padding + 12;
            foreach (var line in node.Title)
            {
                svg.Text(box.X + SignalLayout.Padding, y, line, new SvgTextStyle(SignalLayout.TitleSize, Heavy: true));
                y += SignalLayout.LineHeight;
            }
        }

        return svg.Finish();
    }

    private static SignalGraph GraphOf(ConnectionsView view)
    {
        ArgumentNullException.ThrowIfNull(view);
        return new SignalGraph(
            [.. view.Units.Select(unit => new SignalNode(unit.Key, unit.Name, [], [.. unit.Inputs.Select(input => input.Label)], [.. unit.Outputs.Select(output => output.Label)]))],
            [
                .. from unit in view.Units
                   from input in unit.Inputs.Select((input, at) => (Link: input.Link, At: at))
                   where input.Link is not null
                   from giver in view.Units
                   from output in giver.Outputs.Select((output, at) => (Output: output, At: at))
                   where output.Output.PartId == input.Link!.FromPartId && output.Output.Number == input.Link.FromOutput // filtered
                   select new SignalEdge(giver.Key, output.At, unit.Key, input.At),
            ]);
    }
}
