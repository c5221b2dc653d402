using System.Globalization;
using ShopFloor.Documents.Diagrams;

namespace ShopFloor.Documents.Plots;

/// <summary>Draws a plot as SVG.</summary>
public static class PlotDrawing
{
    public const double Width = 480;

    public const double Height = 290;

    private const double Left = 46;
    private const double Right = Width - 14;
    private const double Top = 26;
    private const double Bottom = Height - 34;
    private const double Size = 12;
    private const double BandHeight = 16;
    private static readonly SvgPaint _grid = new("none", Look.Hairline, 0.7);
    private static readonly SvgPaint _named = new("none", Look.Hairline, 1.1);
    private static readonly SvgPaint _limit = new("none", Look.Ink, 1.4) { Dash = "10 3 2 3" };

    /// <summary>Where values lie in the drawing, for pages that read them back: edges, ends of both axes, unit.</summary>
    public static string Scale(Plot plot)
    {
        ArgumentNullException.ThrowIfNull(plot);
        return string.Join('|', new[] { Left, Right, Top, Bottom, plot.FromHertz, plot.ToHertz, plot.Y.Low, plot.Y.High }.Select(value => value.ToString("0.####", CultureInfo.InvariantCulture))
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

    public static string Draw(Plot plot)
    {
        ArgumentNullException.ThrowIfNull(plot);
        var svg = new SvgWriter(Width, Height, plot.Title, Describe(plot));
        svg.Rectangle(0, 0, Width, Height, new SvgPaint(Look.Paper));
        Grid(svg, plot);
        foreach (var limit in plot.Limits.Where(limit => plot.Y.Share(limit.Value) is >= 0 and <= 1))
        {
            var y = At(plot, limit.Value);
            svg.Line(Left, y, Right, y, _limit);
            svg.Text(Right - 4, y - 4, limit.Name, new SvgTextStyle(Size, Heavy: true, Anchor: SvgAnchor.End));
        }

        foreach (var series in plot.Series)
        {
            svg.BeginGroup($"series:{series.Name}");
            var paint = new SvgPaint("none", series.Stroke.Colour, series.Stroke.Width) { Dash = series.Stroke.Dash };
            foreach (var line in PlotClip.Lines([.. series.Points.Select(point => (At(plot.FromHertz, plot.ToHertz, point.Hertz), At(plot, point.Value)))], Top, Bottom).Where(line => line.Count > 1))
                svg.Polyline(paint, [.. line]);
            svg.EndGroup();
        }

        Marks(svg, plot);
        Bands(svg, plot);
        Legend(svg, plot);
        return svg.Finish();
    }

    private static void Grid(SvgWriter svg, Plot plot)
    {
        foreach (var hertz in LogTicks.Between(plot.FromHertz, plot.ToHertz))
        {
            var x = At(plot.FromHertz, plot.ToHertz, hertz);
            var named = LogTicks.IsNamed(hertz);
            svg.Line(x, Top, x, Bottom, named ? _named : _grid);
            if (named)
                svg.Text(x, Bottom + 15, hertz >= 1000 ? Number(hertz / 1000) + "k" : Number(hertz), new SvgTextStyle(Size, Look.Secondary, Anchor: SvgAnchor.Middle));
        }

        foreach (var value in plot.Y.Ticks)
        {
            var y = At(plot, value);
            var named = !plot.Y.Logarithmic || LogTicks.IsNamed(value);
            svg.Line(Left, y, Right, y, named ? _named : _grid);
            if (named)
                svg.Text(Left - 6, y + 4, Number(value), new SvgTextStyle(Size, Look.Secondary, Anchor: SvgAnchor.End));
        }

        svg.Rectangle(Left, Top, Right - Left, Bottom - Top, new SvgPaint("none", Look.Secondary, 1.1));
        svg.Text(Left - 6, Top - 10, plot.Y.Unit, new SvgTextStyle(Size, Look.Secondary, Heavy: true, Anchor: SvgAnchor.End));
        svg.Text(Right, Bottom + 29, "Frequency, Hz", new SvgTextStyle(Size, Look.Secondary, Anchor: SvgAnchor.End));
    }

    // A letter on each curve, spread along the width so that they do not cover each other.
    private static void Marks(SvgWriter svg, Plot plot)
    {
        var marked = plot.Series.Where(series => series.Mark.Length > 0 && series.Points.Count > 2).ToList();
        for (var n = 0; n < marked.Count; n++)
        {
            var points = marked[n].Points.Where(point => double.IsFinite(point.Value) && plot.Y.Share(point.Value) is > 0.04 and < 0.96).ToList();
            if (points.Count < 3)
                continue;
            var point = points[points.Count * (2 + n) / (marked.Count + 4)];
            var (x, y) = (At(plot.FromHertz, plot.ToHertz, point.Hertz), At(plot, point.Value));
            svg.Circle(x, y, 8.5, new SvgPaint(Look.Paper, marked[n].Stroke.Colour, 1.6));
            svg.Text(x, y + 4.2, marked[n].Mark, new SvgTextStyle(Size, marked[n].Stroke.Colour, Heavy: true, Anchor: SvgAnchor.Middle));
        }
    }

    private static void Bands(SvgWriter svg, Plot plot)
    {
        foreach (var band in plot.Bands)
        {
            var (from, to) = (At(plot.FromHertz, plot.ToHertz, band.FromHertz), At(plot.FromHertz, plot.ToHertz, band.ToHertz));
            svg.Rectangle(from, Bottom - BandHeight, to - from, BandHeight, new SvgPaint(Look.Wash, Look.Secondary, 0.8));
            // A word that does not fit is left to the text beside the plot.
            if (TextMeasure.Width(band.Text, Size - 1) < to - from - 4)
                svg.Text((from + to) / 2, Bottom - 4.5, band.Text, new SvgTextStyle(Size - 1, Anchor: SvgAnchor.Middle));
        }
    }

    private static void Legend(SvgWriter svg, Plot plot)
    {
        double x = Left;
        foreach (var series in plot.Series)
        {
            svg.Line(x, Top - 13, x + 26, Top - 13, new SvgPaint("none", series.Stroke.Colour, series.Stroke.Width) { Dash = series.Stroke.Dash });
            svg.Text(x + 31, Top - 9, series.Name, new SvgTextStyle(Size));
            x += 31 + TextMeasure.Width(series.Name, Size) + 12;
        }
    }

    private static double At(double from, double to, double hertz) => Left + (Right - Left) * Math.Log(hertz / from) / Math.Log(to / from);

    private static double At(Plot plot, double value) => double.IsFinite(value) ? Bottom - (Bottom - Top) * plot.Y.Share(value) : double.NaN;

    private static string Number(double value) => value.ToString("0.##", CultureInfo.CurrentCulture);
}
