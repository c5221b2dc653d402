using System.Globalization;
using ShopFloor.Engineering.Electrical;
using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Phases.Design;
using ShopFloor.Shop.Vehicles;

namespace ShopFloor.Documents.Diagrams;

/// <summary>Turns an electrical plan into the tree the feed diagram draws.</summary>
public static class PlanDiagram
{
    /// <returns>Null when no run is in the plan.</returns>
    public static FeedNode? Of(ElectricalPlanView plan, UnitText text)
    {
        if (plan.Input is not { } input || plan.Runs.Count == 0)
        {
            return null;
        }

        return Battery(plan, input, text, false);
    }

    /// <summary>
    /// The plan as it is edited: the tree from the battery, every source nothing hangs on yet, what hangs on circuits of the car, and what is not placed.
    /// Each node carries its key and its state.
    /// </summary>
    public static IReadOnlyList<FeedNode> ForEditing(ElectricalPlanView plan, UnitText text)
    {
        ArgumentNullException.ThrowIfNull(plan);
        List<FeedNode> roots = [Battery(plan, plan.Input, text, true)];
        var used = plan.Runs.Select(run => run.Place.RunId).ToHashSet();
        roots.AddRange(plan.Sources.Points.Where(point => !used.Contains(point.Id)).Select(point =>
            new FeedNode(KindOf(point), NameOf(point), VehicleZones.NameOf(point.Zone), "nothing hangs on it yet") { Key = KeyOf(point.Id) }));
        roots.Add(new FeedNode(FeedNodeKind.Circuit, "Circuits of the car", "fuse and wire stay the car maker's")
        {
            Key = KeyOf(FeedSources.VehicleCircuit),
            Runs = [.. plan.Runs.Where(run => run.Place.IsFedByTheCar).Select(run => new FeedRun(LoadNode(plan, run, text, true)))],
        });
        FeedRun[] waiting =
        [
            .. plan.Runs.Where(run => run.IsNotPlaced).Select(run => new FeedRun(LoadNode(plan, run, text, true))),
            .. CurrentNotKnown(plan).Select(finding => new FeedRun(
                new FeedNode(FeedNodeKind.Load, finding.Subject, "current not known") { Key = KeyOf(finding.SubjectId), Mark = new FeedMark(FeedMarkKind.Warn, "1 finding") })),
        ];
        if (waiting.Length > 0)
        {
            roots.Add(new FeedNode(FeedNodeKind.Circuit, "Not placed yet", "no place and no source said") { Key = KeyOf(WaitingId), Runs = waiting });
        }

        return roots;
    }

    /// <summary>What the root of parts not placed is found by.</summary>
    public const string WaitingId = "waiting";

    /// <summary>Parts that are in no sum of the plan, since what they draw is not known.</summary>
    public static IReadOnlyList<Finding> CurrentNotKnown(ElectricalPlanView plan)
    {
        ArgumentNullException.ThrowIfNull(plan);
        return [.. plan.Findings.Where(finding => finding.Code == "accessory-current-missing")];
    }

    /// <summary>What a node of <see cref="ForEditing"/> is found by.</summary>
    public static string KeyOf(string id) => $"node:{id}";

    private static FeedNode Battery(ElectricalPlanView plan, ElectricalPlanInput? input, UnitText text, bool editing)
    {
        var wires = RunMarks.Wires(plan.Runs);
        var fuses = RunMarks.Fuses(plan.Runs);
        FeedRun Wire(PlanRun run, FeedNode to) => new(to, [.. RunLines(run, wires[run.Place.RunId], text)])
        {
            Fuse = run.Sizing?.Fuse is { } fuse ? $"{fuses[run.Place.RunId]} {text.Amperes(fuse.RatingAmperes)}" : "",
            Mark = editing ? null : MarkOf(plan, run.Place.RunId),
        };

        List<FeedRun> From(string source) => [.. plan.Runs.Where(run => run.Place.SourceId == source && !(editing && run.IsNotPlaced)).Select(run => Wire(run, NodeOf(run)))];
        FeedNode NodeOf(PlanRun run) => plan.Sources.Find(run.Place.RunId) is { } point
            ? new FeedNode(KindOf(point), NameOf(point), [VehicleZones.NameOf(point.Zone), .. editing ? Carries(run, text) : []])
            {
                Runs = From(point.Id), Key = editing ? KeyOf(point.Id) : "", Mark = editing ? StateOf(plan, run) : null,
            }
            : LoadNode(plan, run, text, editing);
        return new FeedNode(
            FeedNodeKind.Source, "Battery", [.. input is null ? Array.Empty<string>() : [text.Volts(input.SupplyVolts)], VehicleZones.NameOf(plan.Sources.BatteryZone)])
        {
            Runs = From(FeedSources.Battery), Key = editing ? KeyOf(FeedSources.Battery) : "",
        };
    }

    private static FeedNodeKind KindOf(FeedSource point) => point.Kind == FeedPointKind.Battery ? FeedNodeKind.Battery : FeedNodeKind.Distribution;

    private static string NameOf(FeedSource point) => point.Id == ElectricalPlanBuilder.MainRunId ? "Distribution" : point.Name;

    private static IEnumerable<string> Carries(PlanRun run, UnitText text)
    {
        if (run.Sizing is { } sizing)
        {
            yield return $"{text.Amperes(sizing.RatedDrop.Amperes)} full, {text.Amperes(sizing.MusicDrop.Amperes)} music";
        }
    }

    // What was not sized, such as a load on a circuit of the car, was not judged either.
    private static FeedMark? StateOf(ElectricalPlanView plan, PlanRun run) => MarkOf(plan, run.Place.RunId) ?? (run.Sizing is null ? null : new FeedMark(FeedMarkKind.Fine, ""));

    /// <summary>Both ways a size is written: the gauge and its copper.</summary>
    public static string SizeText(ConductorSize size, UnitText text) => SizeText(size.Label, size.AreaSquareMillimeters, text);

    /// <summary>A size with its cross-section, once: the name of a metric size says it already.</summary>
    public static string SizeText(string label, double areaSquareMillimeters, UnitText text) =>
        label.Contains("mm²", StringComparison.Ordinal) ? label : $"{label} ({text.Number(areaSquareMillimeters)} mm²)";

    private static FeedNode LoadNode(ElectricalPlanView plan, PlanRun run, UnitText text, bool editing)
    {
        IReadOnlyList<string> lines = run.Load?.Rated is { } rated
            ? [VehicleZones.NameOf(run.Place.To), $"{text.Amperes(rated.Amperes)} rated, {text.Amperes(run.Load.Music?.Amperes ?? rated.Amperes)} music"]
            : [VehicleZones.NameOf(run.Place.To), "current not known"];
        return new FeedNode(FeedNodeKind.Load, run.Place.Name, lines) { Key = editing ? KeyOf(run.Place.RunId) : "", Mark = editing ? StateOf(plan, run) : null };
    }

    private static IEnumerable<string> RunLines(PlanRun run, string wire, UnitText text)
    {
        var length = run.Place.LengthMeters is { } meters ? text.Meters(meters) + (run.Place.LengthMeasured ? "" : " (suggested)") : "length not known";
        if (run.Sizing is not { } sizing)
        {
            yield return $"{wire}, {length}";
            yield break;
        }

        yield return $"{wire}: {SizeText(sizing.Conductor, text)}";
        yield return $"{length}, drop {text.Volts(sizing.RatedDrop.Volts)}";
    }

    private static FeedMark? MarkOf(ElectricalPlanView plan, string runId)
    {
        var found = plan.Findings.Where(finding => finding.SubjectId == runId && finding.Severity != Severity.Note).ToList();
        return found.Count == 0
            ? null
            : new FeedMark(
                found.Exists(finding => finding.Severity == Severity.Stop) ? FeedMarkKind.Stop : FeedMarkKind.Warn,
                found.Count == 1 ? "1 finding" : $"{found.Count.ToString(CultureInfo.InvariantCulture)} findings");
    }
}
