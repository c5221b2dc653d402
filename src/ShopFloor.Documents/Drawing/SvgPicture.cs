using System.Xml;
using SkiaSharp;
using Svg;
using Svg.Skia;
using Svg.Skia.TypefaceProviders;

namespace ShopFloor.Documents.Drawing;

/// <summary>Reads SVG as a vector picture whose text uses the embedded faces and no others.</summary>
internal static class SvgPicture
{
    static SvgPicture()
    {
        // A drawing is complete in itself: nothing is fetched from files or from the network on its behalf.
        SvgDocument.ResolveExternalImages = ExternalType.None;
        SvgDocument.ResolveExternalElements = ExternalType.None;
        SvgDocument.ResolveExternalXmlEntites = ExternalType.None;
    }

    /// <summary>The reader owns its picture. Null when the text is not SVG or has no size.</summary>
    public static SKSvg? Read(string svg, Func<Face, SKTypeface> typeface)
    {
        var reader = new SKSvg();
        reader.Settings.TypefaceProviders = [new EmbeddedFaces(typeface)];
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

    private sealed class EmbeddedFaces(Func<Face, SKTypeface> typeface) : ITypefaceProvider
    {
        public SKTypeface FromFamilyName(string fontFamily, SKFontStyleWeight fontWeight, SKFontStyleWidth fontWidth,
            SKFontStyleSlant fontStyle) =>
            fontWeight switch
            {
                >= SKFontStyleWeight.Bold => typeface(Face.Bold),
                >= SKFontStyleWeight.SemiBold => typeface(Face.Semibold),
                _ => fontStyle == SKFontStyleSlant.Upright ? typeface(Face.Regular) : typeface(Face.Italic),
            };
    }
}
