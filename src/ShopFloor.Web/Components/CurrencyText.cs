using System.Globalization;

namespace ShopFloor.Web.Components;

/// <summary>Writes amounts the user's way with the currency's own sign, which need not be the culture's.</summary>
public static class CurrencyText
{
    /// <summary>The sign for common currencies, otherwise the ISO 4217 code.</summary>
    public static string Sign(string currency) => currency switch
    {
        "USD" => "$",
        "EUR" => "€",
        "GBP" => "£",
        _ => currency,
    };

    /// <summary>Amount with sign.</summary>
    public static string Format(decimal amount, string currency, CultureInfo culture, int decimals = 2)
    {
        var format = (NumberFormatInfo)culture.NumberFormat.Clone();
        format.CurrencySymbol = Sign(currency);
        format.CurrencyDecimalDigits = decimals;
        if (format.CurrencySymbol.Length > 1)
        {
            // A code such as CHF needs room beside the number.
            format.CurrencyPositivePattern = format.CurrencyPositivePattern % 2 == 0 ? 2 : 3;
            format.CurrencyNegativePattern = format.CurrencyPositivePattern == 2 ? 9 : 8;
        }

        return amount.ToString("C", format).Replace(' ', '\u00A0');
    }
}
