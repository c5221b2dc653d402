using ShopFloor.Documents.Diagrams;
using ShopFloor.Engineering.Fabrication.Nesting;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Documents.Fabrication;

/// <summary>A nested sheet as a drawing for the bench and as a file for the machine. The origin is the sheet's lower left corner.</summary>
public static class SheetDrawing
{
    private const double LongSide = 960;
    private const double Margin = 30;
    private const double TextSize = 15;

    /// <summary>The sheet as SVG: parts with name and size, offcuts to keep, waste, the trimmed edge.</summary>
    public static string Svg(NestedSheet sheet, UnitText text)
    {
        ArgumentNullException.ThrowIfNull(sheet);
        ArgumentNullException.ThrowIfNull(text);
        var scale = LongSide / Math.Max(sheet.LengthMeters, sheet.WidthMeters);
        var (length, width) = (sheet.LengthMeters * scale, sheet.WidthMeters * scale);
        var frame = new ViewFrame(Margin, Margin + width, scale);
        var title = $"{sheet.Name}, sheet {sheet.Copy}: {Size(sheet.LengthMeters, sheet.WidthMeters, text)}";
        var svg = new SvgWriter(length + 2 * Margin, width + 2 * Margin + TextSize, title, string.Join("; ", sheet.Parts.Select(part => $"{part.Name} {part.Copy}, {Size(part.LengthMeters, part.WidthMeters, text)}")));
        svg.Rectangle(Margin, Margin, length, width, new SvgPaint(Look.Wash, Look.Ink, 2));
        if (sheet.TrimMeters > 0)
        {
            svg.Rectangle(frame.X(sheet.TrimMeters), frame.Y(sheet.WidthMeters - sheet.TrimMeters), length - 2 * sheet.TrimMeters * scale, width - 2 * sheet.TrimMeters * scale,
                new SvgPaint("none", Look.Secondary) { Dash = "4 3" });
        }

        foreach (var rest in sheet.LeftOver.Where(rest => rest.Kept))
        {
            Box(rest.XMeters, rest.YMeters, rest.LengthMeters, rest.WidthMeters, new SvgPaint(Look.Paper, Look.Fine, 1.5) { Dash = "6 4" });
            Words(rest.XMeters, rest.YMeters, rest.LengthMeters, rest.WidthMeters, "Keep", Look.Fine);
        }

        foreach (var part in sheet.Parts)
        {
            svg.BeginGroup($"part:{part.PartId}:{part.Copy}");
            Box(part.XMeters, part.YMeters, part.LengthMeters, part.WidthMeters, new SvgPaint(Look.Paper, Look.Ink, 1.5));
            Words(part.XMeters, part.YMeters, part.LengthMeters, part.WidthMeters, part.Name, Look.Ink);
            svg.EndGroup();
        }

        svg.Text(Margin, Margin + width + TextSize + 8, title, new SvgTextStyle(TextSize, Look.Ink, Heavy: true));
        return svg.Finish();

        void Box(double x, double y, double boxLength, double boxWidth, SvgPaint paint) => svg.Rectangle(frame.X(x), frame.Y(y + boxWidth), boxLength * scale, boxWidth * scale, paint);

        // Name over size, the name smaller where it has to be; what then has no room is left to the list beside the drawing.
        void Words(double x, double y, double boxLength, double boxWidth, string name, string fill)
        {
            var (middleX, middleY) = (frame.X(x + boxLength / 2), frame.Y(y + boxWidth / 2));
            var (roomX, roomY) = (boxLength * scale - 4, boxWidth * scale - 4);
            var size = Size(boxLength, boxWidth, text);
            var both = roomY >= 2.4 * TextSize && TextMeasure.Width(size, TextSize) <= roomX;
            // A name that begins with a number may stand as that number alone.
            var number = name.Split(' ')[0];
            string[] names = number.Length > 0 && number.All(char.IsAsciiDigit) ? [name, number] : [name];
            var fits = from shown in names
                       from letters in new[] { TextSize, 11, 8 }
                       where roomY >= letters * 1.2 && TextMeasure.Width(shown, letters, heavy: true) <= roomX
                       select (shown, letters);
            if (fits.FirstOrDefault() is { shown: { } words, letters: var at })
                svg.Text(middleX, middleY + (both ? -2 : at * 0.35), words, new SvgTextStyle(at, fill, Heavy: true, SvgAnchor.Middle));

            if (both)
                svg.Text(middleX, middleY + TextSize, size, new SvgTextStyle(TextSize, fill, Anchor: SvgAnchor.Middle));
        }
    }

    /// <summary>The sheet as DXF in millimetres: parts on CUT, the sheet, offcuts and names on MARK. Shapes that are no rectangle are drawn as such when the cut list is given.</summary>
    public static string Dxf(NestedSheet sheet, IReadOnlyList<CutPart> parts)
    {
        ArgumentNullException.ThrowIfNull(sheet);
        ArgumentNullException.ThrowIfNull(parts);
        var dxf = new DxfWriter().Rectangle(DxfLayer.Mark, 0, 0, 1000 * sheet.LengthMeters, 1000 * sheet.WidthMeters);
        foreach (var part in sheet.Parts)
        {
            Outline(dxf, part, parts.FirstOrDefault(line => line.Id == part.PartId)?.Outline);
            dxf.Text(DxfLayer.Mark, 1000 * part.XMeters + 5, 1000 * part.YMeters + 5, 10, $"{part.Name} {part.Copy}");
        }

        foreach (var rest in sheet.LeftOver.Where(rest => rest.Kept))
            dxf.Rectangle(DxfLayer.Mark, 1000 * rest.XMeters, 1000 * rest.YMeters, 1000 * rest.LengthMeters, 1000 * rest.WidthMeters);
        return dxf.Finish();
    }

    private static void Outline(DxfWriter dxf, PlacedPart part, PartOutline? outline)
    {
        var (x, y, length, width) = (1000 * part.XMeters, 1000 * part.YMeters, 1000 * part.LengthMeters, 1000 * part.WidthMeters);
        switch (outline)
        {
            case DiscOutline:
                dxf.Circle(DxfLayer.Cut, x + length / 2, y + width / 2, length / 2);
                break;
            case RingOutline ring:
                dxf.Circle(DxfLayer.Cut, x + length / 2, y + width / 2, length / 2);
                if (ring.InnerMeters > 0)
                    dxf.Circle(DxfLayer.Cut, x + length / 2, y + width / 2, 500 * ring.InnerMeters);
                break;
            case PolygonOutline polygon:
                var (low, left, high) = (polygon.Corners.Min(corner => corner.Y), polygon.Corners.Min(corner => corner.X), polygon.Corners.Max(corner => corner.Y));
                // Turned by a quarter anticlockwise: what was up lies to the left.
                dxf.Polygon(DxfLayer.Cut, [.. polygon.Corners.Select(corner => part.Turned
                    ? (x + 1000 * (high - corner.Y), y + 1000 * (corner.X - left))
                    : (x + 1000 * (corner.X - left), y + 1000 * (corner.Y - low)))]);
                break;
            default:
                dxf.Rectangle(DxfLayer.Cut, x, y, length, width);
                break;
        }
    }

    private static string Size(double length, double width, UnitText text) => $"{text.Of(length, QuantityKind.SmallLength, 5)} × {text.Of(width, QuantityKind.SmallLength, 5)}";
}
