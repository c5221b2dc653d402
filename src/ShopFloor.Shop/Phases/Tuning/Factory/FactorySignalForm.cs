using System.ComponentModel.DataAnnotations;
using ShopFloor.Engineering.Tuning.Equalisation;
using ShopFloor.Engineering.Tuning.Processors;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Staff;

namespace ShopFloor.Shop.Phases.Tuning.Factory;

/// <summary>What was decided about adding up a job's factory outputs; the result is reckoned from it each time.</summary>
public sealed record FactorySignalForm : IDesignForm
{
    private const int UsualFilters = 8;

    public static DesignKind Kind => DesignKind.FactorySignal;

    public static Permission Needed => Permission.WorkOnJobs;

    /// <summary>Keys of measured outputs that are not added up; all others are.</summary>
    [Display(Name = "Left out")]
    public IReadOnlyList<string> LeftOut { get; init; } = [];

    [Display(Name = "Filters")]
    public int Filters { get; init; } = UsualFilters;

    [Display(Name = "Largest boost (dB)")]
    public double LargestBoostDecibels { get; init; } = 6;

    /// <summary>Below 0.</summary>
    [Display(Name = "Largest cut (dB)")]
    public double LargestCutDecibels { get; init; } = -12;

    public List<Problem> Problems() => new Check()
        .Range(Filters, nameof(Filters), "The number of filters", 0, 31, "")
        .Range(LargestBoostDecibels, nameof(LargestBoostDecibels), "The largest boost", 0, 20, "dB")
        .Range(LargestCutDecibels, nameof(LargestCutDecibels), "The largest cut", -40, 0, "dB")
        .That(LeftOut.Count <= 64, nameof(LeftOut), "At most 64 outputs can be left out.")
        .Problems;

    /// <summary>Within what the processor has.</summary>
    internal EqualiserLimits Within(ProcessorProfile profile)
    {
        var least = Math.Clamp(profile.LeastQ, 0.3, 8);
        return new EqualiserLimits
        {
            Filters = Math.Min(Filters, profile.FiltersPerInput), LargestGainDecibels = Math.Min(LargestBoostDecibels, profile.LargestFilterDecibels), LeastGainDecibels = Math.Max(LargestCutDecibels, profile.LeastFilterDecibels),
            LeastQ = least, LargestQ = Math.Max(least, Math.Min(8, profile.LargestQ)), FromHertz = Math.Max(20, profile.LeastHertz), ToHertz = Math.Min(20_000, profile.LargestHertz),
        };
    }
}
