using System.Globalization;
using System.Text;
using ShopFloor.Engineering.Explained;

namespace ShopFloor.Engineering.Acoustics.Drivers;

/// <summary>Impedance of a driver at a frequency.</summary>
/// <param name="Hertz">Frequency, Hz.</param>
/// <param name="Ohms">Magnitude, Ω.</param>
/// <param name="Degrees">Phase, °; null when not measured.</param>
public sealed record ImpedancePoint(double Hertz, double Ohms, double? Degrees = null);

/// <summary>A table read.</summary>
/// <param name="Points">Points with rising frequency; empty while there are problems.</param>
/// <param name="Problems">What could not be read, by line.</param>
public sealed record ImpedanceReading(IReadOnlyList<ImpedancePoint> Points, IReadOnlyList<InputProblem> Problems);

/// <summary>Reads a measured impedance from text: frequency, ohms and, where there is one, phase in degrees.</summary>
/// <remarks>
/// Columns apart by tab, semicolon, comma or blanks; decimal point or, where the comma does not part the columns, decimal comma. Empty lines,
/// lines that begin with a sign of a comment (#, *, %, ;, //, quote) and a heading before the first number are skipped.
/// </remarks>
public static class ImpedanceTable
{
    /// <summary>Most characters of a text.</summary>
    public const int MostCharacters = 4_000_000;

    /// <summary>Most points of a table.</summary>
    public const int MostPoints = 20_000;

    private const int MostProblems = 20;

    /// <summary>Reads a text.</summary>
    /// <param name="table">The text.</param>
    /// <param name="field">Name of the field in problems.</param>
    public static ImpedanceReading Parse(string table, string field = "Table")
    {
        ArgumentNullException.ThrowIfNull(table);
        if (table.Length > MostCharacters)
            return new ImpedanceReading([], [new InputProblem(field, $"The text has {table.Length} characters; at most {MostCharacters} are read.")]);
        var rows = new ImpedanceRows(field);
        var lines = table.Split('\n');
        var separator = Separator(lines);
        for (var n = 0; n < lines.Length && rows.Problems.Count < MostProblems; n++)
        {
            var line = lines[n].Trim().TrimStart('\ufeff');
            if (line.Length == 0 || IsComment(line))
                continue;
            var cells = Cells(line, separator);
            // A heading stands before the first row of numbers.
            if (rows.Count == 0 && Number(cells[0], separator) is null && char.IsLetter(line.TrimStart('"').FirstOrDefault()))
                continue;
            if (Row(cells, separator) is not { } point)
                rows.Tell(n + 1, $"“{Short(line)}” is not frequency, ohms and phase; frequency 0.1 to 200000 Hz, ohms above 0, phase −180 to 180°.");
            else if (!rows.Add(n + 1, point))
                break;
        }

        return rows.Reading();
    }

    /// <summary>Points as a text that <see cref="Parse"/> reads back exactly.</summary>
    /// <param name="points">Points.</param>
    public static string Write(IReadOnlyList<ImpedancePoint> points)
    {
        ArgumentNullException.ThrowIfNull(points);
        var text = new StringBuilder();
        foreach (var point in points)
            text.Append(CultureInfo.InvariantCulture, $"{point.Hertz:R}\t{point.Ohms:R}{(point.Degrees is { } degrees ? string.Create(CultureInfo.InvariantCulture, $"\t{degrees:R}") : "")}\n");
        return text.ToString();
    }

    private static bool IsComment(string line) => line[0] is '#' or '*' or '%' or ';' or '!' or '\'' || line.StartsWith("//", StringComparison.Ordinal);

    // Tab and semicolon always part columns. A comma does where blanks alone would not give two numbers.
    private static char Separator(string[] lines)
    {
        foreach (var raw in lines)
        {
            var line = raw.Trim();
            if (line.Length == 0 || IsComment(line) || !char.IsAsciiDigit(line[0]))
                continue;
            if (line.Contains('\t', StringComparison.Ordinal))
                return '\t';
            if (line.Contains(';', StringComparison.Ordinal))
                return ';';
            var blanks = line.Split(' ', StringSplitOptions.RemoveEmptyEntries);
            return blanks.Length >= 2 && !blanks[0].EndsWith(',') && !blanks[1].StartsWith(',') ? ' ' : ',';
        }

        return ',';
    }

    private static string[] Cells(string line, char separator) =>
        line.Split(separator, separator == ' ' ? StringSplitOptions.RemoveEmptyEntries : StringSplitOptions.None) is var cells && separator == ' '
            ? cells
            : [.. cells.Select(cell => cell.Trim())];

    private static ImpedancePoint? Row(string[] cells, char separator)
    {
        if (cells.Length < 2 || Number(cells[0], separator) is not { } hertz || Number(cells[1], separator) is not { } ohms)
            return null;
        // More cells than columns: decimal commas between commas, which cannot be told apart.
        if (separator == ',' && cells.Count(cell => cell.Length > 0) > 3)
            return null;
        double? degrees = null;
        if (cells.Length > 2 && cells[2].Length > 0)
        {
            if (Number(cells[2], separator) is not { } phase)
                return null;
            degrees = phase;
        }

        return ImpedanceRows.Accepts(hertz, ohms, degrees) ? new ImpedancePoint(hertz, ohms, degrees) : null;
    }

    private static double? Number(string cell, char separator)
    {
        var plain = separator != ',' && !cell.Contains('.', StringComparison.Ordinal) ? cell.Replace(',', '.') : cell;
        return double.TryParse(plain, NumberStyles.Float & ~NumberStyles.AllowTrailingWhite, CultureInfo.InvariantCulture, out var value) && double.IsFinite(value) ? value : null;
    }

    private static string Short(string line) => line.Length <= 40 ? line : line[..40] + "…";
}
