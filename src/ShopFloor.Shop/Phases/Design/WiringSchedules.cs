using System.Globalization;
using CsvHelper;
using Microsoft.EntityFrameworkCore;
using ShopFloor.Engineering.Electrical;
using ShopFloor.Engineering.Electrical.Runs;
using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Money;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Storage;
using ShopFloor.Shop.Vehicles;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>Turns the electrical plan of a job into what the bench cuts, crimps and labels.</summary>
public sealed class WiringSchedules(ShopStore store)
{
    public Task<WiringSchedule?> GetAsync(Actor actor, Guid jobId, UnitText text, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.SeeJobs);
        return store.ReadAsync(
            async db =>
            {
                var job = await db.Jobs.IgnoreQueryFilters().SingleOrDefaultAsync(found => found.Id == jobId, cancellationToken);
                if (job is null)
                {
                    return null;
                }

                var settings = await db.SettingsAsync(cancellationToken);
                var supply = await SupplyPlan.ReadAsync(db, jobId, text, cancellationToken);
                // What the owner signed off is built; the sign-off covers the invariant text.
                var stops = await SignOffs.GateAsync(db, jobId, supply.Findings, cancellationToken);
                return Of(supply.Plan, settings, job.Reference, job.Title, supply.Facts.Vehicle.Title) with
                {
                    Stops = [.. stops.Where(gated => gated.Stands).Select(gated => gated.Finding)],
                    Safety = SupplySafety.Of(supply.Facts.Vehicle, supply.Facts.Parts),
                };
            },
            cancellationToken);
    }

    /// <summary>The wires as a table for other programs: a heading, one row a conductor, units in the headings, invariant numbers.</summary>
    public static byte[] Csv(WiringSchedule schedule)
    {
        ArgumentNullException.ThrowIfNull(schedule);
        using var memory = new MemoryStream();
        using (var csv = CsvWriter.Create(
            memory,
            new CsvWriterOptions
            {
                WriteByteOrderMark = true,
                Injection = CsvInjection.Escape,
                InjectionCharacters = CatalogueExport.FormulaStarts,
                InjectionEscape = CatalogueExport.FormulaGuard,
            },
            leaveOpen: true))
        {
            Record(csv, "wire", "name", "from", "to", "size", "area_mm2", "insulation_celsius", "colour", "cut_m", "length_measured", "from_terminal", "to_terminal", "fuse", "route", "notes");
            foreach (var wire in schedule.Wires)
            {
                Record(
                    csv,
                    wire.Mark,
                    wire.Name,
                    wire.From,
                    wire.To,
                    wire.Size,
                    wire.AreaSquareMillimeters.ToString("0.##", CultureInfo.InvariantCulture),
                    wire.InsulationCelsius.ToString(CultureInfo.InvariantCulture),
                    wire.Colour,
                    wire.CutMeters.ToString("0.00", CultureInfo.InvariantCulture),
                    wire.LengthMeasured ? "yes" : "no",
                    wire.FromTerminal,
                    wire.ToTerminal,
                    wire.FuseMark,
                    wire.Route,
                    wire.Notes);
            }
        }

        return memory.ToArray();

        static void Record(CsvWriter csv, params ReadOnlySpan<string> fields)
        {
            foreach (var field in fields)
            {
                csv.WriteField(field);
            }

            csv.EndRecord();
        }
    }

    internal static WiringSchedule Of(ElectricalPlanView plan, ShopSettingsForm settings, string reference, string title, string vehicle)
    {
        var wires = RunMarks.Wires(plan.Runs);
        var fuses = RunMarks.Fuses(plan.Runs);
        var sized = plan.Runs.Where(run => run.Sizing is { DecidedBy: not SizeDecision.NoneFits }).ToList();
        var rows = sized.SelectMany(run => WiresOf(run, plan, settings, wires[run.Place.RunId], fuses.GetValueOrDefault(run.Place.RunId, ""))).ToList();
        var fuseRows = plan.Runs.Where(run => run.Sizing?.Fuse is not null).Select(run => FuseOf(run, plan, fuses[run.Place.RunId])).ToList();
        return new WiringSchedule(
            Letterhead.From(settings),
            reference,
            title,
            vehicle,
            plan,
            CableCut.DefaultServiceLoopMeters,
            rows,
            fuseRows,
            PlannedSpares.Of(plan),
            [
                .. from wire in rows
                   group wire by (wire.Size, wire.AreaSquareMillimeters, wire.InsulationCelsius, wire.Colour) into same
                   orderby same.Key.AreaSquareMillimeters descending, same.Key.Colour
                   select new WireToCut(same.Key.Size, same.Key.AreaSquareMillimeters, same.Key.InsulationCelsius, same.Key.Colour, same.Sum(wire => wire.CutMeters), same.Count()),
            ],
            [.. plan.Findings.Where(finding => finding.Severity == Severity.Stop)],
            plan.Result?.Cautions ?? []);
    }

    private static IEnumerable<WireRow> WiresOf(PlanRun run, ElectricalPlanView plan, ShopSettingsForm shop, string mark, string fuse)
    {
        var sizing = run.Sizing!; // the caller takes sized runs only
        var (from, to) = (SourceName(run, plan), TargetName(run, plan));
        WireRow Row(string own, bool isReturn) => new(
            own,
            run.Place.RunId,
            run.Place.Name,
            isReturn ? to : from,
            isReturn ? from : to,
            sizing.Conductor.Label,
            sizing.Conductor.AreaSquareMillimeters,
            sizing.InsulationCelsius,
            isReturn ? shop.ReturnColour : shop.FeedColour,
            // Up to the next 5 cm: what a tape measure at the bench is read to.
            Math.Ceiling(Math.Round((sizing.LengthMeters + CableCut.DefaultServiceLoopMeters) * 20, 6)) / 20,
            run.Place.LengthMeasured,
            isReturn,
            Terminal(isReturn ? run.Place.RunId : run.Place.SourceId, plan),
            Terminal(isReturn ? run.Place.SourceId : run.Place.RunId, plan),
            isReturn ? "" : fuse,
            run.Place.Choice.Route,
            run.Place.LengthMeasured ? "" : "Length suggested by place: measure before cutting.");
        yield return Row(mark, false);
        if (sizing.ReturnPath == ReturnPath.DedicatedConductor)
        {
            yield return Row(mark + "R", true);
        }
    }

    private static FuseRow FuseOf(PlanRun run, ElectricalPlanView plan, string mark)
    {
        var fuse = run.Sizing!.Fuse!; // the caller takes fused runs only
        var atSource = plan.Sources.Find(run.Place.SourceId) is { Kind: FeedPointKind.Distribution } && plan.Settings.BranchFusesAtDistribution;
        return new FuseRow(mark, fuse.RatingAmperes, fuse.FormName, SourceName(run, plan), run.Place.Name, run.Place.Choice.FuseDistanceMeters ?? (atSource ? 0 : null));
    }

    private static string SourceName(PlanRun run, ElectricalPlanView plan) => run.Place.SourceId == FeedSources.Battery
        ? $"Battery ({VehicleZones.NameOf(run.Place.From)})"
        : PointName(run.Place.SourceId, plan);

    private static string TargetName(PlanRun run, ElectricalPlanView plan) => plan.Sources.Find(run.Place.RunId) is not null
        ? PointName(run.Place.RunId, plan)
        : $"{run.Place.Name} ({VehicleZones.NameOf(run.Place.To)})";

    private static string PointName(string id, ElectricalPlanView plan)
    {
        var point = plan.Sources.Find(id)!; // sources of planned runs exist
        return $"{(id == ElectricalPlanBuilder.MainRunId ? "Distribution" : point.Name)} ({VehicleZones.NameOf(point.Zone)})";
    }

    /// <summary>What kind of end fits there; empty where the maker of what stands there says it.</summary>
    private static string Terminal(string at, ElectricalPlanView plan) =>
        at == FeedSources.Battery || plan.Sources.Find(at)?.Kind is FeedPointKind.Battery or FeedPointKind.Capacitor ? "ring terminal, insulated cover" : "";
}
