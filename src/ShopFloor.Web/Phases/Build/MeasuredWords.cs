using System.Globalization;
using ShopFloor.Engineering.Electrical.Commissioning;
using ShopFloor.Shop.Phases.Build;

namespace ShopFloor.Web.Phases.Build;

/// <summary>Measured values in words and in the reader's culture.</summary>
internal static class MeasuredWords
{
    // Two decimals of a volt: what a meter shows.
    public static string Number(double value, string unit) => value.ToString(unit == "V" ? "0.00" : "0.#", CultureInfo.CurrentCulture) + "\u00A0" + unit;

    public static string Predicted(CommissioningPoint point) =>
        point.Predicted is { } predicted ? (point.PredictedIsPart ? "at least " : "") + Number(predicted, point.Unit) : "not known";

    public static string Accepted(CommissioningPoint point) => (point.Lowest, point.Highest) switch
    {
        ({ } low, { } high) when low > 0 => $"{Limit(low)} to {Limit(high)}\u00A0{point.Unit}",
        (_, { } high) => $"at most {Limit(high)}\u00A0{point.Unit}",
        ({ } low, null) => $"at least {Limit(low)}\u00A0{point.Unit}",
        _ => "any value",
    };

    public static string Verdict(MeasuredRow row) => row.Outside switch
    {
        null => "Not measured",
        0 => "Within limits",
        < 0 and var below => $"{Number(-below, row.Point.Unit)} too low",
        { } above => $"{Number(above, row.Point.Unit)} too high",
    };

    private static string Limit(double value) => value.ToString("0.0#", CultureInfo.CurrentCulture);
}
