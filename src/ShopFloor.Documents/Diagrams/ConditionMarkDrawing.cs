using ShopFloor.Shop.Phases.Intake;

namespace ShopFloor.Documents.Diagrams;

/// <summary>Draws condition marks and explains their shapes.</summary>
internal static class ConditionMarkDrawing
{
    private const double Radius = 9;
    private const double LabelSize = 13;
    private const int LongestLabel = 6;

    private static readonly SvgPaint _halo = new("none", Look.Paper, 6);
    private static readonly SvgPaint _pen = new("none", Look.Accent, 2.4);

    public static string Word(ConditionKind kind) => kind switch
    {
        ConditionKind.Scratch => "scratch",
        ConditionKind.Dent => "dent",
        ConditionKind.Chip => "chip",
        ConditionKind.Crack => "crack",
        ConditionKind.Worn => "worn",
        ConditionKind.Missing => "missing",
        _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, "Unknown kind of mark."),
    };

    public static void Draw(SvgWriter svg, DrawnMark mark, double width, double height)
    {
        // Wholly inside the drawing, so that no mark is cut off in print.
        const double Edge = Radius + 4;
        var x = Math.Clamp(mark.X * width, Edge, width - Edge);
        var y = Math.Clamp(mark.Y * height, Edge, height - Edge);
        svg.BeginGroup("mark-" + Word(mark.Kind));
        Shape(svg, mark.Kind, x, y, _halo);
        Shape(svg, mark.Kind, x, y, _pen);
        var label = mark.Label.Length > LongestLabel ? mark.Label[..LongestLabel].TrimEnd() + "…" : mark.Label;
        if (label.Length > 0)
        {
            var tag = Math.Max(18, TextMeasure.Width(label, LabelSize, heavy: true) + 9);
            var tagX = x + Radius + 2 + tag <= width ? x + Radius + 1 : x - Radius - 1 - tag;
            var tagY = y - Radius - 13 >= 2 ? y - Radius - 13 : y + Radius - 5;
            svg.Rectangle(tagX, tagY, tag, 18, new SvgPaint(Look.Accent, Look.Paper, 1.5), 9);
            svg.Text(tagX + (tag / 2), tagY + 13.6, label, new SvgTextStyle(LabelSize, Look.Paper, Heavy: true, Anchor: SvgAnchor.Middle));
        }
        svg.EndGroup();
    }

    /// <summary>The shapes used and their words, upwards from the given lower left point.</summary>
    public static void Legend(SvgWriter svg, IReadOnlyList<ConditionKind> kinds, double left, double bottom)
    {
        var y = bottom - ((kinds.Count - 1) * 26);
        foreach (var kind in kinds)
        {
            Shape(svg, kind, left + Radius, y, _pen);
            svg.Text(left + (2 * Radius) + 10, y + 4.5, Word(kind), new SvgTextStyle(LabelSize, Look.Secondary));
            y += 26;
        }
    }

    private static void Shape(SvgWriter svg, ConditionKind kind, double x, double y, SvgPaint pen)
    {
        switch (kind)
        {
            case ConditionKind.Scratch:
                svg.Polyline(pen, (x - 9, y + 3), (x - 5, y - 5), (x - 1.5, y + 4), (x + 2.5, y - 5), (x + 5.5, y + 4), (x + 9, y - 4));
                break;
            case ConditionKind.Dent:
                svg.Circle(x, y, 7.5, pen);
                break;
            case ConditionKind.Chip:
                svg.Polygon(pen, (x, y - 8), (x + 8, y + 6.5), (x - 8, y + 6.5));
                break;
            case ConditionKind.Crack:
                svg.Polyline(pen, (x + 3, y - 9), (x - 4, y + 0.5), (x + 4, y - 0.5), (x - 3, y + 9));
                break;
            case ConditionKind.Worn:
                svg.Rectangle(x - 7, y - 7, 14, 14, pen);
                break;
            case ConditionKind.Missing:
                svg.Line(x - 7, y - 7, x + 7, y + 7, pen).Line(x + 7, y - 7, x - 7, y + 7, pen);
                break;
            default:
                throw new ArgumentOutOfRangeException(nameof(kind), kind, "Unknown kind of mark.");
        }
    }
}
