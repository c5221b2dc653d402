using ShopFloor.Shop.Vehicles;

namespace ShopFloor.Documents.Diagrams;

/// <summary>Names the panel a point of the outline drawing falls on.</summary>
internal static class VehiclePanels
{
    // A mark just outside the line still means the panel next to it.
    private const double Reach = 0.1;

    public static VehicleArea Locate(VehicleOutline.OutlineLayout layout, double x, double y)
    {
        var v = layout.Shape;
        var (topAlong, topUp) = layout.Top.Inverse(x, y);
        if (Within(topAlong, 0, v.Length) && Within(topUp, -v.HalfWidth * 1.15, v.HalfWidth * 1.15))
            return new VehicleArea(VehicleView.Top, "top, " + Top(v, topAlong, topUp));
        var (leftAlong, leftUp) = layout.Left.Inverse(x, y);
        if (Within(leftAlong, 0, v.Length) && Within(leftUp, 0, v.Height))
            return new VehicleArea(VehicleView.LeftSide, "left side, " + Side(v, leftAlong, leftUp));
        var (rightAlong, rightUp) = layout.Right.Inverse(x, y);
        if (Within(rightAlong, 0, v.Length) && Within(rightUp, 0, v.Height))
            return new VehicleArea(VehicleView.RightSide, "right side, " + Side(v, rightAlong, rightUp));
        var (frontAcross, frontUp) = layout.Front.Inverse(x, y);
        // Seen from the front, the vehicle's left is to the right.
        if (Within(frontAcross, -v.HalfWidth * 1.15, v.HalfWidth * 1.15) && Within(frontUp, 0, v.Height))
            return new VehicleArea(VehicleView.Front, "front, " + Front(v, frontAcross, frontUp));
        var (rearAcross, rearUp) = layout.Rear.Inverse(x, y);
        if (Within(rearAcross, -v.HalfWidth * 1.15, v.HalfWidth * 1.15) && Within(rearUp, 0, v.Height))
            return new VehicleArea(VehicleView.Rear, "rear, " + Rear(v, rearAcross, rearUp));
        return new VehicleArea(null, "beside the vehicle");
    }

    private static bool Within(double value, double from, double to) => value >= from - Reach && value <= to + Reach;

    private static bool InCircle(double x, double z, double middleX, double middleZ, double radius) =>
        double.Hypot(x - middleX, z - middleZ) <= radius;

    private static string Side(VehicleShape v, double x, double z)
    {
        if (InCircle(x, z, v.FrontWheel, v.WheelRadius, v.WheelRadius))
            return "front wheel";
        if (InCircle(x, z, v.RearWheel, v.WheelRadius, v.WheelRadius))
            return "rear wheel";
        var belt = v.Cowl.Z + 0.02;
        var windowsEnd = v.Body == BodyStyle.Van ? v.DoorSplit : v.HasBed ? v.RoofEnd.X : v.RearGlassBase.X - 0.2;
        if (z > belt)
        {
            if (z > v.Height - 0.12)
                return "roof edge";
            if (x < v.Cowl.X + 0.24)
                return "windscreen";
            if (x <= v.DoorSplit)
                return "front window";
            if (x <= windowsEnd)
                return v.RearDoorEnd is null ? "rear side window" : "rear window";
            return v.HasBed ? "cargo bed" : v.Body == BodyStyle.Van ? "rear panel" : "rear pillar";
        }
        if (z < v.Sill + 0.08 && x > v.FrontWheel && x < v.RearWheel)
            return "sill";
        if (x < v.FrontDoorStart)
            return z < v.BonnetLead - 0.21 && x < v.FrontWheel - (v.ArchRadius * 0.6) ? "front bumper" : "front wing";
        if (x <= v.DoorSplit)
            return "front door";
        if (v.RearDoorEnd is { } rear && x <= rear)
            return "rear door";
        if (z < 0.56 && x > v.RearWheel + (v.ArchRadius * 0.6))
            return "rear bumper";
        return v.HasBed ? "cargo bed" : "rear quarter";
    }

    private static string Top(VehicleShape v, double x, double up)
    {
        // The vehicle's right is up in the drawing.
        var hand = up > 0 ? "right" : "left";
        var edge = Math.Abs(up) / v.HalfWidth;
        if (x < 0.18)
            return "front bumper";
        if (x < v.Cowl.X)
            return edge > 0.8 ? $"{hand} front wing" : "bonnet";
        if (x > v.Length - 0.12)
            return "rear bumper";
        if (edge > 1 && x < v.Cowl.X + 0.6)
            return $"{hand} mirror";
        if (edge > 0.84)
        {
            if (x <= v.DoorSplit)
                return $"{hand} front door";
            return v.RearDoorEnd is { } rear && x <= rear ? $"{hand} rear door" : $"{hand} rear quarter";
        }
        if (x < v.ScreenTop.X)
            return "windscreen";
        if (x <= v.RoofEnd.X)
            return "roof";
        if (v.HasBed)
            return x <= v.RearGlassBase.X ? "rear window" : "cargo bed";
        if (v.Body == BodyStyle.Van)
            return "rear doors";
        return x <= v.RearGlassBase.X ? "rear window" : v.Body is BodyStyle.Saloon or BodyStyle.Coupe ? "boot lid" : "tailgate";
    }

    private static string Front(VehicleShape v, double toLeft, double z)
    {
        var hand = toLeft > 0 ? "left" : "right";
        var edge = Math.Abs(toLeft) / v.HalfWidth;
        if (edge > 0.9 && z > v.Cowl.Z - 0.02)
            return $"{hand} mirror";
        if (z > v.Height - 0.09)
            return "roof";
        if (z > v.Cowl.Z)
            return "windscreen";
        if (edge > 0.48 && z > v.BonnetLead - 0.18 && z < v.BonnetLead + 0.03)
            return $"{hand} headlamp";
        if (z > v.BonnetLead - 0.03)
            return edge > 0.86 ? $"{hand} front wing" : "bonnet";
        return z > v.BonnetLead - 0.21 && edge < 0.45 ? "grille" : "front bumper";
    }

    private static string Rear(VehicleShape v, double toRight, double z)
    {
        var hand = toRight > 0 ? "right" : "left";
        var edge = Math.Abs(toRight) / v.HalfWidth;
        if (z > v.Height - 0.09)
            return "roof";
        if (z > v.RearGlassBase.Z + 0.02)
            return edge > 0.86 ? $"{hand} mirror" : v.Body == BodyStyle.Van ? $"{hand} rear door window" : "rear window";
        var bumper = Math.Min(0.56, v.DeckEnd.Z - 0.3);
        if (z < bumper)
            return "rear bumper";
        if (edge > 0.55 && z < v.DeckEnd.Z - 0.04 && z > v.DeckEnd.Z - 0.25)
            return $"{hand} tail lamp";
        if (edge > 0.82)
            return $"{hand} rear quarter";
        return v.Body switch
        {
            BodyStyle.Saloon or BodyStyle.Coupe => "boot lid",
            BodyStyle.Van => $"{hand} rear door",
            _ => "tailgate",
        };
    }
}
