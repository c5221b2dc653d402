using ShopFloor.Engineering.Mass;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Vehicles;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>Where a mass was taken to be.</summary>
public enum PlaceOrigin
{
    /// <summary>Somebody measured it along and across the car.</summary>
    Measured,

    /// <summary>Usual place of its zone in a medium car, for what was not measured.</summary>
    Zone,

    /// <summary>A cable of the plan: halfway between the two ends of its run.</summary>
    Run,

    /// <summary>Neither measured nor said; its mass is in the sum and in no axle.</summary>
    Unknown,
}

/// <summary>A line of the parts list with its mass and its place.</summary>
/// <param name="Zone">Key of its zone, or empty.</param>
/// <param name="Kilograms">Mass of the line, negative for what is taken out; null when it is not known.</param>
/// <param name="RearwardMeters">Behind the front axle; null with an unknown place.</param>
/// <param name="LeftMeters">Left of the middle; likewise.</param>
/// <param name="UpMeters">Above the cabin floor; likewise.</param>
/// <param name="PlaceText">The place in words, with how it is known.</param>
public sealed record PlacedPart(
    Guid PartId,
    string Name,
    PartDirection Direction,
    string Zone,
    double? Kilograms,
    double? RearwardMeters,
    double? LeftMeters,
    double? UpMeters,
    PlaceOrigin Origin,
    string PlaceText)
{
    /// <summary>Several of one kind stand on one side by their zone, where a pair usually sits left and right.</summary>
    public bool MayBeAPair { get; init; }

    internal PlacedMass? Mass =>
        Kilograms is { } kilograms && RearwardMeters is { } rearward && LeftMeters is { } left ? new PlacedMass(PartId.ToString(), Name, kilograms, rearward, left) : null;

    internal static List<PlacedPart> Of(PlanFacts facts)
    {
        var runs = facts.Basis().Runs.ToDictionary(run => run.RunId);
        return [.. facts.Parts.Select(part => Of(part, runs))];
    }

    private static PlacedPart Of(JobPart part, Dictionary<string, RunPlace> runs)
    {
        var position = part.Position;
        var (usual, origin, words) = Usual(part, runs);
        var whole = position is { RearwardMeters: not null, LeftMeters: not null };
        var any = position.RearwardMeters ?? position.LeftMeters ?? position.UpMeters;
        var name = VehicleZones.NameOf(part.Zone);
        return new PlacedPart(
            part.Id,
            part.Name,
            part.Direction,
            part.Zone,
            part.TotalMassKilograms * (part.Direction == PartDirection.Removed ? -1 : 1),
            position.RearwardMeters ?? usual?.XMeters,
            position.LeftMeters ?? usual?.YMeters,
            position.UpMeters ?? usual?.ZMeters,
            whole ? PlaceOrigin.Measured : origin,
            whole ? $"{name}, measured"
                : origin == PlaceOrigin.Unknown ? (any is null ? "place not set" : "measured in part, place not set")
                : any is null ? words : $"{words}, measured in part")
        {
            MayBeAPair = position.LeftMeters is null && part.Quantity >= 2 && origin == PlaceOrigin.Zone && Math.Abs(usual!.YMeters) > 0.3 // a zone has a place
                && part.Kind is Catalogue.PartKind.Loudspeaker or Catalogue.PartKind.Lighting,
        };
    }

    private static (VehicleZone? Place, PlaceOrigin Origin, string Words) Usual(JobPart part, Dictionary<string, RunPlace> runs)
    {
        if (part.Kind == Catalogue.PartKind.Cable && part.PlanRunId.Length > 0 && runs.TryGetValue(part.PlanRunId, out var run)
            && ZoneOf(run.From) is { } from && ZoneOf(run.To) is { } to)
        {
            var middle = new VehicleZone("", "", (from.XMeters + to.XMeters) / 2, (from.YMeters + to.YMeters) / 2, (from.ZMeters + to.ZMeters) / 2);
            return (middle, PlaceOrigin.Run, $"halfway from {from.Name} to {to.Name}");
        }

        return ZoneOf(part.Zone) is { } zone ? (zone, PlaceOrigin.Zone, $"{zone.Name}, usual place") : (null, PlaceOrigin.Unknown, "");
    }

    private static VehicleZone? ZoneOf(string key) => VehicleZones.All.FirstOrDefault(zone => zone.Key == key);
}
