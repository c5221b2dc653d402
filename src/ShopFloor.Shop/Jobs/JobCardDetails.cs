using System.ComponentModel.DataAnnotations;
using ShopFloor.Shop.Common;

namespace ShopFloor.Shop.Jobs;

/// <summary>What the front desk types about a job.</summary>
public sealed class JobCardDetails
{
    [Display(Name = "Short title")]
    public string Title { get; set; } = "";

    [Display(Name = "What the client wants, in their words")]
    public string Wish { get; set; } = "";

    [Display(Name = "Budget from")]
    public decimal? BudgetFrom { get; set; }

    [Display(Name = "Budget to")]
    public decimal? BudgetTo { get; set; }

    [Display(Name = "Promised for")]
    public DateOnly? PromisedOn { get; set; }

    [Display(Name = "Keys handed over")]
    public int? KeyCount { get; set; }

    [Display(Name = "Odometer (km)")]
    public double? OdometerKilometers { get; set; }

    [Display(Name = "Devices the client plays from")]
    public List<SourceDevice> SourceDevices { get; set; } = [];

    [Display(Name = "Nothing cut")]
    public bool NothingCut { get; set; } = true;

    [Display(Name = "Keep the spare wheel")]
    public bool KeepSpareWheel { get; set; }

    [Display(Name = "Leased vehicle")]
    public bool LeasedVehicle { get; set; }

    [Display(Name = "Luggage space to keep (l)")]
    public double? LuggageLitresToKeep { get; set; }

    [Display(Name = "Other restrictions")]
    public string RestrictionNotes { get; set; } = "";

    public static JobCardDetails Of(Job job) => new()
    {
        Title = job.Title,
        Wish = job.Wish,
        BudgetFrom = job.BudgetFrom,
        BudgetTo = job.BudgetTo,
        PromisedOn = job.PromisedOn,
        KeyCount = job.KeyCount,
        OdometerKilometers = job.OdometerKilometers,
        SourceDevices = [.. job.SourceDevices],
        NothingCut = job.NothingCut,
        KeepSpareWheel = job.KeepSpareWheel,
        LeasedVehicle = job.LeasedVehicle,
        LuggageLitresToKeep = job.LuggageLitresToKeep,
        RestrictionNotes = job.RestrictionNotes,
    };

    public List<Problem> Problems() => new Check()
        .Required(Title, nameof(Title), "A short title")
        .Longest(Wish, nameof(Wish), "The wish", Limits.Note)
        .Longest(RestrictionNotes, nameof(RestrictionNotes), "The restrictions", Limits.Note)
        .Range(BudgetFrom, nameof(BudgetFrom), "The budget", 0, 10_000_000, "")
        .Range(BudgetTo, nameof(BudgetTo), "The budget", 0, 10_000_000, "")
        .That(BudgetFrom is null || BudgetTo is null || BudgetFrom <= BudgetTo, nameof(BudgetTo), $"The budget ends at {BudgetTo}, below its start {BudgetFrom}.")
        .Range(KeyCount, nameof(KeyCount), "The number of keys", 0, 20, "")
        .Range(OdometerKilometers, nameof(OdometerKilometers), "The odometer", 0, 5_000_000, "km")
        .Range(LuggageLitresToKeep, nameof(LuggageLitresToKeep), "The luggage space", 0, 20_000, "l")
        .That(SourceDevices.Count <= 20, nameof(SourceDevices), $"{SourceDevices.Count} devices; at most 20 are kept.")
        .That(
            SourceDevices.All(device => device.Name.Length <= Limits.Name && device.Use.Length <= Limits.Line),
            nameof(SourceDevices),
            $"A device's name is at most {Limits.Name} characters, its use at most {Limits.Line}.")
        .Problems;
}
