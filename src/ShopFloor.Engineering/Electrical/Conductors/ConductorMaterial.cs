using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Electrical.Conductors;

/// <summary>What a conductor is made of.</summary>
/// <remarks>Resistance rises in a straight line with temperature: R(T) = R20·(T0 + T)/(T0 + 20), T0 the inferred zero below 0 °C.</remarks>
/// <param name="Name">Plain name.</param>
/// <param name="OhmSquareMillimetersPerMeter">Resistivity at 20 °C, Ω·mm²/m.</param>
/// <param name="KilogramsPerCubicMeter">Density, kg/m³.</param>
/// <param name="InferredZeroCelsius">T0, °C below zero.</param>
/// <param name="IsCopperClad">Whether it is aluminium under a copper skin.</param>
/// <param name="Source">Where the figures come from.</param>
public sealed record ConductorMaterial(
    string Name, double OhmSquareMillimetersPerMeter, double KilogramsPerCubicMeter, double InferredZeroCelsius, bool IsCopperClad, string Source)
{
    // 1/0.00403 − 20: aluminium of 61 % IACS, the steeper of the two metals, so a warm clad conductor is never rated too well.
    private const double CladInferredZeroCelsius = 1 / 0.00403 - 20;

    private const double KilogramsPerCubicMeterInPoundsPerCubicInch =
        ExactFactors.KilogramsPerPound / (ExactFactors.MetersPerInch * ExactFactors.MetersPerInch * ExactFactors.MetersPerInch);

    /// <summary>Annealed copper, 100 % IACS.</summary>
    public static ConductorMaterial AnnealedCopper { get; } = new(
        "copper", Copper.OhmSquareMillimetersPerMeter, Copper.KilogramsPerCubicMeter, Copper.InferredZeroCelsius, false,
        "International Annealed Copper Standard, NBS Handbook 100; temperature: FAA AC 43.13-1B, chapter 11");

    /// <summary>
    /// Copper-clad aluminium, class 10A: 10 % copper by volume. At least 62.9 % IACS and 0.120 lb/in³, so never rated too well.
    /// </summary>
    public static ConductorMaterial CopperCladAluminium10A { get; } = Clad("copper-clad aluminium 10A", 0.629, 0.120);

    /// <summary>
    /// Copper-clad aluminium, class 15A: 15 % copper by volume. At least 64.4 % IACS and 0.131 lb/in³, so never rated too well.
    /// </summary>
    public static ConductorMaterial CopperCladAluminium15A { get; } = Clad("copper-clad aluminium 15A", 0.644, 0.131);

    /// <summary>Every material shipped.</summary>
    public static IReadOnlyList<ConductorMaterial> All { get; } = [AnnealedCopper, CopperCladAluminium10A, CopperCladAluminium15A];

    /// <summary>Conductivity as a share of annealed copper's at 20 °C, 0 to 1.</summary>
    public double ShareOfCopperConductivity => Copper.OhmSquareMillimetersPerMeter / OhmSquareMillimetersPerMeter;

    /// <summary>Change of resistance per °C as a share of the resistance at 20 °C: 1/(T0 + 20).</summary>
    public double TemperatureCoefficientAt20Celsius => 1 / (InferredZeroCelsius + 20);

    /// <summary>Resistance at a temperature over resistance at 20 °C.</summary>
    /// <param name="celsius">Conductor temperature, °C.</param>
    public double ResistanceFactor(double celsius) => (InferredZeroCelsius + celsius) / (InferredZeroCelsius + 20);

    private static ConductorMaterial Clad(string name, double shareOfCopper, double poundsPerCubicInch) => new(
        name, Copper.OhmSquareMillimetersPerMeter / shareOfCopper, poundsPerCubicInch * KilogramsPerCubicMeterInPoundsPerCubicInch,
        CladInferredZeroCelsius, true,
        "class, conductivity and density: wire makers' tables to ASTM B566 (least values); temperature: aluminium of 61 % IACS");
}
