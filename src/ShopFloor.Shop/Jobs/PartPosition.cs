using System.ComponentModel.DataAnnotations;
using ShopFloor.Shop.Common;

namespace ShopFloor.Shop.Jobs;

/// <summary>Where the middle of a part sits, measured in this vehicle; an empty coordinate is that of its zone.</summary>
public sealed record PartPosition
{
    [Display(Name = "Behind the front axle (m)")]
    public double? RearwardMeters { get; set; }

    [Display(Name = "Left of the middle (m)")]
    public double? LeftMeters { get; set; }

    [Display(Name = "Above the cabin floor (m)")]
    public double? UpMeters { get; set; }

    public void AddProblems(Check check) => check
        .Range(RearwardMeters, nameof(RearwardMeters), "The place behind the front axle", -3, 12, "m")
        .Range(LeftMeters, nameof(LeftMeters), "The place left of the middle", -2, 2, "m")
        .Range(UpMeters, nameof(UpMeters), "The height above the cabin floor", -1, 3, "m");
}
