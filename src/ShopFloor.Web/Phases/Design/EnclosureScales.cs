using ShopFloor.Engineering.Units;
using ShopFloor.Web.Components;

namespace ShopFloor.Web.Phases.Design;

/// <summary>Units of boxes. Factors are exact: see <see cref="ExactFactors"/>.</summary>
internal static class EnclosureScales
{
    public static readonly UnitScale Litres = new("l", "litres", 0.001, 2);
    public static readonly UnitScale CubicFeet = new("ft³", "cubic feet", 0.028316846592, 3);
    public static readonly UnitScale CubicInches = new("in³", "cubic inches", 16.387064e-6, 1);
    public static readonly UnitScale Millimeters = new("mm", "millimetres", 0.001, 1);
    public static readonly UnitScale Inches = new("in", "inches", ExactFactors.MetersPerInch, 3);
    public static readonly UnitScale Centimeters = new("cm", "centimetres", 0.01, 2);
    public static readonly UnitScale SquareCentimeters = new("cm²", "square centimetres", 1e-4, 1);
    public static readonly UnitScale SquareInches = new("in²", "square inches", ExactFactors.MetersPerInch * ExactFactors.MetersPerInch, 2);
    public static readonly UnitScale Grams = new("g", "grams", 0.001, 1);
    public static readonly UnitScale Ounces = new("oz", "ounces", ExactFactors.KilogramsPerOunce, 2);
    public static readonly UnitScale Kilograms = new("kg", "kilograms", 1, 3);
    public static readonly UnitScale Pounds = new("lb", "pounds", ExactFactors.KilogramsPerPound, 3);
    public static readonly UnitScale Percent = new("%", "percent", 1, 1);
    public static readonly UnitScale Decibels = new("dB", "decibels", 1, 1);
    public static readonly UnitScale Hertz = new("Hz", "hertz", 1, 1);
    public static readonly UnitScale Watts = new("W", "watts", 1, 1);
    public static readonly UnitScale Number = new("", "", 1, 3);
    public static readonly UnitScale Hours = new("h", "hours", 1, 2);
}
