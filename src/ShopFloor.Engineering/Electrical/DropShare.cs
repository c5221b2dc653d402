using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Electrical;

/// <summary>Splits the drop allowed from battery to load between the runs on the way.</summary>
/// <remarks>
/// The limit holds for a whole way together. What body returns take is set aside first; the rest is shared in proportion to
/// conductor length, using the longest way behind, which takes the least copper when branches are alike. A run to a point gets less when a
/// way behind it could not keep the limit otherwise. Ways that could not keep it behind the thickest run either are left out of this. Each
/// run may then use all that the runs before it leave.
/// </remarks>
internal static class DropShare
{
    /// <summary>Budget of a run to a point.</summary>
    /// <param name="point">The point; its run is known.</param>
    /// <param name="leftVolts">Drop left from there to every load and back, V.</param>
    /// <param name="text">How numbers are written.</param>
    public static RunBudget ForPoint(PlanNode point, double leftVolts, UnitText text)
    {
        var whole = Whole(leftVolts);
        var run = new RunCase(point.Sizing!, whole);
        var least = LeastDrop(run);
        // A way that would miss the limit behind the thickest run too is reported, not paid for with copper elsewhere.
        var ways = point.WaysBelow()
            .Select(way => way.Select(node => new RunCase(node.Sizing!, whole)).ToList())
            .Select(way => (Meters: way.Sum(r => r.ConductorMeters), Body: way.Sum(r => r.BodyOhms * r.DropAmperes), Least: way.Sum(LeastDrop)))
            .Where(way => way.Least + least <= leftVolts)
            .ToList();
        var longest = ways.Select(way => way.Meters).DefaultIfEmpty(0).Max();
        var bodyBehind = ways.Select(way => way.Body).DefaultIfEmpty(0).Max();
        var body = run.BodyOhms * run.DropAmperes;
        var ratio = run.ConductorMeters / (run.ConductorMeters + longest);
        var share = body + Math.Max(0, leftVolts - body - bodyBehind) * ratio;
        var needed = ways.Select(way => way.Least).DefaultIfEmpty(0).Max();
        var choose = Math.Min(share, leftVolts - needed);
        var step = new ExplainedStep(
            $"Share of the drop: {point.Name}", "U = U_body + (U_left − U_body,all) · L / (L + L_longest behind), less when a run behind needs more",
            $"{text.Number(leftVolts)} V, {text.Number(run.ConductorMeters)} m and {text.Number(longest)} m of conductor, body returns {text.Number(body + bodyBehind)} V",
            text.Volts(choose), "rule of this program: shared by length, total kept within the limit");
        return whole with { ChooseVolts = choose, LimitName = "Voltage drop of this run within what is left", Step = step };
    }

    /// <summary>Budget of the run to a load behind a point.</summary>
    public static RunBudget ForBranch(double limitVolts, double upstreamVolts, UnitText text)
    {
        var left = limitVolts - upstreamVolts;
        var step = new ExplainedStep(
            "Drop left for the branch", "U_branch = U_limit − U_upstream", $"{text.Number(limitVolts)} − {text.Number(upstreamVolts)}",
            text.Volts(left), "total from battery to load kept within the limit");
        return new RunBudget(left, left, "Voltage drop of the branch within what the runs before it leave", false, step);
    }

    /// <summary>Budget of a run that has the whole limit to itself.</summary>
    public static RunBudget Whole(double limitVolts) =>
        new(limitVolts, limitVolts, "Voltage drop there and back", false, null);

    /// <summary>Drop of the thickest size that may be used, or of the size chosen by hand.</summary>
    private static double LeastDrop(RunCase run)
    {
        var row = run.Input.Run.ForcedSize is { } forced ? run.Input.Rules.Table.Row(forced)! : run.Sizes[^1];
        return run.Drop(row, run.DropAmperes).Volts;
    }
}
