namespace ShopFloor.Shop.Vehicles;

/// <summary>What drives the vehicle; hybrids and electric vehicles bring the high-voltage caution with them.</summary>
public enum Drivetrain
{
    Petrol,
    Diesel,
    Hybrid,
    PlugInHybrid,
    Electric,
    Other,
}

public static class Drivetrains
{
    public const string HighVoltageCaution =
        "High-voltage vehicle: orange cables and their parts are not touched, cut, drilled near or disconnected. " +
        "Only a person licensed for high-voltage work isolates the system, by the vehicle maker's instructions. " +
        "The 12 V side is worked on only after the maker's own shut-down steps.";

    public static bool IsHighVoltage(this Drivetrain type) => type is Drivetrain.Hybrid or Drivetrain.PlugInHybrid or Drivetrain.Electric;

    public static string Text(this Drivetrain type) => type switch
    {
        Drivetrain.Petrol => "Petrol",
        Drivetrain.Diesel => "Diesel",
        Drivetrain.Hybrid => "Hybrid",
        Drivetrain.PlugInHybrid => "Plug-in hybrid",
        Drivetrain.Electric => "Electric",
        Drivetrain.Other => "Other",
        _ => throw new ArgumentOutOfRangeException(nameof(type), type, null),
    };
}
