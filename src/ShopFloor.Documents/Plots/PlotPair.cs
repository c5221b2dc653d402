using ShopFloor.Documents.Diagrams;

namespace ShopFloor.Documents.Plots;

/// <summary>Two plots beside each other in one drawing, so that what came before and what came after are looked at together.</summary>
public static class PlotPair
{
    private const double Gap = 20;

    public static string Draw(Plot left, Plot right)
    {
        var (one, other) = (PlotFrame.Of(left, PlotWidth.Narrow), PlotFrame.Of(right, PlotWidth.Narrow));
        var svg = new SvgWriter(one.Width + Gap + other.Width, Math.Max(one.Height, other.Height), $"{left.Title}. {right.Title}");
        return svg.Inner(0, PlotDrawing.Draw(left, PlotWidth.Narrow)).Inner(one.Width + Gap, PlotDrawing.Draw(right, PlotWidth.Narrow)).Finish();
    }
}
