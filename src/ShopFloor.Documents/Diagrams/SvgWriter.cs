using System.Globalization;
using System.Security;
using System.Text;

namespace ShopFloor.Documents.Diagrams;

/// <summary>How a shape is painted: explicit attributes only, so that the drawing looks the same on screen, in print and in PDF.</summary>
public sealed record SvgPaint(string Fill = "none", string Stroke = "none", double StrokeWidth = 1)
{
    /// <summary>Dash lengths such as "4 3"; empty for a full line.</summary>
    public string Dash { get; init; } = "";
}

/// <summary>Where text stands against its point.</summary>
public enum SvgAnchor
{
    Start,
    Middle,
    End,
}

/// <summary>How text is set. Sizes are in units of the drawing.</summary>
public sealed record SvgTextStyle(double Size, string Fill = Look.Ink, bool Heavy = false, SvgAnchor Anchor = SvgAnchor.Start);

/// <summary>Writes SVG: escapes every text, writes every number the same in every culture, gives the same text for the same
/// calls.</summary>
public sealed class SvgWriter
{
    private readonly StringBuilder _svg = new();
    private int _openGroups;

    /// <param name="width">Width of the drawing in its own units, also its natural width in pixels.</param>
    /// <param name="height">Height in the same units.</param>
    /// <param name="title">What the drawing shows, read out by screen readers.</param>
    /// <param name="description">Its content in words; empty for none.</param>
    public SvgWriter(double width, double height, string title, string description = "")
    {
        _svg.Append("<svg xmlns=\"http://www.w3.org/2000/svg\"");
        Attribute("viewBox", $"0 0 {Number(width)} {Number(height)}");
        Attribute("width", Number(width));
        Attribute("height", Number(height));
        Attribute("role", "img");
        Attribute("aria-label", title);
        _svg.Append('>');
        if (description.Length > 0)
            _svg.Append("<title>").Append(Escape(title)).Append("</title><desc>").Append(Escape(description)).Append("</desc>");
    }

    /// <summary>A number as SVG expects it, to a hundredth of a unit.</summary>
    /// <exception cref="ArgumentException">The number is not finite.</exception>
    public static string Number(double value)
    {
        if (!double.IsFinite(value))
            throw new ArgumentException($"A drawing cannot hold the number {value.ToString(CultureInfo.InvariantCulture)}.", nameof(value));
        var rounded = Math.Round(value, 2);
        return (rounded == 0 ? 0 : rounded).ToString("0.##", CultureInfo.InvariantCulture);
    }

    /// <summary>Sets another finished drawing of ours into this one, at its own size.</summary>
    /// <param name="x">Where its left edge lies.</param>
    /// <param name="drawing">What <see cref="Finish"/> gave; it is not escaped.</param>
    public SvgWriter Inner(double x, string drawing)
    {
        _svg.Append("<g");
        Attribute("transform", $"translate({Number(x)} 0)");
        _svg.Append('>').Append(drawing).Append("</g>");
        return this;
    }

    /// <summary>Opens a group that carries a machine-readable key, for example a zone, until <see cref="EndGroup"/>.</summary>
    public SvgWriter BeginGroup(string key)
    {
        _svg.Append("<g");
        Attribute("data-key", key);
        _svg.Append('>');
        _openGroups++;
        return this;
    }

    public SvgWriter EndGroup()
    {
        if (_openGroups == 0)
            throw new InvalidOperationException("No group is open.");
        _openGroups--;
        _svg.Append("</g>");
        return this;
    }

    public SvgWriter Rectangle(double x, double y, double width, double height, SvgPaint paint, double radius = 0)
    {
        Open("rect", ("x", x), ("y", y), ("width", width), ("height", height));
        if (radius > 0)
            Attribute("rx", Number(radius));
        return Close(paint);
    }

    public SvgWriter Circle(double x, double y, double radius, SvgPaint paint)
    {
        Open("circle", ("cx", x), ("cy", y), ("r", radius));
        return Close(paint);
    }

    public SvgWriter Line(double x1, double y1, double x2, double y2, SvgPaint paint)
    {
        Open("line", ("x1", x1), ("y1", y1), ("x2", x2), ("y2", y2));
        return Close(paint);
    }

    public SvgWriter Polygon(SvgPaint paint, params ReadOnlySpan<(double X, double Y)> corners) => Points("polygon", paint, corners);

    public SvgWriter Polyline(SvgPaint paint, params ReadOnlySpan<(double X, double Y)> points) => Points("polyline", paint, points);

    public SvgWriter Path(SvgPath path, SvgPaint paint)
    {
        ArgumentNullException.ThrowIfNull(path);
        Open("path");
        Attribute("d", path.Data);
        return Close(paint);
    }

    public SvgWriter Text(double x, double y, string text, SvgTextStyle style)
    {
        ArgumentNullException.ThrowIfNull(style);
        Open("text", ("x", x), ("y", y));
        Attribute("font-family", Look.FontFamilyList);
        Attribute("font-size", Number(style.Size));
        if (style.Heavy)
            Attribute("font-weight", "600");
        if (style.Anchor != SvgAnchor.Start)
            Attribute("text-anchor", style.Anchor == SvgAnchor.Middle ? "middle" : "end");
        Attribute("fill", style.Fill);
        _svg.Append('>').Append(Escape(text)).Append("</text>");
        return this;
    }

    /// <summary>The whole drawing.</summary>
    /// <exception cref="InvalidOperationException">A group is still open.</exception>
    public string Finish()
    {
        if (_openGroups > 0)
            throw new InvalidOperationException("A group is still open.");
        return _svg + "</svg>";
    }

    private static string Escape(string text)
    {
        var allowed = new StringBuilder(text.Length);
        foreach (var rune in text.EnumerateRunes())
        {
            // Control characters and the two non-characters are not allowed in XML 1.0.
            if (rune.Value >= 0x20 && rune.Value is not (0xFFFE or 0xFFFF))
                allowed.Append(rune);
            else if (rune.Value is '\t' or '\n' or '\r')
                allowed.Append(' ');
        }
        return SecurityElement.Escape(allowed.ToString())!;
    }

    private SvgWriter Points(string name, SvgPaint paint, ReadOnlySpan<(double X, double Y)> points)
    {
        Open(name);
        var list = new StringBuilder();
        foreach (var (x, y) in points)
            list.Append(list.Length == 0 ? "" : " ").Append(Number(x)).Append(',').Append(Number(y));
        Attribute("points", list.ToString());
        return Close(paint);
    }

    private void Open(string name, params ReadOnlySpan<(string Name, double Value)> numbers)
    {
        _svg.Append('<').Append(name);
        foreach (var (attribute, value) in numbers)
            Attribute(attribute, Number(value));
    }

    private void Attribute(string name, string value) => _svg.Append(' ').Append(name).Append("=\"").Append(Escape(value)).Append('"');

    private SvgWriter Close(SvgPaint paint)
    {
        Attribute("fill", paint.Fill);
        if (paint.Stroke != "none")
        {
            Attribute("stroke", paint.Stroke);
            Attribute("stroke-width", Number(paint.StrokeWidth));
            Attribute("stroke-linecap", "round");
            Attribute("stroke-linejoin", "round");
            if (paint.Dash.Length > 0)
                Attribute("stroke-dasharray", paint.Dash);
        }
        _svg.Append("/>");
        return this;
    }
}
