namespace ShopFloor.Engineering.Electrical.Network;

/// <summary>A length of stranded conductor that warms up with its current.</summary>
public sealed record Conductor : FeedElement
{
    /// <summary>Least conductivity of copper-clad aluminium class 10A, share of IACS. Source: ASTM B566.</summary>
    public const double CopperClad10Conductivity = 0.629;

    /// <summary>Least conductivity of copper-clad aluminium class 15A, share of IACS. Source: ASTM B566.</summary>
    public const double CopperClad15Conductivity = 0.644;

    /// <summary>
    /// Temperature at which the resistance of the aluminium core extrapolates to zero, °C below zero: 1/0.00403 − 20 for aluminium of
    /// 61 % IACS. The core carries most of the current, so it is used for the whole conductor.
    /// </summary>
    public const double AluminiumInferredZeroCelsius = 1 / 0.00403 - 20;

    /// <summary>Material.</summary>
    public ConductorMaterial Material { get; init; } = ConductorMaterial.Copper;

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

    /// <summary>Resistance of the whole length at a conductor temperature, Ω. Sources: IACS (NBS Handbook 100), ASTM B566.</summary>
    /// <param name="celsius">Conductor temperature, °C.</param>
    public double OhmsAt(double celsius) =>
        Copper.OhmSquareMillimetersPerMeter / Conductivity * Copper.StrandingFactor * LengthMeters / AreaSquareMillimeters
        * (InferredZero + celsius) / (InferredZero + 20);

    /// <summary>
    /// Temperature at a steady current, °C: T = Tamb + (Tins − Ttable)·(I/Itable)², heating by the square of the current, fitted to the ampacity table.
    /// </summary>
    /// <param name="amperes">Current, A.</param>
    public double CelsiusAt(double amperes) => AmbientCelsius + KelvinPerSquareAmpere * amperes * amperes;

    /// <summary>Temperature rise over current squared, K/A².</summary>
    internal double KelvinPerSquareAmpere => TableAmperes is { } table ? (InsulationCelsius - TableAmbientCelsius) / (table * table) : 0;

    /// <summary>Growth of the resistance with temperature, Ω/K.</summary>
    internal double OhmsPerKelvin => OhmsAt(20) / (InferredZero + 20);

    private double InferredZero => Material == ConductorMaterial.Copper ? Copper.InferredZeroCelsius : AluminiumInferredZeroCelsius;

    private double Conductivity => Material switch
    {
        ConductorMaterial.CopperCladAluminium10 => CopperClad10Conductivity,
        ConductorMaterial.CopperCladAluminium15 => CopperClad15Conductivity,
        _ => 1,
    };
}
