using Microsoft.EntityFrameworkCore;
using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Phases.Design;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Storage;

namespace ShopFloor.Shop.Phases.Build;

/// <summary>
/// The gate behind stages of tuning: a level that clips an amplifier or overloads a loudspeaker holds the last tick until it is set again or
/// signed off by the owner; one that is merely off is told. A level nobody measured holds nothing.
/// </summary>
internal static class LevelGate
{
    /// <summary>Whether levels are set in a stage of this phase.</summary>
    public static bool Covers(JobPhase phase) => phase == JobPhase.Tuning;

    public static async Task<MeasuredSheet> SheetAsync(ShopDbContext db, Guid jobId, UnitText text, CancellationToken cancellationToken)
    {
        var rows = await LevelFindings.RowsAsync(db, jobId, text, cancellationToken);
        return new MeasuredSheet(
            jobId,
            rows,
            [],
            await SignOffs.GateAsync(db, jobId, LevelFindings.Find(rows), cancellationToken),
            rows.Count == 0 ? [] : await db.Users.Where(member => member.Role == ShopRole.Owner && member.IsActive).OrderBy(member => member.DisplayName).Select(member => member.DisplayName).ToListAsync(cancellationToken),
            SupplySafety.None);
    }

    /// <returns>Why the stage, all of whose steps are done, may not be finished; null for any stage but one of tuning.</returns>
    public static async Task<Problem?> FinishProblemAsync(ShopDbContext db, JobStage stage, CancellationToken cancellationToken)
    {
        if (!Covers(stage.Phase) || !stage.IsDone)
        {
            return null;
        }

        var sheet = await SheetAsync(db, stage.JobId, UnitText.Invariant, cancellationToken);
        var standing = sheet.Values.Where(gated => gated.Stands).Select(gated => gated.Finding).ToList();
        return standing.Count == 0
            ? null
            : new Problem("", $"{stage.Name} cannot be finished: {string.Join(" ", standing.Take(3).Select(finding => $"{finding.Subject}: {finding.Text}"))} Set and measure again, or {(sheet.Releasers.Count > 0 ? string.Join(" or ", sheet.Releasers) : "the owner")} signs it off with a reason.");
    }

    /// <summary>What levels say when the car is to be handed back.</summary>
    public static async Task<IReadOnlyList<Finding>> FindingsAsync(ShopDbContext db, Guid jobId, CancellationToken cancellationToken)
    {
        var rows = await LevelFindings.RowsAsync(db, jobId, UnitText.Invariant, cancellationToken);
        if (rows.Count == 0)
        {
            return [];
        }

        var tuned = await db.JobStages.AnyAsync(stage => stage.JobId == jobId && stage.Phase == JobPhase.Tuning, cancellationToken);
        return [.. LevelFindings.Find(rows), .. LevelFindings.Missing(rows, tuned)];
    }
}
