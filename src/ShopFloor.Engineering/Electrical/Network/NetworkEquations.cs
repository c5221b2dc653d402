namespace ShopFloor.Engineering.Electrical.Network;

/// <summary>
/// Kirchhoff's current law at every group of nodes, and its solution by Newton's method. All laws are between one voltage and one current,
/// so the Jacobian is symmetric and the equations are the gradient of a potential: the search along each step goes by its slope.
/// </summary>
internal sealed class NetworkEquations
{
    private const int MostIterations = 200;

    private readonly int _nodes;
    private readonly int[] _from;
    private readonly int[] _to;
    private readonly BranchLaw[] _laws;
    private readonly int[] _root;
    private readonly double[] _above;
    private readonly int[] _unknown; // below 0: its voltage is fixed
    private readonly double[] _fixed;
    private readonly int[] _edge;
    private readonly int[] _part;
    private readonly List<(int Element, int From, int To)> _ideal = [];
    private readonly SparseLdl _matrix;
    private readonly int _unknowns;
    private double _largestFlow;
    private double _largestSiemens;
    private int _pinned = -1;
    private bool _unlimited;
    private double _pinnedVolts;
    private int _faultNode = -1;
    private double _faultSiemens;

    public NetworkEquations(FeedNetwork network, Scenario scenario, bool selfHeating, bool withLoads = true)
    {
        _nodes = network.Nodes.Count;
        var index = new Dictionary<string, int>(_nodes, StringComparer.Ordinal);
        for (var i = 0; i < _nodes; i++)
            index[network.Nodes[i].Id] = i;
        var count = network.Elements.Count;
        (_from, _to, _laws, _edge) = (new int[count], new int[count], new BranchLaw[count], new int[count]);
        var links = new IdealLinks(_nodes);
        for (var e = 0; e < count; e++)
        {
            var element = network.Elements[e];
            (_from[e], _to[e]) = (index[element.From], index[element.To]);
            _laws[e] = withLoads || !FeedElements.IsLoad(element) ? FeedElements.LawOf(element, scenario, selfHeating) : BranchLaw.Open;
            if (IdealLinks.VoltsOf(element) is { } volts && links.Join(_from[e], _to[e], volts))
                _ideal.Add((e, _from[e], _to[e]));
        }

        (_root, _above) = (new int[_nodes], new double[_nodes]);
        for (var i = 0; i < _nodes; i++)
            (_root[i], _above[i]) = links.Find(i);
        Reference = index[network.ReferenceNodeId];

        (_unknown, _fixed, _part) = (new int[_nodes], new double[_nodes], new int[_nodes]);
        CutOffWhatIsNotFed(network);
        for (var i = 0; i < _nodes; i++)
        {
            if (_root[i] == i && _unknown[i] == 0)
                _unknown[i] = _unknowns++;
        }

        var edges = new List<(int, int)>(count);
        for (var e = 0; e < count; e++)
        {
            var (a, b) = (_unknown[_root[_from[e]]], _unknown[_root[_to[e]]]);
            _edge[e] = -1;
            if (_laws[e].Kind == BranchKind.Open || a < 0 || b < 0 || a == b)
                continue;
            _edge[e] = edges.Count;
            edges.Add((a, b));
        }

        _matrix = new SparseLdl(_unknowns, edges);
    }

    /// <summary>Index of the node that counts as 0 V.</summary>
    public int Reference { get; }

    /// <summary>Elements that draw nothing because nothing feeds them.</summary>
    public HashSet<int> Unfed { get; } = [];

    /// <summary>Elements that would be fed the wrong way round.</summary>
    public HashSet<int> Reversed { get; } = [];

    /// <summary>Nodes no source or reference reaches in this state; their voltage has no meaning.</summary>
    public HashSet<int> Floating { get; } = [];

    /// <summary>Newton steps taken so far.</summary>
    public int Iterations { get; private set; }

    /// <summary>Number of elements.</summary>
    public int Elements => _laws.Length;

    /// <summary>
    /// Puts a fault between a node and the reference; false when a source without resistance holds the node elsewhere and the fault has no
    /// resistance either, so that nothing limits the current.
    /// </summary>
    public bool SetFault(int node, double ohms)
    {
        (_faultNode, _faultSiemens, _pinned) = (node, 0, -1);
        if (Floating.Contains(node))
            return true; // one connection to ground closes no circuit
        if (ohms > 0)
        {
            _faultSiemens = 1 / ohms;
            return true;
        }

        var unknown = _unknown[_root[node]];
        if (unknown < 0)
            return Math.Abs(Volts(node, [])) < 1e-12;
        _pinned = unknown;
        _pinnedVolts = -_above[node];
        return true;
    }

    /// <summary>A start without any load.</summary>
    public double[]? WithoutLoad()
    {
        var x = new double[_unknowns];
        // At 0 V every alternator is at its limit and ties nothing down, so the way up begins as if they had none.
        _unlimited = true;
        var start = Solve(x, 0);
        _unlimited = false;
        if (!start || !Solve(x, 0))
            return null;
        for (var e = 0; e < _laws.Length; e++)
        {
            if (!_laws[e].NeedsFeed)
                continue;
            var volts = Over(e, x);
            if (volts > BranchLaw.UnfedVolts)
                continue;
            (volts < -BranchLaw.UnfedVolts ? Reversed : Unfed).Add(e);
            _laws[e] = BranchLaw.Open;
        }

        return x;
    }

    /// <summary>Finds the operating point nearest below a start; the start is replaced when there is one.</summary>
    public bool Solve(double[] start, double factor)
    {
        var x = (double[])start.Clone();
        if (_pinned >= 0)
            x[_pinned] = _pinnedVolts;
        var f = new double[_unknowns];
        var step = new double[_unknowns];
        var trial = new double[_unknowns];
        if (!Assemble(x, factor, f) || !_matrix.Factor())
            return false;
        for (var iteration = 0; iteration < MostIterations; iteration++)
        {
            Iterations++;
            for (var i = 0; i < _unknowns; i++)
                step[i] = -f[i];
            _matrix.Solve(step);
            var largest = Largest(step);
            if (!double.IsFinite(largest))
                return false;
            var slope = Dot(f, step);
            var share = LongestStep(x, step, factor);
            while (true)
            {
                for (var i = 0; i < _unknowns; i++)
                    trial[i] = x[i] + share * step[i];
                var stable = Assemble(trial, factor, f) && _matrix.Factor();
                if (stable && (largest < 1e-6 || Dot(f, step) <= -0.5 * slope))
                    break;
                share /= 2;
                if (share < 1e-3)
                    return false;
            }

            (x, trial) = (trial, x);
            if (share == 1 && largest <= 1e-11 * (1 + Largest(x)) + _largestFlow * 1e-15 / Math.Max(1e-3, _largestSiemens))
            {
                Array.Copy(x, start, _unknowns);
                return true;
            }

            // Rounding may keep the last step from getting smaller; the balance of currents decides then.
            if (share == 1 && largest < 1e-9 * (1 + Largest(x)) && Largest(f) <= Rounding(x))
            {
                Array.Copy(x, start, _unknowns);
                return true;
            }
        }

        return false;
    }

    /// <summary>How fast each load's voltage falls as all loads grow together, V; elements that are no load give 0.</summary>
    public double[] Sensitivity(double[] x, double factor)
    {
        var f = new double[_unknowns];
        var change = new double[_unknowns];
        var answer = new double[_laws.Length];
        if (!Assemble(x, factor, f) || !_matrix.Factor())
            return answer;
        for (var e = 0; e < _laws.Length; e++)
        {
            var growth = _laws[e].PerFactor(Over(e, x));
            Add(change, _from[e], -growth);
            Add(change, _to[e], growth);
        }

        _matrix.Solve(change);
        for (var e = 0; e < _laws.Length; e++)
        {
            if (_laws[e].NeedsFeed || _laws[e].Kind == BranchKind.Drawing)
                answer[e] = Change(_to[e]) - Change(_from[e]);
        }

        return answer;

        double Change(int node) => _unknown[_root[node]] is >= 0 and var u ? change[u] : 0;
    }

    /// <summary>Whether an element's ends lie in parts that nothing ties together in this state.</summary>
    public bool Detached(int element) => _part[_from[element]] != _part[_to[element]];

    /// <summary>Voltages of all nodes.</summary>
    public double[] NodeVolts(double[] x) => [.. Enumerable.Range(0, _nodes).Select(i => Volts(i, x))];

    /// <summary>Currents of all elements, and the largest current left over at a node outside the fault.</summary>
    /// <param name="x">Solution.</param>
    /// <param name="factor">Common factor of the loads.</param>
    /// <param name="faultAmperes">Current into the fault, A; for a fault without resistance it is what is left over at its node.</param>
    public (double[] Amperes, double Residual) Currents(double[] x, double factor, out double faultAmperes)
    {
        var amperes = new double[_laws.Length];
        var left = new double[_nodes];
        for (var e = 0; e < _laws.Length; e++)
        {
            amperes[e] = _laws[e].At(Over(e, x), factor).Amperes;
            left[_from[e]] += amperes[e];
            left[_to[e]] -= amperes[e];
        }

        faultAmperes = _faultSiemens > 0 ? Volts(_faultNode, x) * _faultSiemens : 0;
        if (_faultSiemens > 0)
            left[_faultNode] += faultAmperes;
        var sum = new double[_nodes];
        for (var i = 0; i < _nodes; i++)
            sum[_root[i]] += left[i];
        if (_pinned >= 0)
        {
            faultAmperes = -sum[_root[_faultNode]];
            left[_faultNode] += faultAmperes;
        }

        var residual = 0.0;
        for (var i = 0; i < _nodes; i++)
        {
            if (_root[i] == i && _unknown[i] >= 0 && _unknown[i] != _pinned)
                residual = Math.Max(residual, Math.Abs(sum[i]));
        }

        ThroughIdeal(amperes, left);
        return (amperes, residual);
    }

    // What elements without resistance carry follows from the balance at their nodes, from the ends of each group inwards.
    private void ThroughIdeal(double[] amperes, double[] left)
    {
        if (_ideal.Count == 0)
            return;
        var at = new Dictionary<int, List<(int Element, int Other, int Sign)>>();
        foreach (var (element, from, to) in _ideal)
        {
            (at.TryGetValue(from, out var a) ? a : at[from] = []).Add((element, to, 1));
            (at.TryGetValue(to, out var b) ? b : at[to] = []).Add((element, from, -1));
        }

        var seen = new HashSet<int>();
        foreach (var start in at.Keys.OrderBy(node => node == Reference ? 0 : 1).ToList())
        {
            if (!seen.Add(start))
                continue;
            var walk = new List<(int Node, int Parent, int Element, int Sign)> { (start, -1, -1, 0) };
            for (var i = 0; i < walk.Count; i++)
            {
                foreach (var (element, other, sign) in at[walk[i].Node])
                {
                    if (seen.Add(other))
                        walk.Add((other, walk[i].Node, element, sign));
                }
            }

            for (var i = walk.Count - 1; i > 0; i--)
            {
                var (node, parent, element, sign) = walk[i];
                amperes[element] = sign * left[node];
                left[parent] += left[node];
            }
        }
    }

    private bool Assemble(double[] x, double factor, double[] f)
    {
        Array.Clear(f);
        _matrix.Clear();
        (_largestFlow, _largestSiemens) = (0, 0);
        for (var e = 0; e < _laws.Length; e++)
        {
            if (_laws[e].Kind == BranchKind.Open)
                continue;
            var volts = Over(e, x);
            if (_laws[e].Kind == BranchKind.Power && factor > 0 && !(volts > 0))
                return false;
            var (amperes, siemens) = _laws[e] switch
            {
                { Kind: BranchKind.Power } when factor == 0 => (0, 0),
                { Kind: BranchKind.Regulated } law when _unlimited => ((law.A + volts) / law.B, 1 / law.B),
                var law => law.At(volts, factor),
            };
            var (a, b) = (_unknown[_root[_from[e]]], _unknown[_root[_to[e]]]);
            _largestFlow = Math.Max(_largestFlow, Math.Abs(amperes));
            _largestSiemens = Math.Max(_largestSiemens, Math.Abs(siemens));
            if (a == b)
                continue;
            if (a >= 0)
            {
                f[a] += amperes;
                _matrix.AddDiagonal(a, siemens);
            }

            if (b >= 0)
            {
                f[b] -= amperes;
                _matrix.AddDiagonal(b, siemens);
            }

            if (_edge[e] >= 0 && a != _pinned && b != _pinned)
                _matrix.AddOffDiagonal(_edge[e], -siemens);
        }

        if (_faultSiemens > 0 && _unknown[_root[_faultNode]] is >= 0 and var faulted)
        {
            f[faulted] += Volts(_faultNode, x) * _faultSiemens;
            _matrix.AddDiagonal(faulted, _faultSiemens);
        }

        if (_pinned >= 0)
        {
            f[_pinned] = 0;
            _matrix.SetDiagonal(_pinned, 1);
        }

        return true;
    }

    // A load's voltage may fall to a tenth in one step and no further.
    private double LongestStep(double[] x, double[] step, double factor)
    {
        var share = 1.0;
        for (var e = 0; e < _laws.Length && factor > 0; e++)
        {
            if (_laws[e].Kind != BranchKind.Power)
                continue;
            var volts = Over(e, x);
            var fall = (_unknown[_root[_to[e]]] is >= 0 and var b ? step[b] : 0) - (_unknown[_root[_from[e]]] is >= 0 and var a ? step[a] : 0);
            if (fall * share > 0.9 * volts)
                share = 0.9 * volts / fall;
        }

        return share;
    }

    private void CutOffWhatIsNotFed(FeedNetwork network)
    {
        var parts = new IdealLinks(_nodes);
        for (var e = 0; e < _laws.Length; e++)
        {
            if (_laws[e].Conducts)
                parts.Join(_root[_from[e]], _root[_to[e]], 0);
        }

        int PartOf(int node) => parts.Find(_root[node]).Root;
        var live = new HashSet<int>();
        for (var e = 0; e < _laws.Length; e++)
        {
            if (_laws[e].Kind is BranchKind.Source or BranchKind.Regulated || network.Elements[e] is Battery)
                live.Add(PartOf(_from[e]));
        }

        var held = new HashSet<int> { PartOf(Reference) };
        _unknown[_root[Reference]] = -1;
        _fixed[_root[Reference]] = -_above[Reference];
        for (var i = 0; i < _nodes; i++)
        {
            _part[i] = PartOf(i);
            if (held.Add(_part[i]))
                _unknown[_root[i]] = -1;
            if (_part[i] != PartOf(Reference))
                Floating.Add(i);
        }

        for (var e = 0; e < _laws.Length; e++)
        {
            if (!_laws[e].NeedsFeed)
                continue;
            if (PartOf(_from[e]) == PartOf(_to[e]) && live.Contains(PartOf(_from[e])))
                continue;
            Unfed.Add(e);
            _laws[e] = BranchLaw.Open;
        }
    }

    private double Volts(int node, double[] x)
    {
        var unknown = _unknown[_root[node]];
        return (unknown < 0 ? _fixed[_root[node]] : x[unknown]) + _above[node];
    }

    /// <summary>Voltage over an element, from minus to, V.</summary>
    public double Over(int element, double[] x) => Volts(_from[element], x) - Volts(_to[element], x);

    private void Add(double[] values, int node, double value)
    {
        var unknown = _unknown[_root[node]];
        if (unknown >= 0 && unknown != _pinned)
            values[unknown] += value;
    }

    private double Rounding(double[] x) => 1e-14 * (_largestSiemens * (1 + Largest(x)) + _largestFlow);

    private static double Largest(double[] values)
    {
        var largest = 0.0;
        foreach (var value in values)
            largest = double.IsNaN(value) ? double.NaN : Math.Max(largest, Math.Abs(value));
        return largest;
    }

    private static double Dot(double[] a, double[] b)
    {
        var sum = 0.0;
        for (var i = 0; i < a.Length; i++)
            sum += a[i] * b[i];
        return sum;
    }
}
