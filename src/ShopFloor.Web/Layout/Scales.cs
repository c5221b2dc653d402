using ShopFloor.Engineering.Units;
using ShopFloor.Web.Components;

namespace ShopFloor.Web.Layout;

/// <summary>The units the pages read and show. Factors are exact by definition (NIST SP 811, appendix B).</summary>
public static class Scales
{
    public static readonly UnitScale Kilograms = new("kg", "kilograms", 1, 2);
    public static readonly UnitScale Pounds = new("lb", "pounds", ExactFactors.KilogramsPerPound, 2);
    public static readonly UnitScale Meters = new("m", "metres", 1, 2);
    public static readonly UnitScale Feet = new("ft", "feet", ExactFactors.MetersPerFoot, 2);
    public static readonly UnitScale Kilometers = new("km", "kilometres", 1, 0);
    public static readonly UnitScale MilesInKilometers = new("mi", "miles", ExactFactors.MetersPerMile / 1000, 0);
    public static readonly UnitScale Litres = new("l", "litres", 1, 1);
    public static readonly UnitScale CubicFeetInLitres = new("ft³", "cubic feet", 28.316846592, 2);
    public static readonly UnitScale Volts = new("V", "volts", 1, 2);
    public static readonly UnitScale Amperes = new("A", "amperes", 1, 2);
    public static readonly UnitScale AmpereHours = new("Ah", "ampere-hours", 1, 1);
    public static readonly UnitScale Celsius = new("°C", "degrees Celsius", 1, 0);
    public static readonly UnitScale Fahrenheit = new("°F", "degrees Fahrenheit", 1 / 1.8, 0, -32 / 1.8);
    public static readonly UnitScale Decibels = new("dB", "decibels", 1, 2);
    public static readonly UnitScale Hertz = new("Hz", "hertz", 1, 1);
    public static readonly UnitScale MillisecondsInSeconds = new("ms", "milliseconds", 0.001, 3);
    public static readonly UnitScale MicrosecondsInSeconds = new("µs", "microseconds", 0.000001, 1);
    public static readonly UnitScale Milliohms = new("mΩ", "milliohms", 1, 2);
    public static readonly UnitScale Percent = new("%", "percent", 1, 1);

    /// <summary>Plain counts of something.</summary>
    public static UnitScale Count(string symbol) => new(symbol, symbol, 1, 0);
}
