using ShopFloor.Shop.Vehicles;

namespace ShopFloor.Documents.Diagrams;

/// <summary>Draws a vehicle from above, nose at 0 along; up in the frame is the vehicle's right.</summary>
internal static class VehicleTopView
{
    public static void Draw(SvgWriter svg, VehicleShape v, ViewFrame frame)
    {
        Mirrors(svg, v, frame);
        svg.Path(Outline(v, frame), VehicleStrokes.Body);
        Glass(svg, v, frame);
        Panels(svg, v, frame);
    }

    public static SvgPath Outline(VehicleShape v, ViewFrame frame)
    {
        var (w, length) = (v.HalfWidth, v.Length);
        return new SvgPath(frame)
            .Move(0.02, 0)
            .Curve(0.03, w * 0.45, 0.07, w * 0.8, 0.32, w * 0.91)
            .Curve(0.5, w * 0.98, 0.8, w * 0.99, 1.1, w * 0.985)
            .Curve(1.6, w * 0.975, length - 1.7, w * 1.0, length - 0.9, w)
            .Curve(length - 0.5, w, length - 0.32, w * 0.95, length - 0.17, w * 0.86)
            .Curve(length - 0.03, w * 0.76, length, w * 0.4, length, 0)
            .Curve(length, -w * 0.4, length - 0.03, -w * 0.76, length - 0.17, -w * 0.86)
            .Curve(length - 0.32, -w * 0.95, length - 0.5, -w, length - 0.9, -w)
            .Curve(length - 1.7, -w * 1.0, 1.6, -w * 0.975, 1.1, -w * 0.985)
            .Curve(0.8, -w * 0.99, 0.5, -w * 0.98, 0.32, -w * 0.91)
            .Curve(0.07, -w * 0.8, 0.03, -w * 0.45, 0.02, 0)
            .Close();
    }

    private static void Glass(SvgWriter svg, VehicleShape v, ViewFrame frame)
    {
        var (w, cowl, screen, end, glass) = (v.HalfWidth, v.Cowl.X, v.ScreenTop.X, v.RoofEnd.X, v.RearGlassBase.X);
        var (belt, roof) = (w * 0.83, w * 0.66);
        var van = v.Body == BodyStyle.Van;
        svg.Path(Screen(frame, cowl - 0.14, cowl + 0.06, belt * 0.93, screen - 0.1, screen, roof), VehicleStrokes.Glass);
        if (v.HasBed)
            svg.Path(Screen(frame, glass - 0.05, glass - 0.06, belt * 0.88, end + 0.02, end, roof), VehicleStrokes.Glass);
        else if (!van)
            svg.Path(Screen(frame, glass + 0.05, glass - 0.06, belt * 0.88, end + 0.05, end, roof * 0.97), VehicleStrokes.Glass);
        var sideEnd = van ? v.DoorSplit : v.HasBed ? end : glass - 0.22;
        foreach (var side in (double[])[1, -1])
        {
            svg.Path(
                new SvgPath(frame).Move(cowl + 0.24, side * belt)
                    .Curve(screen - 0.2, side * belt * 1.01, sideEnd - 0.6, side * belt * 1.01, sideEnd,
                    side * belt * (van || v.HasBed ? 1 : 0.95))
                    .Curve(sideEnd - 0.1, side * (roof + 0.06), Math.Min(sideEnd, end) - 0.2, side * (roof + 0.04), Math.Min(sideEnd,
                    end) - 0.12, side * (roof + 0.035))
                    .Line(screen + 0.08, side * (roof + 0.035))
                    .Curve(screen - 0.1, side * (roof + 0.05), cowl + 0.4, side * (belt - 0.03), cowl + 0.24, side * belt)
                    .Close(),
                VehicleStrokes.Glass);
            // Roof edges run on behind the last side window.
            if (van)
                svg.Path(new SvgPath(frame).Move(v.DoorSplit - 0.1, side * (roof + 0.1))
                    .Line(v.Length - 0.2, side * (roof + 0.1)), VehicleStrokes.Faint);
        }
    }

    private static SvgPath Screen(ViewFrame frame, double outerMiddle, double outerEdge, double outerHalf, double innerMiddle,
        double innerEdge, double innerHalf) =>
        new SvgPath(frame).Move(outerEdge, outerHalf)
            .Curve(outerMiddle, outerHalf * 0.55, outerMiddle, -outerHalf * 0.55, outerEdge, -outerHalf)
            .Line(innerEdge, -innerHalf)
            .Curve(innerMiddle, -innerHalf * 0.55, innerMiddle, innerHalf * 0.55, innerEdge, innerHalf)
            .Close();

    private static void Panels(SvgWriter svg, VehicleShape v, ViewFrame frame)
    {
        var (w, cowl, glass) = (v.HalfWidth, v.Cowl.X, v.RearGlassBase.X);
        // Bonnet.
        svg.Path(
            new SvgPath(frame).Move(cowl + 0.03, w * 0.82).Curve(0.9, w * 0.82, 0.5, w * 0.74, 0.3, w * 0.62)
                .Curve(0.2, w * 0.3, 0.2, -w * 0.3, 0.3, -w * 0.62).Curve(0.5, -w * 0.74, 0.9, -w * 0.82, cowl + 0.03, -w * 0.82),
            VehicleStrokes.Seam);
        foreach (var side in (double[])[1, -1])
        {
            svg.Path(new SvgPath(frame).Move(0.42, side * w * 0.4)
                .Curve(0.7, side * w * 0.46, cowl - 0.3, side * w * 0.5, cowl - 0.08, side * w * 0.52), VehicleStrokes.Faint);
            // Headlamp.
            svg.Path(new SvgPath(frame).Move(0.1, side * w * 0.62)
                .Curve(0.2, side * w * 0.66, 0.34, side * w * 0.74, 0.46, side * w * 0.9), VehicleStrokes.Seam);
            // Tail lamp.
            svg.Path(
                new SvgPath(frame).Move(v.Length - 0.06, side * w * 0.58)
                    .Curve(v.Length - 0.13, side * w * 0.62, v.Length - 0.24, side * w * 0.74, v.Length - 0.34, side * w * 0.94),
                VehicleStrokes.Seam);
            // Doors.
            foreach (var seam in DoorSeams(v))
                svg.Line(frame.X(seam), frame.Y(side * w * 0.84), frame.X(seam), frame.Y(side * w * 0.975), VehicleStrokes.Seam);
        }
        if (v.HasBed)
        {
            svg.Rectangle(frame.X(glass + 0.06), frame.Y(w * 0.78), (v.Length - glass - 0.2) * frame.Scale, w * 1.56 * frame.Scale,
                VehicleStrokes.Seam, 6);
            for (var i = 1; i < 6; i++)
                svg.Line(frame.X(glass + 0.14), frame.Y((w * 0.78) - (i * w * 0.26)), frame.X(v.Length - 0.22),
                    frame.Y((w * 0.78) - (i * w * 0.26)), VehicleStrokes.Faint);
        }
        else if (v.Body != BodyStyle.Van)
        {
            // Boot lid or tailgate.
            svg.Path(
                new SvgPath(frame).Move(glass - 0.08, w * 0.76)
                    .Curve(glass + 0.1, w * 0.74, v.Length - 0.2, w * 0.66, v.Length - 0.1, w * 0.56)
                    .Curve(v.Length - 0.06, w * 0.3, v.Length - 0.06, -w * 0.3, v.Length - 0.1, -w * 0.56)
                    .Curve(v.Length - 0.2, -w * 0.66, glass + 0.1, -w * 0.74, glass - 0.08, -w * 0.76),
                VehicleStrokes.Seam);
        }
        else
        {
            for (var i = 1; i < 6; i++)
            {
                var rib = v.DoorSplit + (i * (v.Length - v.DoorSplit - 0.2) / 6);
                svg.Line(frame.X(rib), frame.Y(w * 0.66), frame.X(rib), frame.Y(-w * 0.66), VehicleStrokes.Faint);
            }
        }
    }

    private static IEnumerable<double> DoorSeams(VehicleShape v)
    {
        yield return v.FrontDoorStart;
        yield return v.DoorSplit;
        if (v.RearDoorEnd is { } end)
            yield return end;
    }

    public static void Mirrors(SvgWriter svg, VehicleShape v, ViewFrame frame)
    {
        var (x, w) = (v.Cowl.X + 0.3, v.HalfWidth);
        foreach (var side in (double[])[1, -1])
        {
            svg.Path(
                new SvgPath(frame).Move(x + 0.02, side * w * 0.95)
                    .Curve(x - 0.02, side * (w + 0.05), x - 0.02, side * (w + 0.13), x + 0.06, side * (w + 0.15))
                    .Curve(x + 0.14, side * (w + 0.16), x + 0.17, side * (w + 0.1), x + 0.15, side * w * 0.97).Close(),
                VehicleStrokes.Part);
        }
    }
}
