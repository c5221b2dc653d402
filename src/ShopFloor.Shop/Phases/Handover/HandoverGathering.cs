using System.Globalization;
using Microsoft.EntityFrameworkCore;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Money;
using ShopFloor.Shop.Phases.Build;
using ShopFloor.Shop.Phases.Design;
using ShopFloor.Shop.Phases.Tuning;
using ShopFloor.Shop.Phases.Tuning.Measurements;
using ShopFloor.Shop.Phases.Tuning.Presets;
using ShopFloor.Shop.Storage;
using ShopFloor.Shop.Vehicles;

namespace ShopFloor.Shop.Phases.Handover;

/// <summary>Gathers what the handover says from where it was entered in the first place.</summary>
internal static class HandoverGathering
{
    public static async Task<HandoverFacts> GatherAsync(ShopDbContext db, TuningBench bench, Guid jobId, CancellationToken cancellationToken)
    {
        var settings = await db.SettingsAsync(cancellationToken);
        var job = await db.WholeJobAsync(jobId, cancellationToken);
        var vehicle = job.Vehicle!; // included above; the foreign key is required
        var parts = await db.JobParts.AsNoTracking().Where(part => part.JobId == jobId).OrderBy(part => part.Order).ThenBy(part => part.Id).ToListAsync(cancellationToken);
        var installed = parts.Where(part => part.Direction == PartDirection.Installed).ToList();
        var notes = (await db.HandoverNotes.AsNoTracking().SingleOrDefaultAsync(found => found.JobId == jobId, cancellationToken))?.Form
            ?? DefaultNotes(job, await JobSources.ListAsync(db, jobId, UnitText.Invariant, cancellationToken), settings);
        var functions = await db.FactoryFunctions.AsNoTracking().Where(function => function.JobId == jobId).OrderBy(function => function.Order).ToListAsync(cancellationToken);
        var photos = await db.Photos.AsNoTracking().Where(photo => photo.JobId == jobId && photo.ShownToClient).OrderBy(photo => photo.TakenAt).ThenBy(photo => photo.Id).ToListAsync(cancellationToken);

        var supply = await SupplyPlan.ReadAsync(db, jobId, UnitText.Invariant, cancellationToken);
        var measured = await MeasuredFindings.RowsAsync(db, jobId, supply, UnitText.Invariant, cancellationToken);

        var path = await SignalPaths.ViewAsync(db, jobId, new UnitText(settings.Units, CultureInfo.InvariantCulture), cancellationToken);
        var levels = await LevelFindings.RowsAsync(db, jobId, UnitText.Invariant, cancellationToken);

        var boxes = await Enclosures.ViewsAsync(db, jobId, await TunedChannels.ReadAsync(db, jobId, cancellationToken), UnitText.Invariant, cancellationToken);
        var fuses = FuseMap(installed, supply.Plan);
        var weight = await WeightPlans.ViewAsync(db, jobId, supply.Facts, UnitText.Invariant, cancellationToken);
        var held = await RestraintPlans.ViewAsync(db, jobId, supply.Facts, UnitText.Invariant, cancellationToken);
        var reach = await ServicePlans.RowsAsync(db, jobId, cancellationToken);
        return new HandoverFacts
        {
            Letterhead = Letterhead.From(settings),
            JobReference = job.Reference,
            JobTitle = job.Title,
            ClientName = job.Client!.Name, // included above; the foreign key is required
            Vehicle = new HandoverVehicle(vehicle.Title, vehicle.Plate, vehicle.Vin, vehicle.Colour, vehicle.DriveType.Text()) { Body = vehicle.BodyStyle },
            Overview = notes.Overview,
            Sources = [.. notes.Sources],
            System = SystemOf(installed),
            Fuses = fuses,
            Spares = Spares(installed, fuses),
            Access = [.. installed.Where(part => part.Access.Length > 0 || reach.ContainsKey(part.Id)).Select(part => new AccessRow(part.Name, PlaceOf(part), part.Access) { Tools = reach.GetValueOrDefault(part.Id)?.ToolsText ?? "" })],
            ServiceAccess = notes.ServiceAccess,
            Settings = [.. (await SettingsSheet.RowsAsync(db, jobId, cancellationToken)).Select(row => new SettingFact(row.Device, row.Setting, row.Value))],
            Boxes =
            [
                .. boxes.Where(each => each.View.Driver is not null).Select(each => new BoxFact(
                    each.Name, each.View.Driver?.Name ?? "", BoxAlternative.Words(each.View.Built.Alternative.Kind), each.View.Built.Alternative.NetCubicMeters, EnclosureStudies.TuningHertz(each.View.Built.Alternative), each.View.Built.HighPassHertz)),
            ],
            Made = await BuildFacts.ReadAsync(db, jobId, boxes, cancellationToken),
            Measured = [.. measured.Select(MeasuredFact.Of)],
            Signal = HandoverSignal.Of(path, levels),
            Tuning = TuningFact.Of(await bench.VerifyAsync(db, jobId, ListeningSeat.Driver, UnitText.Invariant, cancellationToken)),
            Mass = new MassFact(
                parts.Sum(part => (part.Direction == PartDirection.Installed ? 1 : -1) * (part.TotalMassKilograms ?? 0)),
                parts.Count(part => part.TotalMassKilograms is null),
                vehicle.PayloadKilograms)
            {
                Loads = weight.Loads,
                Reconciled = weight.Balance.Corners?.Reconciled ?? [],
            },
            Held = [.. held.Items.Select(item => new HeldFact(item.Design.Name, item.Kilograms, item.Design.Form.HeldByText, item.Worst?.Margin, string.Join(", ", item.Checks.Select(check => check.Tick?.By).OfType<string>().Distinct())))],
            Functions = [.. functions.Select(function => new FunctionFact(function.Group, function.Name, function.Before, function.BeforeNote, function.After, function.Explanation))],
            Photos = [.. photos.Select(photo => new HandoverPhoto(photo.Id, photo.Hash, photo.Caption))],
            Warranty = notes.Warranty,
            Care = notes.Care,
            Cautions = HandoverCautions.For(vehicle.DriveType, installed.Select(part => part.Kind).ToHashSet(), SupplySafety.Of(vehicle, installed).Batteries),
        };
    }

    /// <summary>Notes nobody has written yet: sources from the parts list, the signal path and the client's devices, warranty and care from the settings.</summary>
    public static HandoverNotesForm DefaultNotes(Job job, IReadOnlyList<JobSource> sources, ShopSettingsForm settings) => new()
    {
        Sources = [.. sources.Select(source => new SourceGuide(source.Name, source.Text)), .. job.SourceDevices.Select(device => new SourceGuide(device.Name, device.Use))],
        Warranty = settings.Warranty,
        Care = settings.Care,
    };

    /// <summary>
    /// What was fitted, by kind. Fuses have a map of their own; lengths of one cable are one line, with what they feed as their place.
    /// </summary>
    private static List<SystemGroup> SystemOf(List<JobPart> installed) =>
        [.. installed.Where(part => part.Kind != PartKind.Fuse).GroupBy(part => part.Kind).OrderBy(group => group.Key).Select(group => new SystemGroup(
            PartKinds.Of(group.Key).Plural,
            group.Key == PartKind.Cable
                ? [.. group.GroupBy(part => (part.Name, part.Unit, Data: DataOf(part))).Select(same => new SystemPart(
                    same.Key.Name,
                    string.Create(CultureInfo.InvariantCulture, $"{same.Sum(part => part.Quantity):0.###} {same.Key.Unit.Symbol()}"),
                    string.Join("; ", same.Select(RunOf).Where(run => run.Length > 0).Distinct()),
                    same.Key.Data))]
                : [.. group.Select(part => new SystemPart(part.Name, QuantityOf(part), PlaceOf(part), DataOf(part)) { Zone = part.Zone })]))];

    /// <summary>A cable the plan put on the list names its run before the colon.</summary>
    private static string RunOf(JobPart cable) => cable.PlanRunId.Length > 0 ? cable.Place.Split(':')[0] : PlaceOf(cable);

    /// <summary>Technical data without the words on how to use it, which stand in their own section, and without what only the bench needs.</summary>
    private static string DataOf(JobPart part) => string.Join(
        ", ",
        PartKinds.Of(part.Kind).Fields
            .Where(field => field.Name != nameof(SourceData.HowToUse) && !field.IsFine)
            .Select(field => (field.Label, Text: field.Show(part.Data)))
            .Where(pair => pair.Text.Length > 0)
            .Select(pair => $"{pair.Label} {pair.Text}"));

    public static string PlaceOf(JobPart part) => (part.Zone.Length > 0, part.Place.Length > 0) switch
    {
        (true, true) => $"{VehicleZones.NameOf(part.Zone)}: {part.Place}",
        (true, false) => VehicleZones.NameOf(part.Zone),
        _ => part.Place,
    };

    /// <summary>
    /// One row a run of the plan: the fuse on the parts list where there is one for the run, since that is what was fitted,
    /// else the one the plan chose. Fuses that belong to no run follow.
    /// </summary>
    private static List<FuseMapRow> FuseMap(List<JobPart> installed, ElectricalPlanView plan)
    {
        var fuses = installed.Where(part => part.Kind == PartKind.Fuse && !PlannedSpares.IsSpare(part)).ToList();
        var rows = new List<FuseMapRow>();
        foreach (var run in plan.Runs)
        {
            var protects = run.Place.RunId == ElectricalPlanBuilder.MainRunId ? "Main cable from the battery" : run.Load?.Name ?? run.Place.Name;
            var place = WithDistance(VehicleZones.NameOf(run.Place.From), run.Place.Choice.FuseDistanceMeters);
            FuseMapRow? row = null;
            if (fuses.Find(part => part.PlanRunId == run.Place.RunId) is { } fitted)
            {
                fuses.Remove(fitted);
                row = RowOf(fitted, place, protects);
            }
            else if (run.Sizing?.Fuse is { } planned)
            {
                row = new FuseMapRow("As planned", planned.RatingAmperes, planned.FormName, place, protects);
            }

            if (row is not null)
            {
                rows.Add(row with
                {
                    Zone = run.Place.From,
                    RunId = run.Place.IsFedByTheCar ? "" : run.Place.RunId,
                    FedByRunId = run.Place.SourceId,
                    Distribution = plan.Sources.Find(run.Place.RunId) is { } point ? (point.Id == ElectricalPlanBuilder.MainRunId ? "Distribution" : point.Name) : "",
                    EndsIn = VehicleZones.NameOf(run.Place.To),
                });
            }
        }

        // A run without a fuse of its own is passed by on the way to the battery.
        var fused = rows.Select(row => row.RunId).ToHashSet();
        string Above(string source)
        {
            for (var steps = 0; source.Length > 0 && !fused.Contains(source); steps++)
            {
                if (steps > plan.Runs.Count)
                {
                    return "";
                }

                source = plan.Runs.FirstOrDefault(run => run.Place.RunId == source)?.Place.SourceId ?? "";
            }

            return source;
        }

        // The marks of the labels; fuses the plan does not know are counted on.
        var marks = RunMarks.Fuses(plan.Runs);
        var counted = marks.Count;
        return
        [
            .. rows.Select(row => row with { FedByRunId = Above(row.FedByRunId) })
                .Concat(fuses.Select(part => RowOf(part, PlaceOf(part), part.Notes) with { Zone = part.Zone }))
                .Select(row => row with { Mark = marks.GetValueOrDefault(row.RunId) ?? RunMarks.Fuse(++counted) }),
        ];
    }

    /// <summary>Those on the parts list; while there are none, one of each plug-in fuse of the map.</summary>
    private static List<SpareFuse> Spares(List<JobPart> installed, List<FuseMapRow> fuses)
    {
        List<SpareFuse> listed = [.. from part in installed where PlannedSpares.IsSpare(part) && part.Data is FuseData { RatingAmperes: not null } let data = (FuseData)part.Data orderby data.RatingAmperes select new SpareFuse(data.RatingAmperes!.Value, data.Form ?? "")]; // the filter left only rated ones
        return listed.Count > 0 ? listed : PlannedSpares.Of(fuses.Select(fuse => (fuse.RatingAmperes, fuse.Form)));
    }

    private static FuseMapRow RowOf(JobPart part, string place, string protects) =>
        new(part.Name, (part.Data as FuseData)?.RatingAmperes, (part.Data as FuseData)?.Form ?? "", place, protects);

    private static string WithDistance(string place, double? meters) => meters is { } distance
        ? string.Create(CultureInfo.InvariantCulture, $"{place}, {distance * 100:0} cm along the cable")
        : place;

    private static string QuantityOf(JobPart part) => string.Create(CultureInfo.InvariantCulture, $"{part.Quantity:0.###} {part.Unit.Symbol()}");
}
