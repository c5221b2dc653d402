using ShopFloor.Documents.Diagrams;
using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Phases.Design;
using ShopFloor.Shop.Vehicles;

namespace ShopFloor.Web.Phases.Design;

/// <summary>What a line of the outline stands for.</summary>
public enum FeedRowKind
{
    Battery,
    Point,
    Load,
    Circuit,
    Waiting,
}

/// <summary>One line of the outline of the feed.</summary>
/// <param name="Id">A run, or a source of <see cref="FeedSources"/>; <see cref="FeedOutline.WaitingId"/> for the parts not placed.</param>
/// <param name="Parent">The line it is under; null at the top.</param>
/// <param name="Level">From 1, as a tree counts.</param>
/// <param name="Position">From 1, among those under the same line.</param>
/// <param name="Of">How many are under the same line.</param>
/// <param name="Facts">Current, size, fuse and drop, as far as they are known.</param>
/// <param name="State">Gravest finding about it; null when there is none, or nothing to judge.</param>
/// <param name="Judged">Whether it is sized, so that no finding means that it is right.</param>
/// <param name="Moves">Whether it can be hung on another source.</param>
/// <param name="Takes">Whether something can be hung on it.</param>
public sealed record FeedRow(
    string Id, string? Parent, int Level, int Position, int Of, FeedRowKind Kind, string Name, IReadOnlyList<string> Facts,
    Severity? State, bool Judged, bool Moves, bool Takes, Guid? PartId, PlanRun? Run)
{
    public bool HasChildren { get; init; }
}

/// <summary>The feed as a tree of lines: what hangs on the battery, on circuits of the car, and what is not placed yet.</summary>
public static class FeedOutline
{
    /// <summary>The line that parts without a place stand under.</summary>
    public const string WaitingId = PlanDiagram.WaitingId;

    public static IReadOnlyList<FeedRow> Of(ElectricalPlanView plan, UnitText text)
    {
        ArgumentNullException.ThrowIfNull(plan);
        var used = plan.Runs.Select(run => run.Place.RunId).ToHashSet();
        var waiting = plan.Runs.Where(run => run.IsNotPlaced).ToList();
        var unknown = PlanDiagram.CurrentNotKnown(plan);
        var idle = plan.Sources.Points.Where(point => !used.Contains(point.Id)).ToList();
        var draft = new List<FeedRow>
        {
            new(FeedSources.Battery, null, 1, 0, 0, FeedRowKind.Battery, "Battery", [text.Volts(plan.Settings.SupplyVolts), VehicleZones.NameOf(plan.Sources.BatteryZone)], null, false, false, true, null, null),
        };
        AddUnder(FeedSources.Battery, 2);
        draft.AddRange(idle.Select(point => new FeedRow(point.Id, null, 1, 0, 0, FeedRowKind.Point, NameOf(point), ["nothing hangs on it yet"], null, false, false, true, point.PartId, null)));
        draft.Add(new FeedRow(FeedSources.VehicleCircuit, null, 1, 0, 0, FeedRowKind.Circuit, "On circuits of the car", ["not in this plan's sums"], null, false, false, true, null, null));
        AddUnder(FeedSources.VehicleCircuit, 2);
        if (waiting.Count + unknown.Count > 0)
        {
            draft.Add(new FeedRow(WaitingId, null, 1, 0, 0, FeedRowKind.Waiting, "Not placed yet", [], null, false, false, false, null, null));
            draft.AddRange(waiting.Select(run => Line(run, WaitingId, 2)));
            draft.AddRange(unknown.Select(finding => new FeedRow(
                finding.SubjectId, WaitingId, 2, 0, 0, FeedRowKind.Waiting, finding.Subject, ["current not known"], finding.Severity, true, false, false, Guid.Parse(finding.SubjectId), null)));
        }

        return Counted(draft);

        void AddUnder(string source, int level)
        {
            foreach (var run in plan.Runs.Where(run => run.Place.SourceId == source && !waiting.Contains(run)))
            {
                draft.Add(Line(run, source, level));
                if (plan.Sources.Find(run.Place.RunId) is not null && level <= plan.Runs.Count + 1)
                {
                    AddUnder(run.Place.RunId, level + 1);
                }
            }
        }

        FeedRow Line(PlanRun run, string parent, int level)
        {
            var point = plan.Sources.Find(run.Place.RunId);
            var state = plan.Findings.Where(finding => finding.SubjectId == run.Place.RunId && finding.Severity != Severity.Note).Select(finding => (Severity?)finding.Severity).Max();
            return new FeedRow(
                run.Place.RunId, parent, level, 0, 0, point is null ? FeedRowKind.Load : FeedRowKind.Point, point is null ? run.Place.Name : NameOf(point),
                [.. Facts(run, text)], state, run.Sizing is not null, true, point is not null, run.Place.PartId, run);
        }
    }

    /// <summary>The lines that show while some are folded.</summary>
    public static IReadOnlyList<FeedRow> Shown(IReadOnlyList<FeedRow> rows, IReadOnlySet<string> folded)
    {
        var hidden = new HashSet<string>();
        var shown = new List<FeedRow>();
        foreach (var row in rows)
        {
            if (row.Parent is { } parent && (hidden.Contains(parent) || folded.Contains(parent)))
            {
                hidden.Add(row.Id);
            }
            else
            {
                shown.Add(row);
            }
        }

        return shown;
    }

    private static string NameOf(FeedSource point) => point.Id == ElectricalPlanBuilder.MainRunId ? "Main run to the distribution" : point.Name;

    private static IEnumerable<string> Facts(PlanRun run, UnitText text)
    {
        if (run.Place.To.Length == 0 && run.Load is not null)
        {
            yield return "place not set";
        }

        if (run.Sizing is { } sizing)
        {
            yield return $"{text.Amperes(sizing.MusicDrop.Amperes)} music, {text.Amperes(sizing.RatedDrop.Amperes)} full";
            yield return sizing.Conductor.Label;
            yield return sizing.Fuse is { } fuse ? $"fuse {text.Amperes(fuse.RatingAmperes)}" : "no fuse fits";
            yield return run.Load?.MusicDrop is { } drop
                ? $"drop {text.Volts(drop.TotalVolts)} ({text.Percent(drop.TotalPercent)}) on music"
                : $"drop {text.Volts(sizing.MusicDrop.Volts)} ({text.Percent(sizing.MusicDrop.Percent)}) on music";
        }
        else if (run.Place.IsFedByTheCar)
        {
            yield return "fuse and wire are the car's";
        }
        else
        {
            yield return "not sized yet";
        }
    }

    private static List<FeedRow> Counted(List<FeedRow> draft)
    {
        var siblings = draft.GroupBy(row => row.Parent ?? "").ToDictionary(group => group.Key, group => group.Select(row => row.Id).ToList());
        return draft.ConvertAll(row => row with
        {
            Position = siblings[row.Parent ?? ""].IndexOf(row.Id) + 1,
            Of = siblings[row.Parent ?? ""].Count,
            HasChildren = siblings.ContainsKey(row.Id),
        });
    }
}
