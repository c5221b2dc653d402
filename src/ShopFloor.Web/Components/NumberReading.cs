using System.Globalization;
using System.Text;

namespace ShopFloor.Web.Components;

/// <summary>Reads a number as people type it: comma or point, spaces between thousands, a unit behind it.</summary>
/// <remarks>
/// A slip here is a factor of ten or a thousand in a cable or a price, so what can be read in two ways is refused with a
/// message instead of guessed. In every culture "1,5" and "1.5" are one and a half; "1,250" is refused where the decimal sign is a point.
/// </remarks>
public static class NumberReading
{
    private const char ArabicDecimal = '\u066B';

    /// <summary>Splits a typed text into its number and what stands behind it.</summary>
    /// <param name="text">The text as typed.</param>
    /// <param name="culture">The user's culture, used to write the number in messages.</param>
    /// <param name="number">The number read.</param>
    /// <param name="unit">What stood behind the number, trimmed; empty when nothing did.</param>
    /// <param name="problem">What is wrong, as the end of a sentence such as "Length: …"; null when read.</param>
    public static bool TryRead(string text, CultureInfo culture, out decimal number, out string unit, out string? problem)
    {
        number = 0;
        problem = null;
        var typed = text.Trim().Replace('\u2212', '-').Replace('\u00A0', ' ').Replace('\u202F', ' ')
            .Replace(ArabicDecimal, '.').Replace('\u066C', ',');
        var end = 0;
        while (end < typed.Length && (char.IsAsciiDigit(typed[end]) || "+-.,' \u2019".Contains(typed[end], StringComparison.Ordinal)))
            end++;
        unit = typed[end..].Trim();
        var digits = typed[..end].Trim();
        // A digit or a mark there is a piece of a number in a writing not understood here, not a unit.
        var rest = unit.Length > 0 && (char.IsDigit(unit[0]) || (char.IsPunctuation(unit[0]) && unit[0] is not ('%' or '"')));
        if (rest || !digits.Any(char.IsAsciiDigit))
        {
            problem = $"\u201C{text.Trim()}\u201D is not a number.";
            return false;
        }

        var sign = digits[0] is '-' ? -1m : 1m;
        digits = digits[0] is '-' or '+' ? digits[1..].Trim() : digits;
        if (!TryNormalise(digits, out var invariant) ||
            !decimal.TryParse(invariant, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out number))
        {
            problem = $"\u201C{text.Trim()}\u201D is not a number.";
            return false;
        }

        number *= sign;
        if (!text.Contains(ArabicDecimal, StringComparison.Ordinal) && CanBeThousands(digits, culture))
        {
            var asThousands = sign * decimal.Parse(digits.Replace(",", "", StringComparison.Ordinal).Replace(".", "", StringComparison.Ordinal), CultureInfo.InvariantCulture);
            problem = $"\u201C{text.Trim()}\u201D can be read as {number.ToString("0.###", culture)} or as {asThousands.ToString("0", culture)}. Write it without the thousands mark, or with fewer decimals.";
            return false;
        }

        return true;
    }

    // A lone separator before exactly three digits, after one to three digits that are not a bare zero, is doubtful unless
    // it is the decimal sign of the user's own culture: 1.125 in is ordinary where people write a decimal point.
    private static bool CanBeThousands(string digits, CultureInfo culture)
    {
        var at = digits.IndexOfAny(['.', ',']);
        return at is >= 1 and <= 3
            && digits[0] != '0'
            && digits.Length == at + 4
            && culture.NumberFormat.NumberDecimalSeparator != digits[at].ToString()
            && digits.IndexOfAny(['.', ','], at + 1) < 0
            && digits.All(c => char.IsAsciiDigit(c) || c is '.' or ',');
    }

    private static bool TryNormalise(string digits, out string invariant)
    {
        invariant = "";
        var separators = digits.Where(c => c is '.' or ',').Distinct().ToArray();
        var last = digits.LastIndexOfAny(['.', ',']);
        var lastCount = last < 0 ? 0 : digits.Count(c => c == digits[last]);
        // With two kinds of separator the last is the decimal one; a kind that repeats can only separate thousands.
        var decimalAt = separators.Length switch
        {
            0 => -1,
            1 => lastCount == 1 ? last : -1,
            _ => lastCount == 1 ? last : -2,
        };
        if (decimalAt == -2)
            return false;

        var whole = decimalAt < 0 ? digits : digits[..decimalAt];
        var groups = whole.Split(' ', '\'', '\u2019', '.', ',');
        if (groups.Length > 1 && (groups[0].Length is 0 or > 3 || groups.Skip(1).Any(group => group.Length != 3)))
            return false;

        var fraction = decimalAt < 0 ? "" : digits[(decimalAt + 1)..];
        if (groups.Concat([fraction]).Any(part => !part.All(char.IsAsciiDigit)))
            return false;

        var result = new StringBuilder().AppendJoin("", groups);
        if (result.Length == 0)
            result.Append('0');
        if (fraction.Length > 0)
            result.Append('.').Append(fraction);
        invariant = result.ToString();
        return true;
    }
}
