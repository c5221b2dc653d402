using Microsoft.EntityFrameworkCore;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Storage;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>Edits of the feed as a tree: moving, adding, naming, removing, and taking back what one did.</summary>
public sealed class FeedEditing(ShopStore store, ElectricalPlans plans, PartsList parts, PlanHistory history)
{
    /// <summary>What a move would do, without doing it.</summary>
    /// <param name="sourceId">A source of <see cref="FeedSources"/>; empty for what is usual.</param>
    public Task<Outcome<PlanEffect>> PreviewMoveAsync(Actor actor, Guid jobId, string runId, string sourceId, UnitText text, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.DesignJobs);
        return store.ReadAsync<Outcome<PlanEffect>>(
            async db =>
            {
                var facts = await PlanFacts.ReadAsync(db, jobId, cancellationToken);
                var basis = facts.Basis();
                if (Problem(basis, runId, sourceId) is { } problem)
                {
                    return problem;
                }

                var moved = facts.With(runId, PlanMoves.Moved(ChoiceOf(facts, runId), sourceId));
                return PlanEffect.Between(ElectricalPlans.ViewOf(jobId, facts, text), ElectricalPlans.ViewOf(jobId, moved, text), runId, text);
            },
            cancellationToken);
    }

    /// <summary>Hangs a run on another source; told with what that changed.</summary>
    /// <param name="expectedVersion">Version of the run's choice as the mover saw it.</param>
    /// <param name="sourceId">A source of <see cref="FeedSources"/>; empty for what is usual.</param>
    public async Task<Outcome<PlanEffect>> MoveAsync(
        Actor actor, Guid jobId, string runId, Guid expectedVersion, string sourceId, UnitText text, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.DesignJobs);
        var facts = await store.ReadAsync(db => PlanFacts.ReadAsync(db, jobId, cancellationToken), cancellationToken);
        if (Problem(facts.Basis(), runId, sourceId) is { } problem)
        {
            return problem;
        }

        var choice = PlanMoves.Moved(ChoiceOf(facts, runId), sourceId);
        var outcome = await plans.EditChoiceAsync(actor, jobId, runId, expectedVersion, choice, cancellationToken);
        return outcome.Succeeded
            ? PlanEffect.Between(ElectricalPlans.ViewOf(jobId, facts, text), await plans.GetAsync(actor, jobId, text, cancellationToken), runId, text)
            : outcome.As<PlanEffect>();
    }

    /// <summary>Puts a part on the parts list, with the money of the catalogue when it comes from there.</summary>
    public Task<Outcome<Guid>> AddAsync(Actor actor, Guid jobId, JobPartDetails details, CancellationToken cancellationToken) =>
        AddedAsync(actor, jobId, parts.AddAsync(actor, jobId, details, cancellationToken), cancellationToken);

    /// <inheritdoc cref="AddAsync"/>
    public Task<Outcome<Guid>> AddFromCatalogueAsync(Actor actor, Guid jobId, Guid cataloguePartId, string zone, CancellationToken cancellationToken) =>
        AddedAsync(actor, jobId, parts.AddFromCatalogueAsync(actor, jobId, cataloguePartId, 1, zone, cancellationToken), cancellationToken);

    /// <summary>Takes a part off the parts list.</summary>
    /// <param name="expectedVersion">Version of the part as the person saw it.</param>
    public async Task<Outcome<Guid>> RemoveAsync(Actor actor, Guid jobId, Guid partId, Guid expectedVersion, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.DesignJobs);
        var outcome = await parts.RemoveAsync(actor, partId, expectedVersion, cancellationToken);
        if (outcome.Succeeded && await PartAsync(partId, cancellationToken) is { } after)
        {
            history.Did(actor, jobId, new PartStep($"{after.Name} removed", partId, false, expectedVersion, after.Version));
        }

        return outcome;
    }

    /// <summary>Gives a part another name; everything else of it stays.</summary>
    /// <param name="expectedVersion">Version of the part as the person saw it.</param>
    public async Task<Outcome<Guid>> RenameAsync(Actor actor, Guid jobId, Guid partId, Guid expectedVersion, string name, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.DesignJobs);
        var before = await PartAsync(partId, cancellationToken);
        var outcome = await NameAsync(actor, partId, expectedVersion, name, cancellationToken);
        if (outcome.Succeeded && before is not null && before.Name != name.Trim() && await PartAsync(partId, cancellationToken) is { } after)
        {
            history.Did(actor, jobId, new PartNameStep($"{before.Name} renamed {after.Name}", partId, before.Name, after.Name, before.Version, after.Version));
        }

        return outcome;
    }

    /// <summary>What undo and redo would do next for this person on this job.</summary>
    public PlanSteps Steps(Actor actor, Guid jobId)
    {
        actor.Demand(Permission.DesignJobs);
        return history.Steps(actor, jobId);
    }

    /// <summary>Takes back this person's last edit. Refused, and let go, when somebody changed the same thing since.</summary>
    /// <returns>What was taken back.</returns>
    public Task<Outcome<string>> UndoAsync(Actor actor, Guid jobId, CancellationToken cancellationToken) => TurnAsync(actor, jobId, true, cancellationToken);

    /// <summary>Does again what was taken back last. Refused, and let go, when somebody changed the same thing since.</summary>
    /// <returns>What was done again.</returns>
    public Task<Outcome<string>> RedoAsync(Actor actor, Guid jobId, CancellationToken cancellationToken) => TurnAsync(actor, jobId, false, cancellationToken);

    private async Task<Outcome<string>> TurnAsync(Actor actor, Guid jobId, bool undo, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.DesignJobs);
        if (await store.ReadAsync(db => JobLock.ProblemAsync(db, jobId, cancellationToken), cancellationToken) is { } locked)
        {
            return locked;
        }

        if (history.Take(actor, jobId, undo) is not { } step)
        {
            return new Problem("", undo ? "There is nothing of yours to undo here." : "There is nothing to redo here.");
        }

        var outcome = await ApplyAsync(actor, jobId, step, undo, cancellationToken);
        if (!outcome.Succeeded)
        {
            return new Problem("", $"Not {(undo ? "undone" : "redone")}: {step.Label}. {outcome.Message} That step is let go; what is there now stays.");
        }

        history.Turned(actor, jobId, step, undo, outcome.Value);
        return step.Label;
    }

    /// <returns>The version the subject has now.</returns>
    private async Task<Outcome<Guid>> ApplyAsync(Actor actor, Guid jobId, PlanStep step, bool undo, CancellationToken cancellationToken)
    {
        var expected = undo ? step.After : step.Before;
        return step switch
        {
            RunStep run => VersionOf(await plans.StoreChoiceAsync(actor, jobId, run.RunId, expected, undo ? run.Old : run.New, cancellationToken)),
            SettingsStep settings => VersionOf(await plans.StoreSettingsAsync(actor, jobId, expected, undo ? settings.Old : settings.New, cancellationToken)),
            PartStep part => await VersionAsync(
                part.PartId,
                part.Added == undo
                    ? await parts.RemoveAsync(actor, part.PartId, expected, cancellationToken)
                    : await parts.BringBackAsync(actor, part.PartId, expected, cancellationToken),
                cancellationToken),
            PartNameStep name => await VersionAsync(name.PartId, await NameAsync(actor, name.PartId, expected, undo ? name.Old : name.New, cancellationToken), cancellationToken),
            _ => throw new ArgumentOutOfRangeException(nameof(step), step, null),
        };
    }

    private async Task<Outcome<Guid>> NameAsync(Actor actor, Guid partId, Guid expectedVersion, string name, CancellationToken cancellationToken)
    {
        if (await parts.ForEditAsync(actor, partId, cancellationToken) is not { } form)
        {
            return new Problem("", "That part is no longer on the list.");
        }

        form.Details.Name = name.Trim();
        return await parts.EditAsync(actor, partId, expectedVersion, form.Details, cancellationToken);
    }

    private async Task<Outcome<Guid>> AddedAsync(Actor actor, Guid jobId, Task<Outcome<Guid>> adding, CancellationToken cancellationToken)
    {
        var outcome = await adding;
        if (outcome.Succeeded && await PartAsync(outcome.Value, cancellationToken) is { } part)
        {
            history.Did(actor, jobId, new PartStep($"{part.Name} added", part.Id, true, Guid.Empty, part.Version));
        }

        return outcome;
    }

    private static Outcome<Guid> VersionOf<TForm>(Outcome<StoredEdit<TForm>> outcome) => outcome.Succeeded ? outcome.Value.After : outcome.As<Guid>();

    private async Task<Outcome<Guid>> VersionAsync(Guid partId, Outcome<Guid> outcome, CancellationToken cancellationToken) =>
        outcome.Succeeded ? (await PartAsync(partId, cancellationToken))?.Version ?? Guid.Empty : outcome;

    private Task<JobPart?> PartAsync(Guid partId, CancellationToken cancellationToken) =>
        store.ReadAsync(db => db.JobParts.IgnoreQueryFilters().SingleOrDefaultAsync(part => part.Id == partId, cancellationToken), cancellationToken);

    private static RunChoiceForm ChoiceOf(PlanFacts facts, string runId) => facts.Choices.GetValueOrDefault(runId) ?? new RunChoiceForm();

    private static Problem? Problem(PlanBasis basis, string runId, string sourceId)
    {
        if (basis.Runs.All(run => run.RunId != runId))
        {
            return basis.Sources.Find(runId) is { } idle
                ? new Problem("", $"Nothing takes its current from {idle.Name} yet. Hang a part on it first; then it has a cable that can be moved.")
                : new Problem("", "That run is no longer in the plan; its part was changed or taken off the list.");
        }

        if (sourceId.Length > 0 && sourceId is not (FeedSources.Battery or FeedSources.VehicleCircuit) && basis.Sources.Find(sourceId) is null)
        {
            return new Problem(
                nameof(RunChoiceForm.From),
                basis.Runs.Any(run => run.RunId == sourceId) ? "A part that takes current feeds nothing. Drop it on a battery, a distribution or a circuit of the car." : "What it was to hang on is no longer on the parts list.");
        }

        return PlanMoves.ProblemOf(basis, runId, sourceId);
    }
}
