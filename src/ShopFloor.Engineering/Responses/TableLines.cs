using System.Globalization;
using System.Text;

namespace ShopFloor.Engineering.Responses;

/// <summary>Lines of a text and the numbers in them.</summary>
internal static class TableLines
{
    /// <summary>Longest line, characters.</summary>
    public const int MostCharacters = 4_096;

    public static readonly Encoding Utf8 = new UTF8Encoding(false, false);

    /// <summary>How columns and decimals may be written; the order decides where a table reads alike in two ways.</summary>
    public static readonly (ColumnSeparator Separator, bool DecimalComma)[] Ways =
    [
        (ColumnSeparator.Tab, false), (ColumnSeparator.Tab, true), (ColumnSeparator.Semicolon, false), (ColumnSeparator.Semicolon, true),
        (ColumnSeparator.Comma, false), (ColumnSeparator.Blanks, false), (ColumnSeparator.Blanks, true),
    ];

    /// <summary>The text of a file: UTF-16 by its mark, else UTF-8; what is neither reads as replacement marks, which only titles may hold.</summary>
    public static string Decode(ReadOnlySpan<byte> file) => file switch
    {
        [0xFF, 0xFE, .. var little] => Encoding.Unicode.GetString(little),
        [0xFE, 0xFF, .. var big] => Encoding.BigEndianUnicode.GetString(big),
        [0xEF, 0xBB, 0xBF, .. var rest] => Utf8.GetString(rest),
        _ => Utf8.GetString(file),
    };

    public static bool IsComment(ReadOnlySpan<char> line) =>
        line.IsEmpty || line[0] is '*' or '#' or ';' || line.StartsWith("//", StringComparison.Ordinal);

    /// <summary>Splits a line; blanks around and quotes around a field are dropped.</summary>
    public static List<string> Split(string line, ColumnSeparator separator)
    {
        string[] parts = separator switch
        {
            ColumnSeparator.Tab => line.Split('\t'),
            ColumnSeparator.Semicolon => line.Split(';'),
            ColumnSeparator.Comma => line.Split(','),
            _ => line.Split([' ', '\t', '\u00a0'], StringSplitOptions.RemoveEmptyEntries),
        };
        List<string> fields = [.. parts.Select(part => part.Trim().Trim('"').Trim())];
        // A separator at the end of a line opens no column.
        while (fields.Count > 0 && fields[^1].Length == 0)
            fields.RemoveAt(fields.Count - 1);
        return fields;
    }

    /// <summary>A number, finite, without thousands' marks.</summary>
    public static bool TryNumber(string field, bool decimalComma, out double value)
    {
        value = 0;
        if (decimalComma && field.Contains('.', StringComparison.Ordinal))
            return false;
        return double.TryParse(decimalComma ? field.Replace(',', '.') : field, NumberStyles.Float, CultureInfo.InvariantCulture, out value) && double.IsFinite(value);
    }

    /// <summary>All fields as numbers, or null when one is none or there are fewer than two.</summary>
    public static double[]? Numbers(List<string> fields, bool decimalComma)
    {
        if (fields.Count < 2)
            return null;
        var numbers = new double[fields.Count];
        for (var n = 0; n < numbers.Length; n++)
        {
            if (!TryNumber(fields[n], decimalComma, out numbers[n]))
                return null;
        }

        return numbers;
    }
}
