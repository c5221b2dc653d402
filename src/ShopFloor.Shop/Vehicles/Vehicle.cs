using System.Globalization;
using ShopFloor.Shop.Clients;
using ShopFloor.Shop.Storage;
using ShopFloor.Shop.Storage.Audit;

namespace ShopFloor.Shop.Vehicles;

/// <summary>A client's vehicle, with what its own labels say.</summary>
public sealed class Vehicle : IAudited, IVersioned
{
    public Vehicle(Guid clientId, VehicleDetails details, DateTimeOffset at)
    {
        Id = Guid.CreateVersion7();
        ClientId = clientId;
        CreatedAt = at;
        Apply(details);
    }

    private Vehicle()
    {
    }

    public Guid Id { get; private set; }

    public Guid Version { get; private set; }

    public Guid ClientId { get; private set; }

    public Client? Client { get; private set; }

    public string Vin { get; private set; } = "";

    /// <summary>Why a number that fails the check of 49 CFR 565.15 was taken all the same.</summary>
    public string VinOverrideReason { get; private set; } = "";

    public string Plate { get; private set; } = "";

    public int? ModelYear { get; private set; }

    public string Make { get; private set; } = "";

    public string Model { get; private set; } = "";

    public string Trim { get; private set; } = "";

    public string Colour { get; private set; } = "";

    public Drivetrain DriveType { get; private set; }

    public BodyStyle BodyStyle { get; private set; }

    public int? Seats { get; private set; }

    /// <summary>Load of people and luggage the vehicle's own label allows, kg.</summary>
    public double? PayloadKilograms { get; private set; }

    /// <summary>Gross vehicle weight rating of the label, kg.</summary>
    public double? GrossRatingKilograms { get; private set; }

    /// <summary>Rated alternator or DC converter output, A.</summary>
    public double? AlternatorAmperes { get; private set; }

    /// <summary>Capacity of the starter battery at the 20-hour rate, Ah.</summary>
    public double? BatteryAmpereHours { get; private set; }

    /// <summary>Zone in which the 12 V battery sits.</summary>
    public string BatteryZone { get; private set; } = VehicleZones.EngineBayLeft;

    public VehicleMeasures Measures { get; private set; } = new();

    [NotAudited]
    public string SearchText { get; private set; } = "";

    public DateTimeOffset CreatedAt { get; private set; }

    public string Title => string.Join(
        ' ',
        new[] { ModelYear?.ToString(CultureInfo.InvariantCulture), Make, Model, Trim }.Where(part => !string.IsNullOrWhiteSpace(part)));

    public void Apply(VehicleDetails details)
    {
        Vin = VehicleDetails.NormalisedVin(details.Vin);
        VinOverrideReason = details.VinOverrideReason.Trim();
        Plate = details.Plate.Trim().ToUpperInvariant();
        ModelYear = details.ModelYear;
        Make = details.Make.Trim();
        Model = details.Model.Trim();
        Trim = details.Trim.Trim();
        Colour = details.Colour.Trim();
        DriveType = details.DriveType;
        BodyStyle = details.BodyStyle;
        Seats = details.Seats;
        PayloadKilograms = details.PayloadKilograms;
        GrossRatingKilograms = details.GrossRatingKilograms;
        AlternatorAmperes = details.AlternatorAmperes;
        BatteryAmpereHours = details.BatteryAmpereHours;
        BatteryZone = details.BatteryZone;
        Measures = details.Measures with { };
        SearchText = Common.SearchText.Of(Title, Plate, Plate.Replace(" ", "", StringComparison.Ordinal), Vin, Colour);
    }

    string IAudited.AuditName => Plate.Length > 0 ? $"{Title} ({Plate})" : Title;

    Guid? IAudited.AuditJobId => null;
}
