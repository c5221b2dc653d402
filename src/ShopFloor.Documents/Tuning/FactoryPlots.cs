using ShopFloor.Documents.Plots;
using ShopFloor.Engineering.Responses;
using ShopFloor.Shop.Phases.Tuning.Factory;

namespace ShopFloor.Documents.Tuning;

/// <summary>Plots of a factory signal: what each output holds, and what the side's sum comes to.</summary>
public static class FactoryPlots
{
    private const double LeastDecibels = 20;
    private const double ShownDecibels = 45;
    private const int FullStrokes = 3;

    /// <summary>The letter an output is called by in plots and tables.</summary>
    public static string Mark(int output) => ((char)('A' + output)).ToString();

    /// <summary>Every output of a side as it was measured.</summary>
    public static Plot Outputs(FactorySideView side)
    {
        ArgumentNullException.ThrowIfNull(side);
        return Of(
            $"factory-outputs-{side.Side}", $"{FactoryWords.Side(side.Side)}: the outputs", side,
            [.. side.Outputs.Select((output, n) => new PlotSeries($"Output {Mark(n)}", Points(output.Measured.Response), n < FullStrokes ? PlotStroke.Of(n) : PlotStroke.Of(n - FullStrokes).Thin) { Mark = Mark(n) })]);
    }

    /// <summary>The sum as the outputs come, joined, and after the filters.</summary>
    public static Plot Sum(FactorySideView side)
    {
        ArgumentNullException.ThrowIfNull(side);
        var result = side.Result;
        PlotSeries Curve(string name, string mark, IReadOnlyList<double> levels, int stroke) => new(name, [.. result.Hertz.Select((hertz, n) => new PlotPoint(hertz, levels[n]))], PlotStroke.Of(stroke)) { Mark = mark };
        return Of(
            $"factory-sum-{side.Side}", $"{FactoryWords.Side(side.Side)}: the sum", side,
            [Curve("As it comes", "1", result.PlainDecibels, 2), Curve("Joined", "2", result.JoinedDecibels, 1), Curve("After the filters", "3", result.LevelDecibels, 0)]);
    }

    private static List<PlotPoint> Points(FrequencyResponse response) => [.. response.Hertz.Select((hertz, n) => new PlotPoint(hertz, response.Decibels[n]))];

    private static Plot Of(string key, string title, FactorySideView side, IReadOnlyList<PlotSeries> series) =>
        new(key, title, PlotAxis.Around("dB", series.SelectMany(one => one.Points.Select(point => point.Value)), LeastDecibels, false, ShownDecibels), series) { FromHertz = Math.Max(10, side.Result.Hertz[0]), ToHertz = side.Result.Hertz[^1] };
}
