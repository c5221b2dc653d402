namespace ShopFloor.Documents.Plots;

/// <summary>Lines of a logarithmic axis.</summary>
internal static class LogTicks
{
    public static IReadOnlyList<double> Between(double low, double high) => [.. All(low, high)];

    /// <summary>Whether a line carries its number: 1, 2 and 5 of each power of ten.</summary>
    public static bool IsNamed(double value)
    {
        var first = Math.Round(value / Math.Pow(10, Math.Floor(Math.Log10(value) + 1e-9)));
        return first is 1 or 2 or 5;
    }

    private static IEnumerable<double> All(double low, double high)
    {
        for (var power = Math.Pow(10, Math.Floor(Math.Log10(low) + 1e-9)); power <= high; power *= 10)
        {
            for (var first = 1; first <= 9; first++)
            {
                var value = first * power;
                if (value >= low * (1 - 1e-9) && value <= high * (1 + 1e-9))
                    yield return value;
            }
        }
    }
}
