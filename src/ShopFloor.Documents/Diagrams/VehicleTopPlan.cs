using ShopFloor.Shop.Vehicles;

namespace ShopFloor.Documents.Diagrams;

/// <summary>The vehicle from above, opened to show its seats, with badges where things are. The nose points left.</summary>
public static class VehicleTopPlan
{
    /// <summary>Width of the drawing in its own units.</summary>
    public const int Width = 800;

    /// <summary>Height of the drawing in its own units.</summary>
    public const int Height = 400;

    private const double BadgeRadius = 12;
    private const double BadgeStep = 27;
    private const double NotedStepAcross = 44;
    private const double NotedStepDown = 43;
    private const double NoteSize = 13;
    private const int BadgesPerRow = 2;
    private const int LongestLabel = 4;

    /// <summary>Every zone, from the nose to the tail.</summary>
    public static IReadOnlyList<PlanZone> Zones { get; } =
    [
        new("engine-bay-left", "Engine bay, left", 0.14, -0.46),
        new("engine-bay-right", "Engine bay, right", 0.14, 0.46),
        new("dash", "Dash", 0.335, 0),
        new("pillar-left", "Front pillar, left", 0.315, -0.76),
        new("pillar-right", "Front pillar, right", 0.315, 0.76),
        new("front-door-left", "Front door, left", 0.415, -0.9),
        new("front-door-right", "Front door, right", 0.415, 0.9),
        new("front-seat-left", "Front seat, left", 0.465, -0.43),
        new("front-seat-right", "Front seat, right", 0.465, 0.43),
        new("console", "Centre console", 0.435, 0),
        new("roof", "Roof", 0.545, 0),
        new("rear-door-left", "Rear door, left", 0.62, -0.9),
        new("rear-door-right", "Rear door, right", 0.62, 0.9),
        new("rear-seats", "Rear seats", 0.655, 0),
        new("underbody", "Underbody", 0.56, -0.64),
        new("rear-shelf", "Rear shelf", 0.725, 0),
        new("boot-side-left", "Boot side, left", 0.835, -0.84),
        new("boot-side-right", "Boot side, right", 0.835, 0.84),
        new("boot-floor-left", "Boot floor, left", 0.785, -0.4),
        new("boot-floor-right", "Boot floor, right", 0.785, 0.4),
        new("spare-well", "Spare wheel well", 0.875, 0),
    ];

    /// <summary>The plan with its badges, as SVG.</summary>
    /// <exception cref="ArgumentException">A badge names a zone that does not exist.</exception>
    public static string Draw(BodyStyle body, params IReadOnlyList<PlanBadge> badges)
    {
        ArgumentNullException.ThrowIfNull(badges);
        var shape = VehicleShape.Of(body);
        var frame = Frame(shape);
        var svg = new SvgWriter(Width, Height, "Plan of the vehicle from above, nose to the left");
        svg.Rectangle(0, 0, Width, Height, new SvgPaint(Look.Paper));
        VehicleInterior.Draw(svg, shape, frame);
        var side = new SvgTextStyle(13, Look.Secondary, Anchor: SvgAnchor.Middle);
        svg.Text(Width / 2.0, 16, "Right", side).Text(Width / 2.0, Height - 6, "Left", side);
        Badges(svg, shape, frame, badges);
        return svg.Finish();
    }

    /// <summary>The badges on a plan drawn with that frame.</summary>
    internal static void Badges(SvgWriter svg, VehicleShape shape, ViewFrame frame, IReadOnlyList<PlanBadge> badges)
    {
        foreach (var zone in badges.GroupBy(badge => badge.ZoneKey))
        {
            var (x, y) = Anchor(shape, frame, zone.Key);
            svg.BeginGroup(zone.Key);
            var here = zone.ToList();
            var noted = here.Exists(badge => badge.Note.Length > 0);
            var (stepAcross, stepDown) = noted ? (NotedStepAcross, NotedStepDown) : (BadgeStep, BadgeStep);
            // A note needs room below the lowest badge.
            var lowest = Height - BadgeRadius - (noted ? NoteSize + 6 : 2);
            for (var i = 0; i < here.Count; i++)
            {
                var row = i / BadgesPerRow;
                var inRow = Math.Min(BadgesPerRow, here.Count - (row * BadgesPerRow));
                var rows = (here.Count + BadgesPerRow - 1) / BadgesPerRow;
                Badge(
                    svg,
                    here[i],
                    x + (((i % BadgesPerRow) - ((inRow - 1) / 2.0)) * stepAcross),
                    Math.Clamp(y + ((row - ((rows - 1) / 2.0)) * stepDown), BadgeRadius + 2, lowest));
            }
            svg.EndGroup();
        }
    }

    /// <summary>Where a zone's badges stand, in units of the drawing.</summary>
    /// <exception cref="ArgumentException">The zone does not exist.</exception>
    public static (double X, double Y) Anchor(BodyStyle body, string zoneKey)
    {
        var shape = VehicleShape.Of(body);
        return Anchor(shape, Frame(shape), zoneKey);
    }

    private static (double X, double Y) Anchor(VehicleShape shape, ViewFrame frame, string zoneKey)
    {
        var zone = Zones.FirstOrDefault(zone => zone.Key == zoneKey)
            ?? throw new ArgumentException($"The plan has no zone '{zoneKey}'.", nameof(zoneKey));
        return (frame.X(zone.Along * shape.Length), frame.Y(zone.Across * shape.HalfWidth));
    }

    private static ViewFrame Frame(VehicleShape shape)
    {
        var scale = Math.Min((Width - 40) / shape.Length, (Height - 64) / (shape.HalfWidth * 2 * 1.17));
        return new ViewFrame((Width - (shape.Length * scale)) / 2, Height / 2.0, scale);
    }

    private static void Badge(SvgWriter svg, PlanBadge badge, double x, double y)
    {
        var paint = new SvgPaint(badge.Accented ? Look.Accent : Look.Ink, Look.Paper, 2);
        var r = BadgeRadius;
        var lower = 0.0;
        switch (badge.Shape)
        {
            case BadgeShape.Circle:
                svg.Circle(x, y, r, paint);
                break;
            case BadgeShape.Square:
                svg.Rectangle(x - r + 1, y - r + 1, (2 * r) - 2, (2 * r) - 2, paint, 2);
                break;
            case BadgeShape.Diamond:
                svg.Polygon(paint, (x, y - r - 2), (x + r + 2, y), (x, y + r + 2), (x - r - 2, y));
                break;
            case BadgeShape.Triangle:
                svg.Polygon(paint, (x, y - r - 3), (x + r + 3, y + r - 1), (x - r - 3, y + r - 1));
                lower = 3;
                break;
            default:
                throw new ArgumentOutOfRangeException(nameof(badge), badge.Shape, "Unknown badge shape.");
        }
        var label = badge.Label.Length > LongestLabel ? badge.Label[..(LongestLabel - 1)] + "…" : badge.Label;
        var size = label.Length <= 2 ? 13 : label.Length == 3 ? 10.5 : 8.5;
        svg.Text(x, y + (size * 0.34) + lower, label, new SvgTextStyle(size, Look.Paper, Heavy: true, Anchor: SvgAnchor.Middle));
        if (badge.Note.Length == 0)
            return;
        // On a ground of its own, or the lines of the car would run through it.
        var width = TextMeasure.Width(badge.Note, NoteSize, heavy: true) + 6;
        svg.Rectangle(x - (width / 2), y + r + 2, width, NoteSize + 3, new SvgPaint(Look.Paper), 2);
        svg.Text(x, y + r + NoteSize + 1, badge.Note, new SvgTextStyle(NoteSize, Look.Ink, Heavy: true, Anchor: SvgAnchor.Middle));
    }
}
