using ShopFloor.Shop.Vehicles;

namespace ShopFloor.Documents.Diagrams;

/// <summary>Draws a vehicle from the front and from behind, middle at 0 across.</summary>
internal static class VehicleEndViews
{
    public static void DrawFront(SvgWriter svg, VehicleShape v, ViewFrame frame)
    {
        var (w, lead) = (v.HalfWidth, v.BonnetLead);
        Tyres(svg, v, frame);
        Mirrors(svg, v, frame);
        svg.Path(Outline(v, frame), VehicleStrokes.Body);
        Window(svg, frame, v.Cowl.Z + 0.015, w * 0.78, v.Height - 0.085, w * 0.6);
        // Bonnet: its front edge and two creases.
        svg.Path(
            new SvgPath(frame).Move(-w * 0.86, v.Cowl.Z - 0.07).Curve(-w * 0.82, lead + 0.06, -w * 0.7, lead - 0.01, -w * 0.5, lead - 0.02)
                .Curve(-w * 0.2, lead - 0.035, w * 0.2, lead - 0.035, w * 0.5, lead - 0.02)
                .Curve(w * 0.7, lead - 0.01, w * 0.82, lead + 0.06, w * 0.86, v.Cowl.Z - 0.07),
            VehicleStrokes.Seam);
        foreach (var side in (double[])[1, -1])
        {
            svg.Path(new SvgPath(frame).Move(side * w * 0.52, v.Cowl.Z - 0.02)
                .Quadratic(side * w * 0.46, lead + 0.1, side * w * 0.38, lead - 0.02), VehicleStrokes.Faint);
            svg.Path(
                new SvgPath(frame).Move(side * w * 0.5, lead - 0.07)
                    .Curve(side * w * 0.62, lead - 0.05, side * w * 0.8, lead - 0.01, side * w * 0.93, lead + 0.02)
                    .Curve(side * w * 0.96, lead - 0.06, side * w * 0.95, lead - 0.12, side * w * 0.9, lead - 0.16)
                    .Curve(side * w * 0.75, lead - 0.18, side * w * 0.6, lead - 0.16, side * w * 0.5, lead - 0.07).Close(),
                VehicleStrokes.Part);
            svg.Circle(frame.X(side * w * 0.78), frame.Y(lead - 0.09), 0.055 * frame.Scale, VehicleStrokes.Faint);
            svg.Circle(frame.X(side * w * 0.74), frame.Y(v.Sill + 0.12), 0.045 * frame.Scale, VehicleStrokes.Faint);
        }
        // Grille, plate and lower intake.
        var grilleTop = lead - 0.09;
        var grilleLow = lead - 0.2;
        svg.Path(
            new SvgPath(frame).Move(-w * 0.44, grilleTop).Line(w * 0.44, grilleTop).Quadratic(w * 0.42, grilleLow, w * 0.34, grilleLow)
                .Line(-w * 0.34, grilleLow).Quadratic(-w * 0.42, grilleLow, -w * 0.44, grilleTop).Close(),
            VehicleStrokes.Seam);
        svg.Path(new SvgPath(frame).Move(-w * 0.41, (grilleTop + grilleLow) / 2)
            .Line(w * 0.41, (grilleTop + grilleLow) / 2), VehicleStrokes.Faint);
        Plate(svg, frame, grilleLow - 0.04);
        svg.Path(
            new SvgPath(frame).Move(-w * 0.6, v.Sill + 0.14).Line(w * 0.6, v.Sill + 0.14).Line(w * 0.52, v.Sill + 0.05)
                .Line(-w * 0.52, v.Sill + 0.05).Close(),
            VehicleStrokes.Faint);
    }

    public static void DrawRear(SvgWriter svg, VehicleShape v, ViewFrame frame)
    {
        var (w, deck) = (v.HalfWidth, v.DeckEnd.Z);
        Tyres(svg, v, frame);
        Mirrors(svg, v, frame);
        svg.Path(Outline(v, frame), VehicleStrokes.Body);
        var bumper = Math.Min(0.56, deck - 0.3);
        Window(svg, frame, v.RearGlassBase.Z + 0.03, w * 0.74, v.Height - 0.11, w * 0.58);
        if (v.HasBed)
            svg.Path(new SvgPath(frame).Move(-w * 0.92, deck).Line(w * 0.92, deck), VehicleStrokes.Body);
        // Lid or tailgate; two leaves on a van.
        var lidTop = v.Body is BodyStyle.Saloon or BodyStyle.Coupe or BodyStyle.Pickup ? v.RearGlassBase.Z - 0.01 : v.Height - 0.06;
        var lidTopHalf = v.Body is BodyStyle.Saloon or BodyStyle.Coupe or BodyStyle.Pickup ? w * 0.8 : w * 0.63;
        svg.Path(
            new SvgPath(frame).Move(-lidTopHalf, lidTop).Curve(-w * 0.84, v.RearGlassBase.Z, -w * 0.8, deck - 0.1, -w * 0.66, bumper + 0.1)
                .Quadratic(-w * 0.65, bumper + 0.02, -w * 0.58, bumper + 0.02).Line(w * 0.58, bumper + 0.02)
                .Quadratic(w * 0.65, bumper + 0.02, w * 0.66, bumper + 0.1)
                .Curve(w * 0.8, deck - 0.1, w * 0.84, v.RearGlassBase.Z, lidTopHalf, lidTop),
            VehicleStrokes.Seam);
        if (v.Body == BodyStyle.Van)
            svg.Line(frame.X(0), frame.Y(v.Height - 0.05), frame.X(0), frame.Y(bumper + 0.02), VehicleStrokes.Seam);
        foreach (var side in (double[])[1, -1])
        {
            svg.Path(
                new SvgPath(frame).Move(side * w * 0.56, deck - 0.1)
                    .Curve(side * w * 0.7, deck - 0.06, side * w * 0.85, deck - 0.05, side * w * 0.955, deck - 0.09)
                    .Curve(side * w * 0.985, deck - 0.16, side * w * 0.98, deck - 0.2, side * w * 0.95, deck - 0.235)
                    .Curve(side * w * 0.8, deck - 0.24, side * w * 0.64, deck - 0.21, side * w * 0.56, deck - 0.1).Close(),
                VehicleStrokes.Part);
            svg.Rectangle(frame.X(side * w * 0.76) - (0.09 * frame.Scale), frame.Y(v.Sill + 0.14), 0.18 * frame.Scale,
                0.045 * frame.Scale, VehicleStrokes.Faint, 2);
        }
        Plate(svg, frame, v.Body == BodyStyle.Van || v.HasBed ? bumper + 0.2 : Math.Max(bumper + 0.17, deck - 0.24));
        svg.Path(new SvgPath(frame).Move(-w * 0.98, bumper - 0.02)
            .Curve(-w * 0.7, bumper - 0.05, w * 0.7, bumper - 0.05, w * 0.98, bumper - 0.02), VehicleStrokes.Seam);
    }

    private static SvgPath Outline(VehicleShape v, ViewFrame frame)
    {
        var (w, belt, top) = (v.HalfWidth, v.Cowl.Z, v.Height);
        var roof = w * 0.66;
        return new SvgPath(frame)
            .Move(-w * 0.88, v.Sill)
            .Curve(-w * 0.96, v.Sill + 0.02, -w, v.Sill + 0.2, -w, v.Sill + 0.34)
            .Curve(-w, belt - 0.2, -w * 0.97, belt - 0.08, -w * 0.88, belt + 0.01)
            .Curve(-w * 0.8, belt + 0.2, -roof - 0.05, top - 0.13, -roof + 0.04, top - 0.05)
            .Curve(-roof + 0.13, top - 0.01, -0.25, top, 0, top)
            .Curve(0.25, top, roof - 0.13, top - 0.01, roof - 0.04, top - 0.05)
            .Curve(roof + 0.05, top - 0.13, w * 0.8, belt + 0.2, w * 0.88, belt + 0.01)
            .Curve(w * 0.97, belt - 0.08, w, belt - 0.2, w, v.Sill + 0.34)
            .Curve(w, v.Sill + 0.2, w * 0.96, v.Sill + 0.02, w * 0.88, v.Sill)
            .Close();
    }

    private static void Window(SvgWriter svg, ViewFrame frame, double low, double lowHalf, double high, double highHalf) =>
        svg.Path(
            new SvgPath(frame).Move(-lowHalf, low + 0.01)
                .Curve(-lowHalf * 0.93, low + ((high - low) * 0.4), -highHalf - 0.06, high - 0.1, -highHalf + 0.01, high - 0.02)
                .Curve(-highHalf * 0.5, high + 0.015, highHalf * 0.5, high + 0.015, highHalf - 0.01, high - 0.02)
                .Curve(highHalf + 0.06, high - 0.1, lowHalf * 0.93, low + ((high - low) * 0.4), lowHalf, low + 0.01)
                .Curve(lowHalf * 0.5, low - 0.02, -lowHalf * 0.5, low - 0.02, -lowHalf, low + 0.01).Close(),
            VehicleStrokes.Glass);

    private static void Plate(SvgWriter svg, ViewFrame frame, double top) =>
        svg.Rectangle(frame.X(-0.26), frame.Y(top), 0.52 * frame.Scale, 0.11 * frame.Scale, VehicleStrokes.Part, 2);

    private static void Tyres(SvgWriter svg, VehicleShape v, ViewFrame frame)
    {
        foreach (var side in (double[])[1, -1])
        {
            var middle = side * (v.HalfWidth - 0.16);
            svg.Rectangle(frame.X(middle) - (0.11 * frame.Scale), frame.Y(v.Sill + 0.15), 0.22 * frame.Scale,
                (v.Sill + 0.15) * frame.Scale, VehicleStrokes.Tyre, 5);
        }
    }

    private static void Mirrors(SvgWriter svg, VehicleShape v, ViewFrame frame)
    {
        var (w, low) = (v.HalfWidth, v.Cowl.Z + 0.03);
        foreach (var side in (double[])[1, -1])
        {
            svg.Path(
                new SvgPath(frame).Move(side * w * 0.84, low + 0.02).Line(side * w * 0.93, low + 0.03)
                    .Curve(side * w * 0.94, low + 0.12, side * w * 1.0, low + 0.13, side * w * 1.08, low + 0.125)
                    .Curve(side * w * 1.15, low + 0.11, side * w * 1.13, low + 0.01, side * w * 1.06, low)
                    .Line(side * w * 0.86, low - 0.02).Close(),
                VehicleStrokes.Part);
        }
    }
}
