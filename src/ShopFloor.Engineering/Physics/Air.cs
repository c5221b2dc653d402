namespace ShopFloor.Engineering.Physics;

/// <summary>Air the sound goes through.</summary>
/// <param name="DensityKilogramsPerCubicMeter">Density, kg/m³ (0.8 to 1.5).</param>
/// <param name="SpeedMetersPerSecond">Speed of sound, m/s (300 to 370).</param>
public sealed record Air(double DensityKilogramsPerCubicMeter, double SpeedMetersPerSecond)
{
    /// <summary>20 °C and 101.325 kPa: 1.2041 kg/m³, 343.2 m/s (ISO 9613-1; density of dry air).</summary>
    public static Air Standard { get; } = new(1.2041, 343.2);

    /// <summary>Reference pressure of sound levels, Pa (ISO 1683).</summary>
    public const double ReferencePascals = 20e-6;

    /// <summary>Dry air at a temperature and 101.325 kPa: c = 343.2·√(T/293.15) (ISO 9613-1), density by the ideal gas law.</summary>
    /// <param name="celsius">Temperature, °C, −40 to 80.</param>
    /// <exception cref="ArgumentOutOfRangeException">The temperature is outside its range.</exception>
    public static Air At(double celsius)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(celsius, -40);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(celsius, 80);
        var ratio = (celsius + 273.15) / 293.15;
        return new Air(1.2041 / ratio, 343.2 * Math.Sqrt(ratio));
    }

    /// <summary>Adiabatic bulk modulus ρc², Pa.</summary>
    public double BulkModulusPascals => DensityKilogramsPerCubicMeter * SpeedMetersPerSecond * SpeedMetersPerSecond;
}
