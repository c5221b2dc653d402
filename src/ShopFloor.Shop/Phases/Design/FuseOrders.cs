using ShopFloor.Engineering.Electrical.Fusing;
using ShopFloor.Engineering.Electrical.Network;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>Which of two fuses in series opens first for a short circuit at the end of the run behind both, by their time-current bands.</summary>
internal static class FuseOrders
{
    public static IReadOnlyList<FuseOrder> Of(ElectricalPlanView plan, FaultSweepResult faults, UnitText text)
    {
        var runs = plan.Runs.ToDictionary(run => run.Place.RunId);
        var marks = RunMarks.Fuses(plan.Runs);
        var rows = new List<FuseOrder>();
        foreach (var run in plan.Runs.Where(run => run.Sizing?.Fuse is not null))
        {
            if (Before(run, runs) is { } before
                && faults.Faults.FirstOrDefault(fault => fault.NodeId == run.Place.RunId)?.Fuses is { } through
                && At(run, through) is { } own && At(before, through) is { } above)
            {
                var result = own.Curve is { } down && above.Curve is { } up
                    ? FuseSelectivity.Compare(
                        new FuseInSeries(Words(own), own.RatingAmperes, down), new FuseInSeries(Words(above), above.RatingAmperes, up), Math.Clamp(own.Amperes, 1, 100_000), text)
                    : null;
                rows.Add(new FuseOrder(run.Place.RunId, own, above, result));
            }
        }

        return rows;

        FuseAtFault? At(PlanRun run, IReadOnlyList<FuseInFault> through)
        {
            var fuse = run.Sizing!.Fuse!; // asked for fused runs only
            return through.FirstOrDefault(found => found.FuseId == FeedNetworkBuilder.FuseId(run.Place.RunId)) is { } found
                ? new FuseAtFault(marks[run.Place.RunId], run.Place.Name, fuse.RatingAmperes, found.Amperes, FeedNetworkBuilder.CurveOf(fuse.Form))
                : null;
        }

        string Words(FuseAtFault fuse) => $"{fuse.Mark} {text.Amperes(fuse.RatingAmperes)}";
    }

    // The next fused run toward the battery; one without a fuse is passed by.
    private static PlanRun? Before(PlanRun run, Dictionary<string, PlanRun> runs)
    {
        for (var (at, steps) = (runs.GetValueOrDefault(run.Place.SourceId), 0); at is not null && steps <= runs.Count; at = runs.GetValueOrDefault(at.Place.SourceId), steps++)
        {
            if (at.Sizing?.Fuse is not null)
            {
                return at;
            }
        }

        return null;
    }
}

/// <summary>A fuse and what a short circuit sends through it.</summary>
/// <param name="Curve">Its band; null when none is known for its form.</param>
public sealed record FuseAtFault(string Mark, string Name, double RatingAmperes, double Amperes, FuseCurve? Curve)
{
    /// <summary>Earliest opening at that current, s; null without a band, infinite where none is expected.</summary>
    public double? EarliestSeconds => Curve?.MinSeconds(100 * Amperes / RatingAmperes);

    /// <summary>Latest opening at that current, s; null without a band, infinite where it need not open.</summary>
    public double? LatestSeconds => Curve?.MaxSeconds(100 * Amperes / RatingAmperes);
}

/// <summary>Two fuses in series at a short circuit behind both.</summary>
/// <param name="RunId">The run whose end is shorted.</param>
/// <param name="Own">Its fuse.</param>
/// <param name="Before">The next fuse toward the battery.</param>
/// <param name="Result">Over all currents up to the short circuit; null without both bands.</param>
public sealed record FuseOrder(string RunId, FuseAtFault Own, FuseAtFault Before, SelectivityResult? Result)
{
    /// <summary>Whether its own fuse is sure to open before the other can; null without both bands.</summary>
    public bool? OpensFirst => Own.LatestSeconds is { } latest && Before.EarliestSeconds is { } earliest ? latest < earliest : null;
}
