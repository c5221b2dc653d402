namespace ShopFloor.Engineering.Electrical.Sizing;

/// <summary>Chooses run by run from the battery outward, the drop shared by conductor length.</summary>
/// <remarks>
/// For trees of any depth: of what is left of a load's limit after body returns, a run may use its share
/// of the conductor length from there to the load, and never so much that the runs behind it could not keep the limit with their
/// thickest cables. What a run does not use is left to the runs behind it. Whenever any set keeps every limit, this one does.
/// </remarks>
internal static class RunByRun
{
    /// <summary>Per run, its place in <see cref="TreeNode.Usable"/>.</summary>
    public static int[] Choose(TreeModel model)
    {
        var chosen = new int[model.Nodes.Length];
        var spent = new double[model.Nodes.Length];
        var paths = Paths(model);
        foreach (var node in model.TopDown)
        {
            var before = node.Parent < 0 ? 0 : spent[node.Parent];
            var share = double.PositiveInfinity;
            foreach (var path in paths[node.Index])
            {
                var left = path.LimitVolts - before;
                var body = node.BodyOhms * node.DropAmperes;
                var byLength = body + Math.Max(0, left - body - path.BodyVoltsBehind) * node.ConductorMeters / (node.ConductorMeters + path.MetersBehind);
                share = Math.Min(share, Math.Min(byLength, left - path.LeastVoltsBehind));
            }

            var at = Array.FindIndex(node.Usable, c => c.DropVolts <= share);
            chosen[node.Index] = at < 0 ? node.Usable.Length - 1 : at;
            spent[node.Index] = before + node.Usable[chosen[node.Index]].DropVolts;
        }

        return chosen;
    }

    /// <summary>Per run, every load behind it with what lies between.</summary>
    private static List<Path>[] Paths(TreeModel model)
    {
        var paths = new List<Path>[model.Nodes.Length];
        foreach (var node in model.BottomUp)
        {
            var here = new List<Path>();
            if (!double.IsPositiveInfinity(node.OwnLimitVolts))
                here.Add(new Path(node.OwnLimitVolts, 0, 0, 0));
            foreach (var child in node.Children.Select(c => model.Nodes[c]))
            {
                here.AddRange(paths[child.Index].Select(p => new Path(
                    p.LimitVolts,
                    p.MetersBehind + child.ConductorMeters,
                    p.BodyVoltsBehind + child.BodyOhms * child.DropAmperes,
                    p.LeastVoltsBehind + child.Usable[^1].DropVolts)));
            }

            paths[node.Index] = here;
        }

        return paths;
    }

    private readonly record struct Path(double LimitVolts, double MetersBehind, double BodyVoltsBehind, double LeastVoltsBehind);
}
