using System.ComponentModel.DataAnnotations;
using ShopFloor.Shop.Common;

namespace ShopFloor.Shop.Vehicles;

/// <summary>What the front desk types about a vehicle.</summary>
public sealed class VehicleDetails
{
    [Display(Name = "Vehicle identification number")]
    public string Vin { get; set; } = "";

    [Display(Name = "Reason to take a number that fails the check")]
    public string VinOverrideReason { get; set; } = "";

    [Display(Name = "Plate")]
    public string Plate { get; set; } = "";

    [Display(Name = "Model year")]
    public int? ModelYear { get; set; }

    [Display(Name = "Make")]
    public string Make { get; set; } = "";

    [Display(Name = "Model")]
    public string Model { get; set; } = "";

    [Display(Name = "Trim")]
    public string Trim { get; set; } = "";

    [Display(Name = "Colour")]
    public string Colour { get; set; } = "";

    [Display(Name = "Drive")]
    public Drivetrain DriveType { get; set; }

    [Display(Name = "Body")]
    public BodyStyle BodyStyle { get; set; }

    [Display(Name = "Seats")]
    public int? Seats { get; set; }

    [Display(Name = "Payload on the label (kg)")]
    public double? PayloadKilograms { get; set; }

    [Display(Name = "Gross vehicle weight rating (kg)")]
    public double? GrossRatingKilograms { get; set; }

    [Display(Name = "Alternator or converter (A)")]
    public double? AlternatorAmperes { get; set; }

    [Display(Name = "Battery (Ah)")]
    public double? BatteryAmpereHours { get; set; }

    [Display(Name = "Battery sits in")]
    public string BatteryZone { get; set; } = VehicleZones.EngineBayLeft;

    [Display(Name = "Sizes and axle loads")]
    public VehicleMeasures Measures { get; set; } = new();

    public static VehicleDetails Of(Vehicle vehicle) => new()
    {
        Vin = vehicle.Vin,
        VinOverrideReason = vehicle.VinOverrideReason,
        Plate = vehicle.Plate,
        ModelYear = vehicle.ModelYear,
        Make = vehicle.Make,
        Model = vehicle.Model,
        Trim = vehicle.Trim,
        Colour = vehicle.Colour,
        DriveType = vehicle.DriveType,
        BodyStyle = vehicle.BodyStyle,
        Seats = vehicle.Seats,
        PayloadKilograms = vehicle.PayloadKilograms,
        GrossRatingKilograms = vehicle.GrossRatingKilograms,
        AlternatorAmperes = vehicle.AlternatorAmperes,
        BatteryAmpereHours = vehicle.BatteryAmpereHours,
        BatteryZone = vehicle.BatteryZone,
        Measures = vehicle.Measures with { },
    };

    public static string NormalisedVin(string vin) =>
        string.Concat(vin.Where(character => !char.IsWhiteSpace(character) && character != '-')).ToUpperInvariant();

    public List<Problem> Problems(int thisYear)
    {
        var check = new Check()
            .Required(Make, nameof(Make), "The make")
            .Required(Model, nameof(Model), "The model")
            .Longest(Plate, nameof(Plate), "The plate", 20)
            .Longest(Trim, nameof(Trim), "The trim", Limits.Name)
            .Longest(Colour, nameof(Colour), "The colour", 60)
            .Longest(VinOverrideReason, nameof(VinOverrideReason), "The reason", Limits.Line)
            .That(
                ModelYear is null || (ModelYear >= 1900 && ModelYear <= thisYear + 2),
                nameof(ModelYear),
                $"The model year is {ModelYear}; accepted is 1900 to {thisYear + 2}.")
            .Range(Seats, nameof(Seats), "The number of seats", 1, 60, "")
            .Range(PayloadKilograms, nameof(PayloadKilograms), "The payload", 1, 20_000, "kg")
            .Range(GrossRatingKilograms, nameof(GrossRatingKilograms), "The gross rating", 100, 60_000, "kg")
            .Range(AlternatorAmperes, nameof(AlternatorAmperes), "The alternator", 10, 1_000, "A")
            .Range(BatteryAmpereHours, nameof(BatteryAmpereHours), "The battery", 5, 1_000, "Ah")
            .That(VehicleZones.Exists(BatteryZone), nameof(BatteryZone), $"'{BatteryZone}' is no place in the vehicle.");
        Measures.AddProblems(check);

        var number = NormalisedVin(Vin);
        if (number.Length > 0 && !Identification.Vin.TryCreate(number, checkDigitApplies: true, out _, out var problem))
        {
            if (string.IsNullOrWhiteSpace(VinOverrideReason))
            {
                check.That(false, nameof(Vin), problem);
            }
            else if (!Identification.Vin.TryCreate(number, checkDigitApplies: false, out _, out var stillWrong))
            {
                check.That(false, nameof(Vin), stillWrong);
            }
        }

        return check.Problems;
    }
}
