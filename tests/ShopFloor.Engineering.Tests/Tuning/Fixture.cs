using System.Globalization;
using System.Runtime.CompilerServices;

namespace ShopFloor.Engineering.Tests.Tuning;

/// <summary>A table of comma-separated values beside the tests; its first line names the columns.</summary>
internal static class Fixture
{
    public static List<Dictionary<string, string>> Rows(string name, [CallerFilePath] string here = "")
    {
        var lines = File.ReadAllLines(Path.Combine(Path.GetDirectoryName(here)!, "Fixtures", name)); // a file of the tests
        var columns = lines[0].Split(',');
        return [.. lines.Skip(1).Where(line => line.Length > 0).Select(line => columns.Zip(line.Split(',')).ToDictionary(pair => pair.First, pair => pair.Second))];
    }

    public static double[] Column(this List<Dictionary<string, string>> rows, string name) => [.. rows.Select(row => Number(row[name]))];

    public static double Number(string text) => double.Parse(text, NumberStyles.Float, CultureInfo.InvariantCulture);
}
