using System.ComponentModel.DataAnnotations;
using ShopFloor.Shop.Common;

namespace ShopFloor.Shop.Vehicles;

/// <summary>Sizes and axle loads of a vehicle, from its labels, its papers, a scale or a tape; whatever is empty is not known.</summary>
public sealed record VehicleMeasures
{
    [Display(Name = "Wheelbase (m)")]
    public double? WheelbaseMeters { get; set; }

    [Display(Name = "Track (m)")]
    public double? TrackMeters { get; set; }

    [Display(Name = "Front axle rating (kg)")]
    public double? FrontAxleRatingKilograms { get; set; }

    [Display(Name = "Rear axle rating (kg)")]
    public double? RearAxleRatingKilograms { get; set; }

    [Display(Name = "Load of the front axle as it came (kg)")]
    public double? FrontAxleKilograms { get; set; }

    [Display(Name = "Load of the rear axle as it came (kg)")]
    public double? RearAxleKilograms { get; set; }

    [Display(Name = "Longest size of the cabin inside (m)")]
    public double? CabinLengthMeters { get; set; }

    public void AddProblems(Check check) => check
        .Range(WheelbaseMeters, nameof(WheelbaseMeters), "The wheelbase", 1, 7, "m")
        .Range(TrackMeters, nameof(TrackMeters), "The track", 0.8, 2.5, "m")
        .Range(FrontAxleRatingKilograms, nameof(FrontAxleRatingKilograms), "The front axle rating", 100, 20_000, "kg")
        .Range(RearAxleRatingKilograms, nameof(RearAxleRatingKilograms), "The rear axle rating", 100, 20_000, "kg")
        .Range(FrontAxleKilograms, nameof(FrontAxleKilograms), "The load of the front axle", 50, 20_000, "kg")
        .Range(RearAxleKilograms, nameof(RearAxleKilograms), "The load of the rear axle", 50, 20_000, "kg")
        .Range(CabinLengthMeters, nameof(CabinLengthMeters), "The longest size of the cabin", 0.8, 12, "m");
}
