using System.Globalization;
using ShopFloor.Documents.Composition;
using ShopFloor.Documents.Diagrams;
using ShopFloor.Shop.Phases.Design;
using ShopFloor.Shop.Phases.Handover;

namespace ShopFloor.Documents.Handover;

/// <summary>The drawings of the handover: where parts and fuses sit, and how the feed runs. Numbers are those of the tables beside them.</summary>
internal static class HandoverPlans
{
    private const string NoseLeft = "The car from above, its nose to the left.";

    /// <summary>The numbers parts carry on the plan and in the table, in the table's order; parts without a drawn place have none.</summary>
    public static IReadOnlyDictionary<SystemPart, string> PartNumbers(HandoverFacts facts) => facts.Vehicle.Body is null
        ? new Dictionary<SystemPart, string>()
        : facts.System.SelectMany(group => group.Parts).Where(part => IsDrawn(part.Zone))
            .Select((part, index) => (part, Number: Text(index + 1)))
            .ToDictionary(pair => pair.part, pair => pair.Number, ByReference.Instance);

    /// <returns>Null when no part has a place on the plan.</returns>
    public static Figure? Parts(HandoverFacts facts)
    {
        var numbers = PartNumbers(facts);
        return numbers.Count == 0 || facts.Vehicle.Body is not { } body
            ? null
            : new Figure(
                VehicleTopPlan.Draw(body, [.. numbers.Select(pair => new PlanBadge(pair.Key.Zone, pair.Value))]),
                $"{NoseLeft} The numbers are those of the table.",
                HeightMillimetres: 80);
    }

    /// <returns>Null when no fuse has a place on the plan.</returns>
    public static Figure? Fuses(HandoverFacts facts)
    {
        var badges = facts.Fuses.Select((fuse, index) => (fuse, index)).Where(pair => IsDrawn(pair.fuse.Zone))
            .Select(pair => new PlanBadge(pair.fuse.Zone, MarkOf(pair.fuse, pair.index), BadgeShape.Square, Accented: pair.fuse.RunId.Length > 0 && pair.fuse.FedByRunId.Length == 0) { Note = Rating(pair.fuse) })
            .ToList();
        return badges.Count == 0 || facts.Vehicle.Body is not { } body
            ? null
            : new Figure(VehicleTopPlan.Draw(body, badges), $"Where the fuses sit. {NoseLeft}", HeightMillimetres: 80);
    }

    /// <returns>Null when the fuses belong to no feed.</returns>
    public static Figure? Feed(HandoverFacts facts)
    {
        var runs = facts.Fuses.Select((fuse, index) => (Fuse: fuse, Index: index)).Where(row => row.Fuse.RunId.Length > 0).ToList();
        if (runs.Count == 0)
        {
            return null;
        }

        // A feed is a tree, so each run is drawn once; the plan refuses one that feeds itself.
        List<FeedRun> From(string source) =>
        [
            .. runs.Where(row => row.Fuse.FedByRunId == source).Select(row => new FeedRun(NodeOf(row.Fuse)) { Fuse = $"{MarkOf(row.Fuse, row.Index)} {Rating(row.Fuse)}" }),
        ];
        FeedNode NodeOf(FuseMapRow fuse) => fuse.Distribution.Length > 0
            ? new FeedNode(FeedNodeKind.Distribution, fuse.Distribution, fuse.EndsIn) { Runs = From(fuse.RunId) }
            : new FeedNode(FeedNodeKind.Load, fuse.Protects, fuse.EndsIn);
        var fromBattery = From("");
        return new Figure(
            FeedDiagram.Draw(new FeedNode(FeedNodeKind.Source, "Battery") { Runs = fromBattery }),
            "From the battery through the main fuse to the distribution, and from there through each branch fuse.",
            HeightMillimetres: 110);
    }

    public static string MarkOf(FuseMapRow fuse, int index) => fuse.Mark.Length > 0 ? fuse.Mark : RunMarks.Fuse(index + 1);

    public static string Rating(FuseMapRow fuse) =>
        fuse.RatingAmperes is { } rating ? string.Create(CultureInfo.CurrentCulture, $"{rating:0.##} A") : "not known";

    private static bool IsDrawn(string zone) => VehicleTopPlan.Zones.Any(known => known.Key == zone);

    private static string Text(int number) => number.ToString(CultureInfo.InvariantCulture);

    /// <summary>Two equal parts in two places are two parts.</summary>
    private sealed class ByReference : IEqualityComparer<SystemPart>
    {
        public static ByReference Instance { get; } = new();

        public bool Equals(SystemPart? one, SystemPart? other) => ReferenceEquals(one, other);

        public int GetHashCode(SystemPart part) => System.Runtime.CompilerServices.RuntimeHelpers.GetHashCode(part);
    }
}
