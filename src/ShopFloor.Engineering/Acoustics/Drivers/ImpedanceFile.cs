using System.Globalization;
using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Responses;

namespace ShopFloor.Engineering.Acoustics.Drivers;

/// <summary>Reads the file of an impedance sweep as meters and programs write it, in two steps: a guess to be confirmed, then every row.</summary>
/// <remarks>Lines that begin with *, #, // or ; are comments. What stands before the first row of numbers is a heading.</remarks>
public static class ImpedanceFile
{
    /// <summary>Largest file, bytes: a sweep has some hundred rows, <see cref="ImpedanceTable.MostPoints"/> of them fit.</summary>
    public const int MostBytes = 4 * 1024 * 1024;

    private const int Looked = 200;
    private const int Shown = 8;
    private const string Field = "File";

    private static readonly string[] _ohms = ["ohm", "ω", "\u2126", "imp", "|z", "mag", "abs"];

    /// <summary>Guesses how a file is laid out.</summary>
    /// <param name="file">Its bytes.</param>
    public static ImpedanceProposal Propose(ReadOnlySpan<byte> file)
    {
        if (Refused(file) is { } refused)
            return Nothing(refused);
        var lines = TableLines.Decode(file).Split('\n');
        var (best, bestScore) = (TableLines.Ways[0], 0);
        foreach (var way in TableLines.Ways)
        {
            // Cells of other kinds, such as NaN, do not hide how the rest is written.
            var score = Rows(lines, way).Take(Looked).Count();
            if (score > bestScore)
                (best, bestScore) = (way, score);
        }

        if (bestScore == 0)
            return Nothing("No line holds a frequency and ohms. A sweep has two or three columns: frequency, ohms and perhaps phase.");
        List<(int Line, double[] Numbers)> rows = [.. Rows(lines, best)];
        var width = rows.Take(Looked).GroupBy(row => row.Numbers.Length).MaxBy(group => group.Count())!.Key; // there are rows
        List<(int Line, double[] Numbers)> table = [.. rows.Where(row => row.Numbers.Length >= width)];
        var titles = TableTitles.Find(lines, table[0].Line, best.Separator, width, Names);
        var questions = new List<string>();
        var layout = Guess(best, titles, width, [.. table.Select(row => row.Numbers)], questions);
        return new ImpedanceProposal(layout, titles, [.. table.Take(Shown).Select(row => row.Numbers)], table[0].Line, table.Count, questions, []);
    }

    /// <summary>Reads a file.</summary>
    /// <param name="file">Its bytes.</param>
    /// <param name="layout">How it is laid out, without problems.</param>
    /// <returns>Its points with rising frequency, or what is wrong, line by line.</returns>
    /// <exception cref="ArgumentOutOfRangeException"><see cref="ImpedanceLayout.Validate"/> finds a problem; the parameter name is the field.</exception>
    public static ImpedanceReading Read(ReadOnlySpan<byte> file, ImpedanceLayout layout)
    {
        ArgumentNullException.ThrowIfNull(layout);
        InputChecks.ThrowIfAny(layout.Validate());
        if (Refused(file) is { } refused)
            return new ImpedanceReading([], [new InputProblem(Field, refused)]);
        var rows = new ImpedanceRows(Field);
        var number = 0;
        foreach (var raw in TableLines.Decode(file).Split('\n'))
        {
            number++;
            var line = raw.Trim();
            if (TableLines.IsComment(line))
                continue;
            var fields = line.Length > TableLines.MostCharacters ? [] : TableLines.Split(line, layout.Separator);
            // A heading stands before the first row; a row begins with its frequency.
            if (rows.Count == 0 && rows.Problems.Count == 0 && (fields.Count <= layout.FrequencyColumn || !TableLines.TryNumber(fields[layout.FrequencyColumn], layout.DecimalComma, out _)))
                continue;
            if (!rows.Add(number, fields, layout))
                break;
        }

        return rows.Reading();
    }

    private static string? Refused(ReadOnlySpan<byte> file) => file.Length switch
    {
        0 => "The file is empty.",
        > MostBytes => string.Create(CultureInfo.InvariantCulture, $"The file has {file.Length / (1024.0 * 1024):0.#} MB; at most {MostBytes / (1024 * 1024)} MB are read. A sweep has some hundred rows: is it the right file?"),
        _ => null,
    };

    private static ImpedanceProposal Nothing(string why) => new(null, [], [], 0, 0, [], [new InputProblem(Field, why)]);

    // Rows that begin with two numbers or more; what follows the first other cell is left out.
    private static IEnumerable<(int Line, double[] Numbers)> Rows(string[] lines, (ColumnSeparator Separator, bool DecimalComma) way)
    {
        for (var n = 0; n < lines.Length; n++)
        {
            var line = lines[n].Trim();
            if (line.Length > TableLines.MostCharacters || TableLines.IsComment(line))
                continue;
            List<double> numbers = [];
            foreach (var field in TableLines.Split(line, way.Separator))
            {
                if (!TableLines.TryNumber(field, way.DecimalComma, out var number))
                    break;
                numbers.Add(number);
            }

            if (numbers.Count >= 2)
                yield return (n + 1, [.. numbers]);
        }
    }

    private static bool Names(string title) => TableTitles.Has(title, TableTitles.Frequency) || TableTitles.Has(title, _ohms) || TableTitles.Has(title, TableTitles.Phase);

    private static ImpedanceLayout Guess((ColumnSeparator Separator, bool DecimalComma) way, List<string> titles, int width, List<double[]> rows, List<string> questions)
    {
        int Free(params int[] taken) => Enumerable.Range(0, width).First(column => !taken.Contains(column));
        var frequency = TableTitles.Titled(titles, TableTitles.Frequency) ?? 0;
        int[] turning = [.. Enumerable.Range(0, titles.Count).Where(column => TableTitles.Has(titles[column], TableTitles.Phase) && !TableTitles.Has(titles[column], ["ohm"]))];
        var ohms = TableTitles.Titled(titles, _ohms, [frequency, .. turning]);
        if (ohms is null)
        {
            ohms = Free(frequency);
            questions.Add($"No title names the ohms; column {ohms + 1} was taken.");
        }
        else if (TableTitles.Has(titles[ohms.Value], ["db"]))
            questions.Add($"The title of column {ohms + 1} says dB: a level is no impedance. Look whether it is the right file.");

        var phase = TableTitles.Titled(titles, TableTitles.Phase, frequency, ohms.Value);
        if (phase is null && titles.Count == 0 && width > 2)
        {
            phase = Free(frequency, ohms.Value);
            questions.Add($"No title names a phase; column {phase + 1} was taken for one.");
        }

        var unit = FrequencyUnit.Hertz;
        if (titles.Count > 0 && TableTitles.Has(titles[frequency], ["khz"]))
            unit = FrequencyUnit.Kilohertz;
        else if ((titles.Count == 0 || !TableTitles.Has(titles[frequency], ["hz"])) && rows.Max(row => row[frequency]) <= 25)
        {
            // A sweep that ended at 25 Hz would hardly reach a resonance.
            unit = FrequencyUnit.Kilohertz;
            questions.Add("No title says Hz or kHz; kHz was taken by the size of the numbers.");
        }

        var turns = PhaseUnit.Degrees;
        if (phase is { } column && !(titles.Count > 0 && TableTitles.Has(titles[column], ["deg", "°"])))
        {
            turns = titles.Count > 0 && TableTitles.Has(titles[column], ["rad"]) || rows.Max(row => Math.Abs(row[column])) <= Math.PI / 2 + 1e-3 ? PhaseUnit.Radians : PhaseUnit.Degrees;
            if (titles.Count == 0 || !TableTitles.Has(titles[column], ["rad"]))
                questions.Add($"No title says degrees or radians; {(turns == PhaseUnit.Degrees ? "degrees" : "radians")} were taken by the size of the numbers.");
        }

        return new ImpedanceLayout { Separator = way.Separator, DecimalComma = way.DecimalComma, FrequencyColumn = frequency, FrequencyUnit = unit, OhmsColumn = ohms.Value, PhaseColumn = phase, PhaseUnit = turns };
    }
}
