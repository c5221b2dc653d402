using ShopFloor.Engineering.Explained;

namespace ShopFloor.Engineering.Electrical.Budget;

/// <summary>How long a battery carries a load.</summary>
public sealed record BatteryTimeResult
{
    /// <summary>From the start to the chosen state of charge, h; 0 when it already is below.</summary>
    public required double Hours { get; init; }

    /// <summary>From full to empty at this current, h.</summary>
    public required double FullToEmptyHours { get; init; }

    /// <summary>Capacity at this current, Ah.</summary>
    public required double EffectiveAmpereHours { get; init; }

    /// <summary>State of charge at the start, percent.</summary>
    public required double StartPercent { get; init; }

    /// <summary>Peukert exponent used.</summary>
    public required double PeukertExponent { get; init; }

    /// <summary>What was found, gravest first.</summary>
    public required IReadOnlyList<Finding> Findings { get; init; }

    /// <summary>How it was reached.</summary>
    public required Explanation Explanation { get; init; }
}
