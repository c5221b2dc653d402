using Microsoft.EntityFrameworkCore;
using ShopFloor.Engineering.Electrical;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Storage;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>
/// The electrical plan of a job: computed afresh from the parts list, the vehicle and what was decided about runs whenever it is asked for.
/// </summary>
public sealed class ElectricalPlans(ShopStore store, PlanHistory history)
{
    /// <param name="text">Units and culture of the reader.</param>
    public Task<ElectricalPlanView> GetAsync(Actor actor, Guid jobId, UnitText text, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.SeeJobs);
        return store.ReadAsync(db => ViewAsync(db, jobId, text, cancellationToken), cancellationToken);
    }

    public async Task<Outcome<Guid>> EditSettingsAsync(
        Actor actor, Guid jobId, Guid expectedVersion, ElectricalSettingsForm form, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.DesignJobs);
        var outcome = await StoreSettingsAsync(actor, jobId, expectedVersion, form, cancellationToken);
        if (!outcome.Succeeded)
        {
            return outcome.As<Guid>();
        }

        var edit = outcome.Value;
        if (edit.Old != edit.New)
        {
            history.Did(actor, jobId, new SettingsStep("Assumptions changed", edit.Old, edit.New, edit.Before, edit.After));
        }

        return edit.Id;
    }

    /// <summary>Keeps what was measured or decided about a run. A choice that breaks a limit is kept and found; one that makes no sense is refused.</summary>
    public async Task<Outcome<Guid>> EditChoiceAsync(
        Actor actor, Guid jobId, string runId, Guid expectedVersion, RunChoiceForm form, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.DesignJobs);
        var outcome = await StoreChoiceAsync(actor, jobId, runId, expectedVersion, form, cancellationToken);
        if (!outcome.Succeeded)
        {
            return outcome.As<Guid>();
        }

        var edit = outcome.Value;
        if (edit.Old != edit.New)
        {
            var label = $"{edit.Name} {(edit.Old.From == edit.New.From ? "changed" : "moved")}";
            history.Did(actor, jobId, new RunStep(label, runId, edit.Old, edit.New, edit.Before, edit.After));
        }

        return edit.Id;
    }

    /// <summary>As <see cref="EditSettingsAsync"/>, without a step in the editor's history.</summary>
    internal async Task<Outcome<StoredEdit<ElectricalSettingsForm>>> StoreSettingsAsync(
        Actor actor, Guid jobId, Guid expectedVersion, ElectricalSettingsForm form, CancellationToken cancellationToken)
    {
        ElectricalSettings? kept = null;
        var (old, before) = (new ElectricalSettingsForm(), Guid.Empty);
        var outcome = await store.WriteAsync<Guid>(
            actor,
            async db =>
            {
                var problems = form.Problems();
                if (problems.Count > 0)
                {
                    return problems;
                }

                if (await JobLock.ProblemAsync(db, jobId, cancellationToken) is { } locked)
                {
                    return locked;
                }

                var shelf = await PlanShelf.ReadAsync(db, form, cancellationToken);
                if (TableProblem(form, shelf) is { } wrong)
                {
                    return wrong;
                }

                kept = await db.ElectricalSettings.SingleOrDefaultAsync(found => found.JobId == jobId, cancellationToken);
                if (kept is null)
                {
                    kept = db.ElectricalSettings.Add(new ElectricalSettings(jobId, form with { })).Entity;
                    return kept.Id;
                }

                if (await db.ConflictAsync(kept, expectedVersion, form, kept.Form, cancellationToken) is { } conflict)
                {
                    return conflict;
                }

                (old, before) = (kept.Form, kept.Version);
                kept.Apply(form with { });
                return kept.Id;
            },
            cancellationToken);
        return outcome.Succeeded
            ? new StoredEdit<ElectricalSettingsForm>(outcome.Value, "", old, form with { }, before, kept!.Version) // set by every way that succeeds
            : outcome.As<StoredEdit<ElectricalSettingsForm>>();
    }

    /// <summary>As <see cref="EditChoiceAsync"/>, without a step in the editor's history.</summary>
    internal async Task<Outcome<StoredEdit<RunChoiceForm>>> StoreChoiceAsync(
        Actor actor, Guid jobId, string runId, Guid expectedVersion, RunChoiceForm form, CancellationToken cancellationToken)
    {
        RunChoice? kept = null;
        var (name, old, before) = ("", new RunChoiceForm(), Guid.Empty);
        var outcome = await store.WriteAsync<Guid>(
            actor,
            async db =>
            {
                var problems = form.Problems();
                if (problems.Count > 0)
                {
                    return problems;
                }

                if (await JobLock.ProblemAsync(db, jobId, cancellationToken) is { } locked)
                {
                    return locked;
                }

                var facts = await PlanFacts.ReadAsync(db, jobId, cancellationToken);
                var basis = facts.Basis();
                if (basis.Runs.FirstOrDefault(run => run.RunId == runId) is not { } place)
                {
                    return new Problem("", "That run is no longer in the plan; its part was changed or taken off the list.");
                }

                name = place.Name;
                if (form.From != place.Choice.From && PlanMoves.ProblemOf(basis, runId, form.From) is { } impossible)
                {
                    return impossible;
                }

                var changed = facts.With(runId, form).Basis();
                if (changed.Findings.FirstOrDefault(found => found.SubjectId == runId && found.Code == ElectricalPlanBuilder.SizeGoneCode) is { } size)
                {
                    return new Problem(nameof(form.Awg), size.Text);
                }

                var refused = PlanRefusals.Of(changed, UnitText.Invariant).Where(refusal => refusal.RunId == runId);
                if (refused.FirstOrDefault() is { } refusal)
                {
                    return new Problem(refusal.ChoiceField, refusal.Message);
                }

                kept = await db.RunChoices.SingleOrDefaultAsync(found => found.JobId == jobId && found.RunId == runId, cancellationToken);
                if (kept is null)
                {
                    kept = new RunChoice(jobId, runId);
                    kept.Apply(form with { });
                    return db.RunChoices.Add(kept).Entity.Id;
                }

                if (await db.ConflictAsync(kept, expectedVersion, form, kept.Form, cancellationToken) is { } conflict)
                {
                    return conflict;
                }

                (old, before) = (kept.Form, kept.Version);
                kept.Apply(form with { });
                return kept.Id;
            },
            cancellationToken);
        return outcome.Succeeded
            ? new StoredEdit<RunChoiceForm>(outcome.Value, name, old, form with { }, before, kept!.Version) // set by every way that succeeds
            : outcome.As<StoredEdit<RunChoiceForm>>();
    }

    /// <summary>Puts the cables, fuses and the distribution the plan asks for on the parts list, or brings those it put there before up to date.</summary>
    public Task<Outcome<PlannedPartsResult>> AddPlannedPartsAsync(Actor actor, Guid jobId, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.DesignJobs);
        return store.WriteAsync<PlannedPartsResult>(
            actor,
            async db =>
            {
                if (await JobLock.ProblemAsync(db, jobId, cancellationToken) is { } locked)
                {
                    return locked;
                }

                var view = await ViewAsync(db, jobId, UnitText.Invariant, cancellationToken);
                return view.Result is null
                    ? new Problem("", "There is no plan yet that says what to buy: no part takes current, or the plan cannot be computed.")
                    : await PlannedParts.PutOnListAsync(db, view, store.Time.GetUtcNow(), cancellationToken);
            },
            cancellationToken);
    }

    private static Problem? TableProblem(ElectricalSettingsForm form, PlanShelf shelf)
    {
        var table = PlanTables.Printed(form, shelf.Own);
        return form.Table.Length > 0 && shelf.Own is null && table.Name != form.Table
            ? new Problem(nameof(form.Table), "That ampacity table is no longer there; choose another.")
            : form.InsulationCelsius < table.InsulationCelsius[0]
                ? new Problem(nameof(form.InsulationCelsius), $"The insulation withstands {form.InsulationCelsius} °C; {table.Name} is for {string.Join(", ", table.InsulationCelsius)} °C.")
                : null;
    }

    internal static async Task<ElectricalPlanView> ViewAsync(ShopDbContext db, Guid jobId, UnitText text, CancellationToken cancellationToken) =>
        ViewOf(jobId, await PlanFacts.ReadAsync(db, jobId, cancellationToken), text);

    internal static ElectricalPlanView ViewOf(Guid jobId, PlanFacts facts, UnitText text)
    {
        var basis = facts.Basis();
        var refusals = PlanRefusals.Of(basis, text);
        var result = basis.Input is null || refusals.Count > 0 ? null : ElectricalPlan.Compute(basis.Input, text);
        var runs = basis.Runs.Select(place => RunOf(place, facts, result)).ToList();
        return new ElectricalPlanView
        {
            JobId = jobId,
            Settings = facts.Settings,
            SettingsVersion = facts.SettingsVersion,
            Sources = basis.Sources,
            Rules = basis.Rules,
            Input = basis.Input,
            Result = result,
            Runs = runs,
            PartVersions = facts.Parts.ToDictionary(part => part.Id, part => part.Version),
            Findings =
            [
                .. basis.Findings
                    .Concat(AlternatorSource.Disagreement(facts.Vehicle, facts.Budget, text) is { } differs ? [differs] : [])
                    .Concat(refusals.Select(refusal => refusal.AsFinding()))
                    .Concat(result?.Findings ?? [])
                    .Concat(PlanPartsCheck.Find(runs, facts.Parts, text))
                    .OrderByDescending(finding => finding.Severity),
            ],
        };
    }

    private static PlanRun RunOf(RunPlace place, PlanFacts facts, ElectricalPlanResult? result)
    {
        var load = result?.Loads.FirstOrDefault(found => found.LoadId == place.RunId);
        return new PlanRun(
            place,
            facts.ChoiceVersions.GetValueOrDefault(place.RunId),
            load is not null ? load.Branch : result?.Points.FirstOrDefault(found => found.PointId == place.RunId)?.Run,
            load);
    }
}

/// <summary>An edit as it was stored: both contents, and the versions before and after it.</summary>
/// <param name="Before">Empty when nothing was stored before.</param>
internal sealed record StoredEdit<TForm>(Guid Id, string Name, TForm Old, TForm New, Guid Before, Guid After);
