using System.Globalization;
using System.Xml.Linq;
using ShopFloor.Documents.Composition;
using ShopFloor.Documents.Drawing;
using ShopFloor.Documents.Fabrication;
using ShopFloor.Documents.Tests.Drawing;
using ShopFloor.Engineering.Fabrication.Nesting;
using ShopFloor.Engineering.Fabrication.Templates;
using ShopFloor.Engineering.Geometry;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Money;

namespace ShopFloor.Documents.Tests.Fabrication;

/// <summary>Sheets and templates on paper and for the machine.</summary>
public sealed class FabricationDrawingTests
{
    private const double PointsPerMillimetre = 72 / 25.4;

    private static readonly TemplateInput Small = new()
    {
        Name = "Adapter", CutOutMeters = 0.11, Outside = new RectangularOutside(0.15, 0.14, 0.01), ThicknessMeters = 0.012, Holes = 4, BoltCircleMeters = 0.128, HoleMeters = 0.0045, FirstHoleDegrees = 45,
        Rings = [new TemplateRing("Recess", 0.118, 0.004, false)],
    };

    [Theory]
    [InlineData(PaperSize.A4)]
    [InlineData(PaperSize.Letter)]
    public void The_scale_bars_on_paper_are_exactly_100_mm_and_4_in(PaperSize paper)
    {
        using var pdf = DrawnPdf.Of(TemplateDocument.Compose(RingTemplate.Compute(Small), Letterhead, "JC-7"), paper);

        var widths = Widths(pdf.Pages[^1]);
        Assert.Contains(widths, width => Math.Abs(width - 283.4646) < 0.005); // 100 mm · 72/25.4
        Assert.Contains(widths, width => Math.Abs(width - 288) < 0.005);
        Assert.Contains(widths, width => Math.Abs(width - 110 * PointsPerMillimetre) < 0.05); // the cut-out
        Assert.Contains("100 mm", DrawnPdf.TextOf(pdf.Pages[^1]), StringComparison.Ordinal);
        Assert.Contains("4 in", DrawnPdf.TextOf(pdf.Pages[^1]), StringComparison.Ordinal);
        Assert.Contains("Print at 100", pdf.Text, StringComparison.Ordinal);
        Assert.Contains("Ø 110", pdf.Text.Replace('\u00a0', ' '), StringComparison.Ordinal);
    }

    // A ring of 340 mm and its border need 3 columns of 155 + 10 mm, and 2 rows of 170 + 10 mm.
    [Fact]
    public void A_template_larger_than_a_page_goes_on_several_that_each_carry_the_bars()
    {
        var ring = RingTemplate.Compute(Small with { Outside = new RoundOutside(0.34), CutOutMeters = 0.28, BoltCircleMeters = 0.304, Holes = 8, Rings = [] });
        using var pdf = DrawnPdf.Of(TemplateDocument.Compose(ring, Letterhead, "JC-7"));

        Assert.Equal(6, TemplateDrawing.Pages(ring).Count);
        Assert.Equal(7, pdf.Pages.Count);
        Assert.All(pdf.Pages.Skip(1), page => Assert.Contains(Widths(page), width => Math.Abs(width - 283.4646) < 0.005));
    }

    [Fact]
    public void Every_point_of_a_large_template_is_on_a_page_and_neighbours_join_on_the_same_line()
    {
        var ring = RingTemplate.Compute(Small with { Outside = new RoundOutside(0.34), CutOutMeters = 0.28, BoltCircleMeters = 0.304, Holes = 8, Rings = [] });
        // Where the middle of the template lies on each page tells what part of it the page shows.
        var windows = TemplateDrawing.Pages(ring).Select(page =>
        {
            var cutOut = XElement.Parse(page.Svg).Elements().First(element => element.Name.LocalName == "circle" && Number(element, "r") == 140);
            var seams = XElement.Parse(page.Svg).Elements().Where(element => element.Name.LocalName == "line" && element.Attribute("stroke-dasharray") is not null && Number(element, "x1") == Number(element, "x2"))
                .Select(line => Number(line, "x1") - Number(cutOut, "cx")).ToList();
            return (page.Row, Left: -Number(cutOut, "cx"), Top: -Number(cutOut, "cy"), Seams: seams);
        }).ToList();

        Assert.True(windows.Min(window => window.Left) <= -175 && windows.Max(window => window.Left) + TemplateDrawing.PageWidth >= 175);
        Assert.True(windows.Min(window => window.Top) <= -175 && windows.Max(window => window.Top) + TemplateDrawing.PageHeight >= 175);
        // Three columns have two seams; each lies on both of its pages.
        foreach (var row in windows.GroupBy(window => window.Row))
            Assert.All(row.SelectMany(window => window.Seams).GroupBy(seam => Math.Round(seam, 3)), seam => Assert.Equal(2, seam.Count()));
        Assert.Equal(2, windows.SelectMany(window => window.Seams).Select(seam => Math.Round(seam, 3)).Distinct().Count());
    }

    [Fact]
    public void A_true_size_figure_that_does_not_fit_the_page_is_refused()
    {
        var figure = new Figure("<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 300 50\" width=\"300\" height=\"50\"><rect width=\"300\" height=\"50\"/></svg>") { TrueSize = true };

        Assert.Contains("True-size figure: 300 mm", Assert.Throws<ArgumentException>(() => DrawnPdf.OfBlocks(figure)).Message, StringComparison.Ordinal);
    }

    // Corners of 150 × 140 with 10 mm radius: sides of 130 and 120 mm; first hole 64·cos 45° = 45.254834 mm.
    [Fact]
    public void The_machine_reads_the_template_in_millimetres()
    {
        var dxf = DxfReader.Read(TemplateDrawing.Dxf(RingTemplate.Compute(Small)));

        Assert.Equal("4", Assert.Single(dxf.Header["$INSUNITS"]).Value);
        Assert.Equal("AC1009", Assert.Single(dxf.Header["$ACADVER"]).Value);
        Assert.Equal(["CUT", "DRILL", "MARK"], dxf.Layers);
        Assert.Equal([55, 59], dxf.Entities.Where(entity => entity.Kind == "CIRCLE" && entity.Layer != "DRILL").Select(circle => circle[40]));
        var holes = dxf.Entities.Where(entity => entity.Layer == "DRILL").ToList();
        Assert.Equal(4, holes.Count);
        Assert.Equal((45.254834, 45.254834, 2.25), (holes[0][10], holes[0][20], holes[0][40]));
        Assert.Equal(4, dxf.Entities.Count(entity => entity.Kind == "ARC" && entity[40] == 10));
        Assert.Equal([120, 120, 130, 130], dxf.Entities.Where(entity => entity is { Kind: "LINE", Layer: "CUT" }).Select(line => Math.Abs(line[11] - line[10]) + Math.Abs(line[21] - line[20])).Order());
        Assert.Equal("-75.0", dxf.Header["$EXTMIN"].First(group => group.Code == 10).Value);
    }

    [Fact]
    public void The_machine_reads_every_part_of_a_sheet_at_its_place()
    {
        var (sheet, parts) = Nested();
        var dxf = DxfReader.Read(SheetDrawing.Dxf(sheet, parts));

        // Two rectangles and a triangle as polylines, a ring as two circles.
        var cut = dxf.Entities.Where(entity => entity.Layer == "CUT").ToList();
        Assert.Equal(3, cut.Count(entity => entity.Kind == "POLYLINE"));
        Assert.Equal([140, 165], cut.Where(entity => entity.Kind == "CIRCLE").Select(circle => circle[40]).Order());
        var side = sheet.Parts.First(part => part.PartId == "side");
        Assert.Contains(cut, entity => entity.Kind == "VERTEX" && Math.Abs(entity[10] - 1000 * (side.XMeters + side.LengthMeters)) < 1e-6 && Math.Abs(entity[20] - 1000 * (side.YMeters + side.WidthMeters)) < 1e-6);
        Assert.Equal(["Ring 1", "Seite ? 1", "Seite ? 2", "Wedge 1"], dxf.Entities.Where(entity => entity.Kind == "TEXT").Select(entity => entity.Groups[1]).Order(StringComparer.Ordinal));
    }

    [Fact]
    public void The_bench_sees_every_part_with_its_size_and_what_to_keep()
    {
        var (sheet, _) = Nested();
        var svg = XElement.Parse(SheetDrawing.Svg(sheet, UnitText.Invariant));
        var words = string.Join(' ', svg.Descendants().Where(element => element.Name.LocalName == "text").Select(element => element.Value.Replace('\u00a0', ' ')));

        Assert.Equal(4, svg.Descendants().Count(element => element.Attribute("data-key")?.Value.StartsWith("part:", StringComparison.Ordinal) == true));
        Assert.Contains("500 mm × 300 mm", words, StringComparison.Ordinal);
        Assert.Contains("Keep", words, StringComparison.Ordinal);
        Assert.Contains("Board, sheet 1: 1200 mm × 800 mm", words, StringComparison.Ordinal);
    }

    [Fact]
    public void An_empty_drawing_and_a_number_that_is_none()
    {
        Assert.Empty(DxfReader.Read(new DxfWriter().Finish()).Entities);
        Assert.Throws<ArgumentException>(() => new DxfWriter().Circle(DxfLayer.Cut, 0, 0, double.NaN));
    }

    private static Letterhead Letterhead => new("Test shop", [], false, UnitSystem.Metric, "UTC");

    private static (NestedSheet Sheet, IReadOnlyList<CutPart> Parts) Nested()
    {
        CutPart[] parts =
        [
            new() { Id = "side", Name = "Seite \u00dc", LengthMeters = 0.5, WidthMeters = 0.3, Quantity = 2, MayTurn = false, MaterialId = "b", ThicknessMeters = 0.018 },
            new() { Id = "ring", Name = "Ring", Outline = new RingOutline(0.33, 0.28), MaterialId = "b", ThicknessMeters = 0.018 },
            new() { Id = "wedge", Name = "Wedge", Outline = new PolygonOutline([new Point2(0, 0), new Point2(0.3, 0), new Point2(0, 0.2)]), MaterialId = "b", ThicknessMeters = 0.018 },
        ];
        var stock = new StockSheet { Id = "s", Name = "Board", LengthMeters = 1.2, WidthMeters = 0.8, MaterialId = "b", ThicknessMeters = 0.018 };
        return (Assert.Single(Assert.Single(SheetNesting.Compute(new NestingInput { Parts = parts, Stock = [stock] }).Materials).Sheets), parts);
    }

    private static double Number(XElement element, string attribute) => double.Parse(element.Attribute(attribute)!.Value, CultureInfo.InvariantCulture);

    private static List<double> Widths(UglyToad.PdfPig.Content.Page page) =>
        [.. page.Paths.SelectMany(path => path).Select(part => part.GetBoundingRectangle()).Where(box => box is not null).Select(box => box!.Value.Width)];
}
