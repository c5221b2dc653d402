using ShopFloor.Documents.Plots;
using ShopFloor.Engineering.Responses;
using ShopFloor.Engineering.Tuning.Analysis;

namespace ShopFloor.Documents.Tuning;

/// <summary>A response to be drawn.</summary>
/// <param name="Name">Word in the legend.</param>
/// <param name="Response">Level, and phase where it is known, the arrival taken out.</param>
/// <param name="Index">Which stroke it takes; curves of one plot take different ones.</param>
public sealed record DrawnResponse(string Name, FrequencyResponse Response, int Index)
{
    public string Mark => ((char)('A' + Index)).ToString();
}

/// <summary>Plots of measurements, the same on screen and on paper.</summary>
public static class MeasurementPlots
{
    private const int PointsPerOctave = 48;
    private const double ShownDecibels = 60;
    private const double LowestHertz = 10;
    private const double HighestHertz = 24_000;
    private const int DecayCurves = 5;

    /// <summary>Levels.</summary>
    /// <param name="smoothing">Fraction of an octave, 3 for a third; null for none.</param>
    public static Plot Level(IReadOnlyList<DrawnResponse> drawn, double? smoothing)
    {
        ArgumentNullException.ThrowIfNull(drawn);
        List<PlotSeries> series = [.. drawn.Select(one => Curve(one, Smoothed(one.Response, smoothing)))];
        return Over(new Plot("level", "Level", PlotAxis.Around("dB", series.SelectMany(Values), 20, false, ShownDecibels), series), drawn);
    }

    /// <summary>Wrapped phase with the arrival taken out; curves without phase are left out.</summary>
    public static Plot Phase(IReadOnlyList<DrawnResponse> drawn)
    {
        ArgumentNullException.ThrowIfNull(drawn);
        List<PlotSeries> series = [.. drawn.Where(one => one.Response.PhaseRadians is not null).Select(one => Curve(one, Wrapped(one.Response.Hertz, one.Response.PhaseRadians!)))]; // filtered
        return Over(new Plot("phase", "Phase, arrival taken out", new PlotAxis("°", -180, 180), series), drawn);
    }

    /// <summary>One response's phase beside the minimum phase of its level.</summary>
    public static Plot MinimumPhaseOf(DrawnResponse drawn)
    {
        ArgumentNullException.ThrowIfNull(drawn);
        var minimum = MinimumPhase.Of(drawn.Response);
        List<PlotSeries> series = [new("Minimum phase", Wrapped(minimum.Hertz, minimum.PhaseRadians!), PlotStroke.Of(1))]; // just made
        if (drawn.Response.PhaseRadians is { } phases)
            series.Insert(0, new PlotSeries("Measured", Wrapped(drawn.Response.Hertz, phases), PlotStroke.Of(0)));
        return Over(new Plot("minimum-phase", $"{drawn.Name}: phase and minimum phase", new PlotAxis("°", -180, 180), series), [drawn]);
    }

    /// <summary>Group delay beyond the minimum phase, ms; null without phase.</summary>
    public static Plot? ExcessDelay(DrawnResponse drawn)
    {
        ArgumentNullException.ThrowIfNull(drawn);
        if (drawn.Response.PhaseRadians is null)
            return null;
        List<PlotPoint> points = [.. drawn.Response.Hertz.Zip(Engineering.Tuning.Analysis.ExcessDelay.Of(drawn.Response), (hertz, seconds) => new PlotPoint(hertz, seconds * 1e3))];
        // A null throws the delay to any height; what most frequencies show sets the axis.
        var sorted = points.Select(point => point.Value).Where(double.IsFinite).Order().ToList();
        var (low, high) = (sorted[sorted.Count / 20], sorted[sorted.Count - 1 - sorted.Count / 20]);
        return Over(new Plot("excess-delay", $"{drawn.Name}: excess group delay", PlotAxis.Around("ms", [low, high], 2, false), [new PlotSeries("Excess delay", points, PlotStroke.Of(0))]), [drawn]);
    }

    /// <summary>Left less right with the band it should stay in.</summary>
    public static Plot Difference(SideDifferenceResult result, double toleranceDecibels)
    {
        ArgumentNullException.ThrowIfNull(result);
        var difference = result.Difference;
        List<PlotPoint> points = [.. difference.Hertz.Select((hertz, n) => new PlotPoint(hertz, difference.Decibels[n]))];
        var most = Math.Max(toleranceDecibels * 2, difference.Decibels.Max(Math.Abs));
        return new Plot("difference", "Left less right, third octave", PlotAxis.Around("dB", [-most, most], 6, false), [new PlotSeries("Left less right", points, PlotStroke.Of(0))])
        {
            FromHertz = difference.Hertz[0],
            ToHertz = difference.Hertz[^1],
            Limits = [new PlotLimit("left louder", toleranceDecibels), new PlotLimit("right louder", -toleranceDecibels)],
        };
    }

    /// <summary>How much of what was heard was the same each time.</summary>
    public static Plot CoherenceOf(CoherenceResult result)
    {
        ArgumentNullException.ThrowIfNull(result);
        List<PlotPoint> points = [.. result.Hertz.Select((hertz, n) => new PlotPoint(hertz, result.Squared[n]))];
        return new Plot("coherence", $"Coherence of {result.Pieces} repeats", new PlotAxis("", 0, 1), [new PlotSeries("Coherence", points, PlotStroke.Of(0))])
        {
            FromHertz = result.Hertz[0], ToHertz = result.Hertz[^1], Limits = [new PlotLimit("sure above", 0.9)],
        };
    }

    /// <summary>Levels of slices in time, the first and every so many after.</summary>
    public static Plot Decay(string name, DecayResult result)
    {
        ArgumentNullException.ThrowIfNull(result);
        var step = Math.Max(1, (result.Seconds.Count - 1) / (DecayCurves - 1));
        List<PlotSeries> series = [.. Enumerable.Range(0, DecayCurves).Select(n => n * step).Where(at => at < result.Seconds.Count).Select((at, n) => new PlotSeries(
            string.Create(System.Globalization.CultureInfo.CurrentCulture, $"{result.Seconds[at] * 1e3:0} ms"),
            [.. result.Hertz.Select((hertz, k) => new PlotPoint(hertz, result.Decibels[at][k]))],
            n < 3 ? PlotStroke.Of(n) : PlotStroke.Of(n - 3).Thin) { Mark = (n + 1).ToString(System.Globalization.CultureInfo.InvariantCulture) })];
        return new Plot("decay", $"{name}: decay", PlotAxis.Around("dB", series.SelectMany(Values), 20, false, ShownDecibels), series) { FromHertz = result.Hertz[0], ToHertz = result.Hertz[^1] };
    }

    /// <summary>Time to fall by 60 dB.</summary>
    public static Plot? DecayTime(string name, DecayResult result)
    {
        ArgumentNullException.ThrowIfNull(result);
        List<PlotPoint> points = [.. result.Hertz.Select((hertz, n) => new PlotPoint(hertz, result.DecaySeconds[n] * 1e3 ?? double.NaN))];
        return points.Any(point => double.IsFinite(point.Value))
            ? new Plot("decay-time", $"{name}: time to fall by 60 dB", PlotAxis.Around("ms", points.Select(point => point.Value), 100, true), [new PlotSeries("Decay", points, PlotStroke.Of(0))]) { FromHertz = result.Hertz[0], ToHertz = result.Hertz[^1] }
            : null;
    }

    private static Plot Over(Plot plot, IReadOnlyList<DrawnResponse> drawn) => plot with
    {
        FromHertz = Math.Max(LowestHertz, drawn.Min(one => one.Response.Hertz[0])),
        ToHertz = Math.Min(HighestHertz, drawn.Max(one => one.Response.Hertz[^1])),
    };

    private static PlotSeries Curve(DrawnResponse drawn, IReadOnlyList<PlotPoint> points) => new(drawn.Name, points, drawn.Index < 3 ? PlotStroke.Of(drawn.Index) : PlotStroke.Of(drawn.Index).Thin) { Mark = drawn.Mark };

    private static IEnumerable<double> Values(PlotSeries series) => series.Points.Select(point => point.Value);

    private static List<PlotPoint> Smoothed(FrequencyResponse response, double? smoothing)
    {
        var (low, high) = (Math.Max(response.Hertz[0], LowestHertz), Math.Min(response.Hertz[^1], HighestHertz));
        if (smoothing is not { } fraction || high < 1.05 * low)
            return [.. response.Hertz.Select((hertz, n) => new PlotPoint(hertz, response.Decibels[n]))];
        var smooth = OctaveSmoothing.Power(response, fraction, OctaveSmoothing.Spaced(low, high, PointsPerOctave));
        return [.. smooth.Hertz.Select((hertz, n) => new PlotPoint(hertz, smooth.Decibels[n]))];
    }

    // A jump of the wrapping is a gap, no line across the plot.
    private static List<PlotPoint> Wrapped(IReadOnlyList<double> hertz, IReadOnlyList<double> radians)
    {
        List<PlotPoint> points = [];
        for (var n = 0; n < hertz.Count; n++)
        {
            var degrees = Math.IEEERemainder(radians[n], 2 * Math.PI) * 180 / Math.PI;
            if (points.Count > 0 && Math.Abs(degrees - points[^1].Value) > 180)
                points.Add(new PlotPoint(Math.Sqrt(hertz[n] * hertz[n - 1]), double.NaN));
            points.Add(new PlotPoint(hertz[n], degrees));
        }

        return points;
    }
}
