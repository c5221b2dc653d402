namespace ShopFloor.Engineering.Units;

/// <summary>The units a person reads and writes; calculations always run in SI.</summary>
public enum UnitSystem
{
    /// <summary>kg, m, mm, km, mm², °C.</summary>
    Metric,

    /// <summary>lb, ft, in, mi, AWG, °F (US customary).</summary>
    Us,
}
