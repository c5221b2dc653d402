namespace ShopFloor.Engineering.Signal.Loads;

/// <summary>Continuous power of an amplifier into a load.</summary>
/// <param name="Ohms">Load, Ω (0.25 to 64).</param>
/// <param name="Watts">Power, W (0.1 to 40 000).</param>
public sealed record RatedPower(double Ohms, double Watts);
