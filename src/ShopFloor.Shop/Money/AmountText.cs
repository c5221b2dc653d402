using System.Diagnostics.CodeAnalysis;
using System.Globalization;

namespace ShopFloor.Shop.Money;

/// <summary>Amounts as people write and read them. Reading is strict: what could mean two numbers is refused.</summary>
public static class AmountText
{
    private const char NoBreakSpace = '\u00A0';
    private const int LongestInput = 40;

    // Where a culture sets its sign close to the number, a code of letters needs a space between (patterns of NumberFormatInfo).
    private static readonly int[] SpacedPositive = [2, 3, 2, 3];
    private static readonly int[] SpacedNegative = [14, 9, 12, 11, 15, 8, 13, 10, 8, 9, 10, 11, 12, 13, 14, 15, 16];

    /// <summary>The amount with the currency's sign or code, placed as the culture does; spaces do not break at a line end.</summary>
    public static string Format(Amount amount, CultureInfo culture)
    {
        var format = (NumberFormatInfo)culture.NumberFormat.Clone();
        format.CurrencySymbol = amount.Currency.Symbol;
        format.CurrencyDecimalDigits = amount.Currency.MinorDigits;
        format.CurrencyDecimalSeparator = format.NumberDecimalSeparator;
        format.CurrencyGroupSeparator = format.NumberGroupSeparator;
        if (char.IsAsciiLetter(amount.Currency.Symbol[^1]))
        {
            format.CurrencyPositivePattern = SpacedPositive[format.CurrencyPositivePattern];
            format.CurrencyNegativePattern = SpacedNegative[format.CurrencyNegativePattern];
        }

        return amount.Value.ToString("C", format).Replace(' ', NoBreakSpace);
    }

    /// <summary>The bare number for an input field, with the culture's decimal sign and no grouping.</summary>
    public static string ForInput(Amount amount, CultureInfo culture) =>
        amount.Value.ToString("F" + amount.Currency.MinorDigits.ToString(CultureInfo.InvariantCulture), culture);

    /// <summary>
    /// Reads what a person typed, in his culture: digits, optional correct grouping, the culture's decimal sign with at most the
    /// currency's minor digits, an optional sign in front, the currency's own code or sign before or after.
    /// </summary>
    public static bool TryParse(
        string? input,
        Currency currency,
        CultureInfo culture,
        out Amount amount,
        [NotNullWhen(false)] out string? problem)
    {
        amount = Amount.Zero(currency);
        problem = null;
        var text = input?.Trim() ?? string.Empty;
        if (text.Length == 0)
        {
            problem = $"No amount was entered. {Accepted(currency, culture)}";
            return false;
        }

        if (text.Length > LongestInput)
        {
            problem = $"The amount is too long to read. {Accepted(currency, culture)}";
            return false;
        }

        var format = culture.NumberFormat;
        var rest = TakeCurrency(text, currency);
        var negative = rest.Length > 0 && (rest[0] is '-' or '\u2212' || rest.StartsWith(format.NegativeSign, StringComparison.Ordinal));
        if (negative || rest.StartsWith('+'))
        {
            rest = TakeCurrency((rest.StartsWith(format.NegativeSign, StringComparison.Ordinal) ? rest[format.NegativeSign.Length..] : rest[1..]).Trim(), currency);
        }

        var parts = rest.Split(format.NumberDecimalSeparator);
        var fraction = parts.Length == 2 ? parts[1] : string.Empty;
        if (parts.Length > 2 || !TryUngroup(parts[0], format, out var whole) || fraction.Any(c => !char.IsAsciiDigit(c)) || (parts.Length == 2 && fraction.Length == 0))
        {
            problem = $"'{text}' is not an amount. {Accepted(currency, culture)}";
            return false;
        }

        if (fraction.Length > currency.MinorDigits)
        {
            problem = currency.MinorDigits == 0
                ? $"'{text}': {currency.Code} has no decimals. {Accepted(currency, culture)}"
                : string.Create(CultureInfo.InvariantCulture, $"'{text}': {currency.Code} has {currency.MinorDigits} decimals at most. ") + Accepted(currency, culture);
            return false;
        }

        // The longest input has more digits than a decimal holds; those are too large in any case.
        var readable = decimal.TryParse(whole + "." + fraction + "0", NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var value);
        if (!readable || value > Amount.Largest)
        {
            problem = $"'{text}' is larger than an amount may be ({new Amount(Amount.Largest, currency).Format(culture)}).";
            return false;
        }

        amount = new Amount(negative ? -value : value, currency);
        return true;
    }

    internal static string Digits(Amount amount) => ForInput(amount, CultureInfo.InvariantCulture);

    private static string Accepted(Currency currency, CultureInfo culture) =>
        $"Write it like {ForInput(new Amount(1234.56m, currency), culture)} or {new Amount(1234.56m, currency).Format(culture)}.";

    private static string TakeCurrency(string text, Currency currency)
    {
        foreach (var mark in (string[])[currency.Code, currency.Symbol])
        {
            if (text.StartsWith(mark, StringComparison.OrdinalIgnoreCase))
            {
                return text[mark.Length..].Trim();
            }

            if (text.EndsWith(mark, StringComparison.OrdinalIgnoreCase))
            {
                return text[..^mark.Length].Trim();
            }
        }

        return text;
    }

    private static bool TryUngroup(string text, NumberFormatInfo format, out string digits)
    {
        digits = string.Empty;
        var separator = SimpleMark(format.NumberGroupSeparator);
        var simple = string.Concat(text.Select(c => SimpleMark(c.ToString())));
        var groups = separator.Length == 0 ? [simple] : simple.Split(separator);
        if (groups.Any(group => group.Length == 0 || group.Any(c => !char.IsAsciiDigit(c))))
        {
            return false;
        }

        // Walk from the right: every group but the leftmost must have exactly the culture's size.
        var sizes = format.NumberGroupSizes;
        for (var i = groups.Length - 1; i >= 0 && groups.Length > 1; i--)
        {
            var fromRight = groups.Length - 1 - i;
            var size = sizes.Length == 0 ? 0 : sizes[Math.Min(fromRight, sizes.Length - 1)];
            if (size == 0 || (i > 0 ? groups[i].Length != size : groups[i].Length > size))
            {
                return false;
            }
        }

        digits = string.Concat(groups);
        return true;
    }

    // Keyboards have neither the narrow no-break space nor the typographic apostrophe that some cultures group with.
    private static string SimpleMark(string mark) => mark switch
    {
        "\u00A0" or "\u202F" or "\u2009" => " ",
        "\u2019" => "'",
        _ => mark,
    };
}
