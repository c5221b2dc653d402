namespace ShopFloor.Documents.Diagrams;

/// <summary>The pens of the vehicle drawings.</summary>
internal static class VehicleStrokes
{
    private const string GlassTint = "#E6EBEE";

    public static SvgPaint Body { get; } = new(Look.Paper, Look.Ink, 2.2);

    public static SvgPaint Glass { get; } = new(GlassTint, Look.Secondary, 1.2);

    public static SvgPaint Seam { get; } = new("none", Look.Secondary, 1.1);

    public static SvgPaint Faint { get; } = new("none", "#94A0A8", 0.9);

    public static SvgPaint Part { get; } = new(Look.Paper, Look.Secondary, 1.2);

    public static SvgPaint Tyre { get; } = new("#D5DADD", Look.Ink, 2);

    public static SvgPaint Rim { get; } = new(Look.Paper, Look.Secondary, 1.2);
}
