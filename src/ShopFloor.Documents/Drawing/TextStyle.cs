using ShopFloor.Documents.Composition;
using SkiaSharp;

namespace ShopFloor.Documents.Drawing;

/// <summary>How text is set. Sizes are in points.</summary>
/// <param name="Heavy">Whether the text is semibold; strong words inside it are then bold.</param>
/// <param name="EqualDigits">Whether digits keep equal widths, without kerning between them.</param>
internal readonly record struct TextStyle(float Size, float LineHeight, SKColor Color, bool Heavy = false, bool EqualDigits = false)
{
    public static SKColor Ink { get; } = SKColor.Parse(Look.Ink);

    public static SKColor Secondary { get; } = SKColor.Parse(Look.Secondary);

    public static SKColor Accent { get; } = SKColor.Parse(Look.Accent);

    public static SKColor Hairline { get; } = SKColor.Parse(Look.Hairline);

    public static SKColor Wash { get; } = SKColor.Parse(Look.Wash);

    public static TextStyle Body { get; } = new(10, 14, Ink);

    public static TextStyle Remark { get; } = new(8.5f, 11.5f, Secondary);

    public static TextStyle Label { get; } = new(9, 12.5f, Secondary);

    public static TextStyle Cell { get; } = new(9.25f, 12.5f, Ink);

    public static TextStyle CellHeader { get; } = new(8.5f, 11, Secondary, Heavy: true);

    public static TextStyle SectionTitle { get; } = new(13.5f, 17, Ink, Heavy: true);

    public static TextStyle Subheading { get; } = new(10.5f, 14, Ink, Heavy: true);

    public static TextStyle DocumentTitle { get; } = new(23, 27, Ink, Heavy: true);

    public static TextStyle DocumentSubtitle { get; } = new(12, 16, Ink);

    public static TextStyle ShopName { get; } = new(11, 14, Ink, Heavy: true);

    public static TextStyle Running { get; } = new(8, 10.5f, Secondary);

    public static TextStyle Watermark { get; } = new(120, 140, Wash, Heavy: true);

    /// <summary>Distance from the top of a line to its baseline.</summary>
    public float Baseline
    {
        get
        {
            var face = Face.Regular;
            // The declared ascent of the face includes room above capitals; half the leading goes above the line.
            return ((LineHeight - ((face.Ascent + face.Descent) * Size)) / 2) + (face.Ascent * Size);
        }
    }

    public Face FaceFor(Emphasis emphasis) => emphasis switch
    {
        Emphasis.Italic => Face.Italic,
        Emphasis.Strong => Heavy ? Face.Bold : Face.Semibold,
        Emphasis.None => Heavy ? Face.Semibold : Face.Regular,
        _ => throw new ArgumentOutOfRangeException(nameof(emphasis), emphasis, "Unknown emphasis."),
    };
}
