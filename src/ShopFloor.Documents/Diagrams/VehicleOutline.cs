using ShopFloor.Shop.Vehicles;

namespace ShopFloor.Documents.Diagrams;

/// <summary>
/// The outline drawing on which a vehicle's condition is marked: five views on one sheet.
/// The nose points left in the middle; the left side is below, the right side above, front and rear at the ends.
/// </summary>
public static class VehicleOutline
{
    /// <summary>Width of the drawing in its own units.</summary>
    public const int Width = 1000;

    /// <summary>Height of the drawing in its own units.</summary>
    public const int Height = 700;

    private const double SideMargin = 22;
    private const double ViewGap = 26;
    private const double LabelSize = 13;

    /// <summary>The drawing with its marks, as SVG.</summary>
    public static string Draw(BodyStyle body, params IReadOnlyList<DrawnMark> marks)
    {
        ArgumentNullException.ThrowIfNull(marks);
        var layout = new OutlineLayout(VehicleShape.Of(body));
        var svg = new SvgWriter(Width, Height,
            "Outline of the vehicle from five sides" + (marks.Count == 0 ? "" : $" with {marks.Count} condition marks"));
        svg.Rectangle(0, 0, Width, Height, new SvgPaint(Look.Paper));
        foreach (var side in (ViewFrame[])[layout.Left, layout.Right])
        {
            var shape = layout.Shape;
            svg.Line(side.X(-0.12), side.Y(0), side.X(shape.Length + 0.12), side.Y(0), new SvgPaint("none", Look.Hairline, 1.5));
        }
        foreach (var end in (ViewFrame[])[layout.Front, layout.Rear])
            svg.Line(end.X(-layout.Shape.HalfWidth * 1.1), end.Y(0), end.X(layout.Shape.HalfWidth * 1.1), end.Y(0), new SvgPaint("none",
                Look.Hairline, 1.5));
        VehicleSideView.Draw(svg, layout.Shape, layout.Right, fuelFlap: true);
        VehicleTopView.Draw(svg, layout.Shape, layout.Top);
        VehicleSideView.Draw(svg, layout.Shape, layout.Left, fuelFlap: false);
        VehicleEndViews.DrawFront(svg, layout.Shape, layout.Front);
        VehicleEndViews.DrawRear(svg, layout.Shape, layout.Rear);
        Labels(svg, layout);
        if (marks.Count > 0)
            ConditionMarkDrawing.Legend(svg, [.. marks.Select(mark => mark.Kind).Distinct().Order()], SideMargin, Height - 24);
        foreach (var mark in marks)
            ConditionMarkDrawing.Draw(svg, mark, Width, Height);
        return svg.Finish();
    }

    /// <summary>Says in words where a point of the drawing lies; both coordinates run from 0 to 1 over the whole drawing.</summary>
    public static VehicleArea Locate(BodyStyle body, double x, double y)
    {
        var layout = new OutlineLayout(VehicleShape.Of(body));
        return VehiclePanels.Locate(layout, x * Width, y * Height);
    }

    private static void Labels(SvgWriter svg, OutlineLayout layout)
    {
        var shape = layout.Shape;
        var style = new SvgTextStyle(LabelSize, Look.Secondary, Anchor: SvgAnchor.Middle);
        svg.Text(layout.Right.X(shape.Length / 2), layout.Right.Y(0) + 17, "Right side", style);
        svg.Text(layout.Left.X(shape.Length / 2), layout.Left.Y(0) + 17, "Left side", style);
        svg.Text(layout.Front.X(0), layout.Front.Y(0) + 17, "Front", style);
        svg.Text(layout.Rear.X(0), layout.Rear.Y(0) + 17, "Rear", style);
    }

    /// <summary>Where each view stands.</summary>
    internal sealed class OutlineLayout
    {
        public OutlineLayout(VehicleShape shape)
        {
            Shape = shape;
            var across = shape.HalfWidth * 2 * 1.17;
            var scale = Math.Min(
                (Width - (2 * SideMargin) - (2 * ViewGap)) / (shape.Length + (2 * across)),
                (Height - 128) / ((2 * shape.Height) + across));
            var left = (Width - (shape.Length * scale)) / 2;
            var middle = (Height / 2.0) + 6;
            var endX = left / 2;
            Top = new ViewFrame(left, middle, scale);
            Right = new ViewFrame(Width - left, middle - (across * scale / 2) - 34, scale, Mirrored: true);
            Left = new ViewFrame(left, middle + (across * scale / 2) + 10 + (shape.Height * scale), scale);
            Front = new ViewFrame(endX, middle + (shape.Height * scale / 2), scale);
            Rear = new ViewFrame(Width - endX, middle + (shape.Height * scale / 2), scale);
        }

        public VehicleShape Shape { get; }

        public ViewFrame Top { get; }

        public ViewFrame Right { get; }

        public ViewFrame Left { get; }

        public ViewFrame Front { get; }

        public ViewFrame Rear { get; }
    }
}
