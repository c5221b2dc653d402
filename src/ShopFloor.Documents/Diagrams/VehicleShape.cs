using ShopFloor.Shop.Vehicles;

namespace ShopFloor.Documents.Diagrams;

/// <summary>A point of the side profile: metres behind the nose, metres above the ground.</summary>
internal readonly record struct ProfilePoint(double X, double Z);

/// <summary>
/// Proportions of a neutral vehicle in metres, drawn by us after no model. They only shape the picture; nothing is calculated from them.
/// </summary>
internal sealed record VehicleShape(BodyStyle Body, double Length, double Height)
{
    /// <summary>Half the width of the body without mirrors.</summary>
    public double HalfWidth { get; init; } = 0.9;

    public double WheelRadius { get; init; } = 0.325;

    public double FrontWheel { get; init; } = 0.86;

    public double RearWheel { get; init; }

    /// <summary>Height of the lower edge of the body.</summary>
    public double Sill { get; init; } = 0.21;

    /// <summary>Height of the leading edge of the bonnet.</summary>
    public double BonnetLead { get; init; } = 0.72;

    /// <summary>Where the windscreen meets the bonnet.</summary>
    public ProfilePoint Cowl { get; init; }

    public ProfilePoint ScreenTop { get; init; }

    public double RoofPeak { get; init; }

    public ProfilePoint RoofEnd { get; init; }

    /// <summary>Where the rear window ends on the body.</summary>
    public ProfilePoint RearGlassBase { get; init; }

    /// <summary>Upper rear edge of the boot lid or tailgate.</summary>
    public ProfilePoint DeckEnd { get; init; }

    public double FrontDoorStart { get; init; }

    /// <summary>Where the front door ends.</summary>
    public double DoorSplit { get; init; }

    /// <summary>Where the rear door ends; null when there is none.</summary>
    public double? RearDoorEnd { get; init; }

    /// <summary>Whether a cargo bed stands behind the cab.</summary>
    public bool HasBed => Body == BodyStyle.Pickup;

    /// <summary>Radius of the opening around a wheel.</summary>
    public double ArchRadius => WheelRadius + 0.06;

    public static VehicleShape Of(BodyStyle body) => body switch
    {
        BodyStyle.Hatchback => new(body, 4.15, 1.47)
        {
            RearWheel = 3.42,
            Cowl = new(1.12, 0.97),
            ScreenTop = new(1.85, 1.41),
            RoofPeak = 2.35,
            RoofEnd = new(3.5, 1.38),
            RearGlassBase = new(3.96, 1.02),
            DeckEnd = new(4.05, 0.95),
            FrontDoorStart = 1.32,
            DoorSplit = 2.33,
            RearDoorEnd = 3.2,
        },
        BodyStyle.Saloon => new(body, 4.65, 1.45)
        {
            FrontWheel = 0.9,
            RearWheel = 3.66,
            Cowl = new(1.25, 0.96),
            ScreenTop = new(1.98, 1.39),
            RoofPeak = 2.5,
            RoofEnd = new(3.18, 1.37),
            RearGlassBase = new(3.92, 1.04),
            DeckEnd = new(4.5, 0.98),
            FrontDoorStart = 1.42,
            DoorSplit = 2.43,
            RearDoorEnd = 3.36,
        },
        BodyStyle.Estate => new(body, 4.65, 1.48)
        {
            FrontWheel = 0.9,
            RearWheel = 3.66,
            Cowl = new(1.25, 0.97),
            ScreenTop = new(1.98, 1.41),
            RoofPeak = 2.5,
            RoofEnd = new(4.1, 1.4),
            RearGlassBase = new(4.46, 1.02),
            DeckEnd = new(4.54, 0.95),
            FrontDoorStart = 1.42,
            DoorSplit = 2.43,
            RearDoorEnd = 3.36,
        },
        BodyStyle.Suv => new(body, 4.5, 1.68)
        {
            HalfWidth = 0.93,
            WheelRadius = 0.365,
            Sill = 0.29,
            BonnetLead = 0.9,
            FrontWheel = 0.89,
            RearWheel = 3.58,
            Cowl = new(1.2, 1.13),
            ScreenTop = new(1.83, 1.6),
            RoofPeak = 2.4,
            RoofEnd = new(3.92, 1.59),
            RearGlassBase = new(4.3, 1.18),
            DeckEnd = new(4.4, 1.09),
            FrontDoorStart = 1.38,
            DoorSplit = 2.39,
            RearDoorEnd = 3.32,
        },
        BodyStyle.Van => new(body, 4.95, 1.95)
        {
            HalfWidth = 0.97,
            WheelRadius = 0.335,
            Sill = 0.25,
            BonnetLead = 0.92,
            FrontWheel = 0.92,
            RearWheel = 3.95,
            Cowl = new(0.98, 1.18),
            ScreenTop = new(1.68, 1.83),
            RoofPeak = 2.3,
            RoofEnd = new(4.66, 1.9),
            RearGlassBase = new(4.86, 1.2),
            DeckEnd = new(4.88, 1.05),
            FrontDoorStart = 1.36,
            DoorSplit = 2.34,
            RearDoorEnd = 3.5,
        },
        BodyStyle.Pickup => new(body, 5.25, 1.78)
        {
            HalfWidth = 0.94,
            WheelRadius = 0.38,
            Sill = 0.34,
            BonnetLead = 0.96,
            FrontWheel = 0.95,
            RearWheel = 4.12,
            Cowl = new(1.38, 1.16),
            ScreenTop = new(1.98, 1.7),
            RoofPeak = 2.5,
            RoofEnd = new(3.3, 1.7),
            RearGlassBase = new(3.5, 1.16),
            DeckEnd = new(5.14, 1.14),
            FrontDoorStart = 1.54,
            DoorSplit = 2.5,
            RearDoorEnd = 3.36,
        },
        BodyStyle.Coupe => new(body, 4.45, 1.33)
        {
            FrontWheel = 0.9,
            RearWheel = 3.5,
            Sill = 0.18,
            BonnetLead = 0.66,
            Cowl = new(1.36, 0.91),
            ScreenTop = new(2.12, 1.28),
            RoofPeak = 2.5,
            RoofEnd = new(2.95, 1.28),
            RearGlassBase = new(3.86, 0.98),
            DeckEnd = new(4.3, 0.94),
            FrontDoorStart = 1.5,
            DoorSplit = 2.8,
        },
        _ => throw new ArgumentOutOfRangeException(nameof(body), body, "Unknown body style."),
    };
}
