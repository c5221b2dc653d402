using ShopFloor.Engineering.Explained;

namespace ShopFloor.Engineering.Electrical.Budget;

/// <summary>A level of use and the warmth it ends in.</summary>
/// <param name="HeatWatts">Heat given off by the sources whose heat is known, W.</param>
/// <param name="SteadyRiseKelvin">Rise of the air above ambient after a long time, K.</param>
/// <param name="SteadyCelsius">Temperature of the air after a long time, °C.</param>
/// <param name="NeededAirflowCubicMetersPerSecond">Airflow that holds the allowed rise with the help of the walls, m³/s; 0 when the walls suffice.</param>
/// <param name="MinutesToAllowedRise">Time until the allowed rise is reached from ambient, min; null when it never is.</param>
public sealed record HeatLevel(
    double HeatWatts, double SteadyRiseKelvin, double SteadyCelsius, double NeededAirflowCubicMetersPerSecond, double? MinutesToAllowedRise);

/// <summary>Rise of the air at a time after the start on music.</summary>
/// <param name="Minutes">Time, min.</param>
/// <param name="RiseKelvin">Rise above ambient, K.</param>
public sealed record RisePoint(double Minutes, double RiseKelvin);

/// <summary>How warm a compartment gets, and the air it needs.</summary>
public sealed record CompartmentHeatResult
{
    /// <summary>Switched on without signal.</summary>
    public required HeatLevel Idle { get; init; }

    /// <summary>On music.</summary>
    public required HeatLevel Music { get; init; }

    /// <summary>Everything at rated output: a test bench, not a drive.</summary>
    public required HeatLevel Full { get; init; }

    /// <summary>Heat carried away per kelvin by walls and air together, W/K.</summary>
    public required double WattsPerKelvin { get; init; }

    /// <summary>Time constant, min: 63 % of the rise.</summary>
    public required double TimeConstantMinutes { get; init; }

    /// <summary>Airflow needed on music, m³/h.</summary>
    public required double NeededCubicMetersPerHour { get; init; }

    /// <summary>Airflow needed on music, ft³/min.</summary>
    public required double NeededCubicFeetPerMinute { get; init; }

    /// <summary>Free area of the inlet, and again of the outlet, for that airflow, m².</summary>
    public required double FreeVentAreaSquareMeters { get; init; }

    /// <summary>Course on music from ambient, for a plot.</summary>
    public required IReadOnlyList<RisePoint> Course { get; init; }

    /// <summary>Identifiers of sources whose heat on music is not known.</summary>
    public required IReadOnlyList<string> MissingSourceIds { get; init; }

    /// <summary>What was found, gravest first.</summary>
    public required IReadOnlyList<Finding> Findings { get; init; }

    /// <summary>How it was reached.</summary>
    public required Explanation Explanation { get; init; }
}
