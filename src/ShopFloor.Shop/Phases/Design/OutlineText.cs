using System.Globalization;
using ShopFloor.Engineering.Geometry;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>Corners of an outline as people type them: one a line, two numbers each.</summary>
public static class OutlineText
{
    private static readonly char[] Between = [' ', '\t', ';'];

    /// <param name="metersPerUnit">How many metres one of the unit typed is.</param>
    /// <returns>The corners, m, or what is wrong with which line.</returns>
    public static (List<Point2>? Corners, string? Problem) Read(string typed, double metersPerUnit, CultureInfo culture)
    {
        ArgumentNullException.ThrowIfNull(typed);
        List<Point2> corners = [];
        var lines = typed.Split('\n');
        for (var n = 0; n < lines.Length; n++)
        {
            var numbers = lines[n].Split(Between, StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries);
            if (numbers.Length == 0)
            {
                continue;
            }

            // Thousands are never written in a corner, so a comma is a decimal one or a slip.
            if (numbers.Length != 2 || !Number(numbers[0], culture, out var x) || !Number(numbers[1], culture, out var y))
            {
                return (null, string.Create(CultureInfo.CurrentCulture, $"Line {n + 1}, '{Short(lines[n].Trim())}', is not a corner: write two numbers with a blank between, for example 400 250."));
            }

            if (Math.Abs(x * metersPerUnit) > 10 || Math.Abs(y * metersPerUnit) > 10)
            {
                return (null, string.Create(CultureInfo.CurrentCulture, $"Line {n + 1}, '{Short(lines[n].Trim())}', lies too far out; accepted is up to 10 m."));
            }

            corners.Add(new Point2(x * metersPerUnit, y * metersPerUnit));
        }

        return (corners, null);
    }

    private static bool Number(string text, CultureInfo culture, out double value) =>
        double.TryParse(text, NumberStyles.Float, culture, out value) && double.IsFinite(value);

    private static string Short(string line) => line.Length <= 24 ? line : line[..24] + "…";
}
