namespace ShopFloor.Engineering.Electrical.Sizing;

/// <summary>Finds the least set of conductors that keeps every drop limit, exactly.</summary>
/// <remarks>
/// Dynamic programme over step functions. For a run, g(D) is the least objective of the run and all behind it when the drop from the battery
/// to its start is D. It only steps up as D grows, so it is a list of points (largest D, objective). Behind a run's end the functions of its
/// children are added; each cable shifts the sum left by its own drop and up by its own objective; the least of the shifted functions is g.
/// Points that can belong to no least set are dropped: those below the least drop the runs upstream can have, those above the
/// first that covers the most they can have, and those that with the least objective of all other runs come to more than a set already known.
/// Nothing is rounded to a grid, so the answer is the least but for the rounding of floating point. Only a function of more than
/// <see cref="MostPoints"/> points, met when dozens of runs follow each other, is thinned, and the answer says by how much it may then miss.
/// </remarks>
internal sealed class LeastTree
{
    // Sums of drops taken in another order differ by rounding; a nanovolt is far below any meaning.
    internal const double VoltTolerance = 1e-9;

    /// <summary>Points above which a step function is thinned to half as many: keeps time and memory in bounds on trees no vehicle has.</summary>
    internal const int MostPoints = 8192;

    private const int RoughPoints = 128;

    private readonly LimitedTree _tree;
    private readonly Steps[] _steps;
    private readonly double[] _leastUpstream;
    private readonly double[] _mostUpstream;
    private readonly double[] _othersLeast;
    private readonly double _known;
    private Front _front = new();
    private Front _next = new();
    private readonly int _mostPoints;
    private double _missed;

    private LeastTree(LimitedTree tree, double known, int mostPoints)
    {
        (_tree, _mostPoints) = (tree, mostPoints);
        _known = known * (1 + 1e-9);
        _steps = new Steps[tree.Count];
        _leastUpstream = new double[tree.Count];
        _mostUpstream = new double[tree.Count];
        _othersLeast = new double[tree.Count];
        var behind = new double[tree.Count];
        var all = 0.0;
        foreach (var run in tree.BottomUp)
        {
            behind[run] += tree.Usable[run][0].Objective;
            if (tree.Parents[run] >= 0)
                behind[tree.Parents[run]] += behind[run];
            else
                all += behind[run];
        }

        foreach (var run in tree.TopDown)
        {
            _othersLeast[run] = all - behind[run];
            var parent = tree.Parents[run];
            if (parent < 0)
                continue;
            _leastUpstream[run] = _leastUpstream[parent] + tree.Usable[parent][^1].DropVolts;
            _mostUpstream[run] = _mostUpstream[parent] + tree.Usable[parent][0].DropVolts;
        }
    }

    /// <summary>Chooses a cable per run.</summary>
    /// <param name="tree">Tree in which every run has a usable cable.</param>
    /// <param name="known">A set that keeps every limit: per run, its place in <see cref="LimitedTree.Usable"/>.</param>
    /// <param name="mostPoints">Points above which a step function is thinned.</param>
    /// <returns>The set in the same form, and how much above the least it may be at most: 0 unless a function had to be thinned.</returns>
    public static (int[] Chosen, double AboveLeast) Choose(LimitedTree tree, int[] known, int mostPoints = MostPoints)
    {
        // A rough search first: the closer the known set is to the least, the fewer points the exact one has to follow.
        var (rough, missed) = Search(tree, known, Math.Min(RoughPoints, mostPoints));
        return missed == 0 ? (rough, 0) : Search(tree, rough, mostPoints);
    }

    private static (int[] Chosen, double AboveLeast) Search(LimitedTree tree, int[] known, int mostPoints)
    {
        var search = new LeastTree(tree, Sum(tree, known), mostPoints);
        // Nothing found below the known set after thinning means that the least is no further below it than what thinning may miss.
        var found = search.Choose();
        return (found is not null && Sum(tree, found) <= Sum(tree, known) ? found : known, search._missed);
    }

    private static double Sum(LimitedTree tree, int[] set) => set.Select((place, run) => tree.Usable[run][place].Objective).Sum();

    private int[]? Choose()
    {
        foreach (var run in _tree.BottomUp)
        {
            _steps[run] = Shift(run, AtEnd(run));
            if (_steps[run].MaxDrop.Length == 0)
                return null;
        }

        var chosen = new int[_tree.Count];
        var drop = new double[_tree.Count];
        foreach (var run in _tree.TopDown)
        {
            var before = _tree.Parents[run] < 0 ? 0 : drop[_tree.Parents[run]];
            chosen[run] = _steps[run].CableAt(before);
            drop[run] = before + _tree.Usable[run][chosen[run]].DropVolts;
        }

        return chosen;
    }

    /// <summary>Least objective of all behind the run's end, as a function of the drop there.</summary>
    private Steps AtEnd(int run)
    {
        var cap = _tree.LimitVolts[run];
        var start = 0.0;
        var count = 0;
        foreach (var c in _tree.Children(run))
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
        foreach (var c in _tree.Children(run))
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

    /// <summary>The least, over the cables of a run, of what is behind its end shifted by the cable's drop and objective.</summary>
    private Steps Shift(int run, Steps end)
    {
        var least = _leastUpstream[run] - VoltTolerance;
        var most = _mostUpstream[run];
        var budget = _known - _othersLeast[run];
        _front.Clear();
        for (var s = 0; s < _tree.Usable[run].Length; s++)
            Merge(end, _tree.Usable[run][s], s, least, most, budget);
        if (_front.Count > _mostPoints)
            _missed += _front.Thin(_mostPoints / 2);
        return _front.ToSteps();
    }

    /// <summary>Merges one shifted function into the front, largest drop first; both fall in drop and objective.</summary>
    private void Merge(Steps end, SizeStep cable, int place, double least, double most, double budget)
    {
        _next.Clear();
        var at = end.MaxDrop.Length - 1;
        while (at >= 0 && end.Objective[at] + cable.Objective > budget)
            at--;
        // One point that covers the most drop the runs upstream can have is enough.
        while (at > 0 && end.MaxDrop[at - 1] - cable.DropVolts >= most)
            at--;
        var front = 0;
        while (true)
        {
            var drop = at >= 0 ? end.MaxDrop[at] - cable.DropVolts : double.NegativeInfinity;
            if (drop < least)
                break;
            var objective = end.Objective[at] + cable.Objective;
            while (front < _front.Count && (_front.Drop[front] > drop || (_front.Drop[front] == drop && _front.Objective[front] <= objective)))
                Keep(_front.Drop[front], _front.Objective[front], _front.Cable[front++], most);
            Keep(drop, objective, place, most);
            at--;
        }

        while (front < _front.Count)
            Keep(_front.Drop[front], _front.Objective[front], _front.Cable[front++], most);
        (_front, _next) = (_next, _front);
    }

    private void Keep(double drop, double objective, int cable, double most)
    {
        var last = _next.Count - 1;
        // Objectives that differ only by the order of a sum count as equal.
        if (last >= 0 && objective >= _next.Objective[last] * (1 - 1e-13))
            return;
        if (last >= 0 && drop >= most)
            _next.Count--; // this one covers as much for less
        _next.Add(drop, objective, cable);
    }

    /// <summary>Points of a step function being built, largest drop first.</summary>
    private sealed class Front
    {
        public int Count { get; set; }

        public double[] Drop { get; private set; } = new double[64];

        public double[] Objective { get; private set; } = new double[64];

        public int[] Cable { get; private set; } = new int[64];

        public void Clear() => Count = 0;

        public void Add(double drop, double objective, int cable)
        {
            if (Count == Drop.Length)
            {
                var size = 2 * Count;
                double[] drops = Drop, objectives = Objective;
                var cables = Cable;
                Array.Resize(ref drops, size);
                Array.Resize(ref objectives, size);
                Array.Resize(ref cables, size);
                (Drop, Objective, Cable) = (drops, objectives, cables);
            }

            (Drop[Count], Objective[Count], Cable[Count]) = (drop, objective, cable);
            Count++;
        }

        /// <summary>Drops points so that no value rises by more than is returned.</summary>
        public double Thin(int most)
        {
            var width = (Objective[0] - Objective[Count - 1]) / most;
            var kept = 0;
            for (var i = 1; i < Count; i++)
            {
                if (Objective[kept] - Objective[i] <= width)
                    continue;
                kept++;
                (Drop[kept], Objective[kept], Cable[kept]) = (Drop[i], Objective[i], Cable[i]);
            }

            Count = kept + 1;
            return width;
        }

        public Steps ToSteps()
        {
            var (drop, objective, cable) = (Drop[..Count], Objective[..Count], Cable[..Count]);
            Array.Reverse(drop);
            Array.Reverse(objective);
            Array.Reverse(cable);
            return new Steps(drop, objective, cable);
        }
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
