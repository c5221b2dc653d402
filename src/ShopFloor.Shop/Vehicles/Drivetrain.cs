using ShopFloor.Engineering.Safety;

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
    public const string HighVoltageCaution = WorkSafety.HighVoltage;

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
