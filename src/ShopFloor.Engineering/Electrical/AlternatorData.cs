using ShopFloor.Engineering.Electrical.Budget;

namespace ShopFloor.Engineering.Electrical;

/// <summary>The vehicle's charging system.</summary>
public sealed record AlternatorData
{
    /// <summary>Rated output, A (10 to 1000), as stamped for 6000 rpm (SAE J56, ISO 8854).</summary>
    public required double RatedAmperes { get; init; }

    /// <summary>Output at engine idle as a share of the rating, 0.1 to 1.</summary>
    public double IdleFraction { get; init; } = ElectricalDefaults.AlternatorIdleFraction;

    /// <summary>Hot output at cruise as a share of the rating, 0.1 to 1.</summary>
    public double HotFraction { get; init; } = ElectricalDefaults.AlternatorHotFraction;

    /// <summary>Hot output over speed where it is known; it goes before both shares. Null takes the shares.</summary>
    public AlternatorOutput? Output { get; init; }

    /// <summary>What the vehicle itself draws, A (0 to 500); null takes the default.</summary>
    public double? VehicleBaseAmperes { get; init; }

    /// <summary>The most that is known of it at any speed, A.</summary>
    internal double LargestAmperes => Output is { HotCurve: { Count: > 0 } curve } ? Math.Max(RatedAmperes, curve.Max(point => point.Amperes)) : RatedAmperes;

    internal double IdleAmperes => Output is { } output ? output.AmperesAt(output.IdleEngineRpm) : RatedAmperes * IdleFraction;

    internal double CruiseAmperes => Output is { } output ? output.AmperesAt(output.CruiseEngineRpm) : RatedAmperes * HotFraction;
}

/// <summary>What the alternator leaves for the added equipment on music.</summary>
/// <param name="OutputOrigin">Where the output comes from.</param>
/// <param name="AvailableAtIdleAmperes">Output at engine idle, A.</param>
/// <param name="AvailableAtCruiseAmperes">Hot output at cruise, A.</param>
/// <param name="VehicleBaseAmperes">What the vehicle itself draws, A.</param>
/// <param name="VehicleBaseOrigin">"entered", or "default" with its source.</param>
/// <param name="AddedMusicAmperes">What the added equipment draws on music, A.</param>
/// <param name="SurplusAtIdleAmperes">Left over at engine idle, A; below zero the battery is drained.</param>
/// <param name="SurplusAtCruiseAmperes">Left over at cruise, A; below zero the battery is drained.</param>
public sealed record AlternatorComparison(
    string OutputOrigin,
    double AvailableAtIdleAmperes,
    double AvailableAtCruiseAmperes,
    double VehicleBaseAmperes,
    string VehicleBaseOrigin,
    double AddedMusicAmperes,
    double SurplusAtIdleAmperes,
    double SurplusAtCruiseAmperes);
