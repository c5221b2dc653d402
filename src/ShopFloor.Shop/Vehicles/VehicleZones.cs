using ShopFloor.Engineering.Safety;

namespace ShopFloor.Shop.Vehicles;

/// <summary>A place in a vehicle, with its usual position in a medium car.</summary>
/// <param name="Key">Stable key, kept with parts.</param>
/// <param name="Name">Name shown to people.</param>
/// <param name="XMeters">Distance behind the front axle, m.</param>
/// <param name="YMeters">Distance left of the centre line, m (right is negative).</param>
/// <param name="ZMeters">Height above the cabin floor, m.</param>
public sealed record VehicleZone(string Key, string Name, double XMeters, double YMeters, double ZMeters);

/// <summary>
/// The places a part can sit. Positions are those of a medium car (common practice, no source): they only suggest
/// the length of a run until somebody measures it, and the lever arm of a mass until somebody types it.
/// </summary>
public static class VehicleZones
{
    public const string EngineBayLeft = "engine-bay-left";
    public const string EngineBayRight = "engine-bay-right";
    public const string Dash = "dash";
    public const string BootFloorLeft = "boot-floor-left";
    public const string BootFloorRight = "boot-floor-right";

    public static IReadOnlyList<VehicleZone> All { get; } =
    [
        new(EngineBayLeft, "Engine bay, left", -0.1, 0.5, 0.5),
        new(EngineBayRight, "Engine bay, right", -0.1, -0.5, 0.5),
        new(Dash, "Dashboard", 0.8, 0, 0.6),
        new("pillar-left", "Windscreen pillar, left", 0.9, 0.65, 0.9),
        new("pillar-right", "Windscreen pillar, right", 0.9, -0.65, 0.9),
        new("front-door-left", "Front door, left", 1.2, 0.8, 0.3),
        new("front-door-right", "Front door, right", 1.2, -0.8, 0.3),
        new("front-seat-left", "Under front seat, left", 1.6, 0.4, 0.05),
        new("front-seat-right", "Under front seat, right", 1.6, -0.4, 0.05),
        new("console", "Centre console", 1.4, 0, 0.3),
        new("rear-seats", "Rear seats", 2.3, 0, 0.3),
        new("rear-door-left", "Rear door, left", 2.1, 0.8, 0.3),
        new("rear-door-right", "Rear door, right", 2.1, -0.8, 0.3),
        new("rear-shelf", "Rear shelf", 2.8, 0, 0.7),
        new(BootFloorLeft, "Boot floor, left", 3.1, 0.35, 0.1),
        new(BootFloorRight, "Boot floor, right", 3.1, -0.35, 0.1),
        new("boot-side-left", "Boot side, left", 3.1, 0.6, 0.3),
        new("boot-side-right", "Boot side, right", 3.1, -0.6, 0.3),
        new("spare-well", "Spare wheel well", 3.2, 0, -0.1),
        new("roof", "Roof", 1.9, 0, 1.2),
        new("underbody", "Underbody", 1.8, 0, -0.2),
    ];

    private static readonly Dictionary<string, VehicleZone> ByKey = All.ToDictionary(zone => zone.Key);

    public static bool Exists(string? key) => key is not null && ByKey.ContainsKey(key);

    public static string NameOf(string? key) => key is not null && ByKey.TryGetValue(key, out var zone) ? zone.Name : "Place not set";

    /// <summary>
    /// Length of a cable from one place to another: along, across and up (cables follow the body, not the straight line),
    /// and a tenth more for bends and a service loop. Common practice, no source; a measured length always goes before it.
    /// </summary>
    /// <returns>Length in metres, at least 0.5.</returns>
    public static double SuggestedRunMeters(string from, string to)
    {
        var (a, b) = (ByKey[from], ByKey[to]);
        var along = Math.Abs(a.XMeters - b.XMeters) + Math.Abs(a.YMeters - b.YMeters) + Math.Abs(a.ZMeters - b.ZMeters);
        return Math.Max(0.5, Math.Round(along * 1.1, 1));
    }

    /// <summary>Whether a run between the two places passes through the engine space.</summary>
    public static bool PassesEngineSpace(string from, string to) => IsEngineBay(from) || IsEngineBay(to);

    /// <summary>
    /// Places with airbags, belts and their sensors a run between the two places touches: those of its ends, and the sill and centre pillar
    /// when it goes from the front of the car to its rear. Common practice, no source; the vehicle maker's instructions show where.
    /// </summary>
    public static IReadOnlyList<RestraintPlace> RestraintPlaces(string from, string to)
    {
        var places = new[] { from, to }.Select(OfEnd).OfType<RestraintPlace>().ToHashSet();
        var (a, b) = (ByKey[from].XMeters, ByKey[to].XMeters);
        if (Math.Min(a, b) < FrontEndMeters && Math.Max(a, b) > RearBeginMeters)
        {
            places.Add(RestraintPlace.Sill);
        }

        return [.. places.Order()];
    }

    // Before the front seats' backs, and behind them.
    private const double FrontEndMeters = 1.3;
    private const double RearBeginMeters = 2.0;

    private static RestraintPlace? OfEnd(string key) =>
        key.StartsWith("pillar", StringComparison.Ordinal) || key == "roof" ? RestraintPlace.PillarOrRoof
        : key.Contains("-door-", StringComparison.Ordinal) ? RestraintPlace.Door
        : key.Contains("seat", StringComparison.Ordinal) ? RestraintPlace.Seat
        : key == Dash ? RestraintPlace.Dash
        : null;

    private static bool IsEngineBay(string key) => key is EngineBayLeft or EngineBayRight;
}
