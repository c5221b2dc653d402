using System.Globalization;
using ShopFloor.Documents.Composition;
using ShopFloor.Documents.Diagrams;
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
            .Select(pair => new PlanBadge(pair.fuse.Zone, FuseNumber(pair.index), BadgeShape.Square, Accented: pair.fuse.Role == FuseRole.Main) { Note = Rating(pair.fuse) })
            .ToList();
        return badges.Count == 0 || facts.Vehicle.Body is not { } body
            ? null
            : new Figure(VehicleTopPlan.Draw(body, badges), $"Where the fuses sit. {NoseLeft}", HeightMillimetres: 80);
    }

    /// <returns>Null when the fuses belong to no feed.</returns>
    public static Figure? Feed(HandoverFacts facts)
    {
        var runs = facts.Fuses.Select((fuse, index) => (fuse, index)).Where(pair => pair.fuse.Role != FuseRole.Apart).ToList();
        if (runs.Count == 0)
        {
            return null;
        }

        FeedRun Load((FuseMapRow Fuse, int Index) row) => Run(row, new FeedNode(FeedNodeKind.Load, row.Fuse.Protects, row.Fuse.EndsIn));
        FeedRun Run((FuseMapRow Fuse, int Index) row, FeedNode to) => new(to) { Fuse = $"{FuseNumber(row.Index)} {Rating(row.Fuse)}" };
        var branches = runs.Where(row => row.fuse.Role == FuseRole.Branch).Select(Load).ToList();
        var fromBattery = new List<FeedRun>();
        if (runs.Find(row => row.fuse.Role == FuseRole.Main) is { fuse: not null } main)
        {
            fromBattery.Add(Run(main, new FeedNode(FeedNodeKind.Distribution, "Distribution", main.fuse.EndsIn) { Runs = branches }));
        }
        else
        {
            fromBattery.AddRange(branches);
        }

        fromBattery.AddRange(runs.Where(row => row.fuse.Role == FuseRole.OwnFeed).Select(Load));
        return new Figure(
            FeedDiagram.Draw(new FeedNode(FeedNodeKind.Source, "Battery") { Runs = fromBattery }),
            "From the battery through the main fuse to the distribution, and from there through each branch fuse.",
            HeightMillimetres: 110);
    }

    public static string FuseNumber(int index) => $"F{Text(index + 1)}";

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
