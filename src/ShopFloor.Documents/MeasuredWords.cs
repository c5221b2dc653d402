using System.Globalization;
using ShopFloor.Shop.Phases.Build;

namespace ShopFloor.Documents;

/// <summary>Measured values in words and in the reader's culture, the same on screens and papers.</summary>
public static class MeasuredWords
{
    // Two decimals of a volt: what a meter shows.
    public static string Number(double value, string unit) => value.ToString(unit == "V" ? "0.00" : "0.#", CultureInfo.CurrentCulture) + "\u00A0" + unit;

    public static string Predicted(double? predicted, bool isPart, string unit) =>
        predicted is { } value ? (isPart ? "at least " : "") + Number(value, unit) : "not known";

    public static string Accepted(double? lowest, double? highest, string unit) => (lowest, highest) switch
    {
        ({ } low, { } high) when low > 0 => $"{Limit(low, unit)} to {Limit(high, unit)}\u00A0{unit}",
        (_, { } high) => $"at most {Limit(high, unit)}\u00A0{unit}",
        ({ } low, null) => $"at least {Limit(low, unit)}\u00A0{unit}",
        _ => "any value",
    };

    public static string Verdict(MeasuredRow row) => row.Outside switch
    {
        null => "Not measured",
        0 => "Within limits",
        < 0 and var below => $"{Number(-below, row.Point.Unit)} too low",
        { } above => $"{Number(above, row.Point.Unit)} too high",
    };

    private static string Limit(double value, string unit) => value.ToString(unit == "V" ? "0.0#" : "0.#", CultureInfo.CurrentCulture);
}
