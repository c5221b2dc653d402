using Microsoft.EntityFrameworkCore;
using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Storage;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>Alternator, battery, key-off, peak and heat budgets of a job, computed from its parts list, vehicle and plan whenever they are asked for.</summary>
public sealed class BudgetPlans(ShopStore store)
{
    /// <param name="text">Units and culture of the reader.</param>
    public Task<BudgetView> GetAsync(Actor actor, Guid jobId, UnitText text, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.SeeJobs);
        return store.ReadAsync(db => ViewAsync(db, jobId, text, cancellationToken), cancellationToken);
    }

    /// <summary>What stands against the budgets, for gates between phases; texts are invariant, as those of the plan handed in.</summary>
    internal static IReadOnlyList<Finding> Findings(Guid jobId, SupplyPlan supply) =>
        View(jobId, BudgetFacts.Of(supply.Facts.Parts, supply.Facts.Vehicle, supply.Plan, supply.Facts.Budget, supply.Facts.BudgetVersion, UnitText.Invariant)).Findings;

    public Task<Outcome<Guid>> EditSettingsAsync(Actor actor, Guid jobId, Guid expectedVersion, BudgetSettingsForm form, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.DesignJobs);
        return store.WriteAsync<Guid>(
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

                var stored = await db.BudgetSettings.SingleOrDefaultAsync(found => found.JobId == jobId, cancellationToken);
                if (stored is null)
                {
                    return db.BudgetSettings.Add(new BudgetSettings(jobId, form.Copy())).Entity.Id;
                }

                if (await db.ConflictAsync(stored, expectedVersion, form, stored.Form, cancellationToken) is { } conflict)
                {
                    return conflict;
                }

                stored.Apply(form.Copy());
                return stored.Id;
            },
            cancellationToken);
    }

    private static async Task<BudgetView> ViewAsync(ShopDbContext db, Guid jobId, UnitText text, CancellationToken cancellationToken) =>
        View(jobId, await BudgetFacts.ReadAsync(db, jobId, text, cancellationToken));

    internal static BudgetView View(Guid jobId, BudgetFacts facts)
    {
        List<Finding> findings = [];
        var alternator = BudgetMapping.Alternator(facts, findings);
        var batteries = BudgetMapping.Batteries(facts, findings);
        var (drain, rows) = BudgetMapping.Drain(facts, findings);
        var peak = HeatAndPeaks.Peak(facts, alternator?.Idle.SurplusAmperes, findings);
        var compartments = HeatAndPeaks.Compartments(facts, findings);
        return new BudgetView
        {
            JobId = jobId,
            Settings = facts.Settings,
            SettingsVersion = facts.SettingsVersion,
            Alternator = alternator,
            Batteries = batteries,
            Drain = drain,
            DrainRows = rows,
            Peak = peak,
            Compartments = compartments,
            // The two levels of a battery say some things twice.
            Findings =
            [
                .. findings.Concat(alternator?.Findings ?? []).Concat(drain?.Findings ?? [])
                    .DistinctBy(finding => (finding.Code, finding.SubjectId))
                    .OrderByDescending(finding => finding.Severity),
            ],
        };
    }
}
