namespace ShopFloor.Engineering.Geometry;

/// <summary>Boxes around the triangles of a mesh, halved until a few are left in each.</summary>
internal sealed class TriangleTree
{
    private const int MostInLeaf = 4;
    private readonly int[] _order;
    private readonly Point3[] _middles;
    private readonly List<Node> _nodes;

    public TriangleTree(TriangleMesh mesh, CancellationToken cancellation)
    {
        var count = mesh.Count;
        _order = [.. Enumerable.Range(0, count)];
        _middles = new Point3[count];
        var (lows, highs) = (new Point3[count], new Point3[count]);
        for (var n = 0; n < count; n++)
        {
            var (a, b, c) = (mesh.Vertices[mesh.Triangles[3 * n]], mesh.Vertices[mesh.Triangles[3 * n + 1]], mesh.Vertices[mesh.Triangles[3 * n + 2]]);
            (lows[n], highs[n]) = (Low(a, Low(b, c)), High(a, High(b, c)));
            _middles[n] = (lows[n] + highs[n]) * 0.5;
        }

        _nodes = new List<Node>(count) { new(default, default, 0, count, 0) };
        for (var at = 0; at < _nodes.Count; at++)
        {
            if ((at & 0xFFF) == 0)
                cancellation.ThrowIfCancellationRequested();
            var node = _nodes[at];
            var (low, high, least, most) = (lows[_order[node.Start]], highs[_order[node.Start]], _middles[_order[node.Start]], _middles[_order[node.Start]]);
            for (var n = node.Start + 1; n < node.Start + node.Count; n++)
            {
                var one = _order[n];
                (low, high) = (Low(low, lows[one]), High(high, highs[one]));
                (least, most) = (Low(least, _middles[one]), High(most, _middles[one]));
            }

            var left = node.Count > MostInLeaf ? _nodes.Count : 0;
            _nodes[at] = node with { Low = low, High = high, Left = left };
            if (left == 0)
                continue;
            var split = Split(node.Start, node.Count, least, most);
            _nodes.Add(new Node(default, default, node.Start, split - node.Start, 0));
            _nodes.Add(new Node(default, default, split, node.Start + node.Count - split, 0));
        }
    }

    /// <summary>Longest way through the box around all, m.</summary>
    public double Size => (_nodes[0].High - _nodes[0].Low).Length;

    public bool IsLeaf(int node) => _nodes[node].Left == 0;

    public int Count(int node) => _nodes[node].Count;

    public (int Left, int Right) Halves(int node) => (_nodes[node].Left, _nodes[node].Left + 1);

    public ReadOnlySpan<int> Of(int node) => _order.AsSpan(_nodes[node].Start, _nodes[node].Count);

    public bool Meet(int a, int b)
    {
        var (one, two) = (_nodes[a], _nodes[b]);
        return one.Low.X <= two.High.X && two.Low.X <= one.High.X && one.Low.Y <= two.High.Y && two.Low.Y <= one.High.Y && one.Low.Z <= two.High.Z && two.Low.Z <= one.High.Z;
    }

    // At the middle of the longest way; by number where all lie on one spot, so that it always ends.
    private int Split(int start, int count, Point3 least, Point3 most)
    {
        var span = most - least;
        Func<Point3, double> along = span.X >= span.Y && span.X >= span.Z ? point => point.X : span.Y >= span.Z ? point => point.Y : point => point.Z;
        var middle = (along(least) + along(most)) / 2;
        var (low, high) = (start, start + count - 1);
        while (low <= high)
        {
            if (along(_middles[_order[low]]) < middle)
            {
                low++;
            }
            else
            {
                (_order[low], _order[high]) = (_order[high], _order[low]);
                high--;
            }
        }

        return low > start && low < start + count ? low : start + count / 2;
    }

    private static Point3 Low(Point3 a, Point3 b) => new(Math.Min(a.X, b.X), Math.Min(a.Y, b.Y), Math.Min(a.Z, b.Z));

    private static Point3 High(Point3 a, Point3 b) => new(Math.Max(a.X, b.X), Math.Max(a.Y, b.Y), Math.Max(a.Z, b.Z));

    private readonly record struct Node(Point3 Low, Point3 High, int Start, int Count, int Left);
}
