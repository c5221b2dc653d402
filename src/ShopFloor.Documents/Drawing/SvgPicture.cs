using System.Xml;
using SkiaSharp;
using Svg.Skia;
using Svg.Skia.TypefaceProviders;

namespace ShopFloor.Documents.Drawing;

/// <summary>Reads SVG as a vector picture whose text uses the embedded faces and no others.</summary>
internal static class SvgPicture
{
    /// <summary>The reader owns its picture. Null when the text is not SVG or has no size.</summary>
    public static SKSvg? Read(string svg)
    {
        var reader = new SKSvg();
        reader.Settings.TypefaceProviders = [new EmbeddedFaces()];
        reader.Settings.EnableJavaScript = false;
        reader.Settings.EnableExternalJavaScript = false;
        try
        {
            if (svg.Length > 0 && reader.FromSvg(svg) is { CullRect: { Width: > 0, Height: > 0 } })
                return reader;
        }
        catch (XmlException)
        {
            // Said in words on the page by the caller.
        }
        reader.Dispose();
        return null;
    }

    private sealed class EmbeddedFaces : ITypefaceProvider
    {
        public SKTypeface FromFamilyName(string fontFamily, SKFontStyleWeight fontWeight, SKFontStyleWidth fontWidth, SKFontStyleSlant fontStyle) =>
            fontWeight switch
            {
                >= SKFontStyleWeight.Bold => Face.Bold.Typeface,
                >= SKFontStyleWeight.SemiBold => Face.Semibold.Typeface,
                _ => fontStyle == SKFontStyleSlant.Upright ? Face.Regular.Typeface : Face.Italic.Typeface,
            };
    }
}
