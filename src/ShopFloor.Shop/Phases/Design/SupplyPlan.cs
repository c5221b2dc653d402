using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Storage;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>The plan of a job and its solution as a network, read and computed together: what gates and measured values are judged by.</summary>
/// <param name="Feed">Null while no run is sized.</param>
internal sealed record SupplyPlan(PlanFacts Facts, ElectricalPlanView Plan, FeedStatesView? Feed)
{
    /// <summary>What says the same: a finding of the network, and those of the plan that make it needless.</summary>
    private static readonly Dictionary<string, string[]> SameAs = new()
    {
        ["fuse-over-rating"] = ["fuse-below-load"],
        ["conductor-above-insulation"] = ["conductor-too-small", "no-size-carries", "fuse-above-ampacity"],
        ["fuse-cannot-interrupt"] = ["fuse-cannot-interrupt"],
        ["fault-not-cleared"] = ["no-fuse-rating"],
        ["load-below-minimum"] = ["drop-over-limit"],
        ["network-refused"] = ["plan-input-refused"],
    };

    public static async Task<SupplyPlan> ReadAsync(ShopDbContext db, Guid jobId, UnitText text, CancellationToken cancellationToken)
    {
        var facts = await PlanFacts.ReadAsync(db, jobId, cancellationToken);
        var plan = ElectricalPlans.ViewOf(jobId, facts, text);
        return new SupplyPlan(facts, plan, FeedNetworkBuilder.Of(plan, facts.Vehicle, facts.Parts) is { } network ? FeedStates.Solve(plan, network, text) : null);
    }

    /// <summary>
    /// All findings of the plan, and the stops of the network the plan does not already say. The network's warnings stay with the designer:
    /// each plan has some, such as the short cable before the main fuse.
    /// </summary>
    public IReadOnlyList<Finding> Findings =>
    [
        .. Plan.Findings,
        .. (Feed?.Findings ?? []).Where(finding => finding.Severity == Severity.Stop && !IsForWantOfRating(finding) && !IsSaidBy(finding, Plan.Findings)),
    ];

    // A fault no fuse clears because one in its way cannot interrupt it: that fuse is found by itself, once, not once a place behind it.
    private bool IsForWantOfRating(Finding finding) =>
        finding.Code == "fault-not-cleared"
        && Feed?.Faults?.Faults.FirstOrDefault(fault => fault.NodeId == finding.SubjectId)?.Fuses.Any(fuse => fuse is { IsWithinInterruptRating: false, Opens: false }) == true;

    private static bool IsSaidBy(Finding network, IReadOnlyList<Finding> plan) =>
        SameAs.TryGetValue(network.Code, out var codes)
        && plan.Any(finding => finding.Severity >= network.Severity && codes.Contains(finding.Code) && (finding.SubjectId == RunOf(network.SubjectId) || network.Code == "network-refused"));

    // Elements and nodes of the network are named after their run: "fuse:", "feed:", "after-fuse:" and the like before its id.
    private static string RunOf(string subjectId) => subjectId[(subjectId.IndexOf(':', StringComparison.Ordinal) + 1)..];
}
