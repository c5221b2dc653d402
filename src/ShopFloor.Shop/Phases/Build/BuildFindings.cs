using Microsoft.EntityFrameworkCore;
using ShopFloor.Engineering.Explained;
using ShopFloor.Shop.Storage;

namespace ShopFloor.Shop.Phases.Build;

/// <summary>What the build has to say when the car is to be handed back.</summary>
internal static class BuildFindings
{
    private const string Practice = Unsourced.CommonPractice;

    public static async Task<IReadOnlyList<Finding>> BuildFindingsAsync(this ShopDbContext db, Guid jobId, CancellationToken cancellationToken)
    {
        var findings = new List<Finding>();
        var stages = await db.JobStages.AsNoTracking().Include(stage => stage.Steps)
            .Where(stage => stage.JobId == jobId).OrderBy(stage => stage.Order).ToListAsync(cancellationToken);
        if (stages.Count == 0)
        {
            findings.Add(new Finding(
                "no-stages-planned", Severity.Warn, jobId.ToString(), "Stages", "No stages are planned, so nothing proves the work.", "Plan the stages on the build page.", Practice));
        }

        findings.AddRange(
            from stage in stages
            from step in stage.Steps.OrderBy(step => step.Order)
            where step.Required && !step.IsDone
            select new Finding(
                "required-step-open",
                Severity.Stop,
                step.Id.ToString(),
                stage.Name,
                OpenText(step),
                step.IsTicked ? "A second person looks and confirms it on the tablet." : "Do the step and tick it on the tablet.",
                Practice));

        var reports = await db.Blockers.AsNoTracking()
            .Where(blocker => blocker.JobId == jobId && blocker.ResolvedAt == null).OrderBy(blocker => blocker.ReportedAt).ToListAsync(cancellationToken);
        findings.AddRange(reports.Select(report => report.Kind == BlockerKind.Blocker
            ? new Finding("blocker-open", Severity.Stop, report.Id.ToString(), "Blocker", $"{report.ReportedBy} is stopped by: {report.Text}", "Clear it and say how.", Practice)
            : new Finding("found-problem-open", Severity.Warn, report.Id.ToString(), "Found problem", $"{report.ReportedBy} found: {report.Text}", "Agree with the client what becomes of it, then clear it.", Practice)));

        var running = await db.TimeEntries.AsNoTracking().Where(entry => entry.JobId == jobId && entry.StoppedAt == null).OrderBy(entry => entry.StartedAt).ToListAsync(cancellationToken);
        findings.AddRange(running.Select(entry => new Finding(
            "clock-running", Severity.Warn, entry.Id.ToString(), entry.StageName, $"The clock of {entry.StaffName} still runs on {entry.StageName}.", "Stop it on the tablet, or put the times right.", Practice)));
        return findings;
    }

    private static string OpenText(JobStep step) =>
        step.IsTicked ? $"'{step.Text}' is ticked by {step.TickedBy} and waits for the second person."
        : step.RefusedValue is not null ? $"'{step.Text}' is open: what was measured lies outside its limits."
        : $"'{step.Text}' is not done.";
}
