using System.Globalization;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Web.Components;

/// <summary>How a quantity kept in SI is shown and read in one unit.</summary>
/// <param name="Symbol">Unit symbol, for example <c>mm</c>.</param>
/// <param name="Name">Unit name as read out, in the plural, for example <c>millimetres</c>.</param>
/// <param name="SiPerUnit">How many SI units one of this unit is, for example 0.001.</param>
/// <param name="Decimals">Most decimals shown.</param>
/// <param name="SiAtZero">SI value at zero of this unit; not zero only for temperatures.</param>
public sealed record UnitScale(string Symbol, string Name, double SiPerUnit, int Decimals, double SiAtZero = 0)
{
    /// <summary>From this unit to SI.</summary>
    public double ToSi(double value) => (value * SiPerUnit) + SiAtZero;

    /// <summary>From SI to this unit.</summary>
    public double FromSi(double si) => (si - SiAtZero) / SiPerUnit;

    /// <summary>The number alone, rounded to <see cref="Decimals"/>, in the culture given.</summary>
    public string Number(double si, CultureInfo culture) =>
        Quantity.FormatRounded(FromSi(si), Decimals, culture);

    /// <summary>Number and symbol, held together by a no-break space.</summary>
    public string Text(double si, CultureInfo culture) => $"{Number(si, culture)}\u00A0{Symbol}";
}
