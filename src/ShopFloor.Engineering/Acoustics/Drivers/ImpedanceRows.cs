using System.Globalization;
using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Responses;

namespace ShopFloor.Engineering.Acoustics.Drivers;

/// <summary>Collects the rows of a sweep and says, line by line, what is wrong with them.</summary>
/// <param name="field">Name of the field in problems.</param>
internal sealed class ImpedanceRows(string field)
{
    public const double LeastHertz = 0.1;
    public const double MostHertz = 200_000;
    public const double MostOhms = 1e6;
    private const int MostProblems = 20;

    private readonly List<(ImpedancePoint Point, int Line)> _points = [];
    private readonly List<InputProblem> _problems = [];

    public int Count => _points.Count;

    public IReadOnlyList<InputProblem> Problems => _problems;

    /// <summary>Whether a point lies within what is accepted.</summary>
    public static bool Accepts(double hertz, double ohms, double? degrees) =>
        hertz is >= LeastHertz and <= MostHertz && ohms is > 0 and <= MostOhms && degrees is null or (>= -180 and <= 180);

    /// <summary>Takes a row that was read.</summary>
    /// <returns>Whether reading goes on.</returns>
    public bool Add(int line, ImpedancePoint point)
    {
        _points.Add((point, line));
        if (_points.Count > ImpedanceTable.MostPoints)
            Tell(line, $"more than {ImpedanceTable.MostPoints} rows; at most {ImpedanceTable.MostPoints} are read.");
        return _points.Count <= ImpedanceTable.MostPoints;
    }

    /// <summary>Takes the cells of a row.</summary>
    /// <inheritdoc cref="Add(int, ImpedancePoint)" path="/returns"/>
    public bool Add(int line, IReadOnlyList<string> cells, ImpedanceLayout layout)
    {
        double? phase = null;
        if (Number(line, cells, layout.FrequencyColumn, "the frequency", layout) is not { } frequency
            || Number(line, cells, layout.OhmsColumn, "the ohms", layout) is not { } ohms
            || layout.PhaseColumn is { } column && (phase = Number(line, cells, column, "the phase", layout)) is null)
            return _problems.Count < MostProblems;
        var hertz = layout.FrequencyUnit == FrequencyUnit.Kilohertz ? 1_000 * frequency : frequency;
        var degrees = layout.PhaseUnit == PhaseUnit.Radians ? phase * 180 / Math.PI : phase;
        // A row at 0 Hz is what a transform begins with; it has no place on a logarithmic scale.
        if (hertz == 0)
            return true;
        if (hertz is not (>= LeastHertz and <= MostHertz))
            Tell(line, $"the frequency {Said(hertz)} Hz is not accepted; it is {Said(LeastHertz)} to {Said(MostHertz)} Hz.");
        else if (ohms is not (> 0 and <= MostOhms))
            Tell(line, $"{Said(ohms)} Ω is not accepted; an impedance is above 0, up to 1 MΩ. Is column {layout.OhmsColumn + 1} the one with the ohms?");
        else if (degrees is not null and not (>= -180 and <= 180))
            Tell(line, $"a phase of {Said(degrees.Value)}° is not accepted; it is −180 to 180°. Is column {layout.PhaseColumn + 1} the one with the phase?");
        else
            return Add(line, new ImpedancePoint(hertz, ohms, degrees));
        return _problems.Count < MostProblems;
    }

    /// <summary>A row that is none.</summary>
    public void Tell(int line, string what) => _problems.Add(new InputProblem(field, string.Create(CultureInfo.InvariantCulture, $"Line {line}: {what}")));

    public ImpedanceReading Reading()
    {
        // Some programs sweep from the highest frequency down.
        if (_points.Count > 1 && _points[0].Point.Hertz > _points[^1].Point.Hertz)
            _points.Reverse();
        for (var n = 1; n < _points.Count && _problems.Count < MostProblems; n++)
        {
            var ((before, first), (now, second)) = (_points[n - 1], _points[n]);
            if (now.Hertz == before.Hertz)
                Tell(Math.Max(first, second), $"{Said(now.Hertz)} Hz stands there a second time (first in line {Math.Min(first, second)}).");
            else if (now.Hertz < before.Hertz)
                Tell(Math.Max(first, second), $"{Said(now.Hertz)} Hz in line {second} does not go on from {Said(before.Hertz)} Hz in line {first}; frequencies must rise or fall from row to row.");
        }

        if (_problems.Count == 0 && _points.Count == 0)
            _problems.Add(new InputProblem(field, "The text holds no row of frequency and ohms."));
        return _problems.Count > 0 ? new ImpedanceReading([], _problems) : new ImpedanceReading([.. _points.Select(row => row.Point)], []);
    }

    private double? Number(int line, IReadOnlyList<string> cells, int column, string what, ImpedanceLayout layout)
    {
        if (column >= cells.Count)
            Tell(line, $"it has {(cells.Count == 1 ? "1 column" : $"{cells.Count} columns")}; {what} {(what == "the ohms" ? "are" : "is")} looked for in column {column + 1}.");
        else if (TableLines.TryNumber(cells[column], layout.DecimalComma, out var value))
            return value;
        else
            Tell(line, $"{what} in column {column + 1}, “{Short(cells[column])}”, is no number{(layout.DecimalComma ? " with a decimal comma" : "")}.");
        return null;
    }

    private static string Said(double value) => value.ToString("0.######", CultureInfo.InvariantCulture);

    private static string Short(string cell) => cell.Length <= 40 ? cell : cell[..40] + "…";
}
