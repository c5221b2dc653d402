using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Staff;

namespace ShopFloor.Web.Layout;

/// <summary>The pages of a job: one a phase in the order the work flows, then money and the record.</summary>
public sealed record JobTab(string Path, string Text, Permission Permission);

public static class JobTabs
{
    public static IReadOnlyList<JobTab> All { get; } =
    [
        .. Enum.GetValues<JobPhase>().Select(phase => new JobTab(
            phase.ToString().ToLowerInvariant(),
            phase.ToString(),
            phase == JobPhase.Estimate ? Permission.SeePrices : Permission.SeeJobs)),
        new("money", "Money", Permission.SeeCosts),
        new("record", "Record", Permission.SeeJobs),
    ];

    public static IEnumerable<JobTab> For(Actor actor) => All.Where(tab => actor.May(tab.Permission));
}
