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
/// The gate before and behind the stage that switches new wiring on: stops of plan and network hold its start, missing values and values
/// outside their limits hold its end. Each is mended or signed off by the owner. No other stage is held.
/// </summary>
internal static class CommissioningGate
{
    public static async Task<MeasuredSheet> SheetAsync(ShopDbContext db, Guid jobId, UnitText text, CancellationToken cancellationToken)
    {
        var supply = await SupplyPlan.ReadAsync(db, jobId, UnitText.Invariant, cancellationToken);
        var rows = await MeasuredFindings.RowsAsync(db, jobId, supply, text, cancellationToken);
        var gated = await SignOffs.GateAsync(
            db, jobId, [.. supply.Findings.Where(finding => finding.Severity == Severity.Stop), .. MeasuredFindings.Find(rows)], cancellationToken);
        return new MeasuredSheet(
            jobId,
            rows,
            [.. gated.Where(finding => !IsMeasured(finding))],
            [.. gated.Where(IsMeasured)],
            await db.Users.Where(member => member.Role == ShopRole.Owner && member.IsActive).OrderBy(member => member.DisplayName).Select(member => member.DisplayName).ToListAsync(cancellationToken),
            SupplySafety.Of(supply.Facts.Vehicle, supply.Facts.Parts));
    }

    /// <returns>Why nothing may be started or ticked in the stage; null for any stage but commissioning.</returns>
    public static async Task<Problem?> StartProblemAsync(ShopDbContext db, JobStage stage, CancellationToken cancellationToken) =>
        stage.IsCommissioning && await SheetAsync(db, stage.JobId, UnitText.Invariant, cancellationToken) is { MayStart: false } sheet
            ? Held(stage, "is held", sheet.Design, sheet)
            : null;

    /// <summary>Acts on a step of the stage, unless its start is held.</summary>
    /// <returns>Why it was not acted, or why the stage, all of whose steps are done by it, may not be finished; null for any stage but commissioning.</returns>
    public static async Task<Problem?> ActAsync(ShopDbContext db, JobStage stage, Action act, CancellationToken cancellationToken)
    {
        // No tick changes what the sheet says.
        var sheet = stage.IsCommissioning ? await SheetAsync(db, stage.JobId, UnitText.Invariant, cancellationToken) : null;
        if (sheet is { MayStart: false })
        {
            return Held(stage, "is held", sheet.Design, sheet);
        }

        act();
        return stage.IsDone && sheet is { MayFinish: false } ? Held(stage, "cannot be finished", [.. sheet.Design, .. sheet.Values], sheet) : null;
    }

    private static bool IsMeasured(GatedFinding gated) => gated.Finding.Code.StartsWith("measured-", StringComparison.Ordinal);

    private static Problem Held(JobStage stage, string how, IReadOnlyList<GatedFinding> findings, MeasuredSheet sheet)
    {
        var standing = findings.Where(gated => gated.Stands).ToList();
        var first = string.Join(" ", standing.Take(3).Select(gated => $"{gated.Finding.Subject}: {gated.Finding.Text}"));
        var more = standing.Count > 3 ? $" And {standing.Count - 3} more." : "";
        var who = sheet.Releasers.Count > 0 ? string.Join(" or ", sheet.Releasers) : "the owner";
        return new Problem("", $"{stage.Name} {how}: {first}{more} They are mended, or {who} signs them off with a reason.");
    }
}
