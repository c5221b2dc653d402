using ShopFloor.Shop.Vehicles;

namespace ShopFloor.Documents.Diagrams;

/// <summary>Draws a vehicle from the side, nose at 0 along.</summary>
internal static class VehicleSideView
{
    public static void Draw(SvgWriter svg, VehicleShape shape, ViewFrame frame, bool fuelFlap)
    {
        svg.Path(Outline(shape, frame), VehicleStrokes.Body);
        Windows(svg, shape, frame);
        Seams(svg, shape, frame, fuelFlap);
        Lamps(svg, shape, frame);
        Wheel(svg, shape, frame, shape.FrontWheel);
        Wheel(svg, shape, frame, shape.RearWheel);
    }

    private static SvgPath Outline(VehicleShape v, ViewFrame frame)
    {
        var (cowl, screen, end, glass, deck) = (v.Cowl, v.ScreenTop, v.RoofEnd, v.RearGlassBase, v.DeckEnd);
        var drop = v.WheelRadius - v.Sill;
        var reach = Math.Sqrt((v.ArchRadius * v.ArchRadius) - (drop * drop));
        var path = new SvgPath(frame)
            .Move(0.2, v.Sill)
            .Curve(0.08, v.Sill + 0.01, 0.03, v.Sill + 0.1, 0.025, v.BonnetLead - 0.24)
            .Curve(0.025, v.BonnetLead - 0.1, 0.06, v.BonnetLead - 0.02, 0.2, v.BonnetLead + 0.03)
            .Curve(0.5, v.BonnetLead + 0.13, cowl.X - 0.4, cowl.Z - 0.06, cowl.X, cowl.Z)
            .Curve(cowl.X + 0.2, cowl.Z + 0.14, screen.X - 0.3, screen.Z - 0.14, screen.X, screen.Z)
            .Curve(screen.X + 0.16, screen.Z + 0.05, v.RoofPeak - 0.2, v.Height, v.RoofPeak, v.Height);
        var roof = end.X - v.RoofPeak;
        path.Curve(v.RoofPeak + (roof * 0.4), v.Height, end.X - (roof * 0.35), end.Z + ((v.Height - end.Z) * 0.55), end.X, end.Z);
        if (v.HasBed)
        {
            path.Curve(end.X + 0.07, end.Z - 0.02, end.X + 0.11, end.Z - 0.08, end.X + 0.13, end.Z - 0.16)
                .Line(glass.X, glass.Z)
                .Line(deck.X - 0.02, deck.Z)
                .Curve(deck.X + 0.02, deck.Z, deck.X + 0.04, deck.Z - 0.02, deck.X + 0.04, deck.Z - 0.06);
        }
        else
        {
            var fall = glass.X - end.X;
            path.Curve(end.X + (fall * 0.35), end.Z - 0.05, glass.X - (fall * 0.3), glass.Z + ((end.Z - glass.Z) * 0.35), glass.X, glass.Z);
            var lid = deck.X - glass.X;
            path.Curve(glass.X + (lid * 0.3), glass.Z - 0.015, deck.X - (lid * 0.3), deck.Z + 0.015, deck.X, deck.Z)
                .Curve(deck.X + 0.04, deck.Z - 0.03, v.Length - 0.05, deck.Z - 0.12, v.Length - 0.04, deck.Z - 0.2);
        }
        return path
            .Curve(v.Length - 0.01, 0.66, v.Length, 0.56, v.Length - 0.005, 0.5)
            .Curve(v.Length - 0.01, v.Sill + 0.14, v.Length - 0.06, v.Sill + 0.04, v.Length - 0.22, v.Sill + 0.03)
            .Line(v.RearWheel + reach, v.Sill)
            .Arc(v.ArchRadius, true, false, v.RearWheel - reach, v.Sill)
            .Line(v.FrontWheel + reach, v.Sill)
            .Arc(v.ArchRadius, true, false, v.FrontWheel - reach, v.Sill)
            .Close();
    }

    private static void Windows(SvgWriter svg, VehicleShape v, ViewFrame frame)
    {
        var (cowl, screen, end, glass) = (v.Cowl, v.ScreenTop, v.RoofEnd, v.RearGlassBase);
        var belt = cowl.Z + 0.03;
        var rearBelt = glass.Z + 0.035;
        var top = v.Height - 0.105;
        var rearEdge = v.HasBed ? end.X - 0.02 : v.Body is BodyStyle.Saloon or BodyStyle.Coupe ? glass.X - 0.3 : glass.X - 0.16;
        var rearTop = v.HasBed ? end.X - 0.06 : v.Body is BodyStyle.Saloon or BodyStyle.Coupe ? end.X - 0.02 : end.X - 0.1;
        var rearTopZ = Math.Min(end.Z - 0.085, top);
        if (v.Body == BodyStyle.Van)
        {
            (rearEdge, rearTop) = (v.DoorSplit - 0.04, v.DoorSplit - 0.04);
            rearBelt = belt + 0.04;
            rearTopZ = top;
        }
        svg.Path(
            new SvgPath(frame)
                .Move(cowl.X + 0.24, belt)
                .Curve(cowl.X + 0.42, belt + 0.13, screen.X - 0.12, screen.Z - 0.14, screen.X + 0.06, screen.Z - 0.085)
                .Curve(screen.X + 0.2, screen.Z - 0.04, v.RoofPeak - 0.1, top, v.RoofPeak, top)
                .Curve(v.RoofPeak + ((rearTop - v.RoofPeak) * 0.4), top, rearTop - ((rearTop - v.RoofPeak) * 0.35),
                rearTopZ + ((top - rearTopZ) * 0.6), rearTop, rearTopZ)
                .Quadratic(rearTop + ((rearEdge - rearTop) * 0.55), rearTopZ - 0.03, rearEdge, rearBelt + 0.03)
                .Quadratic(rearEdge + 0.01, rearBelt, rearEdge - 0.06, rearBelt)
                .Close(),
            VehicleStrokes.Glass);
        Pillar(svg, v, frame, v.DoorSplit, belt, top);
        if (v.Body != BodyStyle.Van && v.RearDoorEnd is { } rear && !v.HasBed)
            Pillar(svg, v, frame, v.Body == BodyStyle.Saloon ? rear - 0.04 : rear + 0.04, belt,
                v.Body == BodyStyle.Saloon ? rearTopZ - 0.055 : rearTopZ);
    }

    private static void Pillar(SvgWriter svg, VehicleShape v, ViewFrame frame, double x, double belt, double top)
    {
        if (v.Body == BodyStyle.Van)
            return;
        svg.Path(
            new SvgPath(frame).Move(x - 0.035, belt + 0.005).Line(x - 0.03, top - 0.004).Line(x + 0.03, top - 0.004)
                .Line(x + 0.035, belt + 0.005).Close(),
            new SvgPaint(Look.Paper, Look.Secondary, 1));
    }

    private static void Seams(SvgWriter svg, VehicleShape v, ViewFrame frame, bool fuelFlap)
    {
        var belt = v.Cowl.Z + 0.02;
        var low = v.Sill + 0.1;
        var line = VehicleStrokes.Seam;
        // Front door.
        svg.Path(
            new SvgPath(frame).Move(v.Cowl.X + 0.22, belt)
                .Curve(v.FrontDoorStart - 0.02, belt - 0.15, v.FrontDoorStart - 0.03, low + 0.25, v.FrontDoorStart + 0.02, low + 0.06)
                .Quadratic(v.FrontDoorStart + 0.03, low, v.FrontDoorStart + 0.09, low)
                .Line(v.DoorSplit - 0.06, low).Quadratic(v.DoorSplit, low, v.DoorSplit, low + 0.06).Line(v.DoorSplit, belt + 0.02),
            line);
        if (v.RearDoorEnd is { } end)
        {
            // The rear door's lower corner follows the wheel arch where the arch reaches into it.
            var arch = v.RearWheel - v.ArchRadius - 0.05;
            var door = new SvgPath(frame).Move(v.DoorSplit, low + 0.06).Quadratic(v.DoorSplit, low, v.DoorSplit + 0.06, low);
            if (arch < end - 0.06)
            {
                door.Line(arch - 0.08, low)
                    .Curve(arch + 0.02, low + 0.06, arch + 0.02, v.WheelRadius + 0.22, end - 0.04, v.WheelRadius + 0.38)
                    .Quadratic(end + 0.03, v.WheelRadius + 0.5, end + 0.03, belt + 0.03);
            }
            else
            {
                door.Line(end - 0.06, low).Quadratic(end, low, end, low + 0.06).Line(end, belt + 0.03);
            }
            svg.Path(door, line);
            Handle(svg, frame, end - 0.16, belt - 0.12);
            if (v.Body == BodyStyle.Van)
                svg.Path(new SvgPath(frame).Move(end + 0.05, belt - 0.16).Line(v.DeckEnd.X - 0.14, belt - 0.16), VehicleStrokes.Faint);
        }
        Handle(svg, frame, v.DoorSplit - 0.16, belt - 0.12);
        // Bonnet, sill and a crease along the flank.
        svg.Path(new SvgPath(frame).Move(0.3, v.BonnetLead - 0.02)
            .Curve(0.6, v.BonnetLead + 0.05, v.Cowl.X - 0.35, v.Cowl.Z - 0.13, v.Cowl.X + 0.16, belt - 0.035), line);
        svg.Path(new SvgPath(frame).Move(v.FrontWheel + v.ArchRadius + 0.06, v.Sill + 0.05)
            .Line(v.RearWheel - v.ArchRadius - 0.06, v.Sill + 0.05), VehicleStrokes.Faint);
        svg.Path(new SvgPath(frame).Move(v.FrontWheel + 0.3, belt - 0.2)
            .Curve(v.DoorSplit, belt - 0.17, v.DoorSplit + 0.6, belt - 0.17, v.Length - 0.36, belt - 0.19), VehicleStrokes.Faint);
        // Bumpers.
        svg.Path(new SvgPath(frame).Move(0.035, v.BonnetLead - 0.21)
            .Curve(0.15, v.BonnetLead - 0.23, 0.36, v.BonnetLead - 0.22, v.FrontWheel - v.ArchRadius - 0.03, v.WheelRadius + 0.16), line);
        svg.Path(new SvgPath(frame).Move(v.Length - 0.01, 0.56)
            .Curve(v.Length - 0.16, 0.55, v.RearWheel + v.ArchRadius + 0.14, v.WheelRadius + 0.2, v.RearWheel + v.ArchRadius + 0.03,
            v.WheelRadius + 0.14), line);
        if (!v.HasBed && v.Body != BodyStyle.Van && v.Body != BodyStyle.Hatchback)
            svg.Path(new SvgPath(frame).Move(v.RearGlassBase.X - 0.04, v.RearGlassBase.Z)
                .Curve(v.RearGlassBase.X, v.DeckEnd.Z - 0.08, v.DeckEnd.X - 0.1, v.DeckEnd.Z - 0.08, v.DeckEnd.X - 0.03,
                v.DeckEnd.Z - 0.12), VehicleStrokes.Faint);
        if (v.HasBed)
        {
            svg.Path(new SvgPath(frame).Move(v.RearGlassBase.X, v.RearGlassBase.Z).Line(v.RearGlassBase.X, v.Sill + 0.12), line);
            svg.Path(new SvgPath(frame).Move(v.RearGlassBase.X + 0.03, v.DeckEnd.Z - 0.06)
                .Line(v.DeckEnd.X - 0.02, v.DeckEnd.Z - 0.06), VehicleStrokes.Faint);
        }
        // Mirror.
        svg.Path(
            new SvgPath(frame).Move(v.Cowl.X + 0.34, belt + 0.01)
                .Curve(v.Cowl.X + 0.33, belt + 0.1, v.Cowl.X + 0.36, belt + 0.12, v.Cowl.X + 0.44, belt + 0.12)
                .Curve(v.Cowl.X + 0.53, belt + 0.12, v.Cowl.X + 0.53, belt + 0.02, v.Cowl.X + 0.46, belt + 0.005).Close(),
            VehicleStrokes.Part);
        if (fuelFlap)
            Rounded(svg, frame, v.RearWheel + 0.08, belt - 0.09, 0.15, 0.14, VehicleStrokes.Part);
    }

    private static void Lamps(SvgWriter svg, VehicleShape v, ViewFrame frame)
    {
        var lead = v.BonnetLead;
        svg.Path(
            new SvgPath(frame).Move(0.06, lead - 0.06).Curve(0.16, lead, 0.3, lead + 0.02, 0.46, lead + 0.005)
                .Curve(0.4, lead - 0.1, 0.22, lead - 0.13, 0.045, lead - 0.13).Close(),
            VehicleStrokes.Part);
        var (x, top) = (v.Length, v.DeckEnd.Z);
        if (v.Body is BodyStyle.Van or BodyStyle.Pickup)
        {
            Rounded(svg, frame, x - 0.19, top - 0.1, 0.13, 0.3, VehicleStrokes.Part);
            return;
        }
        svg.Path(
            new SvgPath(frame).Move(x - 0.075, top - 0.1).Curve(x - 0.2, top - 0.06, x - 0.34, top - 0.07, x - 0.44, top - 0.1)
                .Curve(x - 0.4, top - 0.19, x - 0.22, top - 0.23, x - 0.035, top - 0.22).Close(),
            VehicleStrokes.Part);
    }

    private static void Wheel(SvgWriter svg, VehicleShape v, ViewFrame frame, double along)
    {
        var (x, y, r) = (frame.X(along), frame.Y(v.WheelRadius), v.WheelRadius * frame.Scale);
        svg.Circle(x, y, r, VehicleStrokes.Tyre);
        svg.Circle(x, y, r * 0.7, VehicleStrokes.Rim);
        for (var i = 0; i < 5; i++)
        {
            var angle = (i * 2 * Math.PI / 5) - (Math.PI / 2);
            foreach (var spread in (double[])[-0.13, 0.13])
            {
                svg.Line(
                    x + (r * 0.2 * Math.Cos(angle + (spread * 2))), y + (r * 0.2 * Math.Sin(angle + (spread * 2))),
                    x + (r * 0.66 * Math.Cos(angle + spread)), y + (r * 0.66 * Math.Sin(angle + spread)), VehicleStrokes.Faint);
            }
        }
        svg.Circle(x, y, r * 0.15, VehicleStrokes.Rim);
    }

    private static void Handle(SvgWriter svg, ViewFrame frame, double x, double top) =>
        Rounded(svg, frame, x - 0.07, top, 0.17, 0.035, VehicleStrokes.Part);

    private static void Rounded(SvgWriter svg, ViewFrame frame, double x, double top, double width, double height, SvgPaint paint) =>
        svg.Rectangle(frame.Mirrored ? frame.X(x + width) : frame.X(x), frame.Y(top), width * frame.Scale, height * frame.Scale, paint,
            Math.Min(width, height) * frame.Scale * 0.35);
}
