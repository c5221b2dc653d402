using System.ComponentModel.DataAnnotations;
using ShopFloor.Shop.Common;

namespace ShopFloor.Shop.Phases.Intake;

/// <summary>What is written down when the car comes in.</summary>
public sealed class CheckInDetails
{
    [Display(Name = "Warning lights that are on")]
    public List<string> WarningLights { get; set; } = [];

    [Display(Name = "No warning light is on")]
    public bool NoWarningLights { get; set; }

    [Display(Name = "Battery voltage, engine off (V)")]
    public double? BatteryVolts { get; set; }

    [Display(Name = "Fuel or charge (%)")]
    public int? EnergyPercent { get; set; }

    [Display(Name = "Belongings left in the car")]
    public string Belongings { get; set; } = "";

    [Display(Name = "Notes")]
    public string Notes { get; set; } = "";

    public static CheckInDetails Of(CheckIn checkIn) => new()
    {
        WarningLights = [.. checkIn.WarningLights],
        NoWarningLights = checkIn.NoWarningLights,
        BatteryVolts = checkIn.BatteryVolts,
        EnergyPercent = checkIn.EnergyPercent,
        Belongings = checkIn.Belongings,
        Notes = checkIn.Notes,
    };

    public List<Problem> Problems() => new Check()
        .Range(BatteryVolts, nameof(BatteryVolts), "The battery voltage", 0, 60, "V")
        .Range(EnergyPercent, nameof(EnergyPercent), "Fuel or charge", 0, 100, "%")
        .Longest(Belongings, nameof(Belongings), "The belongings", Limits.Note)
        .Longest(Notes, nameof(Notes), "The note", Limits.Note)
        .That(WarningLights.Count <= 40 && WarningLights.All(light => light.Length <= Limits.Name), nameof(WarningLights), $"At most 40 warning lights of {Limits.Name} characters are kept.")
        .That(!NoWarningLights || WarningLights.Count == 0, nameof(NoWarningLights), $"'No warning light' is ticked, but {WarningLights.Count} are listed.")
        .Problems;

    /// <summary>What must be filled in before a client can be asked to sign.</summary>
    public List<Problem> ProblemsBeforeSigning() => new Check()
        .That(BatteryVolts is not null, nameof(BatteryVolts), "Measure the battery voltage before signing.")
        .That(NoWarningLights || WarningLights.Count > 0, nameof(WarningLights), "List the warning lights, or tick that none is on.")
        .Problems;
}
