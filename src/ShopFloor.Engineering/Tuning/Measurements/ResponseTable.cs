using System.Globalization;
using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Responses;

namespace ShopFloor.Engineering.Tuning.Measurements;

/// <summary>Reads tables of frequency, level and phase as measuring programs and meters write them.</summary>
/// <remarks>
/// Lines that begin with *, #, // or ; are comments. What stands before the first row of numbers is a header. A table is read in two steps:
/// <see cref="Propose"/> guesses how it is laid out, a person confirms, <see cref="Read"/> reads it and names every line it cannot take.
/// </remarks>
public static class ResponseTable
{
    /// <summary>Largest file, bytes.</summary>
    public const int MostBytes = 32 * 1024 * 1024;

    private const int MostProblems = 20;
    private const int Looked = 400;
    private const int Shown = 10;

    /// <summary>Guesses how a table is laid out.</summary>
    /// <param name="file">Its bytes.</param>
    /// <param name="mostBytes">Largest file taken, bytes.</param>
    public static ResponseTableProposal Propose(ReadOnlySpan<byte> file, int mostBytes = MostBytes)
    {
        if (Refused(file, mostBytes) is { } refused)
            return Nothing(refused);
        var lines = TableLines.Decode(file).Split('\n');
        var (best, bestScore) = (TableLines.Ways[0], 0);
        foreach (var way in TableLines.Ways)
        {
            var widths = Rows(lines, way).Take(Looked).Select(row => row.Numbers.Length).ToList();
            var score = widths.Count == 0 ? 0 : widths.GroupBy(width => width).Max(group => group.Count());
            if (score > bestScore)
                (best, bestScore) = (way, score);
        }

        if (bestScore < 2)
            return Nothing(new TableProblem(0, "No two lines hold at least two numbers each; a table has frequency and level in columns."));
        var rows = Rows(lines, best).ToList();
        var width = rows.Take(Looked).GroupBy(row => row.Numbers.Length).MaxBy(group => group.Count())!.Key; // there are rows
        var table = rows.Where(row => row.Numbers.Length >= width).ToList();
        var titles = TableTitles.Find(lines, table[0].Line, best.Separator, width, TableGuess.Names);
        var (layout, questions) = TableGuess.Of(best.Separator, best.DecimalComma, titles, width, [.. table.Take(Looked).Select(row => row.Numbers)], table[^1].Numbers);
        return new ResponseTableProposal(layout, titles, [.. table.Take(Shown).Select(row => row.Numbers)], table[0].Line, table.Count, questions, []);
    }

    /// <summary>Reads a table.</summary>
    /// <param name="file">Its bytes.</param>
    /// <param name="layout">How it is laid out, without problems.</param>
    /// <param name="mostBytes">Largest file taken, bytes.</param>
    /// <exception cref="ArgumentOutOfRangeException"><see cref="ResponseTableLayout.Validate"/> finds a problem; the parameter name is the field.</exception>
    public static ResponseTableReading Read(ReadOnlySpan<byte> file, ResponseTableLayout layout, int mostBytes = MostBytes)
    {
        ArgumentNullException.ThrowIfNull(layout);
        InputChecks.ThrowIfAny(layout.Validate());
        if (Refused(file, mostBytes) is { } refused)
            return new ResponseTableReading(null, 0, [refused]);
        var problems = new List<TableProblem>();
        var points = new List<(double Hertz, double Decibels, double Phase, int Line)>();
        var (skipped, number) = (0, 0);
        foreach (var line in TableLines.Decode(file).Split('\n'))
        {
            number++;
            var trimmed = line.Trim();
            var fields = TableLines.IsComment(trimmed) || trimmed.Length > TableLines.MostCharacters ? [] : TableLines.Split(trimmed, layout.Separator);
            if (fields.Count == 0 || points.Count == 0 && !StartsTable(fields, layout))
                skipped++;
            else if (Point(fields, layout, number, problems) is { } point)
                points.Add(point);
            if (problems.Count < MostProblems && points.Count <= FrequencyResponse.MostPoints)
                continue;
            if (points.Count > FrequencyResponse.MostPoints)
                problems.Add(new TableProblem(number, $"There are more than {FrequencyResponse.MostPoints} rows."));
            break;
        }

        // Some programs write from the highest frequency down.
        if (points.Count > 1 && points[0].Hertz > points[^1].Hertz)
            points.Reverse();
        for (var n = 1; n < points.Count && problems.Count < MostProblems; n++)
        {
            if (points[n].Hertz <= points[n - 1].Hertz)
            {
                problems.Add(new TableProblem(Math.Max(points[n].Line, points[n - 1].Line),
                    string.Create(CultureInfo.InvariantCulture, $"Frequency {points[n].Hertz:0.######} Hz in line {points[n].Line} does not go on from {points[n - 1].Hertz:0.######} Hz in line {points[n - 1].Line}; each must occur once and in order.")));
            }
        }

        if (problems.Count == 0 && points.Count < 2)
            problems.Add(new TableProblem(0, $"{points.Count} rows of numbers were found; at least 2 are needed."));
        if (problems.Count > 0)
            return new ResponseTableReading(null, skipped, problems);
        var response = new FrequencyResponse([.. points.Select(p => p.Hertz)], [.. points.Select(p => p.Decibels)], layout.PhaseColumn is null ? null : [.. points.Select(p => p.Phase)]);
        return new ResponseTableReading(response, skipped, []);
    }

    private static bool StartsTable(List<string> fields, ResponseTableLayout layout) =>
        layout.FrequencyColumn < fields.Count && layout.LevelColumn < fields.Count
        && TableLines.TryNumber(fields[layout.FrequencyColumn], layout.DecimalComma, out _) && TableLines.TryNumber(fields[layout.LevelColumn], layout.DecimalComma, out _);

    private static (double, double, double, int)? Point(List<string> fields, ResponseTableLayout layout, int line, List<TableProblem> problems)
    {
        var factor = layout.FrequencyUnit == FrequencyUnit.Kilohertz ? 1000 : 1;
        if (Field(fields, layout.FrequencyColumn, "frequency", layout, line, problems) is not { } frequency
            || Field(fields, layout.LevelColumn, "level", layout, line, problems) is not { } level)
            return null;
        var phase = 0.0;
        if (layout.PhaseColumn is { } column)
        {
            if (Field(fields, column, "phase", layout, line, problems) is not { } found)
                return null;
            phase = layout.PhaseUnit == PhaseUnit.Degrees ? found * Math.PI / 180 : found;
        }

        // A row at 0 Hz is what a transform gives at its start; it has no place on a log scale.
        if (frequency == 0)
            return null;
        if (!(frequency * factor is >= 1e-3 and <= 1e6))
            return Wrong("frequency", fields[layout.FrequencyColumn], "0.001 Hz to 1 MHz");
        if (Math.Abs(level) > 1_000)
            return Wrong("level", fields[layout.LevelColumn], "−1000 to 1000 dB");
        if (Math.Abs(phase) > 1e7)
            return Wrong("phase", fields[layout.PhaseColumn!.Value], "up to 10,000,000 rad"); // a phase was read
        return (frequency * factor, level, phase, line);

        (double, double, double, int)? Wrong(string what, string value, string accepted)
        {
            problems.Add(new TableProblem(line, $"Line {line}: the {what} “{Short(value)}” is not accepted; enter {accepted}."));
            return null;
        }
    }

    private static double? Field(List<string> fields, int column, string what, ResponseTableLayout layout, int line, List<TableProblem> problems)
    {
        if (column >= fields.Count)
        {
            problems.Add(new TableProblem(line, $"Line {line}: there is no {what}; the line has {fields.Count} of {column + 1} columns."));
            return null;
        }

        if (TableLines.TryNumber(fields[column], layout.DecimalComma, out var value))
            return value;
        problems.Add(new TableProblem(line, $"Line {line}: the {what} “{Short(fields[column])}” is not a number with a decimal {(layout.DecimalComma ? "comma" : "point")}."));
        return null;
    }

    private static string Short(string value) => value.Length <= 24 ? value : value[..24] + "…";

    private static TableProblem? Refused(ReadOnlySpan<byte> file, int mostBytes) =>
        file.Length > mostBytes ? new TableProblem(0, $"The file has {file.Length} bytes; at most {mostBytes} are taken.")
        : file.IsEmpty ? new TableProblem(0, "The file is empty.") : null;

    private static ResponseTableProposal Nothing(TableProblem problem) => new(null, [], [], 0, 0, [], [problem]);

    private static IEnumerable<(int Line, double[] Numbers)> Rows(string[] lines, (ColumnSeparator Separator, bool DecimalComma) way)
    {
        for (var n = 0; n < lines.Length; n++)
        {
            var line = lines[n].Trim();
            if (!TableLines.IsComment(line) && line.Length <= TableLines.MostCharacters && TableLines.Numbers(TableLines.Split(line, way.Separator), way.DecimalComma) is { } numbers)
                yield return (n + 1, numbers);
        }
    }
}
