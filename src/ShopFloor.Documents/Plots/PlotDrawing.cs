using System.Globalization;
using ShopFloor.Documents.Diagrams;

namespace ShopFloor.Documents.Plots;

/// <summary>How wide a plot will stand.</summary>
public enum PlotWidth
{
    /// <summary>On paper and on wide screens.</summary>
    Wide,

    /// <summary>On a phone: fewer numbers, larger, so that they can be read.</summary>
    Narrow,
}

/// <summary>Draws a plot as SVG.</summary>
public static class PlotDrawing
{
    private static readonly SvgPaint _grid = new("none", Look.Hairline, 0.7);
    private static readonly SvgPaint _named = new("none", Look.Hairline, 1.1);
    private static readonly SvgPaint _limit = new("none", Look.Ink, 1.4) { Dash = "10 3 2 3" };

    /// <summary>Where values lie in the drawing, for pages that read them back: edges, ends of both axes, unit.</summary>
    public static string Scale(Plot plot, PlotWidth width = PlotWidth.Wide)
    {
        ArgumentNullException.ThrowIfNull(plot);
        var frame = PlotFrame.Of(plot, width);
        return string.Join('|', new[] { frame.Left, frame.Right, frame.Top, frame.Bottom, plot.FromHertz, plot.ToHertz, plot.Y.Low, plot.Y.High }.Select(value => value.ToString("0.####", CultureInfo.InvariantCulture))
            .Append(plot.Y.Logarithmic ? "log" : "even").Append(plot.Y.Unit));
    }

    /// <summary>The plot in words, for who cannot see it.</summary>
    public static string Describe(Plot plot)
    {
        ArgumentNullException.ThrowIfNull(plot);
        return string.Join(' ', plot.Series.Where(series => series.Points.Count > 0).Select(series =>
        {
            var highest = series.Points.MaxBy(point => double.IsFinite(point.Value) ? point.Value : double.NegativeInfinity);
            return string.Create(CultureInfo.CurrentCulture, $"{series.Name}: at most {highest.Value:0.##} {plot.Y.Unit} at {highest.Hertz:0.#} Hz.");
        }));
    }

    public static string Draw(Plot plot, PlotWidth width = PlotWidth.Wide)
    {
        ArgumentNullException.ThrowIfNull(plot);
        var frame = PlotFrame.Of(plot, width);
        var svg = new SvgWriter(frame.Width, frame.Height, plot.Title, Describe(plot));
        svg.Rectangle(0, 0, frame.Width, frame.Height, new SvgPaint(Look.Paper));
        Grid(svg, plot, frame);
        foreach (var limit in plot.Limits.Where(limit => plot.Y.Share(limit.Value) is >= 0 and <= 1))
        {
            var y = frame.Y(plot, limit.Value);
            svg.Line(frame.Left, y, frame.Right, y, _limit);
            svg.Text(frame.Right - 4, y - 4, limit.Name, new SvgTextStyle(frame.Size, Heavy: true, Anchor: SvgAnchor.End));
        }

        foreach (var series in plot.Series)
        {
            svg.BeginGroup($"series:{series.Name}");
            var paint = new SvgPaint("none", series.Stroke.Colour, series.Stroke.Width) { Dash = series.Stroke.Dash };
            foreach (var line in PlotClip.Lines([.. series.Points.Select(point => (frame.X(plot, point.Hertz), frame.Y(plot, point.Value)))], frame.Top, frame.Bottom).Where(line => line.Count > 1))
                svg.Polyline(paint, [.. line]);
            svg.EndGroup();
        }

        Marks(svg, plot, frame);
        Bands(svg, plot, frame);
        Legend(svg, frame);
        return svg.Finish();
    }

    private static void Grid(SvgWriter svg, Plot plot, PlotFrame frame)
    {
        var (style, taken) = (new SvgTextStyle(frame.Size, Look.Secondary, Anchor: SvgAnchor.Middle), double.NegativeInfinity);
        foreach (var hertz in LogTicks.Between(plot.FromHertz, plot.ToHertz))
        {
            var x = frame.X(plot, hertz);
            var named = LogTicks.IsNamed(hertz);
            svg.Line(x, frame.Top, x, frame.Bottom, named ? _named : _grid);
            var text = hertz >= 1000 ? Number(hertz / 1000) + "k" : Number(hertz);
            var half = frame.IsNarrow ? TextMeasure.Width(text, frame.Size) / 2 : 0;
            if (!named || x - half < taken || x + half > frame.Width)
                continue;
            svg.Text(x, frame.Bottom + frame.Size + 3, text, style);
            taken = x + half;
        }

        var ticks = plot.Y.Ticks.Where(value => !plot.Y.Logarithmic || LogTicks.IsNamed(value)).ToList();
        var told = ticks.Count > frame.MostTicks ? ticks.Where((_, n) => n % 2 == 0).ToList() : ticks;
        foreach (var value in plot.Y.Ticks)
        {
            var y = frame.Y(plot, value);
            svg.Line(frame.Left, y, frame.Right, y, ticks.Contains(value) ? _named : _grid);
            if (told.Contains(value))
                svg.Text(frame.Left - 6, y + 4, Number(value), new SvgTextStyle(frame.Size, Look.Secondary, Anchor: SvgAnchor.End));
        }

        svg.Rectangle(frame.Left, frame.Top, frame.Right - frame.Left, frame.Bottom - frame.Top, new SvgPaint("none", Look.Secondary, 1.1));
        svg.Text(frame.Left - 6, frame.Top - 10, plot.Y.Unit, new SvgTextStyle(frame.Size, Look.Secondary, Heavy: true, Anchor: SvgAnchor.End));
        svg.Text(frame.Right, frame.Bottom + 2 * frame.Size + 5, "Frequency, Hz", new SvgTextStyle(frame.Size, Look.Secondary, Anchor: SvgAnchor.End));
    }

    // A letter on each curve, spread along the width so that they do not cover each other.
    private static void Marks(SvgWriter svg, Plot plot, PlotFrame frame)
    {
        var marked = plot.Series.Where(series => series.Mark.Length > 0 && series.Points.Count > 2).ToList();
        for (var n = 0; n < marked.Count; n++)
        {
            var points = marked[n].Points.Where(point => double.IsFinite(point.Value) && plot.Y.Share(point.Value) is > 0.04 and < 0.96).ToList();
            if (points.Count < 3)
                continue;
            var point = points[points.Count * (2 + n) / (marked.Count + 4)];
            var (x, y) = (frame.X(plot, point.Hertz), frame.Y(plot, point.Value));
            svg.Circle(x, y, frame.Size * 0.71, new SvgPaint(Look.Paper, marked[n].Stroke.Colour, 1.6));
            svg.Text(x, y + frame.Size * 0.35, marked[n].Mark, new SvgTextStyle(frame.Size, marked[n].Stroke.Colour, Heavy: true, Anchor: SvgAnchor.Middle));
        }
    }

    private static void Bands(SvgWriter svg, Plot plot, PlotFrame frame)
    {
        var height = frame.Size + 4;
        foreach (var band in plot.Bands)
        {
            var (from, to) = (frame.X(plot, band.FromHertz), frame.X(plot, band.ToHertz));
            svg.Rectangle(from, frame.Bottom - height, to - from, height, new SvgPaint(Look.Wash, Look.Secondary, 0.8));
            // A word that does not fit is left to the text beside the plot.
            if (TextMeasure.Width(band.Text, frame.Size - 1) < to - from - 4)
                svg.Text((from + to) / 2, frame.Bottom - 4.5, band.Text, new SvgTextStyle(frame.Size - 1, Anchor: SvgAnchor.Middle));
        }
    }

    private static void Legend(SvgWriter svg, PlotFrame frame)
    {
        foreach (var (series, x, y) in frame.Legend)
        {
            svg.Line(x, y - 4, x + PlotFrame.Sample, y - 4, new SvgPaint("none", series.Stroke.Colour, series.Stroke.Width) { Dash = series.Stroke.Dash });
            svg.Text(x + PlotFrame.Sample + 5, y, series.Name, new SvgTextStyle(frame.Size));
        }
    }

    private static string Number(double value) => value.ToString("0.##", CultureInfo.CurrentCulture);
}
