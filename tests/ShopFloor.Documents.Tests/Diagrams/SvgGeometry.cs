using System.Globalization;
using System.Text.RegularExpressions;
using System.Xml.Linq;

namespace ShopFloor.Documents.Tests.Diagrams;

/// <summary>Reads coordinates back out of SVG.</summary>
internal static partial class SvgGeometry
{
    public static XElement Parse(string svg) => XDocument.Parse(svg).Root!;

    public static IEnumerable<XElement> Groups(XElement root, string keyStart) =>
        root.Descendants().Where(element => element.Attribute("data-key")?.Value.StartsWith(keyStart, StringComparison.Ordinal) == true);

    /// <summary>Every point of the shapes inside, strokes not counted.</summary>
    public static IEnumerable<(double X, double Y)> Points(XElement root)
    {
        foreach (var element in root.DescendantsAndSelf())
        {
            double Of(string name) => double.Parse(element.Attribute(name)!.Value, CultureInfo.InvariantCulture);
            switch (element.Name.LocalName)
            {
                case "rect":
                    yield return (Of("x"), Of("y"));
                    yield return (Of("x") + Of("width"), Of("y") + Of("height"));
                    break;
                case "circle":
                    yield return (Of("cx") - Of("r"), Of("cy") - Of("r"));
                    yield return (Of("cx") + Of("r"), Of("cy") + Of("r"));
                    break;
                case "line":
                    yield return (Of("x1"), Of("y1"));
                    yield return (Of("x2"), Of("y2"));
                    break;
                case "polygon" or "polyline":
                    foreach (Match pair in Pair().Matches(element.Attribute("points")!.Value))
                        yield return (double.Parse(pair.Groups[1].Value, CultureInfo.InvariantCulture), double.Parse(pair.Groups[2].Value,
                            CultureInfo.InvariantCulture));
                    break;
                case "path":
                    // Arc flags would read as points; the end of each path command is enough here.
                    foreach (Match pair in PathEnd().Matches(element.Attribute("d")!.Value))
                        yield return (double.Parse(pair.Groups[1].Value, CultureInfo.InvariantCulture), double.Parse(pair.Groups[2].Value,
                            CultureInfo.InvariantCulture));
                    break;
                case "text":
                    yield return (Of("x"), Of("y"));
                    break;
                default:
                    break;
            }
        }
    }

    [GeneratedRegex(@"(-?[\d.]+),(-?[\d.]+)")]
    private static partial Regex Pair();

    [GeneratedRegex(@"(-?[\d.]+) (-?[\d.]+)(?=[A-Z]|$)")]
    private static partial Regex PathEnd();
}
