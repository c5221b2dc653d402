namespace ShopFloor.Shop.Vehicles;

/// <summary>What drives the vehicle; hybrids and electric vehicles bring the high-voltage caution with them.</summary>
public enum DriveType
{
    Petrol,
    Diesel,
    Hybrid,
    PlugInHybrid,
    Electric,
    Other,
}

public static class DriveTypes
{
    public const string HighVoltageCaution =
        "High-voltage vehicle: orange cables and their parts are not touched, cut, drilled near or disconnected. " +
        "Only a person licensed for high-voltage work isolates the system, by the vehicle maker's instructions. " +
        "The 12 V side is worked on only after the maker's own shut-down steps.";

    public static bool IsHighVoltage(this DriveType type) => type is DriveType.Hybrid or DriveType.PlugInHybrid or DriveType.Electric;

    public static string Text(this DriveType type) => type switch
    {
        DriveType.Petrol => "Petrol",
        DriveType.Diesel => "Diesel",
        DriveType.Hybrid => "Hybrid",
        DriveType.PlugInHybrid => "Plug-in hybrid",
        DriveType.Electric => "Electric",
        DriveType.Other => "Other",
        _ => throw new ArgumentOutOfRangeException(nameof(type), type, null),
    };
}
