namespace ShopFloor.Engineering.Electrical.Sizing;

/// <summary>Finds the least set of conductors that keeps every drop limit, exactly.</summary>
/// <remarks>
/// Dynamic programme over step functions. For a run, g(D) is the least objective of the run and all behind it when the drop from the battery
/// to its start is D. It only steps up as D grows, so it is a list of points (largest D, objective). Behind a run's end the functions of its
/// children are added; each cable shifts the sum left by its own drop and up by its own objective; the least of the shifted functions is g.
/// Points that can belong to no least set are dropped: those below the least drop the runs upstream can have, those above the
/// first that covers the most they can have, and those that with the least objective of all other runs come to more than a set already known.
/// Nothing is rounded to a grid, so the answer is the least but for the rounding of floating point.
/// </remarks>
internal sealed class LeastTree
{
    // Sums of drops taken in another order differ by rounding; a nanovolt is far below any meaning.
    internal const double VoltTolerance = 1e-9;

    private readonly TreeModel _model;
    private readonly Steps[] _steps;
    private readonly double[] _leastUpstream;
    private readonly double[] _mostUpstream;
    private readonly double[] _othersLeast;
    private readonly double _known;

    private LeastTree(TreeModel model, double known)
    {
        _model = model;
        _known = known * (1 + 1e-9);
        _steps = new Steps[model.Nodes.Length];
        _leastUpstream = new double[model.Nodes.Length];
        _mostUpstream = new double[model.Nodes.Length];
        _othersLeast = new double[model.Nodes.Length];
        var behind = new double[model.Nodes.Length];
        foreach (var node in model.BottomUp)
        {
            behind[node.Index] += node.Usable[0].Objective;
            if (node.Parent >= 0)
                behind[node.Parent] += behind[node.Index];
        }

        var all = model.TopDown.Where(n => n.Parent < 0).Sum(n => behind[n.Index]);
        foreach (var node in model.TopDown)
        {
            _othersLeast[node.Index] = all - behind[node.Index];
            if (node.Parent < 0)
                continue;
            var parent = model.Nodes[node.Parent];
            _leastUpstream[node.Index] = _leastUpstream[parent.Index] + parent.Usable[^1].DropVolts;
            _mostUpstream[node.Index] = _mostUpstream[parent.Index] + parent.Usable[0].DropVolts;
        }
    }

    /// <summary>Points kept over all runs in the last search: what it costs.</summary>
    public long Points { get; private set; }

    /// <summary>Chooses a cable per run.</summary>
    /// <param name="model">Tree in which every run has a usable cable and the drop limits can be kept.</param>
    /// <param name="known">Objective of a set that keeps every limit.</param>
    /// <returns>Per run, its place in <see cref="TreeNode.Usable"/>.</returns>
    public static int[] Choose(TreeModel model, double known) => new LeastTree(model, known).Choose();

    private int[] Choose()
    {
        foreach (var node in _model.BottomUp)
            _steps[node.Index] = Shift(node, AtEnd(node));

        var chosen = new int[_model.Nodes.Length];
        var drop = new double[_model.Nodes.Length];
        foreach (var node in _model.TopDown)
        {
            var before = node.Parent < 0 ? 0 : drop[node.Parent];
            chosen[node.Index] = _steps[node.Index].CableAt(before);
            drop[node.Index] = before + node.Usable[chosen[node.Index]].DropVolts;
        }

        return chosen;
    }

    /// <summary>Least objective of all behind the run's end, as a function of the drop there.</summary>
    private Steps AtEnd(TreeNode node)
    {
        var cap = node.OwnLimitVolts;
        var start = 0.0;
        var count = 0;
        foreach (var c in node.Children)
        {
            cap = Math.Min(cap, _steps[c].MaxDrop[^1]);
            start += _steps[c].Objective[0];
            count += _steps[c].MaxDrop.Length - 1;
        }

        if (count == 0)
            return new Steps([cap], [start], []);

        var at = new double[count];
        var rise = new double[count];
        var n = 0;
        foreach (var c in node.Children)
        {
            var child = _steps[c];
            for (var i = 0; i < child.MaxDrop.Length - 1; i++)
            {
                at[n] = child.MaxDrop[i];
                rise[n++] = child.Objective[i + 1] - child.Objective[i];
            }
        }

        Array.Sort(at, rise);
        var maxDrop = new List<double>(count + 1);
        var objective = new List<double>(count + 1);
        var sum = start;
        for (var i = 0; i < n && at[i] < cap; i++)
        {
            if (maxDrop.Count > 0 && at[i] == maxDrop[^1])
            {
                sum += rise[i];
                continue;
            }

            maxDrop.Add(at[i]);
            objective.Add(sum);
            sum += rise[i];
        }

        maxDrop.Add(cap);
        objective.Add(sum);
        return new Steps([.. maxDrop], [.. objective], []);
    }

    private Steps Shift(TreeNode node, Steps end)
    {
        var least = _leastUpstream[node.Index] - VoltTolerance;
        var most = _mostUpstream[node.Index];
        var budget = _known - _othersLeast[node.Index];
        var drops = new double[node.Usable.Length * end.MaxDrop.Length];
        var points = new (double Objective, int Cable)[drops.Length];
        var n = 0;
        for (var s = 0; s < node.Usable.Length; s++)
        {
            var cable = node.Usable[s];
            for (var i = 0; i < end.MaxDrop.Length; i++)
            {
                var drop = end.MaxDrop[i] - cable.DropVolts;
                var objective = end.Objective[i] + cable.Objective;
                if (objective > budget)
                    break;
                if (drop < least)
                    continue;
                drops[n] = drop;
                points[n++] = (objective, s);
                if (drop >= most)
                    break;
            }
        }

        Array.Sort(drops, points, 0, n);
        return Lowest(drops, points, n, most);
    }

    /// <summary>Keeps the points that no other point beats in both drop and objective.</summary>
    private Steps Lowest(double[] drops, (double Objective, int Cable)[] points, int n, double most)
    {
        var maxDrop = new List<double>();
        var objective = new List<double>();
        var cables = new List<int>();
        for (var i = n - 1; i >= 0; i--)
        {
            if (maxDrop.Count > 0)
            {
                // Objectives that differ only by the order of a sum count as equal.
                if (points[i].Objective >= objective[^1] * (1 - 1e-13))
                    continue;
                if (drops[i] == maxDrop[^1] || maxDrop[^1] > most && drops[i] >= most)
                {
                    maxDrop.RemoveAt(maxDrop.Count - 1);
                    objective.RemoveAt(objective.Count - 1);
                    cables.RemoveAt(cables.Count - 1);
                }
            }

            maxDrop.Add(drops[i]);
            objective.Add(points[i].Objective);
            cables.Add(points[i].Cable);
        }

        maxDrop.Reverse();
        objective.Reverse();
        cables.Reverse();
        Points += maxDrop.Count;
        return new Steps([.. maxDrop], [.. objective], [.. cables]);
    }

    /// <summary>A rising step function: up to <c>MaxDrop[i]</c> the value is <c>Objective[i]</c>, reached with <c>Cable[i]</c>.</summary>
    private sealed record Steps(double[] MaxDrop, double[] Objective, int[] Cable)
    {
        public int CableAt(double drop)
        {
            var at = Array.BinarySearch(MaxDrop, drop - VoltTolerance);
            return Cable[Math.Min(at >= 0 ? at : ~at, Cable.Length - 1)];
        }
    }
}
