using System.ComponentModel.DataAnnotations;
using ShopFloor.Engineering.Geometry;
using ShopFloor.Engineering.Tuning.Placement;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Staff;

namespace ShopFloor.Shop.Phases.Tuning.Placement;

/// <summary>Where a loudspeaker looks.</summary>
public enum DriverAim
{
    /// <summary>Across the car, to the other side.</summary>
    Across,

    /// <summary>To the rear.</summary>
    Rearward,

    /// <summary>To the first ear of the list.</summary>
    AtFirstEar,

    Up,
}

/// <summary>Loudspeakers, ears and panes of a car by their places: x behind the front axle, y left of the middle, z above the floor, m.</summary>
public sealed record PlacementForm : IDesignForm
{
    public static DesignKind Kind => DesignKind.Placement;

    public static Permission Needed => Permission.WorkOnJobs;

    [Display(Name = "Air (°C)")]
    public double AirCelsius { get; set; } = 20;

    [Display(Name = "Loudspeakers")]
    public List<PlacedPoint> Drivers { get; set; } = [];

    [Display(Name = "Ears")]
    public List<PlacedPoint> Ears { get; set; } = [];

    [Display(Name = "Panes")]
    public List<PlacedPane> Panes { get; set; } = [];

    public PlacementForm Copy() => this with { Drivers = [.. Drivers.Select(one => one with { })], Ears = [.. Ears.Select(one => one with { })], Panes = [.. Panes.Select(one => one with { })] };

    public List<Problem> Problems() => [.. Input().Validate().Select(problem => new Problem(problem.Field, problem.Message))];

    /// <summary>The calculation's input.</summary>
    public PlacementInput Input() => new()
    {
        AirCelsius = AirCelsius,
        Drivers = [.. Drivers.Select(one => new PlacedDriver { Id = one.Name, Place = one.Place, Axis = AxisOf(one), PistonRadiusMeters = one.RadiusMeters })],
        Ears = [.. Ears.Select(one => new ListeningPlace(one.Name, one.Place))],
        Panes = [.. Panes.Select(one => new ReflectingPane { Id = one.Name, Corner = one.Corner, First = one.First, Second = one.Second, LossDecibels = one.LossDecibels })],
    };

    private Point3 AxisOf(PlacedPoint driver) => driver.Aim switch
    {
        DriverAim.Rearward => new Point3(1, 0, 0),
        DriverAim.Up => new Point3(0, 0, 1),
        DriverAim.AtFirstEar when Ears.Count > 0 && (Ears[0].Place - driver.Place).Length > 1e-6 => Ears[0].Place - driver.Place,
        _ => new Point3(0, driver.Place.Y > 0 ? -1 : 1, 0),
    };
}

/// <summary>A loudspeaker or an ear.</summary>
public sealed record PlacedPoint
{
    public string Name { get; set; } = "";

    public Point3 Place { get; set; }

    public DriverAim Aim { get; set; }

    public double RadiusMeters { get; set; } = 0.05;
}

/// <summary>A flat pane by a corner and its two sides.</summary>
public sealed record PlacedPane
{
    public string Name { get; set; } = "";

    public Point3 Corner { get; set; }

    public Point3 First { get; set; }

    public Point3 Second { get; set; }

    public double LossDecibels { get; set; } = 1;
}
