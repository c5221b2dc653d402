using System.Globalization;
using System.Text;

namespace ShopFloor.Engineering.Units;

/// <summary>Reads a number as people type it, without ever guessing between a decimal mark and a thousands mark.</summary>
/// <remarks>
/// The rules, in order:
/// <list type="number">
/// <item>Spaces (plain, no-break, thin) and apostrophes are thousands marks and must cut the whole part into groups of exactly three.</item>
/// <item>When both a point and a comma appear, the one that comes last is the decimal mark; the other must cut groups of three.</item>
/// <item>The same mark more than once is a thousands mark and must cut groups of three.</item>
/// <item>One mark that could not be a thousands mark (not exactly three digits behind it, or a zero, nothing, or more than three digits
/// before it) is the decimal mark in every culture: "1,5" and "1.5" are both one and a half.</item>
/// <item>One mark with one to three digits before it and exactly three behind it: when it is the culture's own decimal mark it is
/// decimal ("1,234" is 1.234 where the comma is the decimal mark); otherwise it is refused, because people use it both ways.</item>
/// </list>
/// Exponents, digits of other scripts and anything else are refused.
/// </remarks>
public static class UserNumber
{
    private const int LongestText = 40;
    private const string Apostrophes = "'\u2019";
    private const string Spaces = " \u00a0\u202f\u2009";

    /// <summary>Reads <paramref name="text"/> by the rules of this type.</summary>
    /// <param name="text">What was typed.</param>
    /// <param name="provider">The culture of the person who typed it.</param>
    /// <returns>The number, or why it was refused.</returns>
    public static ParsedQuantity Parse(string? text, IFormatProvider provider)
    {
        var format = NumberFormatInfo.GetInstance(provider);
        var example = 1.5.ToString("0.0", format);
        if (string.IsNullOrWhiteSpace(text))
            return ParsedQuantity.Refused($"Nothing was entered; enter a number such as {example}.");

        var shown = text.Trim();
        if (shown.Length > LongestText)
            return ParsedQuantity.Refused($"The number is too long; enter at most {LongestText} characters.");

        var digits = WithPlainMarks(shown, format, out var negative, out var decimalMark);
        if (digits.Length == 0 || !digits.Any(char.IsAsciiDigit) || digits.Any(c => !IsNumberCharacter(c)))
            return ParsedQuantity.Refused($"\u201c{shown}\u201d is not a number; enter a number such as {example}.");

        var wholeAndFraction = Split(digits, decimalMark, out var ambiguous);
        if (ambiguous)
            return ParsedQuantity.Refused(Ambiguous(shown, digits, format));
        if (wholeAndFraction is not { } parts)
            return ParsedQuantity.Refused($"\u201c{shown}\u201d has its thousands marks in odd places; enter a number such as {example}.");

        var value = double.Parse($"{parts.Whole}.{parts.Fraction}0", NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture);
        return ParsedQuantity.Read(negative ? -value : value);
    }

    private static string WithPlainMarks(string shown, NumberFormatInfo format, out bool negative, out char decimalMark)
    {
        negative = shown[0] is '-' or '\u2212';
        var body = shown[0] is '-' or '\u2212' or '+' ? shown[1..].TrimStart() : shown;
        decimalMark = format.NumberDecimalSeparator == "," ? ',' : '.';
        var plain = new StringBuilder(body.Length);
        foreach (var c in body)
        {
            if (Spaces.Contains(c) || Apostrophes.Contains(c))
                plain.Append(' ');
            else if (format.NumberDecimalSeparator.Length == 1 && c == format.NumberDecimalSeparator[0])
                plain.Append(decimalMark);
            else
                plain.Append(c);
        }

        return plain.ToString();
    }

    private static bool IsNumberCharacter(char c) => char.IsAsciiDigit(c) || c is '.' or ',' or ' ';

    private static (string Whole, string Fraction)? Split(string digits, char decimalMark, out bool ambiguous)
    {
        ambiguous = false;
        var points = digits.Count(c => c == '.');
        var commas = digits.Count(c => c == ',');
        var spaced = digits.Contains(' ');

        if (points + commas == 0)
            return Grouped(digits, ' ') is { } whole ? (whole, "") : null;

        if (points > 0 && commas > 0)
        {
            var mark = digits[digits.LastIndexOfAny(['.', ','])];
            var thousands = mark == '.' ? ',' : '.';
            return spaced || digits.Count(c => c == mark) > 1 ? null : AtMark(digits, digits.IndexOf(mark), thousands);
        }

        if (points + commas > 1)
            return !spaced && Grouped(digits, points > 0 ? '.' : ',') is { } whole ? (whole, "") : null;

        var at = digits.IndexOfAny(['.', ',']);
        var couldBeThousands = !spaced && at is >= 1 and <= 3 && digits[0] != '0' && digits.Length - at - 1 == 3;
        if (couldBeThousands && digits[at] != decimalMark)
        {
            ambiguous = true;
            return null;
        }

        return AtMark(digits, at, ' ');
    }

    private static (string Whole, string Fraction)? AtMark(string digits, int at, char thousands)
    {
        var fraction = digits[(at + 1)..];
        if (fraction.Any(c => !char.IsAsciiDigit(c)))
            return null;
        if (at == 0)
            return fraction.Length == 0 ? null : ("0", fraction);
        return Grouped(digits[..at], thousands) is { } whole ? (whole, fraction) : null;
    }

    /// <summary>The digits without their thousands marks, or null when the marks do not cut groups of three.</summary>
    private static string? Grouped(string digits, char thousands)
    {
        var groups = digits.Split(thousands);
        if (groups.Any(g => g.Length == 0 || g.Any(c => !char.IsAsciiDigit(c))))
            return null;
        if (groups.Length > 1 && (groups[0].Length > 3 || groups.Skip(1).Any(g => g.Length != 3)))
            return null;
        return string.Concat(groups);
    }

    private static string Ambiguous(string shown, string digits, NumberFormatInfo format)
    {
        var at = digits.IndexOfAny(['.', ',']);
        var asWhole = digits.Remove(at, 1);
        var asDecimal = $"{digits[..at]}{format.NumberDecimalSeparator}{digits[(at + 1)..]}";
        return $"\u201c{shown}\u201d can mean {asWhole} or {asDecimal}; write {asWhole} or {asDecimal}.";
    }
}
