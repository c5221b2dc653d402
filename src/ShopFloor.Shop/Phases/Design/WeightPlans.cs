using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Mass;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Money;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Storage;
using ShopFloor.Shop.Vehicles;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>What the parts of a job add to the vehicle, by place, against what its label allows.</summary>
public sealed class WeightPlans(ShopStore store, JobDesigns designs)
{
    private const string NoZone = "not-set";

    /// <param name="text">Units and culture of the reader.</param>
    public Task<WeightPlanView> GetAsync(Actor actor, Guid jobId, UnitText text, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.SeeJobs);
        return store.ReadAsync(db => ViewAsync(db, jobId, text, cancellationToken), cancellationToken);
    }

    /// <returns>What the paper shows, in the shop's units; null when there is no such job.</returns>
    public Task<WeightSheet?> SheetAsync(Actor actor, Guid jobId, IFormatProvider culture, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.SeeJobs);
        return store.ReadAsync(
            async db =>
            {
                if (await DesignPaper.HeadAsync(db, jobId, cancellationToken) is not { } head)
                {
                    return null;
                }

                var facts = await PlanFacts.ReadAsync(db, jobId, cancellationToken);
                var text = new UnitText(head.Letterhead.Units, culture);
                return new WeightSheet(
                    head.Letterhead,
                    head.JobReference,
                    head.JobTitle,
                    head.Vehicle,
                    await ViewAsync(db, jobId, facts, text, cancellationToken),
                    await RestraintPlans.ViewAsync(db, jobId, facts, text, cancellationToken),
                    ServicePlans.ViewOf(facts.Parts, await ServicePlans.RowsAsync(db, jobId, cancellationToken)));
            },
            cancellationToken);
    }

    /// <summary>Keeps what the scales said: a first reading, or against the version it was loaded with.</summary>
    public Task<Outcome<Guid>> SaveScalesAsync(Actor actor, Guid jobId, LoadedDesign<CornerScalesForm>? loaded, CornerScalesForm form, CancellationToken cancellationToken) =>
        SaveAsync(actor, jobId, loaded, "Corner scales", form, cancellationToken);

    /// <summary>Sets the mass the build may add.</summary>
    public Task<Outcome<Guid>> SaveBudgetAsync(Actor actor, Guid jobId, LoadedDesign<MassBudgetForm>? loaded, MassBudgetForm form, CancellationToken cancellationToken) =>
        SaveAsync(actor, jobId, loaded, "Mass budget", form, cancellationToken);

    /// <summary>What stands against the added mass, for gates between phases; texts are invariant.</summary>
    internal static async Task<IReadOnlyList<Finding>> FindingsAsync(ShopDbContext db, Guid jobId, PlanFacts facts, CancellationToken cancellationToken) =>
        (await ViewAsync(db, jobId, facts, UnitText.Invariant, cancellationToken)).Findings;

    internal static async Task<WeightPlanView> ViewAsync(ShopDbContext db, Guid jobId, UnitText text, CancellationToken cancellationToken) =>
        await ViewAsync(db, jobId, await PlanFacts.ReadAsync(db, jobId, cancellationToken), text, cancellationToken);

    internal static async Task<WeightPlanView> ViewAsync(ShopDbContext db, Guid jobId, PlanFacts facts, UnitText text, CancellationToken cancellationToken)
    {
        var scales = (await JobDesigns.ListAsync<CornerScalesForm>(db, jobId, cancellationToken)).FirstOrDefault();
        var budget = (await JobDesigns.ListAsync<MassBudgetForm>(db, jobId, cancellationToken)).FirstOrDefault();
        return ViewOf(facts, scales, budget, text);
    }

    private Task<Outcome<Guid>> SaveAsync<TForm>(Actor actor, Guid jobId, LoadedDesign<TForm>? loaded, string name, TForm form, CancellationToken cancellationToken)
        where TForm : class, IDesignForm =>
        loaded is null
            ? designs.AddAsync(actor, jobId, name, form, cancellationToken)
            : designs.EditAsync(actor, loaded.Id, loaded.Version, name, form, cancellationToken);

    private static WeightPlanView ViewOf(PlanFacts facts, LoadedDesign<CornerScalesForm>? scales, LoadedDesign<MassBudgetForm>? budget, UnitText text)
    {
        var label = new PayloadLabel
        {
            PayloadKilograms = facts.Vehicle.PayloadKilograms,
            GrossVehicleWeightRatingKilograms = facts.Vehicle.GrossRatingKilograms,
            SeatingPositions = facts.Vehicle.Seats,
        };
        var input = new AddedMassInput { Items = [.. facts.Parts.Select(ItemOf)], Label = label };
        var refused = input.Validate(text);
        if (refused.Count > 0)
        {
            // Only a label outside what the calculation takes gets here; parts are checked when they are saved.
            input = input with { Label = new PayloadLabel() };
        }

        var result = AddedMass.Compute(input, text);
        var placed = PlacedPart.Of(facts);
        var balance = MassBalance.Of(placed, facts.Vehicle, scales?.Form, text);
        var target = budget?.Form.TargetKilograms is { } kilograms ? MassTarget.Compute(new MassTargetInput(kilograms, input.Items), text) : null;
        return new WeightPlanView(
            result,
            label,
            facts.Vehicle.BodyStyle,
            [.. result.Zones.Select(zone => new ZoneWeight(
                zone.Zone == NoZone ? "" : zone.Zone,
                VehicleZones.NameOf(zone.Zone),
                zone.InstalledKilograms,
                zone.RemovedKilograms,
                zone.NetKilograms))],
            [.. facts.Parts.Where(part => part.UnitMassKilograms is null).Select(part => new PartWithoutMass(part.Id, part.Name))],
            [
                .. refused.Select(problem => new Finding(
                    "label-refused", Severity.Warn, "vehicle-label", "Vehicle label", problem.Message, "Read the label again and correct it on the job card.", "limits of the calculation")),
                .. result.Findings,
                .. balance.Findings,
                // A mass that is missing was said above, line by line.
                .. target?.Findings.Where(finding => finding.Code != "mass-target-incomplete") ?? [],
            ])
        {
            Placed = placed,
            Balance = balance,
            Scales = scales,
            Budget = budget,
            Target = target,
            Measures = facts.Vehicle.Measures,
        };
    }

    private static AddedMassItem ItemOf(JobPart part) => new()
    {
        Id = part.Id.ToString(),
        Name = part.Name,
        Zone = part.Zone.Length > 0 ? part.Zone : NoZone,
        Change = part.Direction == PartDirection.Installed ? MassChange.Installed : MassChange.Removed,
        Quantity = (double)part.Quantity,
        UnitMassKilograms = part.UnitMassKilograms,
    };
}

/// <summary>What the paper of weights, holds and service access shows.</summary>
public sealed record WeightSheet(
    Letterhead Letterhead, string JobReference, string JobTitle, string Vehicle, WeightPlanView Weight, RestraintsView Restraints, ServiceView Service);

/// <summary>The added mass of a job as it stands now.</summary>
/// <param name="Label">What the vehicle's label says.</param>
/// <param name="Body">The vehicle's body, for the drawing.</param>
/// <param name="Zones">By place, heaviest first.</param>
/// <param name="Missing">Parts whose mass nobody entered; they are in no sum.</param>
/// <param name="Findings">Gravest first.</param>
public sealed record WeightPlanView(
    AddedMassResult Result,
    PayloadLabel Label,
    BodyStyle Body,
    IReadOnlyList<ZoneWeight> Zones,
    IReadOnlyList<PartWithoutMass> Missing,
    IReadOnlyList<Finding> Findings)
{
    /// <summary>Every line with its place.</summary>
    public required IReadOnlyList<PlacedPart> Placed { get; init; }

    /// <summary>Axles, corners and centre of mass.</summary>
    public required MassBalance Balance { get; init; }

    /// <summary>What the scales said; null before the car was weighed.</summary>
    public LoadedDesign<CornerScalesForm>? Scales { get; init; }

    /// <summary>The mass the build may add; null when nobody set one.</summary>
    public LoadedDesign<MassBudgetForm>? Budget { get; init; }

    /// <summary>Sizes and ratings of the vehicle.</summary>
    public required VehicleMeasures Measures { get; init; }

    /// <summary>Vehicle, axles and wheels, as far as they can be said.</summary>
    public IReadOnlyList<LoadRow> Loads => LoadRow.Of(this, Measures, Label.GrossVehicleWeightRatingKilograms);

    /// <summary>How the build stands against it; null without one.</summary>
    public MassTargetResult? Target { get; init; }
}

/// <param name="Zone">Key, or empty for parts whose place is not set.</param>
public sealed record ZoneWeight(string Zone, string Name, double InstalledKilograms, double RemovedKilograms, double NetKilograms);

public sealed record PartWithoutMass(Guid PartId, string Name);
