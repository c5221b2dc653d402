namespace ShopFloor.Engineering.Electrical;

/// <summary>Annealed copper. Source: International Annealed Copper Standard, NBS Handbook 100.</summary>
public static class Copper
{
    /// <summary>Resistivity at 20 °C, Ω·mm²/m.</summary>
    public const double OhmSquareMillimetersPerMeter = 0.017241;

    /// <summary>Density, kg/m³.</summary>
    public const double KilogramsPerCubicMeter = 8890;

    /// <summary>
    /// Longer path of the strands: 2 %. Found by comparing NEC chapter 9 table 8 (stranded) with solid wire at 75 °C, 1.018 to 1.025.
    /// </summary>
    public const double StrandingFactor = 1.02;

    /// <summary>Temperature at which the resistance of copper extrapolates to zero, °C below zero.</summary>
    public const double InferredZeroCelsius = 234.5;

    /// <summary>Resistance at a temperature over resistance at 20 °C: (234.5 + T)/254.5. Source: FAA AC 43.13-1B, chapter 11.</summary>
    /// <param name="celsius">Conductor temperature, °C.</param>
    public static double ResistanceFactor(double celsius) => (InferredZeroCelsius + celsius) / (InferredZeroCelsius + 20);
}
