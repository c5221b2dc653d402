using System.Globalization;
using ShopFloor.Documents.Diagrams;
using ShopFloor.Engineering.Electrical;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Phases.Design;

namespace ShopFloor.Web.Phases.Design;

/// <summary>A run as it was released, and what the plan says of it now.</summary>
/// <param name="Then">Conductor, length and fuse as released.</param>
/// <param name="Now">What differs today; empty when nothing does.</param>
public sealed record ReleasedRun(string RunId, string Name, string Then, string Now);

/// <summary>Compares a released plan with the present one, run by run.</summary>
public static class ReleasedRuns
{
    public static IReadOnlyList<ReleasedRun> Compare(ReleasedPlan released, ElectricalPlanView present, UnitText text)
    {
        var now = present.Runs.Where(run => run.Sizing is not null).ToDictionary(run => run.Place.RunId, run => run.Sizing!); // the filter left only sized runs
        var then = Sized(released.Result).ToList();
        return
        [
            .. then.Select(run => new ReleasedRun(
                run.RunId,
                run.Name,
                Words(run, text),
                !now.TryGetValue(run.RunId, out var today) ? "no longer in the plan" : Words(today, text) is var words && words == Words(run, text) ? "" : words)),
            .. now.Values.Where(run => then.TrueForAll(known => known.RunId != run.RunId)).Select(run => new ReleasedRun(run.RunId, run.Name, "not in this release", Words(run, text))),
        ];
    }

    private static IEnumerable<RunSizingResult> Sized(ElectricalPlanResult result) =>
        result.Points.Select(point => point.Run).Concat(result.Loads.Select(load => load.Branch)).OfType<RunSizingResult>();

    private static string Words(RunSizingResult run, UnitText text) => string.Create(
        CultureInfo.CurrentCulture,
        $"{PlanDiagram.SizeText(run.Conductor, text)}, {text.Meters(run.LengthMeters)}, {(run.Fuse is { } fuse ? $"{text.Amperes(fuse.RatingAmperes)} {fuse.FormName} fuse" : "no fuse fits")}");
}
