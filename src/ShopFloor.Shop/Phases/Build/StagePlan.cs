using Microsoft.EntityFrameworkCore;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Storage;
using ShopFloor.Shop.Vehicles;

namespace ShopFloor.Shop.Phases.Build;

/// <summary>Which stages and steps a job has. What somebody has worked on is never thrown away.</summary>
public sealed class StagePlan(ShopStore store)
{
    /// <summary>
    /// Plans a job from a template, or from the shop's default, or from the usual stages when the shop has none. Planning again keeps every
    /// stage somebody has touched, and puts the template's other stages around them.
    /// </summary>
    /// <returns>The number of stages the job has now.</returns>
    public Task<Outcome<int>> PlanAsync(Actor actor, Guid jobId, Guid? templateId, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.EditJobCards);
        return store.WriteAsync<int>(
            actor,
            async db =>
            {
                if (await db.OpenJobProblemAsync(jobId, cancellationToken) is { } problem)
                {
                    return problem;
                }

                if (await TemplateStagesAsync(db, templateId, cancellationToken) is not { } template)
                {
                    return new Problem("TemplateId", "That template is no longer there; choose another.");
                }

                var templateStages = StageRules.For(await DriveAsync(db, jobId, cancellationToken), template);
                var stages = await db.JobStages.Include(stage => stage.Steps).Where(stage => stage.JobId == jobId).OrderBy(stage => stage.Order).ToListAsync(cancellationToken);
                var kept = new List<JobStage>();
                foreach (var stage in stages)
                {
                    if (await IsTouchedAsync(db, stage, cancellationToken))
                    {
                        kept.Add(stage);
                    }
                    else
                    {
                        db.JobSteps.RemoveRange(stage.Steps);
                        db.JobStages.Remove(stage);
                    }
                }

                var planned = kept.Where(stage => templateStages.All(wanted => wanted.Name != stage.Name)).ToList();
                foreach (var wanted in templateStages)
                {
                    planned.Add(kept.Find(stage => stage.Name == wanted.Name) ?? db.JobStages.Add(new JobStage(jobId, wanted, 0)).Entity);
                }

                Number(planned);
                await db.RefreshProgressAsync(jobId, cancellationToken);
                return planned.Count;
            },
            cancellationToken);
    }

    /// <summary>Adds a stage to one job, after another or at the end.</summary>
    public Task<Outcome<Guid>> AddStageAsync(Actor actor, Guid jobId, Guid? afterStageId, StageForm form, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.EditJobCards);
        var stage = form.ToStage();
        var problems = new Check().Stage(stage, nameof(StageForm.Name)).Problems;
        return problems.Count > 0
            ? Task.FromResult<Outcome<Guid>>(problems)
            : store.WriteAsync<Guid>(
                actor,
                async db =>
                {
                    if (await db.OpenJobProblemAsync(jobId, cancellationToken) is { } problem)
                    {
                        return problem;
                    }

                    var stages = await db.JobStages.Where(found => found.JobId == jobId).OrderBy(found => found.Order).ToListAsync(cancellationToken);
                    if (stages.Count >= 60)
                    {
                        return new Problem(nameof(StageForm.Name), $"The job has {stages.Count} stages; at most 60 are kept.");
                    }

                    var at = stages.FindIndex(found => found.Id == afterStageId);
                    var added = new JobStage(jobId, stage, 0);
                    stages.Insert(at < 0 ? stages.Count : at + 1, added);
                    db.JobStages.Add(added);
                    Number(stages);
                    await db.RefreshProgressAsync(jobId, cancellationToken);
                    return added.Id;
                },
                cancellationToken);
    }

    public Task<Outcome<Guid>> AddStepAsync(Actor actor, Guid stageId, StepForm form, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.EditJobCards);
        var step = form.ToStep();
        var problems = new Check().Step(step, nameof(StepForm.Text), "this stage").Problems;
        return problems.Count > 0
            ? Task.FromResult<Outcome<Guid>>(problems)
            : WithStageAsync<Guid>(
                actor,
                stageId,
                (db, stage) =>
                {
                    if (stage.Steps.Count >= 100)
                    {
                        return Task.FromResult<Outcome<Guid>>(new Problem(nameof(StepForm.Text), $"'{stage.Name}' has {stage.Steps.Count} steps; at most 100 are kept."));
                    }

                    var added = stage.AddStep(step);
                    db.JobSteps.Add(added);
                    return Task.FromResult<Outcome<Guid>>(added.Id);
                },
                cancellationToken);
    }

    /// <summary>Renames a stage or changes its planned time.</summary>
    public Task<Outcome<Guid>> ChangeStageAsync(Actor actor, Guid stageId, Guid expectedVersion, StageForm form, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.EditJobCards);
        var wanted = form.ToStage() with { Steps = [] };
        var problems = new Check().Stage(wanted, nameof(StageForm.Name)).Problems;
        return problems.Count > 0
            ? Task.FromResult<Outcome<Guid>>(problems)
            : WithStageAsync<Guid>(
                actor,
                stageId,
                async (db, stage) =>
                {
                    var theirs = new StageForm { Name = stage.Name, Phase = stage.Phase, PlannedHours = stage.PlannedHours };
                    var mine = new StageForm { Name = wanted.Name, Phase = stage.Phase, PlannedHours = wanted.PlannedHours };
                    if (await db.ConflictAsync(stage, expectedVersion, mine, theirs, cancellationToken) is { } conflict)
                    {
                        return conflict;
                    }

                    stage.Name = wanted.Name;
                    stage.PlannedHours = wanted.PlannedHours;
                    return stage.Id;
                },
                cancellationToken);
    }

    /// <summary>Moves a stage one place up (-1) or down (+1); at the end it stays where it is.</summary>
    public Task<Outcome<Done>> MoveStageAsync(Actor actor, Guid stageId, int places, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.EditJobCards);
        return WithStageAsync<Done>(
            actor,
            stageId,
            async (db, stage) =>
            {
                var stages = await db.JobStages.Where(found => found.JobId == stage.JobId).OrderBy(found => found.Order).ToListAsync(cancellationToken);
                var at = stages.IndexOf(stage);
                stages.RemoveAt(at);
                stages.Insert(Math.Clamp(at + places, 0, stages.Count), stage);
                Number(stages);
                return Done.Value;
            },
            cancellationToken);
    }

    /// <summary>Removes a stage nobody has worked on.</summary>
    public Task<Outcome<Done>> RemoveStageAsync(Actor actor, Guid stageId, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.EditJobCards);
        return WithStageAsync<Done>(
            actor,
            stageId,
            async (db, stage) =>
            {
                if (await IsTouchedAsync(db, stage, cancellationToken))
                {
                    return new Problem("", $"'{stage.Name}' has ticks, time, photos, remarks or reports and stays; remove single steps nobody has worked on instead.");
                }

                db.JobSteps.RemoveRange(stage.Steps);
                db.JobStages.Remove(stage);
                return Done.Value;
            },
            cancellationToken);
    }

    /// <summary>Removes a step nobody has worked on.</summary>
    public async Task<Outcome<Done>> RemoveStepAsync(Actor actor, Guid stepId, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.EditJobCards);
        var stageId = await store.ReadAsync(
            db => db.JobSteps.Where(step => step.Id == stepId).Select(step => (Guid?)step.StageId).FirstOrDefaultAsync(cancellationToken), cancellationToken);
        return await WithStageAsync<Done>(
            actor,
            stageId ?? Guid.Empty,
            async (db, stage) =>
            {
                var step = stage.Steps.First(found => found.Id == stepId);
                if (step.IsTouched || await db.Photos.AnyAsync(photo => photo.Subject == PhotoSubject.Step && photo.SubjectId == stepId, cancellationToken))
                {
                    return new Problem("", $"'{step.Text}' has a tick, a value, a photo or a remark and stays; take the tick back first if it does not belong here.");
                }

                db.JobSteps.Remove(step);
                return Done.Value;
            },
            cancellationToken);
    }

    private async Task<Outcome<TResult>> WithStageAsync<TResult>(
        Actor actor, Guid stageId, Func<ShopDbContext, JobStage, Task<Outcome<TResult>>> change, CancellationToken cancellationToken) =>
        await store.WriteAsync<TResult>(
            actor,
            async db =>
            {
                var stage = await db.JobStages.Include(found => found.Steps).FirstOrDefaultAsync(found => found.Id == stageId, cancellationToken);
                if (stage is null)
                {
                    return new Problem("", "That stage or step is no longer part of the job; load the page again.");
                }

                if (await db.OpenJobProblemAsync(stage.JobId, cancellationToken) is { } problem)
                {
                    return problem;
                }

                var outcome = await change(db, stage);
                if (outcome.Succeeded)
                {
                    await db.RefreshProgressAsync(stage.JobId, cancellationToken);
                }

                return outcome;
            },
            cancellationToken);

    private static async Task<IReadOnlyList<TemplateStage>?> TemplateStagesAsync(ShopDbContext db, Guid? templateId, CancellationToken cancellationToken)
    {
        if (templateId is { } id)
        {
            return (await db.StageTemplates.FirstOrDefaultAsync(template => template.Id == id, cancellationToken))?.Stages;
        }

        return (await db.StageTemplates.FirstOrDefaultAsync(template => template.IsDefault, cancellationToken))?.Stages ?? UsualStages.Stages;
    }

    private static Task<Drivetrain> DriveAsync(ShopDbContext db, Guid jobId, CancellationToken cancellationToken) =>
        db.Jobs.Where(job => job.Id == jobId).Join(db.Vehicles, job => job.VehicleId, vehicle => vehicle.Id, (_, vehicle) => vehicle.DriveType).SingleAsync(cancellationToken);

    private static async Task<bool> IsTouchedAsync(ShopDbContext db, JobStage stage, CancellationToken cancellationToken)
    {
        var stepIds = stage.Steps.Select(step => (Guid?)step.Id).ToList();
        return stage.Steps.Any(step => step.IsTouched)
            || await db.TimeEntries.IgnoreQueryFilters().AnyAsync(entry => entry.StageId == stage.Id, cancellationToken)
            || await db.Blockers.AnyAsync(blocker => blocker.StageId == stage.Id, cancellationToken)
            || await db.Photos.AnyAsync(photo => photo.JobId == stage.JobId && photo.Subject == PhotoSubject.Step && stepIds.Contains(photo.SubjectId), cancellationToken);
    }

    private static void Number(List<JobStage> stages)
    {
        for (var at = 0; at < stages.Count; at++)
        {
            stages[at].MoveTo(at);
        }
    }
}
