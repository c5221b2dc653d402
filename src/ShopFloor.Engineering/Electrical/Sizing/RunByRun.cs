namespace ShopFloor.Engineering.Electrical.Sizing;

/// <summary>Chooses run by run from the battery outward, the drop shared by conductor length: what the least set is compared with.</summary>
/// <remarks>
/// Of what is left of a load's limit after body returns, a run may use its share of the conductor length from there to the load, and never so
/// much that the runs behind it could not keep the limit with their thickest cables. What a run does not use is left to the runs behind it.
/// Whenever any set keeps every limit, this one does.
/// </remarks>
internal static class RunByRun
{
    /// <summary>Per run, its place in <see cref="LimitedTree.Usable"/>.</summary>
    /// <param name="tree">The runs with the cables they may have and the limits at their ends.</param>
    /// <param name="conductorMeters">Per run, length of conductor there and back, m.</param>
    /// <param name="bodyVolts">Per run, drop in its body return, V.</param>
    public static int[] Choose(LimitedTree tree, double[] conductorMeters, double[] bodyVolts)
    {
        var chosen = new int[tree.Count];
        var spent = new double[tree.Count];
        var paths = Paths(tree, conductorMeters, bodyVolts);
        foreach (var run in tree.TopDown)
        {
            var before = tree.Parents[run] < 0 ? 0 : spent[tree.Parents[run]];
            var share = double.PositiveInfinity;
            foreach (var path in paths[run])
            {
                var left = path.LimitVolts - before;
                var byLength = bodyVolts[run] + Math.Max(0, left - bodyVolts[run] - path.BodyVoltsBehind) * conductorMeters[run] / (conductorMeters[run] + path.MetersBehind);
                share = Math.Min(share, Math.Min(byLength, left - path.LeastVoltsBehind));
            }

            var at = Array.FindIndex(tree.Usable[run], c => c.DropVolts <= share);
            chosen[run] = at < 0 ? tree.Usable[run].Length - 1 : at;
            spent[run] = before + tree.Usable[run][chosen[run]].DropVolts;
        }

        return chosen;
    }

    /// <summary>Per run, every load behind it with what lies between.</summary>
    private static List<Path>[] Paths(LimitedTree tree, double[] conductorMeters, double[] bodyVolts)
    {
        var paths = new List<Path>[tree.Count];
        foreach (var run in tree.BottomUp)
        {
            var here = new List<Path>();
            if (!double.IsPositiveInfinity(tree.LimitVolts[run]))
                here.Add(new Path(tree.LimitVolts[run], 0, 0, 0));
            foreach (var child in tree.Children(run))
            {
                here.AddRange(paths[child].Select(p => new Path(
                    p.LimitVolts,
                    p.MetersBehind + conductorMeters[child],
                    p.BodyVoltsBehind + bodyVolts[child],
                    p.LeastVoltsBehind + tree.Usable[child][^1].DropVolts)));
            }

            paths[run] = here;
        }

        return paths;
    }

    private readonly record struct Path(double LimitVolts, double MetersBehind, double BodyVoltsBehind, double LeastVoltsBehind);
}
