using System.Text;

namespace ShopFloor.Documents.Diagrams;

/// <summary>
/// Where a view of the vehicle stands in a drawing: metres in, units of the drawing out.
/// The second coordinate counts upwards.
/// </summary>
/// <param name="OriginX">Place of 0 along.</param>
/// <param name="OriginY">Place of 0 up.</param>
/// <param name="Scale">Units of the drawing a metre.</param>
/// <param name="Mirrored">Whether the first coordinate runs to the left.</param>
public sealed record ViewFrame(double OriginX, double OriginY, double Scale, bool Mirrored = false)
{
    public double X(double along) => OriginX + ((Mirrored ? -along : along) * Scale);

    public double Y(double up) => OriginY - (up * Scale);

    /// <summary>From the drawing back to metres.</summary>
    public (double Along, double Up) Inverse(double x, double y) => ((Mirrored ? OriginX - x : x - OriginX) / Scale, (OriginY - y) / Scale);
}

/// <summary>A path drawn in the coordinates of a view.</summary>
public sealed class SvgPath(ViewFrame frame)
{
    private readonly StringBuilder _data = new();

    public string Data => _data.ToString();

    public SvgPath Move(double x, double y) => Add('M', (x, y));

    public SvgPath Line(double x, double y) => Add('L', (x, y));

    /// <summary>A cubic curve: two control points, then the end.</summary>
    public SvgPath Curve(double x1, double y1, double x2, double y2, double x, double y) => Add('C', (x1, y1), (x2, y2), (x, y));

    public SvgPath Quadratic(double x1, double y1, double x, double y) => Add('Q', (x1, y1), (x, y));

    /// <summary>A circular arc to the end point, clockwise as seen in an unmirrored view.</summary>
    public SvgPath Arc(double radius, bool large, bool clockwise, double x, double y)
    {
        var sized = SvgWriter.Number(radius * frame.Scale);
        _data.Append('A').Append(sized).Append(' ').Append(sized).Append(" 0 ").Append(large ? '1' : '0').Append(' ')
            .Append(clockwise != frame.Mirrored ? '1' : '0').Append(' ');
        return Add(null, (x, y));
    }

    public SvgPath Close()
    {
        _data.Append('Z');
        return this;
    }

    private SvgPath Add(char? command, params ReadOnlySpan<(double X, double Y)> points)
    {
        if (command is { } letter)
            _data.Append(letter);
        for (var i = 0; i < points.Length; i++)
            _data.Append(i == 0 ? "" : " ").Append(SvgWriter.Number(frame.X(points[i].X))).Append(' ')
                .Append(SvgWriter.Number(frame.Y(points[i].Y)));
        return this;
    }
}
