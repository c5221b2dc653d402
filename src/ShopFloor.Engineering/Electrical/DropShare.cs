using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Electrical;

/// <summary>How much of the drop allowed from battery to load a run may have.</summary>
internal static class DropShare
{
    /// <summary>Budget of a run to a point when runs are sized one by one.</summary>
    /// <remarks>
    /// What body returns take is set aside first; the rest is shared in proportion to conductor length, using the longest way behind. The
    /// run gets less when a way behind it could not keep the limit otherwise. Ways that could not keep it behind the thickest run either are
    /// left out of this.
    /// </remarks>
    /// <param name="point">The point; its run is known.</param>
    /// <param name="leftVolts">Drop left from there to every load and back, V.</param>
    public static RunBudget ForPoint(PlanNode point, double leftVolts)
    {
        var whole = Whole(leftVolts);
        var run = new RunCase(point.Sizing!, whole);
        var least = LeastDrop(run);
        var ways = point.WaysBelow()
            .Select(way => way.Select(node => new RunCase(node.Sizing!, whole)).ToList())
            .Select(way => (Meters: way.Sum(r => r.ConductorMeters), Body: way.Sum(r => r.BodyOhms * r.DropAmperes), Least: way.Sum(LeastDrop)))
            .Where(way => way.Least + least <= leftVolts)
            .ToList();
        var longest = ways.Select(way => way.Meters).DefaultIfEmpty(0).Max();
        var bodyBehind = ways.Select(way => way.Body).DefaultIfEmpty(0).Max();
        var body = run.BodyOhms * run.DropAmperes;
        var share = body + Math.Max(0, leftVolts - body - bodyBehind) * run.ConductorMeters / (run.ConductorMeters + longest);
        var needed = ways.Select(way => way.Least).DefaultIfEmpty(0).Max();
        return whole with { ChooseVolts = Math.Min(share, leftVolts - needed) };
    }

    /// <summary>Budget of a run whose size was settled with the others: what the runs before it leave of the limit.</summary>
    public static RunBudget Left(double limitVolts, double upstreamVolts, UnitText text)
    {
        var left = limitVolts - upstreamVolts;
        var step = new ExplainedStep(
            "Drop left for this run and those behind it", "U_left = U_limit − U_upstream", $"{text.Number(limitVolts)} − {text.Number(upstreamVolts)}",
            text.Volts(left), "total from battery to load kept within the limit; sizes chosen together for the least cable mass");
        return new RunBudget(left, left, "Voltage drop of this run within what the runs before it leave", false, step);
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
