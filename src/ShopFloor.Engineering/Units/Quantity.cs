using System.Globalization;

namespace ShopFloor.Engineering.Units;

/// <summary>Shows quantities in the units a person uses. Factors: <see cref="ExactFactors"/>.</summary>
public static class Quantity
{
    /// <summary>What a number that is not finite is shown as.</summary>
    public const string NotANumber = "\u2014";

    private const string NoBreakSpace = "\u00a0";

    /// <summary>Symbol of the unit shown, for example "kg" or "lb".</summary>
    /// <param name="kind">Kind of quantity.</param>
    /// <param name="system">Units of the reader.</param>
    public static string Symbol(QuantityKind kind, UnitSystem system) => (kind, system) switch
    {
        (QuantityKind.Mass, UnitSystem.Metric) => "kg",
        (QuantityKind.Mass, _) => "lb",
        (QuantityKind.Length, UnitSystem.Metric) => "m",
        (QuantityKind.Length, _) => "ft",
        (QuantityKind.SmallLength, UnitSystem.Metric) => "mm",
        (QuantityKind.SmallLength, _) => "in",
        (QuantityKind.Distance, UnitSystem.Metric) => "km",
        (QuantityKind.Distance, _) => "mi",
        (QuantityKind.ConductorArea, UnitSystem.Metric) => "mm²",
        (QuantityKind.ConductorArea, _) => "AWG",
        (QuantityKind.Temperature, UnitSystem.Metric) => "°C",
        (QuantityKind.Temperature, _) => "°F",
        (QuantityKind.Voltage, _) => "V",
        (QuantityKind.Current, _) => "A",
        (QuantityKind.Power, _) => "W",
        (QuantityKind.Energy, _) => "Wh",
        _ => throw new ArgumentOutOfRangeException(nameof(kind)),
    };

    /// <summary>The stored value in the unit shown. Conductor area stays in mm² here: a gauge is a label, not a number.</summary>
    /// <param name="value">Value in the stored unit of <paramref name="kind"/>.</param>
    /// <param name="kind">Kind of quantity.</param>
    /// <param name="system">Units of the reader.</param>
    public static double ToShown(double value, QuantityKind kind, UnitSystem system) => kind switch
    {
        QuantityKind.Temperature => system == UnitSystem.Us ? value * 1.8 + 32 : value,
        _ => value / StoredPerShown(kind, system),
    };

    /// <summary>The value with its unit, rounded to significant digits; whole digits are never rounded away.</summary>
    /// <remarks>
    /// Numbers of five whole digits and more are grouped with a no-break space, never a point or comma (NIST SP 811, 10.5.3). An area that is no gauge is shown in mm² with its neighbours.
    /// </remarks>
    /// <param name="value">Value in the stored unit of <paramref name="kind"/>.</param>
    /// <param name="kind">Kind of quantity.</param>
    /// <param name="system">Units of the reader.</param>
    /// <param name="provider">Culture of the reader.</param>
    /// <param name="significantDigits">Digits kept, 1 to 10.</param>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="significantDigits"/> is outside 1 to 10.</exception>
    public static string Format(
        double value, QuantityKind kind, UnitSystem system, IFormatProvider provider, int significantDigits = 3)
    {
        if (kind == QuantityKind.ConductorArea && system == UnitSystem.Us && double.IsFinite(value) && value > 0)
            return FormatGauge(value, provider, significantDigits);
        var number = FormatNumber(ToShown(value, kind, system), provider, significantDigits);
        return number + NoBreakSpace + (kind == QuantityKind.ConductorArea ? "mm²" : Symbol(kind, system));
    }

    /// <summary>A pure number rounded to significant digits; whole digits are never rounded away, trailing zeros are left off.</summary>
    /// <param name="value">The number.</param>
    /// <param name="provider">Culture of the reader.</param>
    /// <param name="significantDigits">Digits kept, 1 to 10.</param>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="significantDigits"/> is outside 1 to 10.</exception>
    public static string FormatNumber(double value, IFormatProvider provider, int significantDigits = 3)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(significantDigits, 1);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(significantDigits, 10);
        if (!double.IsFinite(value))
            return NotANumber;

        var magnitude = value == 0 ? 0 : (int)Math.Floor(Math.Log10(Math.Abs(value)));
        var decimals = Math.Clamp(significantDigits - 1 - magnitude, 0, 12);
        return FormatRounded(value, decimals, provider);
    }

    /// <summary>A pure number rounded to decimals, trailing zeros left off, grouped as <see cref="Format"/> groups.</summary>
    /// <param name="value">The number.</param>
    /// <param name="decimals">Most decimals kept, 0 to 12.</param>
    /// <param name="provider">Culture of the reader.</param>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="decimals"/> is outside 0 to 12.</exception>
    public static string FormatRounded(double value, int decimals, IFormatProvider provider)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(decimals);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(decimals, 12);
        if (!double.IsFinite(value))
            return NotANumber;
        var rounded = Math.Round(value, decimals, MidpointRounding.AwayFromZero);
        if (rounded == 0)
            rounded = 0; // drops the sign of a negative zero

        var format = (NumberFormatInfo)NumberFormatInfo.GetInstance(provider).Clone();
        format.NumberGroupSeparator = NoBreakSpace;
        format.NumberGroupSizes = [3];
        var pattern = Math.Abs(rounded) >= 10_000 ? "#,##0." : "0.";
        return rounded.ToString(pattern + new string('#', decimals), format);
    }

    private static double StoredPerShown(QuantityKind kind, UnitSystem system) => (kind, system) switch
    {
        (QuantityKind.SmallLength, UnitSystem.Metric) => 0.001,
        (QuantityKind.Mass, UnitSystem.Us) => ExactFactors.KilogramsPerPound,
        (QuantityKind.Length, UnitSystem.Us) => ExactFactors.MetersPerFoot,
        (QuantityKind.SmallLength, UnitSystem.Us) => ExactFactors.MetersPerInch,
        (QuantityKind.Distance, UnitSystem.Us) => ExactFactors.MetersPerMile / 1000,
        _ => 1,
    };

    private static string FormatGauge(double area, IFormatProvider provider, int significantDigits)
    {
        if (WireGauge.Matching(area) is { } match)
            return WireGauge.Label(match);
        var metric = FormatNumber(area, provider, significantDigits) + NoBreakSpace + "mm²";
        if (area > WireGauge.AreaSquareMillimeters(WireGauge.Largest))
            return $"{metric} (above {WireGauge.Label(WireGauge.Largest)})";
        if (area < WireGauge.AreaSquareMillimeters(WireGauge.Smallest))
            return $"{metric} (below {WireGauge.Label(WireGauge.Smallest)})";
        var smaller = WireGauge.Largest + 1;
        while (WireGauge.AreaSquareMillimeters(smaller) > area)
            smaller++;
        return $"{metric} (between {WireGauge.Label(smaller)} and {WireGauge.Label(smaller - 1)})";
    }
}
