using Microsoft.EntityFrameworkCore;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Storage;

namespace ShopFloor.Shop.Phases.Build;

/// <summary>Reports from the bay: what stops the work and what was found in the car.</summary>
public sealed class Blockers(ShopStore store)
{
    public Task<Outcome<Done>> ReportAsync(Actor actor, Guid commandId, ReportBlocker command, DateTimeOffset? pressedAt, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.WorkOnJobs);
        var problems = new Check().Required(command.Text, nameof(ReportBlocker.Text), "What stops you or what you found", Limits.Note).Problems;
        return problems.Count > 0
            ? Task.FromResult<Outcome<Done>>(problems)
            : store.WriteOnceAsync(
                actor,
                commandId,
                async db =>
                {
                    if (await db.OpenJobProblemAsync(command.JobId, cancellationToken) is { } problem)
                    {
                        return problem;
                    }

                    if (command.StageId is { } stageId && !await db.JobStages.AnyAsync(stage => stage.Id == stageId && stage.JobId == command.JobId, cancellationToken))
                    {
                        return new Problem(nameof(ReportBlocker.StageId), "That stage is no longer part of the job; report it for the whole job.");
                    }

                    db.Blockers.Add(new Blocker(
                        command.JobId, command.StageId, command.Kind, command.Text.Trim(), actor.Name, PressTime.Of(pressedAt, store.Time.GetUtcNow()).At));
                    await db.RefreshProgressAsync(command.JobId, cancellationToken);
                    return Done.Value;
                },
                cancellationToken);
    }

    /// <summary>Clears a report, saying how.</summary>
    public Task<Outcome<Done>> ResolveAsync(Actor actor, Guid commandId, ResolveBlocker command, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.WorkOnJobs);
        var problems = new Check().Required(command.Resolution, nameof(ResolveBlocker.Resolution), "How it was cleared", Limits.Note).Problems;
        return problems.Count > 0
            ? Task.FromResult<Outcome<Done>>(problems)
            : ChangeAsync(
                actor,
                commandId,
                command.BlockerId,
                blocker =>
                {
                    if (blocker.IsOpen)
                    {
                        blocker.Resolve(command.Resolution.Trim(), actor.Name, store.Time.GetUtcNow());
                        return null;
                    }

                    return blocker.Resolution == command.Resolution.Trim()
                        ? null
                        : new Problem(nameof(ResolveBlocker.Resolution), $"{blocker.ResolvedBy} has already cleared it: {blocker.Resolution}");
                },
                cancellationToken);
    }

    public Task<Outcome<Done>> ReopenAsync(Actor actor, Guid commandId, Guid blockerId, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.WorkOnJobs);
        return ChangeAsync(
            actor,
            commandId,
            blockerId,
            blocker =>
            {
                blocker.Reopen();
                return null;
            },
            cancellationToken);
    }

    private Task<Outcome<Done>> ChangeAsync(Actor actor, Guid commandId, Guid blockerId, Func<Blocker, Problem?> change, CancellationToken cancellationToken) =>
        store.WriteOnceAsync(
            actor,
            commandId,
            async db =>
            {
                if (await db.Blockers.FirstOrDefaultAsync(found => found.Id == blockerId, cancellationToken) is not { } blocker)
                {
                    return new Problem("BlockerId", "That report is not on file.");
                }

                if (await db.OpenJobProblemAsync(blocker.JobId, cancellationToken) is { } closed)
                {
                    return closed;
                }

                if (change(blocker) is { } problem)
                {
                    return problem;
                }

                await db.RefreshProgressAsync(blocker.JobId, cancellationToken);
                return Done.Value;
            },
            cancellationToken);
}

/// <param name="JobId">The job.</param>
/// <param name="StageId">The stage it belongs to, or null for the whole job.</param>
/// <param name="Kind">Whether it stops the work.</param>
/// <param name="Text">What it is.</param>
public sealed record ReportBlocker(Guid JobId, Guid? StageId, BlockerKind Kind, string Text);

/// <param name="BlockerId">The report.</param>
/// <param name="Resolution">How it was cleared.</param>
public sealed record ResolveBlocker(Guid BlockerId, string Resolution);
