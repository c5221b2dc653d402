using ShopFloor.Documents.Plots;
using ShopFloor.Engineering.Acoustics.Drivers;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Phases.Design;

namespace ShopFloor.Documents.Enclosures;

/// <summary>A measured driver's impedance with the fit drawn over it.</summary>
public static class DriverPlots
{
    private const int FitPoints = 240;
    private const int MostMeasured = 800;

    /// <returns>Null when no sweep was brought.</returns>
    public static Plot? Of(DriverStudy study, UnitText text)
    {
        ArgumentNullException.ThrowIfNull(study);
        ArgumentNullException.ThrowIfNull(text);
        List<PlotSeries> series = [];
        if (study.FreeAir is { } free)
            series.AddRange(Pair(free, "free air", "#8A9099", study.Form.UsedToHertz));
        if (study.Again is { } again)
            series.AddRange(Pair(again, study.Form.Second == SecondSweep.AddedMass ? "with mass" : "on the box", "#7FA8C9", study.Form.UsedToHertz));
        if (series.Count == 0)
            return null;
        var values = series.SelectMany(one => one.Points).Select(point => point.Value).ToList();
        var hertz = series.SelectMany(one => one.Points).Select(point => point.Hertz).ToList();
        return new Plot("driver", "Impedance as measured, and the fit", new PlotAxis("Ω", Below(values.Min()), Above(values.Max())) { Logarithmic = true }, series)
        {
            FromHertz = hertz.Min(),
            ToHertz = hertz.Max(),
            Limits = study.FreeAir is { } curve ? [new PlotLimit($"least {text.With(curve.Fit.LeastOhms, "Ω")}", curve.Fit.LeastOhms)] : [],
        };
    }

    // What was measured lies broad and pale under the fit; both fits share a name, so the legend has it once.
    private static IEnumerable<PlotSeries> Pair(StudiedSweep sweep, string name, string colour, double? toHertz)
    {
        var points = sweep.Points;
        var step = Math.Max(1, points.Count / MostMeasured);
        var (from, to) = (points[0].Hertz, Math.Min(points[^1].Hertz, toHertz ?? double.MaxValue));
        yield return new PlotSeries(name, [.. points.Where((_, n) => n % step == 0).Select(point => new PlotPoint(point.Hertz, point.Ohms))], new PlotStroke(colour, "", 4));
        yield return new PlotSeries("fit",
            [.. Enumerable.Range(0, FitPoints).Select(n => from * Math.Pow(to / from, n / (FitPoints - 1.0))).Select(hertz => new PlotPoint(hertz, ImpedanceFit.Impedance(sweep.Fit, hertz).Magnitude))],
            PlotStroke.Of(0) with { Width = 1.6 });
    }

    // Ends at 1, 2 or 5 of a power of ten, so that a flat curve fills its plot too.
    private static double Below(double value) => Power(value) * new[] { 5.0, 2, 1 }.First(step => step <= value / Power(value) + 1e-9);

    private static double Above(double value) => Power(value) * new[] { 1.0, 2, 5, 10 }.First(step => step >= value / Power(value) - 1e-9);

    private static double Power(double value) => Math.Pow(10, Math.Floor(Math.Log10(value)));
}
