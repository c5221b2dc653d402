using ShopFloor.Engineering.Explained;

namespace ShopFloor.Engineering.Electrical.Budget;

/// <summary>Supply and demand at one engine speed.</summary>
/// <param name="EngineRpm">Engine speed, 1/min.</param>
/// <param name="AlternatorRpm">Alternator speed, 1/min.</param>
/// <param name="AvailableAmperes">Hot output of the alternator, A.</param>
/// <param name="DemandAmperes">Vehicle and added loads on music, A.</param>
/// <param name="SurplusAmperes">Left over, A; below zero the battery makes up the rest.</param>
/// <param name="DriftPercentPerHour">
/// Change of the state of charge, percent of capacity per hour; below zero it falls. A rise is an upper bound: a battery takes less the
/// fuller it is. Null when the capacity is not known.
/// </param>
public sealed record AlternatorBalance(
    double EngineRpm, double AlternatorRpm, double AvailableAmperes, double DemandAmperes, double SurplusAmperes, double? DriftPercentPerHour);

/// <summary>What the alternator leaves, at engine idle and at cruise, with music playing.</summary>
public sealed record AlternatorBudgetResult
{
    /// <summary>At engine idle.</summary>
    public required AlternatorBalance Idle { get; init; }

    /// <summary>At cruise.</summary>
    public required AlternatorBalance Cruise { get; init; }

    /// <summary>What the vehicle itself draws, A.</summary>
    public required double VehicleBaseAmperes { get; init; }

    /// <summary>"entered", or "default" with its source.</summary>
    public required string VehicleBaseOrigin { get; init; }

    /// <summary>Added loads on music whose current is known, A.</summary>
    public required double AddedMusicAmperes { get; init; }

    /// <summary>What the alternator gives over its speed.</summary>
    public required AlternatorOutput Output { get; init; }

    /// <summary>Where the output comes from: curve, stamped rating, or default shares.</summary>
    public required string OutputOrigin { get; init; }

    /// <summary>Identifiers of loads whose current is not known.</summary>
    public required IReadOnlyList<string> MissingLoadIds { get; init; }

    /// <summary>What was found, gravest first.</summary>
    public required IReadOnlyList<Finding> Findings { get; init; }

    /// <summary>How it was reached.</summary>
    public required Explanation Explanation { get; init; }
}
