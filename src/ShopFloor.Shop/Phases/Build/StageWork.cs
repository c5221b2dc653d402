using System.Globalization;
using Microsoft.EntityFrameworkCore;
using ShopFloor.Engineering.Explained;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Storage;

namespace ShopFloor.Shop.Phases.Build;

/// <summary>What a technician does to steps. Every command may be sent again; it counts once.</summary>
public sealed class StageWork(ShopStore store, IEnumerable<IStageGate> gates)
{
    /// <summary>
    /// Ticks a step when its proof is there. A value outside the limits is no proof: the tick is refused, and the value is kept beside the step.
    /// </summary>
    /// <param name="pressedAt">When the tablet says it was pressed; null for now.</param>
    public async Task<Outcome<Done>> TickAsync(Actor actor, Guid commandId, TickStep command, DateTimeOffset? pressedAt, CancellationToken cancellationToken)
    {
        var outside = false;
        var outcome = await OnStepAsync(
            actor,
            commandId,
            command.StepId,
            async (db, step) =>
            {
                if (step.IsTicked)
                {
                    return step.Measure is null || command.Value is null || command.Value == step.MeasuredValue
                        ? Done.Value
                        : new Problem(nameof(TickStep.Value), string.Create(
                            CultureInfo.CurrentCulture,
                            $"'{step.Text}' is already ticked by {step.TickedBy} with {step.MeasuredValue} {step.Measure.Unit}. Take that tick back first to enter {command.Value} {step.Measure.Unit}."));
                }

                if (ValueProblem(step, command.Value, out outside) is { } problem)
                {
                    return problem;
                }

                if (step.NeedsPhoto && !await db.Photos.AnyAsync(photo => photo.JobId == step.JobId && photo.Subject == PhotoSubject.Step && photo.SubjectId == step.Id, cancellationToken))
                {
                    return new Problem(PhotoField, $"'{step.Text}' needs a photo as proof. Take the photo first, then tick.");
                }

                return await GatedAsync(db, step, () => step.Tick(actor.Id, actor.Name, PressTime.Of(pressedAt, store.Time.GetUtcNow()).At, command.Value), cancellationToken);
            },
            cancellationToken);
        if (outside && command.Value is { } value)
        {
            await KeepRefusedAsync(actor, command.StepId, value, cancellationToken);
        }

        return outcome;
    }

    /// <summary>Field name of a refusal for want of a photo.</summary>
    public const string PhotoField = "Photo";

    /// <summary>Takes a tick back. The trail keeps that it was there, with its value.</summary>
    public Task<Outcome<Done>> UntickAsync(Actor actor, Guid commandId, Guid stepId, CancellationToken cancellationToken) =>
        OnStepAsync(
            actor,
            commandId,
            stepId,
            (_, step) =>
            {
                step.Untick();
                return Task.FromResult<Outcome<Done>>(Done.Value);
            },
            cancellationToken);

    /// <summary>Confirms a ticked step as the second person.</summary>
    public Task<Outcome<Done>> ConfirmAsync(Actor actor, Guid commandId, Guid stepId, DateTimeOffset? pressedAt, CancellationToken cancellationToken) =>
        OnStepAsync(
            actor,
            commandId,
            stepId,
            async (db, step) =>
            {
                var refusal = !step.NeedsSecondPerson ? new Problem("", $"'{step.Text}' asks for no second person.")
                    : !step.IsTicked ? new Problem("", $"'{step.Text}' is not ticked yet; whoever did it ticks first, then another person confirms.")
                    : actor.Id is null || actor.Id == step.TickedById ? new Problem("", $"{step.TickedBy} ticked '{step.Text}'; another person has to look and confirm it.")
                    : null;
                return refusal is not null ? refusal
                    : step.ConfirmedAt is not null ? Done.Value
                    : await GatedAsync(db, step, () => step.Confirm(actor.Name, PressTime.Of(pressedAt, store.Time.GetUtcNow()).At), cancellationToken);
            },
            cancellationToken);

    /// <summary>Adds a remark under the writer's name.</summary>
    public Task<Outcome<Done>> RemarkAsync(Actor actor, Guid commandId, RemarkStep command, CancellationToken cancellationToken)
    {
        var problems = new Check().Required(command.Text, nameof(RemarkStep.Text), "The remark", Limits.Line).Problems;
        if (problems.Count > 0)
        {
            actor.Demand(Permission.WorkOnJobs);
            return Task.FromResult<Outcome<Done>>(problems);
        }

        return OnStepAsync(
            actor,
            commandId,
            command.StepId,
            (_, step) =>
            {
                var line = $"{actor.Name}: {command.Text.Trim()}";
                if (step.Note.Length + line.Length + 1 > Limits.Note)
                {
                    return Task.FromResult<Outcome<Done>>(new Problem(nameof(RemarkStep.Text), $"The remarks on this step are full ({step.Note.Length} of {Limits.Note} characters). Report it as a found problem instead."));
                }

                step.Remark(line);
                return Task.FromResult<Outcome<Done>>(Done.Value);
            },
            cancellationToken);
    }

    /// <summary>What the build has to say when the car is to be handed back: open required steps and blockers stop, found problems warn.</summary>
    public Task<IReadOnlyList<Finding>> FindingsAsync(Guid jobId, CancellationToken cancellationToken) =>
        store.ReadAsync(db => db.BuildFindingsAsync(jobId, cancellationToken), cancellationToken);

    // The stages that switch new wiring on and that set levels ask their gates; what is refused leaves nothing behind.
    private async Task<Outcome<Done>> GatedAsync(ShopDbContext db, JobStep step, Action act, CancellationToken cancellationToken)
    {
        var stage = await db.JobStages.Include(found => found.Steps).SingleAsync(found => found.Id == step.StageId, cancellationToken);
        return await CommissioningGate.ActAsync(db, stage, act, cancellationToken) is { } held ? held
            : await LevelGate.FinishProblemAsync(db, stage, cancellationToken) is { } loud ? loud
            : await LaterAsync(db, stage, cancellationToken) is { } later ? later
            : Done.Value;
    }

    private async Task<Problem?> LaterAsync(ShopDbContext db, JobStage stage, CancellationToken cancellationToken)
    {
        foreach (var gate in gates)
        {
            if (await gate.FinishProblemAsync(db, stage, cancellationToken) is { } problem)
            {
                return problem;
            }
        }

        return null;
    }

    private static Problem? ValueProblem(JobStep step, double? value, out bool outside)
    {
        outside = false;
        if (step.Measure is not { } measure)
        {
            return null;
        }

        if (value is not { } measured || !double.IsFinite(measured))
        {
            return new Problem(nameof(TickStep.Value), $"'{step.Text}' asks for a value: {measure.Name}, accepted is {measure.LimitsText}.");
        }

        outside = !measure.Accepts(measured);
        return outside
            ? new Problem(nameof(TickStep.Value), string.Create(
                CultureInfo.CurrentCulture,
                $"{measure.Name} is {measured} {measure.Unit}; accepted is {measure.LimitsText}. The value is kept with the step, but the step stays open: measure again, or report it."))
            : null;
    }

    // A transaction of its own, because the refused command leaves nothing behind. Sending it again changes nothing.
    private Task<Outcome<Done>> KeepRefusedAsync(Actor actor, Guid stepId, double value, CancellationToken cancellationToken) =>
        store.WriteAsync<Done>(
            actor,
            async db =>
            {
                if (await db.JobSteps.FirstOrDefaultAsync(found => found.Id == stepId, cancellationToken) is { IsTicked: false } step
                    && (step.RefusedValue != value || step.RefusedBy != actor.Name))
                {
                    step.KeepRefusedValue(value, actor.Name, store.Time.GetUtcNow());
                }

                return Done.Value;
            },
            cancellationToken);

    private Task<Outcome<Done>> OnStepAsync(
        Actor actor, Guid commandId, Guid stepId, Func<ShopDbContext, JobStep, Task<Outcome<Done>>> work, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.WorkOnJobs);
        return store.WriteOnceAsync(
            actor,
            commandId,
            async db =>
            {
                if (await db.JobSteps.FirstOrDefaultAsync(found => found.Id == stepId, cancellationToken) is not { } step)
                {
                    return new Problem("StepId", "That step is no longer part of the job; the page shows the steps it has now.");
                }

                if (await db.OpenJobProblemAsync(step.JobId, cancellationToken) is { } problem)
                {
                    return problem;
                }

                var outcome = await work(db, step);
                if (outcome.Succeeded)
                {
                    await db.RefreshProgressAsync(step.JobId, cancellationToken);
                }

                return outcome;
            },
            cancellationToken);
    }
}

/// <param name="StepId">The step.</param>
/// <param name="Value">The measured value, where the step asks for one.</param>
public sealed record TickStep(Guid StepId, double? Value = null);

/// <param name="StepId">The step.</param>
/// <param name="Text">What to say about it.</param>
public sealed record RemarkStep(Guid StepId, string Text);
