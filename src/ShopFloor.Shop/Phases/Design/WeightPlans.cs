using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Mass;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Storage;
using ShopFloor.Shop.Vehicles;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>What the parts of a job add to the vehicle, by place, against what its label allows.</summary>
public sealed class WeightPlans(ShopStore store)
{
    private const string NoZone = "not-set";

    /// <param name="text">Units and culture of the reader.</param>
    public Task<WeightPlanView> GetAsync(Actor actor, Guid jobId, UnitText text, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.SeeJobs);
        return store.ReadAsync(db => ViewAsync(db, jobId, text, cancellationToken), cancellationToken);
    }

    /// <summary>What stands against the added mass, for gates between phases; texts are invariant.</summary>
    internal static IReadOnlyList<Finding> Findings(PlanFacts facts) => ViewOf(facts, UnitText.Invariant).Findings;

    private static async Task<WeightPlanView> ViewAsync(ShopDbContext db, Guid jobId, UnitText text, CancellationToken cancellationToken) =>
        ViewOf(await PlanFacts.ReadAsync(db, jobId, cancellationToken), text);

    private static WeightPlanView ViewOf(PlanFacts facts, UnitText text)
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
            ]);
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
    IReadOnlyList<Finding> Findings);

/// <param name="Zone">Key, or empty for parts whose place is not set.</param>
public sealed record ZoneWeight(string Zone, string Name, double InstalledKilograms, double RemovedKilograms, double NetKilograms);

public sealed record PartWithoutMass(Guid PartId, string Name);
