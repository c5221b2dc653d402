using ShopFloor.Engineering.Geometry;
using ShopFloor.Engineering.Tuning.Alignment;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Phases.Design;
using ShopFloor.Shop.Phases.Tuning.Measurements;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Storage;
using ShopFloor.Shop.Vehicles;

namespace ShopFloor.Shop.Phases.Tuning.Placement;

/// <summary>Placement studies of a job and what one begins with.</summary>
public sealed class PlacementStudies(ShopStore store)
{
    // A medium car with the wheel on the left; common practice, no source. All of it is moved on the drawing.
    private static readonly Point3 DriversHead = new(1.75, 0.37, 0.95);
    private const double EarMeters = 0.08;
    private const double UsualRadiusMeters = 0.05;

    /// <summary>Studies of a job in the order they were begun, and one to begin with: channels by the places of their parts.</summary>
    public Task<PlacementList> GetAsync(Actor actor, Guid jobId, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.SeeJobs);
        return store.ReadAsync(
            async db => new PlacementList(
                await JobDesigns.ListAsync<PlacementForm>(db, jobId, cancellationToken),
                Begun(await TuningChannels.ListAsync(db, jobId, cancellationToken))),
            cancellationToken);
    }

    private static PlacementForm Begun(List<TuningChannel> channels) => new()
    {
        Drivers = [.. channels.Where(channel => channel.Role != DriverRole.Subwoofer).Select(Driver)],
        Ears = [Ear("Driver, left ear", EarMeters), Ear("Driver, right ear", -EarMeters), new PlacedPoint { Name = "Passenger", Place = DriversHead with { Y = -DriversHead.Y } }],
        Panes =
        [
            new PlacedPane { Name = "Windscreen", Corner = new Point3(0.75, 0.65, 0.7), First = new Point3(0, -1.3, 0), Second = new Point3(0.75, 0, 0.5) },
            new PlacedPane { Name = "Side window, left", Corner = new Point3(1.0, 0.74, 0.65), First = new Point3(1.1, 0, 0), Second = new Point3(0, -0.12, 0.45) },
            new PlacedPane { Name = "Side window, right", Corner = new Point3(1.0, -0.74, 0.65), First = new Point3(1.1, 0, 0), Second = new Point3(0, 0.12, 0.45) },
        ],
    };

    private static PlacedPoint Ear(string name, double aside) => new() { Name = name, Place = DriversHead with { Y = DriversHead.Y + aside } };

    private static PlacedPoint Driver(TuningChannel channel)
    {
        var zone = VehicleZones.All.FirstOrDefault(found => found.Key == channel.Zone);
        var side = channel.Side == StageSide.Right ? -0.7 : channel.Side == StageSide.Left ? 0.7 : 0;
        return new PlacedPoint
        {
            Name = channel.Name,
            Place = zone is null ? new Point3(1.1, side, 0.5) : new Point3(zone.XMeters, zone.YMeters, zone.ZMeters),
            Aim = channel.Zone.StartsWith("pillar", StringComparison.Ordinal) ? DriverAim.AtFirstEar : channel.Zone.Contains("door", StringComparison.Ordinal) ? DriverAim.Across : channel.Zone == "rear-shelf" ? DriverAim.Up : DriverAim.Rearward,
            RadiusMeters = Math.Clamp(channel.PistonRadiusMeters ?? UsualRadiusMeters, 0.001, 0.5),
        };
    }
}

/// <param name="Suggested">A form for a new study.</param>
public sealed record PlacementList(IReadOnlyList<LoadedDesign<PlacementForm>> Studies, PlacementForm Suggested);
