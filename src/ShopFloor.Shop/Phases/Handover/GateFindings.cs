using System.Globalization;
using Microsoft.EntityFrameworkCore;
using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Phases.Build;
using ShopFloor.Shop.Phases.Design;
using ShopFloor.Shop.Phases.Intake;
using ShopFloor.Shop.Phases.Tuning.Presets;
using ShopFloor.Shop.Storage;

namespace ShopFloor.Shop.Phases.Handover;

/// <summary>Everything that speaks against handing the car back, from all phases.</summary>
internal static class GateFindings
{
    private const string ShopRule = Unsourced.CommonPractice;

    // One line for each that has something to say: a job's findings in invariant text.
    public static async Task<List<Finding>> CollectAsync(ShopDbContext db, TuningBench bench, Guid jobId, CancellationToken cancellationToken)
    {
        var supply = await SupplyPlan.ReadAsync(db, jobId, UnitText.Invariant, cancellationToken);
        var links = await SignalLinks.OfJob(db, jobId).ToListAsync(cancellationToken);
        return
        [
            .. await CheckInAsync(db, jobId, cancellationToken),
            .. await MeasuredFindings.SupplyAsync(db, jobId, supply, cancellationToken),
            .. Stops(BudgetPlans.Findings(jobId, supply)),
            .. Stops(LightingPlans.Findings(jobId, supply.Facts, links)),
            .. Stops(SignalPaths.Findings(jobId, supply.Facts, links, await SignalPaths.RoutingAsync(db, jobId, cancellationToken))),
            .. Stops(await Enclosures.FindingsAsync(db, jobId, await TunedChannels.ReadAsync(db, jobId, cancellationToken), cancellationToken)),
            .. await LevelGate.FindingsAsync(db, jobId, cancellationToken),
            .. await bench.FindingsAsync(db, jobId, cancellationToken),
            .. await WeightPlans.FindingsAsync(db, jobId, supply.Facts, cancellationToken),
            .. await RestraintPlans.FindingsAsync(db, jobId, supply.Facts, cancellationToken),
            .. Stops(await ServicePlans.FindingsAsync(db, jobId, supply.Facts.Parts, cancellationToken)),
            .. await Rattles.FindingsAsync(db, jobId, cancellationToken),
            .. await db.BuildFindingsAsync(jobId, cancellationToken),
            .. await FactoryFunctions.FindingsAsync(db, jobId, cancellationToken),
            .. await PartsAsync(db, jobId, cancellationToken),
            .. await NotesAsync(db, jobId, cancellationToken),
        ];
    }

    // Their warnings are the designer's: at the door they would bury what matters there.
    private static IEnumerable<Finding> Stops(IReadOnlyList<Finding> findings) => findings.Where(finding => finding.Severity == Severity.Stop);

    private static async Task<List<Finding>> CheckInAsync(ShopDbContext db, Guid jobId, CancellationToken cancellationToken) =>
        await db.CheckIns.AnyAsync(checkIn => checkIn.JobId == jobId && checkIn.SignedAt != null, cancellationToken)
            ? []
            :
            [
                new Finding(
                    "check-in-not-signed", Severity.Stop, "check-in", "Check-in", "The client has not signed the check-in.", "Let the client sign the condition of the car, or write down why there is no signature.", ShopRule),
            ];

    private static async Task<List<Finding>> PartsAsync(ShopDbContext db, Guid jobId, CancellationToken cancellationToken)
    {
        var open = await db.JobParts
            .Where(part => part.JobId == jobId && part.Direction == PartDirection.Installed && part.State != PartState.Fitted)
            .OrderBy(part => part.Order)
            .Select(part => part.Name)
            .ToListAsync(cancellationToken);
        return open.Count == 0
            ? []
            :
            [
                new Finding(
                    "parts-not-fitted",
                    Severity.Warn,
                    "parts",
                    "Parts",
                    string.Create(CultureInfo.InvariantCulture, $"{open.Count} not marked as fitted: {string.Join(", ", open)}."),
                    "Mark them as fitted, or take them off the list: the handover says they are in the car.",
                    ShopRule),
            ];
    }

    private static async Task<List<Finding>> NotesAsync(ShopDbContext db, Guid jobId, CancellationToken cancellationToken)
    {
        var form = (await db.HandoverNotes.AsNoTracking().SingleOrDefaultAsync(notes => notes.JobId == jobId, cancellationToken))?.Form;
        if (form is null)
        {
            return [new Finding("handover-notes-missing", Severity.Warn, "notes", "Handover notes", "Nobody has written or looked at the handover notes.", "Read the suggested notes, complete and save them.", ShopRule)];
        }

        var empty = form.Sources.Where(source => source.HowTo.Trim().Length == 0).Select(source => source.Name).ToList();
        return empty.Count == 0
            ? []
            :
            [
                new Finding(
                    "source-guide-missing", Severity.Warn, "sources", "Handover notes", $"No words on how to listen to: {string.Join(", ", empty)}.", "Write the steps, as you would tell the client.", ShopRule),
            ];
    }
}
