using System.ComponentModel.DataAnnotations;
using ShopFloor.Shop.Common;

namespace ShopFloor.Shop.Money;

/// <summary>What a tuning has to keep before the car goes, as the shop chose it. The defaults are common practice, no source.</summary>
public sealed record TuningLimits
{
    [Display(Name = "Left and right differ by at most (dB)")]
    public double LeftRightDecibels { get; set; } = 1.5;

    [Display(Name = "Arrivals differ by at most (s)")]
    public double ArrivalSeconds { get; set; } = 0.00005;

    [Display(Name = "Judged from (Hz)")]
    public double FromHertz { get; set; } = 100;

    [Display(Name = "Judged to (Hz)")]
    public double ToHertz { get; set; } = 10_000;

    public List<Problem> Problems() => new Check()
        .Range(LeftRightDecibels, nameof(LeftRightDecibels), "The difference of left and right", 0.1, 12, "dB")
        .Range(ArrivalSeconds * 1e6, nameof(ArrivalSeconds), "The difference of arrivals", 1, 10_000, "µs")
        .Range(FromHertz, nameof(FromHertz), "The lowest frequency", 10, 20_000, "Hz")
        .Range(ToHertz, nameof(ToHertz), "The highest frequency", 20, 40_000, "Hz")
        .That(ToHertz > FromHertz, nameof(ToHertz), "The highest frequency must lie above the lowest.")
        .Problems;
}
