using ShopFloor.Documents.Plots;
using ShopFloor.Engineering.Tuning;
using ShopFloor.Engineering.Tuning.Alignment;
using ShopFloor.Engineering.Tuning.Equalisation;
using ShopFloor.Engineering.Tuning.Filters;
using ShopFloor.Shop.Phases.Tuning.Presets;

namespace ShopFloor.Documents.Tuning;

/// <summary>Plots of the tuning bench. Left is drawn through, right dashed, the target dotted.</summary>
public static class TuningPlots
{
    public const double From = 20;
    public const double To = 20_000;

    /// <summary>What both sides come to at the seat, their drivers summed with phase, over the target.</summary>
    public static Plot Sum(IReadOnlyList<TunedDriver> drivers, IReadOnlyList<ChannelSetting> channels, TargetCurve target, double sampleRateHertz)
    {
        ArgumentNullException.ThrowIfNull(target);
        var grid = FrequencyGrid.LogSpaced(From, Math.Min(To, 0.45 * sampleRateHertz), 240, sampleRateHertz);
        var seat = new SeatPrediction(drivers, channels, grid);
        return Sides("sum", "At the seat as reckoned: left, right and target", grid.Hertz, seat.SmoothedDecibels(StageSide.Left), seat.SmoothedDecibels(StageSide.Right), target);
    }

    /// <summary>One channel: measured, with its filters, and the target with its crossover.</summary>
    public static Plot Channel(TunedDriver driver, ChannelSetting channel, TargetCurve target, double sampleRateHertz)
    {
        ArgumentNullException.ThrowIfNull(driver);
        ArgumentNullException.ThrowIfNull(channel);
        var grid = FrequencyGrid.LogSpaced(From, Math.Min(To, 0.45 * sampleRateHertz), 240, sampleRateHertz);
        var bare = channel with { Filters = [], GainDecibels = 0, Inverted = false, DelaySeconds = 0 };
        var measured = new SeatPrediction([driver with { Side = StageSide.Both, PairId = null, IsRearFill = false }], [bare], grid).SmoothedDecibels(StageSide.Both);
        var filters = (channel with { HighPass = null, LowPass = null, Inverted = false, DelaySeconds = 0 }).Response(grid);
        var cross = bare.Response(grid);
        double[] played = [.. measured.Select((level, i) => level + Decibels(filters[i].Magnitude))];
        double[] wanted = [.. grid.Hertz.Select((f, i) => target.At(f).Decibels + Decibels(cross[i].Magnitude))];
        var heard = Enumerable.Range(0, wanted.Length).Where(i => cross[i].Magnitude > 0.5).ToList();
        var shift = heard.Count == 0 ? 0 : heard.Average(i => played[i] - wanted[i]);
        return Of("channel", $"{channel.Name}: measured, with filters, target", grid.Hertz, ("Measured", measured, PlotStroke.Of(1)), ("With filters", played, PlotStroke.Of(0)), ("Target", [.. wanted.Select(level => level + shift)], PlotStroke.Of(2)));
    }

    /// <summary>What a channel's filters and level do, dB.</summary>
    public static double[] FilterDecibels(ChannelSetting channel, IReadOnlyList<double> hertz, double sampleRateHertz) =>
        [.. (channel with { HighPass = null, LowPass = null, Inverted = false, DelaySeconds = 0, GainDecibels = 0 }).Response(new FrequencyGrid(hertz, sampleRateHertz)).Select(value => Decibels(value.Magnitude))];

    /// <summary>Both sides as measured, before or after.</summary>
    public static Plot Measured(VerificationView view, bool before)
    {
        ArgumentNullException.ThrowIfNull(view);
        var (left, right) = before ? (view.LeftBefore, view.RightBefore) : (view.Left, view.Right);
        return Sides(before ? "before" : "after", before ? "Before: left and right as measured" : "After: left and right as measured", view.Hertz, left ?? [], right ?? [], before ? null : view.InCar?.Form.Target);
    }

    /// <summary>Both sides as the handover keeps them.</summary>
    public static Plot Kept(TuningFact tuning, bool before)
    {
        ArgumentNullException.ThrowIfNull(tuning);
        return before
            ? Sides("before", "Left and right at the seat before", tuning.Hertz, tuning.LeftBefore, tuning.RightBefore, null)
            : Sides("after", "Left and right at the seat as tuned", tuning.Hertz, tuning.Left, tuning.Right, null);
    }

    private static Plot Sides(string key, string title, IReadOnlyList<double> hertz, IReadOnlyList<double> left, IReadOnlyList<double> right, TargetCurve? target)
    {
        var both = left.Concat(right).ToList();
        List<(string, IReadOnlyList<double>, PlotStroke)> curves = [("Left", left, PlotStroke.Of(0)), ("Right", right, PlotStroke.Of(1))];
        if (target is not null && both.Count == 2 * hertz.Count)
        {
            double[] wanted = [.. hertz.Select(f => target.At(f).Decibels)];
            var shift = both.Average() - wanted.Average();
            curves.Add(("Target", [.. wanted.Select(level => level + shift)], PlotStroke.Of(2)));
        }

        return Of(key, title, hertz, [.. curves]);
    }

    private static Plot Of(string key, string title, IReadOnlyList<double> hertz, params (string Name, IReadOnlyList<double> Values, PlotStroke Stroke)[] curves) =>
        new(key, title, PlotAxis.Around("dB", curves.SelectMany(curve => curve.Values), 30, false, 60), [.. curves.Select(curve => new PlotSeries(curve.Name, [.. curve.Values.Select((value, i) => new PlotPoint(hertz[i], value))], curve.Stroke))]) { FromHertz = From, ToHertz = To };

    private static double Decibels(double magnitude) => 20 * Math.Log10(Math.Max(magnitude, 1e-6));
}
