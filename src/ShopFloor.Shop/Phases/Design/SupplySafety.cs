using ShopFloor.Engineering.Safety;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Vehicles;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>What the facts of a job say about working safely on its supply.</summary>
/// <param name="HighVoltage">Whether the vehicle is a hybrid or electric.</param>
/// <param name="Batteries">Cautions of the batteries on the parts list, each kind once.</param>
public sealed record SupplySafety(bool HighVoltage, IReadOnlyList<SafetyText> Batteries)
{
    public static SupplySafety None { get; } = new(false, []);

    public static SupplySafety Of(Vehicle vehicle, IEnumerable<JobPart> parts)
    {
        ArgumentNullException.ThrowIfNull(vehicle);
        return new SupplySafety(
            vehicle.DriveType.IsHighVoltage(),
            [.. parts.Where(part => part.Direction == PartDirection.Installed).Select(part => part.Data).OfType<BatteryData>().Select(data => WorkSafety.Battery(data.Chemistry)).Distinct()]);
    }

    /// <summary>What a run between two places meets of airbags and belts; null when nothing.</summary>
    public static string? RouteCaution(string from, string to) =>
        VehicleZones.Exists(from) && VehicleZones.Exists(to) ? WorkSafety.Restraints(VehicleZones.RestraintPlaces(from, to)) : null;
}
