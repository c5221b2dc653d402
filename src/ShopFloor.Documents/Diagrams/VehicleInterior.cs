namespace ShopFloor.Documents.Diagrams;

/// <summary>Draws a vehicle from above with the roof taken off: engine bay, dash, seats, boot floor.</summary>
internal static class VehicleInterior
{
    private static readonly SvgPaint _hidden = new("none", "#94A0A8", 1.2) { Dash = "5 4" };
    private static readonly SvgPaint _seat = new(Look.Wash, "#94A0A8", 1.2);

    public static void Draw(SvgWriter svg, VehicleShape v, ViewFrame frame)
    {
        var (w, length) = (v.HalfWidth, v.Length);
        foreach (var along in (double[])[v.FrontWheel, v.RearWheel])
        {
            foreach (var side in (double[])[1, -1])
                Box(svg, frame, along - v.WheelRadius, (side * (w - 0.1)) + 0.11, 2 * v.WheelRadius, 0.22, VehicleStrokes.Tyre, 6);
        }
        VehicleTopView.Mirrors(svg, v, frame);
        svg.Path(VehicleTopView.Outline(v, frame), VehicleStrokes.Body);
        // Bulkhead, windscreen and dash.
        var cowl = 0.27 * length;
        svg.Path(new SvgPath(frame).Move(cowl, w * 0.86)
            .Curve(cowl - 0.18, w * 0.45, cowl - 0.18, -w * 0.45, cowl, -w * 0.86), VehicleStrokes.Seam);
        svg.Path(
            new SvgPath(frame).Move(cowl + 0.2, w * 0.84).Curve(cowl + 0.1, w * 0.45, cowl + 0.1, -w * 0.45, cowl + 0.2, -w * 0.84)
                .Line(cowl + 0.4, -w * 0.8).Curve(cowl + 0.34, -w * 0.4, cowl + 0.34, w * 0.4, cowl + 0.4, w * 0.8).Close(),
            _seat);
        // Inner skin of the doors and flanks.
        foreach (var side in (double[])[1, -1])
        {
            svg.Path(
                new SvgPath(frame).Move(cowl + 0.2, side * w * 0.86).Line(0.72 * length, side * w * 0.82)
                    .Line(0.74 * length, side * w * 0.68).Line(length - 0.22, side * w * 0.68),
                VehicleStrokes.Seam);
            foreach (var seam in (double[])[0.36, 0.525, 0.705])
                svg.Line(frame.X(seam * length), frame.Y(side * w * 0.84), frame.X(seam * length), frame.Y(side * w * 0.985),
                    VehicleStrokes.Seam);
            // Front seat: cushion and backrest.
            Box(svg, frame, 0.405 * length, (side * w * 0.43) + 0.25, 0.48, 0.5, _seat, 10);
            Box(svg, frame, (0.405 * length) + 0.44, (side * w * 0.43) + 0.26, 0.17, 0.52, _seat, 7);
            Box(svg, frame, 0.08 * length, (side * w * 0.44) + 0.3, 0.15 * length, 0.6, _hidden, 8);
        }
        // Rear bench, boot floor in two halves, spare wheel well.
        Box(svg, frame, 0.605 * length, w * 0.72, 0.42, w * 1.44, _seat, 10);
        Box(svg, frame, (0.605 * length) + 0.4, w * 0.74, 0.17, w * 1.48, _seat, 7);
        Box(svg, frame, 0.745 * length, w * 0.62, (0.245 * length) - 0.12, w * 1.24, _hidden, 8);
        svg.Line(frame.X(0.745 * length), frame.Y(0), frame.X((0.99 * length) - 0.12), frame.Y(0), _hidden);
        svg.Circle(frame.X(0.875 * length), frame.Y(0), 0.26 * frame.Scale, _hidden);
    }

    private static void Box(SvgWriter svg, ViewFrame frame, double along, double up, double length, double width, SvgPaint paint,
        double radius) =>
        svg.Rectangle(frame.X(along), frame.Y(up), length * frame.Scale, width * frame.Scale, paint, radius);
}
