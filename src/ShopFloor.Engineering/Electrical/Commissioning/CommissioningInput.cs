using ShopFloor.Engineering.Electrical.Budget;
using ShopFloor.Engineering.Electrical.Network;
using ShopFloor.Engineering.Safety;

namespace ShopFloor.Engineering.Electrical.Commissioning;

/// <summary>A load whose voltage is measured.</summary>
/// <param name="Id">Identifier of its element in the network.</param>
/// <param name="Name">Name shown to people.</param>
/// <param name="MaxDropVolts">Largest drop the plan allows from the battery to it, V.</param>
public sealed record CommissioningLoad(string Id, string Name, double MaxDropVolts);

/// <summary>A battery whose rest voltage is measured.</summary>
/// <param name="Id">Identifier.</param>
/// <param name="Name">Name shown to people.</param>
/// <param name="Kind">Its kind; null is taken as flooded lead-acid.</param>
/// <param name="EnteredRestVolts">Rest voltage entered with the plan, V, or null.</param>
public sealed record CommissioningBattery(string Id, string Name, BatteryKind? Kind, double? EnteredRestVolts);

/// <summary>What the points are made from.</summary>
public sealed record CommissioningInput
{
    /// <summary>The network in the state of <see cref="RunningWords"/> with typical music, or null while no run is sized.</summary>
    public NetworkResult? Running { get; init; }

    /// <summary>Charging voltage the plan counts with, V (above 0); 27.6 is a 24 V car, whose limits are twice those of 12 V.</summary>
    public double SupplyVolts { get; init; } = ElectricalDefaults.SupplyVolts;

    /// <summary>Node of the battery's positive post in <see cref="Running"/>; its negative post is the reference.</summary>
    public required string BatteryNodeId { get; init; }

    /// <summary>Whether an alternator or converter is part of <see cref="Running"/>; without one its battery voltage predicts nothing.</summary>
    public required bool HasCharger { get; init; }

    /// <summary>Loads of the plan.</summary>
    public required IReadOnlyList<CommissioningLoad> Loads { get; init; }

    /// <summary>The car's battery and every added one.</summary>
    public required IReadOnlyList<CommissioningBattery> Batteries { get; init; }

    /// <summary>Key-off currents of the added parts.</summary>
    public required IReadOnlyList<StandbyDraw> Draws { get; init; }

    /// <summary>The car's own key-off current, A, or null when not known.</summary>
    public double? VehicleSleepAmperes { get; init; }

    /// <summary>The vehicle maker's limit of the key-off current, A, or null for the usual one.</summary>
    public double? DrainLimitAmperes { get; init; }

    /// <summary>What was measured last at the battery's posts while charging, V, or null; the drop of a load counts from there.</summary>
    public double? MeasuredChargingVolts { get; init; }

    /// <summary>How the car is brought to charge: "engine idling" or "car switched on, converter running".</summary>
    public string RunningWords { get; init; } = "engine idling";
}
