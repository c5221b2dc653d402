using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Storage;
using ShopFloor.Shop.Vehicles;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>What the budgets of one job are made from.</summary>
internal sealed record BudgetFacts(
    IReadOnlyList<JobPart> Installed, Vehicle Vehicle, ElectricalPlanView Plan, IReadOnlyList<PartLevels> Loads, BudgetSettingsForm Settings, Guid SettingsVersion, UnitText Text)
{
    public static async Task<BudgetFacts> ReadAsync(ShopDbContext db, Guid jobId, UnitText text, CancellationToken cancellationToken)
    {
        var facts = await PlanFacts.ReadAsync(db, jobId, cancellationToken);
        return Of(facts.Parts, facts.Vehicle, ElectricalPlans.ViewOf(jobId, facts, text), facts.Budget, facts.BudgetVersion, text);
    }

    public static BudgetFacts Of(IReadOnlyList<JobPart> parts, Vehicle vehicle, ElectricalPlanView plan, BudgetSettingsForm settings, Guid version, UnitText text)
    {
        List<JobPart> installed = [.. parts.Where(part => part.Direction == PartDirection.Installed)];
        return new BudgetFacts(installed, vehicle, plan, PartLevels.Of(installed, plan.Settings, text), settings, version, text);
    }

    /// <summary>The battery a load hangs on with the engine off: a battery part on its way, else the car's own (null).</summary>
    public Guid? BatteryOf(PartLevels load)
    {
        var runs = Plan.Runs.ToDictionary(run => run.Place.RunId, run => run.Place);
        var at = runs.GetValueOrDefault(load.Id)?.SourceId;
        for (var steps = 0; at is not null && steps <= runs.Count; steps++)
        {
            if (Plan.Sources.Find(at) is { PartId: { } part } && Installed.Any(found => found.Id == part && found.Kind == PartKind.Battery))
            {
                return part;
            }

            at = runs.GetValueOrDefault(at)?.SourceId;
        }

        return null;
    }

    /// <summary>Turns what a calculation refuses into findings; null stands for "not computed".</summary>
    public static TResult? Ask<TResult>(string subjectId, string subject, IReadOnlyList<InputProblem> problems, List<Finding> findings, Func<TResult> compute)
        where TResult : class
    {
        if (problems.Count == 0)
        {
            return compute();
        }

        findings.AddRange(problems.Select(problem => new Finding(
            "budget-input-refused", Severity.Warn, $"{subjectId}:{problem.Field}", subject, problem.Message, "Correct it; until then it is not computed.", "limits of the calculation")));
        return null;
    }
}
