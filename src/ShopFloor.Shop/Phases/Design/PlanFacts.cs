using Microsoft.EntityFrameworkCore;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Storage;
using ShopFloor.Shop.Vehicles;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>Everything the plan of one job is made from, read in one go.</summary>
internal sealed record PlanFacts(
    IReadOnlyList<JobPart> Parts,
    Vehicle Vehicle,
    ElectricalSettingsForm Settings,
    Guid SettingsVersion,
    IReadOnlyDictionary<string, RunChoiceForm> Choices,
    IReadOnlyDictionary<string, Guid> ChoiceVersions,
    PlanShelf Shelf,
    BudgetSettingsForm Budget,
    Guid BudgetVersion)
{
    /// <summary>Factory amplifiers and radios of which an output was measured.</summary>
    public IReadOnlySet<Guid> MeasuredFactory { get; init; } = new HashSet<Guid>();

    public static async Task<PlanFacts> ReadAsync(ShopDbContext db, Guid jobId, CancellationToken cancellationToken)
    {
        var vehicle = await (from job in db.Jobs
                             join found in db.Vehicles on job.VehicleId equals found.Id
                             where job.Id == jobId
                             select found).AsNoTracking().SingleAsync(cancellationToken);
        var parts = await PartsList.InOrder(db, jobId).AsNoTracking().ToListAsync(cancellationToken);
        var settings = await db.ElectricalSettings.AsNoTracking().SingleOrDefaultAsync(found => found.JobId == jobId, cancellationToken);
        var choices = await db.RunChoices.AsNoTracking().Where(found => found.JobId == jobId).ToListAsync(cancellationToken);
        var budget = await db.BudgetSettings.AsNoTracking().SingleOrDefaultAsync(found => found.JobId == jobId, cancellationToken);
        return new PlanFacts(
            parts,
            vehicle,
            settings?.Form ?? new ElectricalSettingsForm(),
            settings?.Version ?? Guid.Empty,
            choices.ToDictionary(choice => choice.RunId, choice => choice.Form),
            choices.ToDictionary(choice => choice.RunId, choice => choice.Version),
            await PlanShelf.ReadAsync(db, settings?.Form ?? new ElectricalSettingsForm(), cancellationToken),
            budget?.Form ?? new BudgetSettingsForm(),
            budget?.Version ?? Guid.Empty) { MeasuredFactory = await FactoryOutputs.MeasuredAsync(db, jobId, cancellationToken) };
    }

    public PlanFacts With(string runId, RunChoiceForm choice) =>
        this with { Choices = new Dictionary<string, RunChoiceForm>(Choices) { [runId] = choice } };

    public PlanBasis Basis() => ElectricalPlanBuilder.Build(Parts, Vehicle, Settings, Choices, Shelf, Budget);
}
