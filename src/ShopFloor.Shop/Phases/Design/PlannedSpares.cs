using ShopFloor.Engineering.Electrical;
using ShopFloor.Engineering.Electrical.Fusing;
using ShopFloor.Shop.Jobs;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>Spare fuses left in the car: lines of the parts list whose run begins with <see cref="RunPrefix"/>, so no run takes one for its own.</summary>
internal static class PlannedSpares
{
    public const string RunPrefix = "spare:";

    public static bool IsSpare(JobPart part) => part.PlanRunId.StartsWith(RunPrefix, StringComparison.Ordinal);

    /// <summary>One of each plug-in fuse among those named by rating and form; a form nobody knows is left out.</summary>
    public static List<Design.SpareFuse> Of(IEnumerable<(double? Rating, string Form)> fuses) => Named(
        fuses.Select(fuse => fuse.Rating is { } rating && PlanShelf.SeriesOf(fuse.Form) is { } series ? new FuseChoice(rating, series.Form, series.Name, null, null) : null)
            .OfType<FuseChoice>());

    public static List<Design.SpareFuse> Of(ElectricalPlanView plan) => Named(plan.Runs.Select(run => run.Sizing?.Fuse).OfType<FuseChoice>());

    private static List<Design.SpareFuse> Named(IEnumerable<FuseChoice> fuses) =>
        [.. SpareFuses.For(fuses).Select(spare => new Design.SpareFuse(spare.RatingAmperes, spare.FormName))];
}
