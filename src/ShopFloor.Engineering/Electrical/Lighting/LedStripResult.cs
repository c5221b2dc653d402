using ShopFloor.Engineering.Explained;

namespace ShopFloor.Engineering.Electrical.Lighting;

/// <summary>Voltage and current of a piece of strip.</summary>
/// <param name="PositionMeters">Distance from the start of the zone, m.</param>
/// <param name="Volts">Voltage at its LEDs and resistors, V.</param>
/// <param name="LightShare">Its current over the current at full supply voltage, 0 to 1: about its share of full light.</param>
public sealed record StripPoint(double PositionMeters, double Volts, double LightShare);

/// <summary>One zone with every colour full, and in its usual scene.</summary>
public sealed record LedZoneResult
{
    /// <summary>Identifier of the zone.</summary>
    public required string ZoneId { get; init; }

    /// <summary>Name.</summary>
    public required string Name { get; init; }

    /// <summary>Current of one colour at full, A, from the data sheet.</summary>
    public required double AmperesPerColour { get; init; }

    /// <summary>Current with every colour at full, A, from the data sheet: what supply, controller and fuse are chosen for.</summary>
    public required double FullAmperes { get; init; }

    /// <summary>Power with every colour at full, W.</summary>
    public required double FullWatts { get; init; }

    /// <summary>Current in the usual scene, A.</summary>
    public required double SceneAmperes { get; init; }

    /// <summary>Current it really takes at full with the drop in strip and wires, A; below <see cref="FullAmperes"/> when resistors set it.</summary>
    public required double DrawnAmperes { get; init; }

    /// <summary>Voltage drop to the worst segment with every colour full, V.</summary>
    public required double WorstDropVolts { get; init; }

    /// <summary>The same in percent of the supply.</summary>
    public required double WorstDropPercent { get; init; }

    /// <summary>Where the worst segment is, m from the start.</summary>
    public required double WorstPositionMeters { get; init; }

    /// <summary>Light of the dimmest segment as a share of full, 0 to 1.</summary>
    public required double DimmestShare { get; init; }

    /// <summary>Least number of feed points that keeps the allowed drop, or null when not even the most do.</summary>
    public required int? LeastFeedPoints { get; init; }

    /// <summary>Course of the voltage along the zone, at most 100 points.</summary>
    public required IReadOnlyList<StripPoint> Course { get; init; }
}

/// <summary>Currents, drops, supply and fuse of a strip.</summary>
public sealed record LedStripResult
{
    /// <summary>Zones in the order entered.</summary>
    public required IReadOnlyList<LedZoneResult> Zones { get; init; }

    /// <summary>All zones with every colour full, A.</summary>
    public required double FullAmperes { get; init; }

    /// <summary>All zones with every colour full, W.</summary>
    public required double FullWatts { get; init; }

    /// <summary>All zones in their usual scene, A.</summary>
    public required double SceneAmperes { get; init; }

    /// <summary>Least power of the supply, W: full power over 0.8.</summary>
    public required double LeastSupplyWatts { get; init; }

    /// <summary>Least current of the controller in each colour of the largest zone, A: over 0.8.</summary>
    public required double LeastControllerAmperesPerColour { get; init; }

    /// <summary>Fuse at the strip's own voltage for all zones together, or null when none is large enough. Its wire must stand it.</summary>
    public required FuseChoice? Fuse { get; init; }

    /// <summary>What was found, gravest first.</summary>
    public required IReadOnlyList<Finding> Findings { get; init; }

    /// <summary>How it was reached.</summary>
    public required Explanation Explanation { get; init; }
}
