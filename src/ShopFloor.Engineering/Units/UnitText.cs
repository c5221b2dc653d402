using System.Globalization;

namespace ShopFloor.Engineering.Units;

/// <summary>How numbers are written inside texts such as findings: in whose units and culture.</summary>
/// <param name="system">Units of the reader.</param>
/// <param name="provider">Culture of the reader.</param>
public sealed class UnitText(UnitSystem system, IFormatProvider provider)
{
    /// <summary>Metric units and the invariant culture: for stored texts and the HTTP API.</summary>
    public static UnitText Invariant { get; } = new(UnitSystem.Metric, CultureInfo.InvariantCulture);

    /// <summary>The quantity with its unit.</summary>
    /// <param name="value">Value in the stored unit of <paramref name="kind"/>.</param>
    /// <param name="kind">Kind of quantity.</param>
    /// <param name="significantDigits">Digits kept, 1 to 10.</param>
    public string Of(double value, QuantityKind kind, int significantDigits = 3) =>
        Quantity.Format(value, kind, system, provider, significantDigits);

    /// <summary>A pure number.</summary>
    /// <param name="value">The number.</param>
    /// <param name="significantDigits">Digits kept, 1 to 10.</param>
    public string Number(double value, int significantDigits = 3) => Quantity.FormatNumber(value, provider, significantDigits);

    /// <summary>A current, A.</summary>
    /// <param name="amperes">Current, A.</param>
    public string Amperes(double amperes) => Of(amperes, QuantityKind.Current);

    /// <summary>A voltage, V.</summary>
    /// <param name="volts">Voltage, V.</param>
    public string Volts(double volts) => Of(volts, QuantityKind.Voltage);

    /// <summary>A power, W.</summary>
    /// <param name="watts">Power, W.</param>
    public string Watts(double watts) => Of(watts, QuantityKind.Power);

    /// <summary>A length, m or ft.</summary>
    /// <param name="meters">Length, m.</param>
    public string Meters(double meters) => Of(meters, QuantityKind.Length);

    /// <summary>A short length, mm or in.</summary>
    /// <param name="meters">Length, m.</param>
    public string Millimeters(double meters) => Of(meters, QuantityKind.SmallLength);

    /// <summary>A mass, kg or lb.</summary>
    /// <param name="kilograms">Mass, kg.</param>
    public string Kilograms(double kilograms) => Of(kilograms, QuantityKind.Mass);

    /// <summary>A temperature, °C or °F.</summary>
    /// <param name="celsius">Temperature, °C.</param>
    public string Celsius(double celsius) => Of(celsius, QuantityKind.Temperature);

    /// <summary>A percentage.</summary>
    /// <param name="percent">Percent, 3 meaning 3 %.</param>
    public string Percent(double percent) => Number(percent) + "\u00a0%";

    /// <summary>A number with a symbol that is the same in both systems, such as Ω, F or h.</summary>
    /// <param name="value">The number.</param>
    /// <param name="symbol">Unit symbol.</param>
    /// <param name="significantDigits">Digits kept, 1 to 10.</param>
    public string With(double value, string symbol, int significantDigits = 3) => Number(value, significantDigits) + "\u00a0" + symbol;

    internal string Range(double minimum, double maximum, QuantityKind? kind) => kind is { } known
        ? $"{Of(minimum, known, 4)} to {Of(maximum, known, 4)}"
        : $"{Number(minimum, 4)} to {Number(maximum, 4)}";
}
