using ShopFloor.Documents.Diagrams;
using ShopFloor.Engineering.Fabrication.Templates;

namespace ShopFloor.Documents.Fabrication;

/// <summary>A template at true size: one unit of the drawing is one millimetre.</summary>
public static class TemplateDrawing
{
    private const double Border = 5;
    private const double FootHeight = 25;
    private const double BarMillimetres = 100;
    private const double MillimetresPerInch = 25.4;

    /// <summary>Window of one page, mm; fits A4 and Letter with the shop's margins.</summary>
    public const double PageWidth = 165, PageHeight = 180;

    /// <summary>How far neighbouring pages overlap, mm.</summary>
    public const double Overlap = 10;

    private static readonly SvgPaint Cut = new("none", Look.Ink, 0.35);
    private static readonly SvgPaint Fine = new("none", Look.Secondary, 0.2);
    private static readonly SvgPaint Dashed = new("none", Look.Secondary, 0.25) { Dash = "3 2" };

    /// <summary>The whole template with both scale bars below.</summary>
    public static string Svg(TemplateResult template)
    {
        ArgumentNullException.ThrowIfNull(template);
        var width = Math.Max(1000 * template.LengthMeters, 4 * MillimetresPerInch) + 2 * Border;
        var height = 1000 * template.WidthMeters + 2 * Border;
        return Page(template, new ViewFrame(width / 2, height / 2, 1000), width, height, [], []);
    }

    /// <summary>The template on as many pages as it takes, row by row from the top left, with the lines they are joined along.</summary>
    public static IReadOnlyList<TemplatePage> Pages(TemplateResult template)
    {
        ArgumentNullException.ThrowIfNull(template);
        var (columns, rows) = (Count(1000 * template.LengthMeters, PageWidth), Count(1000 * template.WidthMeters, PageHeight));
        var (stepX, stepY) = (PageWidth - Overlap, PageHeight - Overlap);
        // The middle of all pages together is the middle of the template.
        var (left, top) = (-(columns * stepX + Overlap) / 2, -(rows * stepY + Overlap) / 2);
        var seamsX = Enumerable.Range(1, columns - 1).Select(n => left + n * stepX + Overlap / 2).ToList();
        var seamsY = Enumerable.Range(1, rows - 1).Select(n => top + n * stepY + Overlap / 2).ToList();
        return
        [
            .. from row in Enumerable.Range(0, rows)
               from column in Enumerable.Range(0, columns)
               let originX = -(left + column * stepX)
               let originY = -(top + row * stepY)
               select new TemplatePage(row + 1, column + 1, Page(template, new ViewFrame(originX, originY, 1000), PageWidth, PageHeight,
                   [.. seamsX.Select(seam => originX + seam)], [.. seamsY.Select(seam => originY + seam)])),
        ];
    }

    /// <summary>The template as DXF in millimetres about its middle: outlines on CUT, holes on DRILL, steps and the middle on MARK.</summary>
    public static string Dxf(TemplateResult template)
    {
        ArgumentNullException.ThrowIfNull(template);
        var dxf = new DxfWriter().Circle(DxfLayer.Cut, 0, 0, 500 * template.Input.CutOutMeters);
        switch (template.Input.Outside)
        {
            case RoundOutside round:
                dxf.Circle(DxfLayer.Cut, 0, 0, 500 * round.DiameterMeters);
                break;
            case RectangularOutside flat:
                Rounded(dxf, 500 * flat.LengthMeters, 500 * flat.WidthMeters, 1000 * flat.CornerMeters);
                break;
        }

        foreach (var hole in template.Holes)
            dxf.Circle(DxfLayer.Drill, 1000 * hole.Center.X, 1000 * hole.Center.Y, 500 * hole.DiameterMeters);
        foreach (var ring in template.Input.Rings)
            dxf.Circle(DxfLayer.Mark, 0, 0, 500 * ring.DiameterMeters);
        return dxf.Line(DxfLayer.Mark, -5, 0, 5, 0).Line(DxfLayer.Mark, 0, -5, 0, 5).Finish();
    }

    private static int Count(double size, double window) => Math.Max(1, (int)Math.Ceiling((size + 2 * Border - Overlap) / (window - Overlap)));

    private static void Rounded(DxfWriter dxf, double halfX, double halfY, double radius)
    {
        var (innerX, innerY) = (halfX - radius, halfY - radius);
        foreach (var side in (ReadOnlySpan<int>)[-1, 1])
        {
            if (innerX > 0)
                dxf.Line(DxfLayer.Cut, -innerX, side * halfY, innerX, side * halfY);
            if (innerY > 0)
                dxf.Line(DxfLayer.Cut, side * halfX, -innerY, side * halfX, innerY);
        }

        if (radius <= 0)
            return;
        foreach (var (x, y, from) in new[] { (1, 1, 0), (-1, 1, 90), (-1, -1, 180), (1, -1, 270) })
            dxf.Arc(DxfLayer.Cut, x * innerX, y * innerY, radius, from, from + 90);
    }

    private static string Page(TemplateResult template, ViewFrame frame, double width, double height, IReadOnlyList<double> seamsX, IReadOnlyList<double> seamsY)
    {
        var svg = new SvgWriter(width, height + FootHeight, $"{template.Input.Name}, 1:1", "Template at true size with a scale bar of 100 mm and one of 4 in");
        Shape(svg, frame, template);
        foreach (var seam in seamsX.Where(seam => seam > 0 && seam < width))
            svg.Line(seam, 0, seam, height, Dashed);
        foreach (var seam in seamsY.Where(seam => seam > 0 && seam < height))
            svg.Line(0, seam, width, seam, Dashed);
        // Covers what runs out below the window, so that the bars stand on clean paper.
        svg.Rectangle(-10, height, width + 20, FootHeight + 20, new SvgPaint(Look.Paper));
        // Inside the edge, where the page does not cut it off.
        svg.Rectangle(0.2, 0.2, width - 0.4, height - 0.4, Fine);
        Bar(svg, height + 6, BarMillimetres, 10, "100 mm");
        Bar(svg, height + 16, 4 * MillimetresPerInch, MillimetresPerInch, "4 in");
        return svg.Finish();
    }

    private static void Shape(SvgWriter svg, ViewFrame frame, TemplateResult template)
    {
        var (x, y) = (frame.X(0), frame.Y(0));
        switch (template.Input.Outside)
        {
            case RoundOutside round:
                svg.Circle(x, y, 500 * round.DiameterMeters, Cut);
                break;
            case RectangularOutside flat:
                svg.Rectangle(x - 500 * flat.LengthMeters, y - 500 * flat.WidthMeters, 1000 * flat.LengthMeters, 1000 * flat.WidthMeters, Cut, 1000 * flat.CornerMeters);
                break;
        }

        foreach (var ring in template.Input.Rings)
            svg.Circle(x, y, 500 * ring.DiameterMeters, Dashed);
        svg.Circle(x, y, 500 * template.Input.CutOutMeters, Cut);
        Cross(svg, x, y, 8);
        if (template.Input.BoltCircleMeters is { } circle && template.Holes.Count > 0)
            svg.Circle(x, y, 500 * circle, Fine);
        foreach (var hole in template.Holes)
        {
            var (holeX, holeY, radius) = (frame.X(hole.Center.X), frame.Y(hole.Center.Y), 500 * hole.DiameterMeters);
            svg.Circle(holeX, holeY, radius, Cut);
            Cross(svg, holeX, holeY, radius + 2);
            svg.Text(holeX + radius + 0.8, holeY - radius - 0.8, hole.Number.ToString(System.Globalization.CultureInfo.InvariantCulture), new SvgTextStyle(3));
        }
    }

    private static void Cross(SvgWriter svg, double x, double y, double arm)
    {
        svg.Line(x - arm, y, x + arm, y, Fine);
        svg.Line(x, y - arm, x, y + arm, Fine);
    }

    private static void Bar(SvgWriter svg, double y, double length, double step, string label)
    {
        svg.Line(Border, y, Border + length, y, new SvgPaint("none", Look.Ink, 0.3));
        for (var at = 0.0; at <= length + 0.001; at += step)
            svg.Line(Border + at, y - 1.5, Border + at, y + 1.5, Fine with { Stroke = Look.Ink });
        svg.Text(Border + length + 3, y + 1.2, label, new SvgTextStyle(3.5, Heavy: true));
    }
}

/// <summary>One page of a template.</summary>
/// <param name="Row">Row from the top, from 1.</param>
/// <param name="Column">Column from the left, from 1.</param>
/// <param name="Svg">The drawing, one unit a millimetre.</param>
public sealed record TemplatePage(int Row, int Column, string Svg);
