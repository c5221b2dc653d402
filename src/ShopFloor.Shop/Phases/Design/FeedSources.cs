using ShopFloor.Engineering.Electrical;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Vehicles;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>A thing runs may start at.</summary>
/// <param name="Id">What <see cref="RunChoiceForm.From"/> holds; also the id of the run that feeds it.</param>
/// <param name="PartId">The part on the list, if it is one.</param>
/// <param name="Zone">Where it is; empty when its place is not set.</param>
public sealed record FeedSource(string Id, string Name, Guid? PartId, FeedPointKind Kind, string Zone);

/// <summary>
/// What runs may take their current from: the car's battery, the distributions and batteries on the parts list, a circuit the car has.
/// The first distribution is the one most loads hang on; where the list has none, the settings say where one will sit.
/// </summary>
public sealed class FeedSources
{
    /// <summary>The car's own battery.</summary>
    public const string Battery = "battery";

    /// <summary>A circuit the car already has; that circuit's fuse and wire stay the car maker's.</summary>
    public const string VehicleCircuit = "vehicle-circuit";

    private FeedSources(string batteryZone, IReadOnlyList<FeedSource> points)
    {
        BatteryZone = batteryZone;
        Points = points;
    }

    public string BatteryZone { get; }

    /// <summary>The first is the main distribution.</summary>
    public IReadOnlyList<FeedSource> Points { get; }

    /// <summary>The part whose place is the main distribution's; null when the settings say it.</summary>
    public Guid? MainPartId => Points[0].PartId;

    public FeedSource? Find(string id) => Points.FirstOrDefault(point => point.Id == id);

    /// <summary>Where runs from a source start; empty for a circuit of the car.</summary>
    public string ZoneOf(string id) => id == Battery ? BatteryZone : Find(id)?.Zone ?? "";

    /// <summary>What a run starts at: what was chosen while that still exists, else what is usual.</summary>
    public string Resolve(string chosen, string usual) =>
        chosen == Battery || chosen == VehicleCircuit || Find(chosen) is not null ? chosen : usual;

    internal static FeedSources Of(IReadOnlyList<JobPart> installed, Vehicle vehicle, ElectricalSettingsForm settings)
    {
        var main = installed.FirstOrDefault(part => part.Kind == PartKind.Distribution && part.Zone.Length > 0);
        List<FeedSource> points =
        [
            new(ElectricalPlanBuilder.MainRunId, "Main run", main?.Id, FeedPointKind.Distribution, main?.Zone ?? settings.DistributionZone),
            .. from part in installed
               where part.Id != main?.Id && part.Kind is PartKind.Distribution or PartKind.Battery
               select new FeedSource(part.Id.ToString(), part.Name, part.Id, part.Kind == PartKind.Battery ? FeedPointKind.Battery : FeedPointKind.Distribution, part.Zone),
        ];
        return new FeedSources(vehicle.BatteryZone, points);
    }
}
