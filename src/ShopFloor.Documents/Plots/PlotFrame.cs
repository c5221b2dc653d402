using ShopFloor.Documents.Diagrams;

namespace ShopFloor.Documents.Plots;

/// <summary>Where a plot's parts lie in its drawing. A narrow one is drawn about as wide as a phone shows it, so that its text keeps its size.</summary>
internal sealed record PlotFrame(double Width, double Height, double Left, double Right, double Top, double Bottom, double Size)
{
    /// <summary>Length of a stroke in the legend.</summary>
    public const double Sample = 26;

    public required bool IsNarrow { get; init; }

    /// <summary>Names with the place of their stroke and baseline.</summary>
    public required IReadOnlyList<(PlotSeries Series, double X, double Y)> Legend { get; init; }

    /// <summary>More numbers than these stand too close beside an upright axis.</summary>
    public int MostTicks => IsNarrow ? 6 : int.MaxValue;

    public static PlotFrame Of(Plot plot, PlotWidth width)
    {
        if (width == PlotWidth.Wide)
            return new PlotFrame(480, 290, 46, 466, 26, 256, 12) { IsNarrow = false, Legend = Rows(plot, 46, double.PositiveInfinity, 17, 12).Places };
        const double Size = 15;
        const double Row = Size + 5;
        var (places, rows) = Rows(plot, 46, 326, 20, Size);
        var down = (rows - 1) * Row;
        return new PlotFrame(330, 270 + down, 46, 322, 30 + down, 230 + down, Size) { IsNarrow = true, Legend = places };
    }

    public double X(Plot plot, double hertz) => Left + (Right - Left) * Math.Log(hertz / plot.FromHertz) / Math.Log(plot.ToHertz / plot.FromHertz);

    /// <summary>Not a number where the value is none.</summary>
    public double Y(Plot plot, double value) => double.IsFinite(value) ? Bottom - (Bottom - Top) * plot.Y.Share(value) : double.NaN;

    private static (List<(PlotSeries, double, double)> Places, int Rows) Rows(Plot plot, double left, double right, double baseline, double size)
    {
        List<(PlotSeries, double, double)> places = [];
        var (x, rows) = (left, 1);
        foreach (var series in plot.Series)
        {
            var wide = Sample + 5 + TextMeasure.Width(series.Name, size) + 12;
            if (x > left && x + wide > right)
            {
                x = left;
                rows++;
            }

            places.Add((series, x, baseline + (rows - 1) * (size + 5)));
            x += wide;
        }

        return (places, rows);
    }
}
