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

        var wires = RunMarks.Wires(plan.Runs);
        var fuses = RunMarks.Fuses(plan.Runs);
        FeedRun Wire(PlanRun run, FeedNode to) => new(to, [.. RunLines(run, wires[run.Place.RunId], text)])
        {
            Fuse = run.Sizing?.Fuse is { } fuse ? $"{fuses[run.Place.RunId]} {text.Amperes(fuse.RatingAmperes)}" : "",
            Mark = MarkOf(plan, run.Place.RunId),
        };

        List<FeedRun> From(string source) => [.. plan.Runs.Where(run => run.Place.SourceId == source).Select(run => Wire(run, NodeOf(run)))];
        FeedNode NodeOf(PlanRun run) => plan.Sources.Find(run.Place.RunId) is { } point
            ? new FeedNode(FeedNodeKind.Distribution, point.Id == ElectricalPlanBuilder.MainRunId ? "Distribution" : point.Name, VehicleZones.NameOf(point.Zone)) { Runs = From(point.Id) }
            : LoadNode(run, text);
        return new FeedNode(FeedNodeKind.Source, "Battery", text.Volts(input.SupplyVolts), VehicleZones.NameOf(plan.Sources.BatteryZone)) { Runs = From(FeedSources.Battery) };
    }

    /// <summary>Both ways a size is written: the gauge and its copper.</summary>
    public static string SizeText(ConductorSize size, UnitText text) => SizeText(size.Label, size.AreaSquareMillimeters, text);

    /// <summary>A size with its cross-section, once: the name of a metric size says it already.</summary>
    public static string SizeText(string label, double areaSquareMillimeters, UnitText text) =>
        label.Contains("mm²", StringComparison.Ordinal) ? label : $"{label} ({text.Number(areaSquareMillimeters)} mm²)";

    private static FeedNode LoadNode(PlanRun run, UnitText text)
    {
        IReadOnlyList<string> lines = run.Load?.Rated is { } rated
            ? [VehicleZones.NameOf(run.Place.To), $"{text.Amperes(rated.Amperes)} rated, {text.Amperes(run.Load.Music?.Amperes ?? rated.Amperes)} music"]
            : [VehicleZones.NameOf(run.Place.To), "current not known"];
        return new FeedNode(FeedNodeKind.Load, run.Place.Name, lines);
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
