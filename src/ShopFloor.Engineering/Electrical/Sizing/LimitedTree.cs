namespace ShopFloor.Engineering.Electrical.Sizing;

/// <summary>What one cable on one run comes to.</summary>
/// <param name="Objective">Mass or price, never negative.</param>
/// <param name="DropVolts">Drop there and back, V.</param>
internal readonly record struct SizeStep(double Objective, double DropVolts)
{
    /// <summary>
    /// Places of the steps that no other beats in both, cheapest first, so that each dearer one drops less: the others can be in no least
    /// set that these are not.
    /// </summary>
    public static int[] Undominated(SizeStep[] steps)
    {
        var order = new int[steps.Length];
        for (var i = 0; i < order.Length; i++)
            order[i] = i;
        Array.Sort((SizeStep[])steps.Clone(), order, Comparer<SizeStep>.Create(static (a, b) =>
            a.Objective != b.Objective ? a.Objective.CompareTo(b.Objective) : a.DropVolts.CompareTo(b.DropVolts)));
        var kept = new List<int>(order.Length);
        var least = double.PositiveInfinity;
        foreach (var i in order)
        {
            if (steps[i].DropVolts >= least)
                continue;
            least = steps[i].DropVolts;
            kept.Add(i);
        }

        return [.. kept];
    }
}

/// <summary>A tree of runs, each with the cables it may have, and the drop limit at each run's end.</summary>
internal sealed class LimitedTree
{
    private readonly List<int>[] _children;

    /// <param name="parents">Per run the run it starts from; −1 at the battery.</param>
    /// <param name="usable">Per run its undominated cables, cheapest first.</param>
    /// <param name="limitVolts">Per run the drop allowed from the battery to its end, V; infinite when nothing asks for one.</param>
    public LimitedTree(int[] parents, SizeStep[][] usable, double[] limitVolts)
    {
        (Parents, Usable, LimitVolts) = (parents, usable, limitVolts);
        _children = [.. parents.Select(_ => new List<int>())];
        var order = new List<int>(parents.Length);
        for (var i = 0; i < parents.Length; i++)
            (parents[i] < 0 ? order : _children[parents[i]]).Add(i);
        for (var i = 0; i < order.Count; i++)
            order.AddRange(_children[order[i]]);
        TopDown = order;
    }

    public int Count => Parents.Length;

    public int[] Parents { get; }

    public SizeStep[][] Usable { get; }

    public double[] LimitVolts { get; }

    /// <summary>Runs, parents before children; shorter than <see cref="Count"/> when some feed themselves in a circle.</summary>
    public IReadOnlyList<int> TopDown { get; }

    /// <summary>The same runs, children before parents.</summary>
    public IEnumerable<int> BottomUp => TopDown.Reverse();

    public List<int> Children(int run) => _children[run];

    /// <summary>Drop from the battery to the end of each run, V, with one cable picked for each.</summary>
    public double[] DropsWith(Func<int, SizeStep> pick)
    {
        var drops = new double[Count];
        foreach (var run in TopDown)
            drops[run] = pick(run).DropVolts + (Parents[run] < 0 ? 0 : drops[Parents[run]]);
        return drops;
    }
}
