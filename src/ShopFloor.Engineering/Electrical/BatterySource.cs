namespace ShopFloor.Engineering.Electrical;

/// <summary>A battery as a source of short-circuit current.</summary>
/// <param name="OpenCircuitVolts">Voltage without load, V (6 to 60).</param>
/// <param name="InternalOhms">Internal resistance, Ω (0.0001 to 1).</param>
public sealed record BatterySource(double OpenCircuitVolts, double InternalOhms);
