using System.Globalization;
using System.Xml.Linq;
using CsCheck;
using ShopFloor.Documents.Plots;

namespace ShopFloor.Documents.Tests.Plots;

public sealed class PlotDrawingTests
{
    [Theory]
    [InlineData(PlotWidth.Wide)]
    [InlineData(PlotWidth.Narrow)]
    public void A_curve_never_leaves_the_frame_whatever_its_values(PlotWidth width) =>
        Gen.Double[-500, 500].Array[3, 60].Sample(values =>
        {
            var plot = Of(values);
            var scale = Scale(plot, width);
            foreach (var (_, y) in Curves(plot, width).SelectMany(curve => curve))
                Assert.InRange(y, scale[2] - 0.011, scale[3] + 0.011);
        });

    [Theory]
    [InlineData(PlotWidth.Wide)]
    [InlineData(PlotWidth.Narrow)]
    public void The_scale_reads_a_drawn_point_back(PlotWidth width)
    {
        var plot = Of([-20, -5, 0, 12, 30]);
        var scale = Scale(plot, width);

        var points = Curves(plot, width).SelectMany(curve => curve).ToList();

        for (var n = 0; n < 5; n++)
        {
            var share = (points[n].X - scale[0]) / (scale[1] - scale[0]);
            Assert.Equal(plot.Series[0].Points[n].Hertz, scale[4] * Math.Pow(scale[5] / scale[4], share), 0.05);
            Assert.Equal(plot.Series[0].Points[n].Value, scale[6] + (scale[3] - points[n].Y) / (scale[3] - scale[2]) * (scale[7] - scale[6]), 0.01 * (scale[7] - scale[6]));
        }
    }

    // On a phone of 390 px a plot stands some 330 px wide: its text must not be drawn smaller than 14 px there.
    [Fact]
    public void A_narrow_plot_has_text_that_can_be_read_on_a_phone_and_nothing_runs_into_another()
    {
        var plot = Of([-20, 0, 30]) with { FromHertz = 20, ToHertz = 20_000, Series = [.. Enumerable.Range(0, 6).Select(n => new PlotSeries($"Alternative {n}, in the car", [new(20, 0), new(20_000, n)], PlotStroke.Of(n)))] };
        var svg = XDocument.Parse(PlotDrawing.Draw(plot, PlotWidth.Narrow)).Root!;

        double Read(XElement element, string name) => double.Parse(element.Attribute(name)!.Value, CultureInfo.InvariantCulture);
        var (width, height) = (Read(svg, "width"), Read(svg, "height"));
        Assert.InRange(width, 300, 340);
        var texts = svg.Descendants().Where(element => element.Name.LocalName == "text").ToList();
        Assert.All(texts, text => Assert.InRange(Read(text, "font-size"), 14, 20));
        Assert.All(texts, text => Assert.InRange(Read(text, "y"), 0, height));
        // Names of curves on rows of their own when they are long.
        var legend = texts.Where(text => text.Value.StartsWith("Alternative", StringComparison.Ordinal)).ToList();
        Assert.Equal(6, legend.Select(text => Read(text, "y")).Distinct().Count());
        // At most six numbers beside the axis; between two below it there is room for both.
        Assert.InRange(texts.Count(text => text.Attribute("text-anchor")?.Value == "end" && double.TryParse(text.Value, NumberStyles.Float, CultureInfo.CurrentCulture, out _)), 2, 7);
        var below = texts.Where(text => text.Attribute("text-anchor")?.Value == "middle").OrderBy(text => Read(text, "x")).ToList();
        Assert.True(below.Zip(below.Skip(1)).All(pair => Read(pair.Second, "x") - Read(pair.First, "x") > 7 * (pair.First.Value.Length + pair.Second.Value.Length) / 2.0));
    }

    [Fact]
    public void Alternatives_are_told_apart_without_colour_too() => Assert.Equal(3, Enumerable.Range(0, 3).Select(n => PlotStroke.Of(n).Dash).Distinct().Count());

    [Fact]
    public void An_axis_holds_its_values_with_whole_steps() =>
        Gen.Double[-200, 200].Array[2, 20].Sample(values =>
        {
            var axis = PlotAxis.Around("dB", values, 10, fromZero: false);
            Assert.All(values, value => Assert.InRange(axis.Share(value), -1e-9, 1 + 1e-9));
            Assert.InRange(axis.Ticks.Count, 2, 14);
        });

    [Fact]
    public void A_value_that_is_no_number_leaves_a_gap()
    {
        var curves = Curves(Of([1, 2, double.NaN, 3, 4]));

        Assert.Equal([2, 2], curves.Select(curve => curve.Count));
    }

    private static Plot Of(double[] values) => new(
        "test", "Test", new PlotAxis("dB", -100, 100), [new PlotSeries("A", [.. values.Select((value, n) => new PlotPoint(10 * Math.Pow(50, n / (values.Length - 1.0)), value))], PlotStroke.Of(0))]);

    private static double[] Scale(Plot plot, PlotWidth width) => [.. PlotDrawing.Scale(plot, width).Split('|').Take(8).Select(part => double.Parse(part, CultureInfo.InvariantCulture))];

    private static List<List<(double X, double Y)>> Curves(Plot plot, PlotWidth width = PlotWidth.Wide) =>
    [
        .. XDocument.Parse(PlotDrawing.Draw(plot, width)).Descendants().Where(element => element.Name.LocalName == "polyline")
            .Select(line => line.Attribute("points")!.Value.Split(' ').Select(pair => pair.Split(',')).Select(pair => (double.Parse(pair[0], CultureInfo.InvariantCulture), double.Parse(pair[1], CultureInfo.InvariantCulture))).ToList()),
    ];
}
