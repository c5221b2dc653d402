using ShopFloor.Shop.Phases.Design;

namespace ShopFloor.Documents.Diagrams;

/// <summary>Arranges a signal path in columns from left to right with few crossings.</summary>
/// <remarks>
/// Columns by the longest way from a source, devices without a way on at the end; a cable over several columns passes a place of its own in each.
/// The order within columns is settled by barycentre sweeps, keeping the best found
/// (Sugiyama, Tagawa, Toda: Methods for visual understanding of hierarchical system structures, IEEE Trans. SMC 11, 1981).
/// </remarks>
internal sealed class SignalLayout
{
    public const double TitleSize = 15;
    public const double TextSize = 13;
    public const double LineHeight = 17;
    public const double Padding = 10;

    private const double Margin = 14;
    private const double RowGap = 14;
    private const double ColumnGap = 56;
    private const double WidestText = 152;
    private const int Sweeps = 12;

    private readonly List<List<Item>> _columns = [];
    private readonly List<Joint> _joints = [];
    private readonly List<(SignalEdge Edge, List<Joint> Way)> _ways = [];

    private SignalLayout(SignalGraph graph, double rowHeight, IReadOnlyDictionary<string, int>? leastColumns)
    {
        var items = graph.Nodes.ToDictionary(node => node.Key, node => new Item(node, rowHeight));
        var columns = Columns(graph, leastColumns);
        for (var column = 0; column <= columns.Values.DefaultIfEmpty(-1).Max(); column++)
            _columns.Add([.. graph.Nodes.Where(node => columns[node.Key] == column).Select(node => items[node.Key])]);
        foreach (var edge in graph.Edges)
        {
            var (from, port, way) = (items[edge.From], edge.Output, new List<Joint>());
            for (var column = columns[edge.From] + 1; column < columns[edge.To]; column++)
            {
                var pass = new Item(null, rowHeight);
                _columns[column].Add(pass);
                way.Add(new Joint(column - 1, from, port, pass, 0));
                (from, port) = (pass, 0);
            }

            way.Add(new Joint(columns[edge.To] - 1, from, port, items[edge.To], edge.Input));
            _joints.AddRange(way);
            _ways.Add((edge, way));
        }
    }

    /// <param name="rowHeight">Height of a connector's row.</param>
    /// <param name="leastColumns">The first column each device may stand in, by key; null lets all begin at the left.</param>
    public static SignalArrangement Arrange(SignalGraph graph, bool sweep = true, double rowHeight = LineHeight, IReadOnlyDictionary<string, int>? leastColumns = null)
    {
        var layout = new SignalLayout(graph, rowHeight, leastColumns);
        if (sweep)
            layout.Sweep();
        return layout.Place();
    }

    private static Dictionary<string, int> Columns(SignalGraph graph, IReadOnlyDictionary<string, int>? least)
    {
        var columns = graph.Nodes.ToDictionary(node => node.Key, node => least?.GetValueOrDefault(node.Key) ?? 0);
        // A path has no circles: after as many rounds as devices nothing moves any more.
        for (var round = 0; round < graph.Nodes.Count; round++)
        {
            var moved = false;
            foreach (var edge in graph.Edges.Where(edge => columns[edge.To] <= columns[edge.From]))
                (columns[edge.To], moved) = (columns[edge.From] + 1, true);
            if (!moved)
                break;
        }

        var last = columns.Values.DefaultIfEmpty(0).Max();
        foreach (var node in graph.Nodes.Where(node => node.Outputs.Count == 0))
            columns[node.Key] = last;
        return columns;
    }

    private void Sweep()
    {
        var (best, fewest) = (_columns.Select(column => column.ToList()).ToList(), Crossings());
        for (var sweep = 0; sweep < Sweeps && fewest > 0; sweep++)
        {
            var down = sweep % 2 == 0;
            foreach (var column in down ? Enumerable.Range(1, Math.Max(0, _columns.Count - 1)) : Enumerable.Range(0, Math.Max(0, _columns.Count - 1)).Reverse())
                Order(column, down);
            var now = Crossings();
            if (now < fewest)
                (best, fewest) = (_columns.Select(each => each.ToList()).ToList(), now);
        }

        for (var column = 0; column < best.Count; column++)
            _columns[column] = best[column];
    }

    private void Order(int column, bool down)
    {
        var places = Places(_columns[down ? column - 1 : column + 1], outputs: down);
        var weights = _columns[column].Select((item, at) =>
        {
            var near = _joints.Where(joint => down ? joint.To == item : joint.From == item)
                .Select(joint => down ? places[(joint.From, joint.Output)] : places[(joint.To, joint.Input)]).ToList();
            return (item, at, Weight: near.Count == 0 ? at : near.Average());
        }).OrderBy(each => each.Weight).ThenBy(each => each.at).Select(each => each.item).ToList();
        _columns[column] = weights;
    }

    // Every connector of a column numbered from the top.
    private static Dictionary<(Item, int), int> Places(List<Item> column, bool outputs)
    {
        Dictionary<(Item, int), int> places = [];
        foreach (var item in column)
        {
            for (var port = 0; port < Math.Max(1, outputs ? item.Node?.Outputs.Count ?? 1 : item.Node?.Inputs.Count ?? 1); port++)
                places[(item, port)] = places.Count;
        }

        return places;
    }

    private int Crossings()
    {
        var count = 0;
        for (var column = 0; column + 1 < _columns.Count; column++)
        {
            var (left, right) = (Places(_columns[column], outputs: true), Places(_columns[column + 1], outputs: false));
            var lines = _joints.Where(joint => joint.Column == column).Select(joint => (From: left[(joint.From, joint.Output)], To: right[(joint.To, joint.Input)])).ToList();
            for (var i = 0; i < lines.Count; i++)
            {
                for (var j = i + 1; j < lines.Count; j++)
                    count += (lines[i].From - lines[j].From) * (lines[i].To - lines[j].To) < 0 ? 1 : 0;
            }
        }

        return count;
    }

    private SignalArrangement Place()
    {
        var height = _columns.Select(column => column.Sum(item => item.Height) + (RowGap * Math.Max(0, column.Count - 1))).DefaultIfEmpty(0).Max();
        var x = Margin;
        foreach (var column in _columns)
        {
            var width = column.Select(item => item.Width).DefaultIfEmpty(0).Max();
            var y = Margin + ((height - column.Sum(item => item.Height) - (RowGap * Math.Max(0, column.Count - 1))) / 2);
            foreach (var item in column)
            {
                item.Box = new DiagramBox(x, y, width, item.Height);
                y += item.Height + RowGap;
            }

            x += width + ColumnGap;
        }

        return new SignalArrangement(
            Math.Ceiling(Math.Max(0, x - ColumnGap) + Margin),
            Math.Ceiling(height + (2 * Margin)),
            [.. _columns.SelectMany(column => column).Where(item => item.Node is not null).Select(item => new ArrangedSignalNode(item.Node!, item.Box, item.Title, item.Lines, item.PortTop) { RowHeight = item.RowHeight, InputsShare = item.InputsShare })], // filtered
            [.. _ways.Select(way => new ArrangedSignalEdge(way.Edge, [.. way.Way.SelectMany(joint => new[] { (joint.From.Box.Right, joint.From.PortY(joint.Output)), (joint.To.Box.X, joint.To.PortY(joint.Input)) })]))],
            Crossings());
    }

    private sealed record Joint(int Column, Item From, int Output, Item To, int Input);

    /// <summary>A device, or the place where a cable passes a column.</summary>
    private sealed class Item
    {
        public Item(SignalNode? node, double rowHeight)
        {
            Node = node;
            RowHeight = rowHeight;
            if (node is null)
                return;
            Title = TextMeasure.Wrap(node.Label, TitleSize, WidestText, heavy: true);
            Lines = [.. node.Lines.Where(line => line.Length > 0).SelectMany(line => TextMeasure.Wrap(line, TextSize, WidestText))];
            // With rows as tall as a finger, a device that has one nameless connector is that connector.
            Whole = rowHeight > LineHeight && node is { Inputs: [""], Outputs.Count: 0 };
            var rows = Whole ? 0 : Math.Max(node.Inputs.Count, node.Outputs.Count);
            PortTop = Padding + ((Title.Count + Lines.Count) * LineHeight) + (rows > 0 ? 4 : 0);
            Height = Math.Max(Whole ? rowHeight : 0, PortTop + (rows * rowHeight) + Padding);
            double Widest(IEnumerable<string> lines, double size, bool heavy) => lines.Select(line => TextMeasure.Width(line, size, heavy)).DefaultIfEmpty(0).Max();
            // Keys as tall as a finger carry larger names, heavy once they are used.
            var (size, heavy) = rowHeight > LineHeight ? (TextSize + 1, true) : (TextSize, false);
            var (inputs, outputs) = (Widest(node.Inputs, size, heavy), Widest(node.Outputs, size, heavy));
            var ports = inputs + outputs + (node.Inputs.Count > 0 && node.Outputs.Count > 0 ? 16 : 0);
            InputsShare = node.Outputs.Count == 0 ? 1 : node.Inputs.Count == 0 ? 0 : (inputs + 16) / (ports + 16);
            Width = Math.Max(Math.Max(Widest(Title, TitleSize, true), Widest(Lines, TextSize, false)), ports) + (2 * Padding);
        }

        public SignalNode? Node { get; }

        public IReadOnlyList<string> Title { get; } = [];

        public IReadOnlyList<string> Lines { get; } = [];

        public double PortTop { get; }

        public double RowHeight { get; }

        public double InputsShare { get; }

        private bool Whole { get; }

        public double Height { get; } = 8;

        public double Width { get; }

        public DiagramBox Box { get; set; }

        public double PortY(int port) => Node is null || Whole || Math.Max(Node.Inputs.Count, Node.Outputs.Count) == 0 ? Box.MiddleY : Box.Y + PortTop + ((port + 0.5) * RowHeight);
    }
}

/// <summary>A device with its place and its wrapped text.</summary>
/// <param name="PortTop">Where its first connector's row begins below its top.</param>
public sealed record ArrangedSignalNode(SignalNode Node, DiagramBox Box, IReadOnlyList<string> Title, IReadOnlyList<string> Lines, double PortTop)
{
    /// <summary>Height of a connector's row.</summary>
    public double RowHeight { get; init; }

    /// <summary>Share of the box's width its inputs take; its outputs take the rest.</summary>
    public double InputsShare { get; init; }
}

/// <summary>A cable with the points it runs through.</summary>
public sealed record ArrangedSignalEdge(SignalEdge Edge, IReadOnlyList<(double X, double Y)> Points);

/// <summary>A signal path with every place settled.</summary>
/// <param name="Crossings">How many cables cross.</param>
public sealed record SignalArrangement(double Width, double Height, IReadOnlyList<ArrangedSignalNode> Nodes, IReadOnlyList<ArrangedSignalEdge> Edges, int Crossings);
