using ShopFloor.Engineering.Electrical.Conductors;

namespace ShopFloor.Engineering.Electrical.Network;

/// <summary>A length of stranded conductor that warms up with its current.</summary>
public sealed record Conductor : FeedElement
{
    /// <summary>Material.</summary>
    public ConductorMetal Material { get; init; } = ConductorMetal.Copper;

    /// <summary>Cross-section, mm² (0.05 to 2000).</summary>
    public required double AreaSquareMillimeters { get; init; }

    /// <summary>Length of this one conductor, m (0.001 to 1000).</summary>
    public required double LengthMeters { get; init; }

    /// <summary>Temperature around it, °C (−60 to 200).</summary>
    public double AmbientCelsius { get; init; } = 30;

    /// <summary>Temperature its insulation is rated for, °C (40 to 250).</summary>
    public double InsulationCelsius { get; init; } = 105;

    /// <summary>
    /// Current the ampacity table allows it, A (above 0, up to 100 000): at this current and <see cref="TableAmbientCelsius"/> it sits at its
    /// insulation limit. Null when not known; then it is taken at ambient temperature.
    /// </summary>
    public double? TableAmperes { get; init; }

    /// <summary>Ambient the ampacity table is written for, °C; below <see cref="InsulationCelsius"/>. 30 °C is that of 33 CFR 183.425 table 5.</summary>
    public double TableAmbientCelsius { get; init; } = 30;

    /// <summary>Resistance of the whole length at a conductor temperature, Ω. Source: that of its material.</summary>
    /// <param name="celsius">Conductor temperature, °C.</param>
    public double OhmsAt(double celsius) =>
        Metal.OhmSquareMillimetersPerMeter * Copper.StrandingFactor * LengthMeters / AreaSquareMillimeters * Metal.ResistanceFactor(celsius);

    /// <summary>
    /// Temperature at a steady current, °C: T = Tamb + (Tins − Ttable)·(I/Itable)², heating by the square of the current, fitted to the ampacity table.
    /// </summary>
    /// <param name="amperes">Current, A.</param>
    public double CelsiusAt(double amperes) => AmbientCelsius + KelvinPerSquareAmpere * amperes * amperes;

    /// <summary>Temperature rise over current squared, K/A².</summary>
    internal double KelvinPerSquareAmpere => TableAmperes is { } table ? (InsulationCelsius - TableAmbientCelsius) / (table * table) : 0;

    /// <summary>Growth of the resistance with temperature, Ω/K.</summary>
    internal double OhmsPerKelvin => OhmsAt(20) * Metal.TemperatureCoefficientAt20Celsius;

    private ConductorMaterial Metal => Material switch
    {
        ConductorMetal.CopperCladAluminium10 => ConductorMaterial.CopperCladAluminium10A,
        ConductorMetal.CopperCladAluminium15 => ConductorMaterial.CopperCladAluminium15A,
        _ => ConductorMaterial.AnnealedCopper,
    };
}
