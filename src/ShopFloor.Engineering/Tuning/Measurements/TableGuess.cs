using ShopFloor.Engineering.Responses;

namespace ShopFloor.Engineering.Tuning.Measurements;

/// <summary>Which column is what, by its title and else by its numbers.</summary>
internal static class TableGuess
{
    private static readonly string[] _level = ["spl", "db", "level", "mag", "gain", "ampl", "sens"];

    public static bool Names(string title) => TableTitles.Has(title, TableTitles.Frequency) || TableTitles.Has(title, _level) || TableTitles.Has(title, TableTitles.Phase);

    public static (ResponseTableLayout Layout, IReadOnlyList<string> Questions) Of(
        ColumnSeparator separator, bool decimalComma, IReadOnlyList<string> titles, int width, IReadOnlyList<double[]> rows, double[] last)
    {
        var questions = new List<string>();
        var frequency = TableTitles.Titled(titles, TableTitles.Frequency);
        if (frequency is null)
        {
            frequency = Enumerable.Range(0, width).Cast<int?>().FirstOrDefault(column => Rises(rows, column!.Value)) ?? 0; // of a range of numbers
            questions.Add($"No title names the frequency; column {frequency + 1} was taken because its numbers rise.");
        }

        var level = TableTitles.Titled(titles, _level, frequency.Value);
        if (level is null)
        {
            level = Enumerable.Range(0, width).First(column => column != frequency);
            questions.Add($"No title names the level; column {level + 1} was taken.");
        }

        var phase = TableTitles.Titled(titles, TableTitles.Phase, frequency.Value, level.Value);
        if (phase is null && titles.Count == 0 && width > 2)
        {
            phase = Enumerable.Range(0, width).First(column => column != frequency && column != level);
            questions.Add($"No title names a phase; column {phase + 1} was taken for one.");
        }

        var frequencyUnit = FrequencyUnit.Hertz;
        if (titles.Count > 0 && TableTitles.Has(titles[frequency.Value], ["khz"]))
            frequencyUnit = FrequencyUnit.Kilohertz;
        else if (titles.Count == 0 || !TableTitles.Has(titles[frequency.Value], ["hz"]))
        {
            // Nothing that is heard ends below 50 Hz as Hz; as kHz everything does.
            if (Math.Max(rows.Max(row => row[frequency.Value]), last[frequency.Value]) <= 50)
                frequencyUnit = FrequencyUnit.Kilohertz;
            questions.Add($"No title says Hz or kHz; {(frequencyUnit == FrequencyUnit.Kilohertz ? "kHz" : "Hz")} was taken by the size of the numbers.");
        }

        var phaseUnit = PhaseUnit.Degrees;
        if (phase is { } column)
        {
            if (titles.Count > 0 && TableTitles.Has(titles[column], ["rad"]))
                phaseUnit = PhaseUnit.Radians;
            else if (titles.Count == 0 || !TableTitles.Has(titles[column], ["deg", "°"]))
            {
                if (rows.Max(row => Math.Abs(row[column])) <= Math.PI + 1e-3)
                    phaseUnit = PhaseUnit.Radians;
                questions.Add($"No title says degrees or radians; {(phaseUnit == PhaseUnit.Degrees ? "degrees" : "radians")} were taken by the size of the numbers.");
            }
        }

        return (new ResponseTableLayout
        {
            Separator = separator,
            DecimalComma = decimalComma,
            FrequencyColumn = frequency.Value,
            FrequencyUnit = frequencyUnit,
            LevelColumn = level.Value,
            PhaseColumn = phase,
            PhaseUnit = phaseUnit,
        }, questions);
    }

    private static bool Rises(IReadOnlyList<double[]> rows, int column)
    {
        var direction = Math.Sign(rows[^1][column] - rows[0][column]);
        return direction != 0 && Enumerable.Range(1, rows.Count - 1).All(n => Math.Sign(rows[n][column] - rows[n - 1][column]) == direction);
    }
}
