using ShopFloor.Documents.Composition;
using ShopFloor.Documents.Drawing;

namespace ShopFloor.Documents.Diagrams;

/// <summary>Width of text in a diagram, from the embedded faces.</summary>
internal static class TextMeasure
{
    // A page without the embedded face falls back on one that may run wider.
    private const double RoomForOtherFaces = 1.13;

    public static double Width(string text, double size, bool heavy = false)
    {
        var style = new TextStyle((float)size, (float)size, TextStyle.Ink, heavy);
        return new ShapedText(FormattedText.FromString(text), style).NaturalWidth * RoomForOtherFaces;
    }

    /// <summary>Lines no wider than the given width.</summary>
    public static IReadOnlyList<string> Wrap(string text, double size, double width, bool heavy = false)
    {
        var style = new TextStyle((float)size, (float)size, TextStyle.Ink, heavy);
        return [.. new ShapedText(FormattedText.FromString(text), style).Wrap((float)(width / RoomForOtherFaces))
            .Select(line => string.Concat(line.Slices.Select(slice => slice.Text)).TrimEnd())];
    }
}
