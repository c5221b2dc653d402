using ShopFloor.Engineering.Explained;

namespace ShopFloor.Engineering.Electrical.Budget;

/// <summary>How long a battery feeds a load with the engine off.</summary>
public sealed record BatteryTimeResult
{
    /// <summary>From the start to the chosen state of charge, h; 0 when it is there already.</summary>
    public required double Hours { get; init; }

    /// <summary>From full to empty at this current, h.</summary>
    public required double HoursFullToEmpty { get; init; }

    /// <summary>Charge taken out until then, Ah.</summary>
    public required double DrawnAmpereHours { get; init; }

    /// <summary>State of charge at the start, percent.</summary>
    public required double StartPercent { get; init; }

    /// <summary>Most it gives at any current, at the battery's temperature, Ah.</summary>
    public required double CapacityAmpereHours { get; init; }

    /// <summary>"entered", or how it was estimated.</summary>
    public required string CapacityOrigin { get; init; }

    /// <summary>Peukert exponent used.</summary>
    public required double PeukertExponent { get; init; }

    /// <summary>"entered", or "default" with its source.</summary>
    public required string ExponentOrigin { get; init; }

    /// <summary>Rested voltage at the chosen state of charge, V; flooded batteries only.</summary>
    public required double? RestedVoltsAtEnd { get; init; }

    /// <summary>What was found, gravest first.</summary>
    public required IReadOnlyList<Finding> Findings { get; init; }

    /// <summary>How it was reached.</summary>
    public required Explanation Explanation { get; init; }
}
