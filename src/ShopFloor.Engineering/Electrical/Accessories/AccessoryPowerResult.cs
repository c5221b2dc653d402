using ShopFloor.Engineering.Electrical.Budget;
using ShopFloor.Engineering.Explained;

namespace ShopFloor.Engineering.Electrical.Accessories;

/// <summary>What accessories draw, and how long the parked car can be watched.</summary>
public sealed record AccessoryPowerResult
{
    /// <summary>Known currents while driving, A.</summary>
    public required double DrivingAmperes { get; init; }

    /// <summary>Known currents while parked, without the vehicle, A.</summary>
    public required double ParkedAmperes { get; init; }

    /// <summary>Charge the accessories take over the hours watched, Ah.</summary>
    public required double WatchedAmpereHours { get; init; }

    /// <summary>Time until the battery is at the state of charge to stop at, or null when no battery is known or nothing draws.</summary>
    public required BatteryTimeResult? Battery { get; init; }

    /// <summary>The accessories as draws for <see cref="KeyOffDrain"/>: parked current, or 0 when not watching.</summary>
    public required IReadOnlyList<StandbyDraw> StandbyDraws { get; init; }

    /// <summary>What was found, gravest first.</summary>
    public required IReadOnlyList<Finding> Findings { get; init; }

    /// <summary>How it was reached.</summary>
    public required Explanation Explanation { get; init; }
}
