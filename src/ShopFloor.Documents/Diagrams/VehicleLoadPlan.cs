using System.Globalization;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Phases.Design;

namespace ShopFloor.Documents.Diagrams;

/// <summary>The vehicle from above with the load of every wheel, the shares of axles and sides, the centre of mass and what was put in and taken out.</summary>
public static class VehicleLoadPlan
{
    // Room beside nose and tail for the shares of the axles.
    private const double Margin = 100;
    private const double Width = 800 + (2 * Margin);
    private const double Height = 440;
    private const double Reach = 0.1;

    /// <param name="text">Units and culture of the reader.</param>
    public static string Draw(WeightPlanView view, UnitText text)
    {
        ArgumentNullException.ThrowIfNull(view);
        ArgumentNullException.ThrowIfNull(text);
        var shape = VehicleShape.Of(view.Body);
        var scale = Math.Min(740 / shape.Length, 320 / (shape.HalfWidth * 2 * 1.17));
        var frame = new ViewFrame((Width - (shape.Length * scale)) / 2, Height / 2, scale);
        var svg = new SvgWriter(Width, Height, "Loads of the wheels from above, nose to the left", Describe(view, text));
        svg.Rectangle(0, 0, Width, Height, new SvgPaint(Look.Paper));
        VehicleInterior.Draw(svg, shape, frame);
        var loads = view.Loads.ToDictionary(row => row.Name);
        foreach (var (name, along, top) in new[] { ("Front right", shape.FrontWheel, true), ("Rear right", shape.RearWheel, true), ("Front left", shape.FrontWheel, false), ("Rear left", shape.RearWheel, false) })
        {
            if (loads.GetValueOrDefault(name) is { } wheel)
            {
                Wheel(svg, wheel, frame.X(along), top, text);
            }
        }

        Shares(svg, view, frame, shape, text);
        VehicleTopPlan.Badges(svg, shape, frame, Badges(view, text));
        Center(svg, view, shape, frame);
        return svg.Finish();
    }

    /// <summary>What was put in and taken out, by zone: circles and squares.</summary>
    private static List<PlanBadge> Badges(WeightPlanView view, UnitText text) =>
    [
        .. from zone in view.Zones
           where VehicleTopPlan.Zones.Any(known => known.Key == zone.Zone) && Math.Abs(zone.NetKilograms) >= 0.05
           select new PlanBadge(zone.Zone, Short(Math.Abs(zone.NetKilograms), text), zone.NetKilograms < 0 ? BadgeShape.Square : BadgeShape.Circle, zone.NetKilograms >= 0),
    ];

    // A badge holds four characters: the number without its unit, of two figures.
    private static string Short(double kilograms, UnitText text) => text.Of(kilograms, QuantityKind.Mass, 2).Split('\u00a0')[0];

    private static void Wheel(SvgWriter svg, LoadRow wheel, double x, bool top, UnitText text)
    {
        var load = wheel.Weighed ?? wheel.After;
        var first = top ? 24.0 : Height - 34;
        svg.Text(x, first, load is { } known ? LoadRow.Load(known, text) : "not weighed", new SvgTextStyle(20, Look.Ink, Heavy: true, Anchor: SvgAnchor.Middle));
        svg.Text(x, first + 20, LoadRow.Signed(wheel.Change, text), new SvgTextStyle(16, Look.Accent, Heavy: true, Anchor: SvgAnchor.Middle));
    }

    private static void Shares(SvgWriter svg, WeightPlanView view, ViewFrame frame, VehicleShape shape, UnitText text)
    {
        var plain = new SvgTextStyle(16, Look.Secondary, Anchor: SvgAnchor.Middle);
        var strong = new SvgTextStyle(18, Look.Ink, Heavy: true, Anchor: SvgAnchor.Middle);
        var balance = view.Balance.Corners is { } corners ? corners.After ?? corners.Predicted : null;
        var front = balance?.FrontShare ?? (view.Balance.Axles is { FrontKilograms: { } f, RearKilograms: { } r } ? f / (f + r) : null);
        var (left, right) = (frame.X(0) / 2, (frame.X(shape.Length) + Width) / 2);
        var middle = Height / 2;
        svg.Text(left, middle - 6, "Front", plain).Text(right, middle - 6, "Rear", plain);
        if (front is { } share)
        {
            svg.Text(left, middle + 16, text.Percent(100 * share), strong).Text(right, middle + 16, text.Percent(100 * (1 - share)), strong);
        }
        else if (view.Balance.Axles is { } axles)
        {
            svg.Text(left, middle + 16, LoadRow.Signed(axles.FrontChangeKilograms, text), strong).Text(right, middle + 16, LoadRow.Signed(axles.RearChangeKilograms, text), strong);
        }

        svg.Text(Width / 2, 24, balance is { } sides ? $"Right {text.Percent(100 * (1 - sides.LeftShare))}" : "Right", plain);
        svg.Text(Width / 2, Height - 14, balance is { } across ? $"Left {text.Percent(100 * across.LeftShare)}" : "Left", plain);
    }

    /// <summary>The centre of mass as weighed or predicted, where wheelbase and track say.</summary>
    private static void Center(SvgWriter svg, WeightPlanView view, VehicleShape shape, ViewFrame frame)
    {
        if (view is not { Balance.Corners: { } corners, Measures: { WheelbaseMeters: { } wheelbase, TrackMeters: { } track } })
        {
            return;
        }

        var last = corners.After ?? corners.Predicted;
        var x = frame.X(shape.FrontWheel + (last.CenterRearwardMeters / wheelbase * (shape.RearWheel - shape.FrontWheel)));
        var y = frame.Y(-last.CenterLeftMeters / (track / 2) * (shape.HalfWidth - Reach)); // up in the frame is right
        var line = new SvgPaint("none", Look.Ink, 2);
        svg.Circle(x, y, 10, new SvgPaint(Look.Paper, Look.Ink, 2)).Line(x - 15, y, x + 15, y, line).Line(x, y - 15, x, y + 15, line);
    }

    private static string Describe(WeightPlanView view, UnitText text) => string.Join(
        "; ",
        view.Loads.Select(row => $"{row.Name} {((row.Weighed ?? row.After) is { } load ? text.Kilograms(load) : "not weighed")}, {LoadRow.Signed(row.Change, text).ToString(CultureInfo.InvariantCulture)}"));
}
