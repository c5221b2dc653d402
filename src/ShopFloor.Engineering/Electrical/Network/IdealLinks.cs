namespace ShopFloor.Engineering.Electrical.Network;

/// <summary>
/// Nodes joined by elements without resistance, kept as groups in which each node lies a fixed voltage above its group's root.
/// They share one unknown, so no element without resistance reaches the equations.
/// </summary>
internal sealed class IdealLinks
{
    private readonly int[] _parent;
    private readonly double[] _above;

    public IdealLinks(int nodes)
    {
        _parent = [.. Enumerable.Range(0, nodes)];
        _above = new double[nodes];
    }

    /// <summary>Root of a node's group and the volts the node lies above it.</summary>
    public (int Root, double Volts) Find(int node)
    {
        var volts = 0.0;
        while (_parent[node] != node)
        {
            var up = _parent[node];
            if (_parent[up] != up)
            {
                // Halve the path, so that long chains stay cheap.
                _above[node] += _above[up];
                _parent[node] = _parent[up];
            }

            volts += _above[node];
            node = _parent[node];
        }

        return (node, volts);
    }

    /// <summary>Joins two nodes, the second a given voltage above the first; false when they were joined before.</summary>
    public bool Join(int from, int to, double volts)
    {
        var (a, aboveA) = Find(from);
        var (b, aboveB) = Find(to);
        if (a == b)
            return false;
        _parent[b] = a;
        _above[b] = aboveA + volts - aboveB;
        return true;
    }

    /// <summary>Voltage of an element that joins its nodes without resistance, or null when it does not.</summary>
    public static double? VoltsOf(FeedElement element) => element switch
    {
        Battery { InternalOhms: 0 } battery => battery.OpenCircuitVolts,
        LumpedResistance { Ohms: 0 } => 0,
        FuseElement { Ohms: 0, IsBlown: false } => 0,
        FeedSwitch { IsClosed: true, ClosedOhms: 0 } => 0,
        _ => null,
    };
}
