namespace ShopFloor.Engineering.Units;

/// <summary>The units a person prefers to read and type.</summary>
public enum UnitSystem
{
    /// <summary>Metres, kilograms, square millimetres, degrees Celsius.</summary>
    Metric,

    /// <summary>US customary: feet, pounds, AWG, degrees Fahrenheit.</summary>
    Us,
}
