using System.Globalization;
using System.Text;

namespace ShopFloor.Documents.Fabrication;

/// <summary>What a line on a drawing means to the machine.</summary>
public enum DxfLayer
{
    /// <summary>Cut through.</summary>
    Cut,

    /// <summary>Drill.</summary>
    Drill,

    /// <summary>Mark only.</summary>
    Mark,
}

/// <summary>
/// Writes ASCII DXF of release 12 (AC1009) in millimetres, with lines, circles, arcs, polylines and texts on the layers CUT, DRILL and MARK.
/// Group codes by Autodesk, AutoCAD R12 DXF reference. $INSUNITS is younger than R12; readers that do not know it pass over it.
/// </summary>
public sealed class DxfWriter
{
    private readonly StringBuilder _entities = new();
    private (double X, double Y) _low = (double.MaxValue, double.MaxValue);
    private (double X, double Y) _high = (double.MinValue, double.MinValue);

    public DxfWriter Line(DxfLayer layer, double x1, double y1, double x2, double y2)
    {
        Begin("LINE", layer);
        Point(10, x1, y1);
        Point(11, x2, y2);
        return this;
    }

    public DxfWriter Circle(DxfLayer layer, double x, double y, double radius)
    {
        Begin("CIRCLE", layer);
        Point(10, x, y);
        Number(40, radius);
        Reach(x - radius, y - radius);
        Reach(x + radius, y + radius);
        return this;
    }

    /// <summary>An arc anticlockwise from one direction to another, degrees.</summary>
    public DxfWriter Arc(DxfLayer layer, double x, double y, double radius, double fromDegrees, double toDegrees)
    {
        Begin("ARC", layer);
        Point(10, x, y);
        Number(40, radius);
        Number(50, fromDegrees);
        Number(51, toDegrees);
        return this;
    }

    /// <summary>A closed polyline.</summary>
    public DxfWriter Polygon(DxfLayer layer, params ReadOnlySpan<(double X, double Y)> corners)
    {
        Begin("POLYLINE", layer);
        Integer(66, 1);
        Raw(10, "0.0");
        Raw(20, "0.0");
        Raw(30, "0.0");
        Integer(70, 1);
        foreach (var (x, y) in corners)
        {
            Begin("VERTEX", layer);
            Point(10, x, y);
        }

        Begin("SEQEND", layer);
        return this;
    }

    public DxfWriter Rectangle(DxfLayer layer, double x, double y, double length, double width) =>
        Polygon(layer, (x, y), (x + length, y), (x + length, y + width), (x, y + width));

    /// <summary>One line of text, its lower left corner at the place. Letters the format cannot hold become a question mark.</summary>
    public DxfWriter Text(DxfLayer layer, double x, double y, double height, string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        Begin("TEXT", layer);
        Point(10, x, y);
        Number(40, height);
        Raw(1, Plain(text));
        return this;
    }

    /// <summary>The whole file.</summary>
    public string Finish()
    {
        var empty = _low.X > _high.X;
        var file = new StringBuilder();
        void Add(int code, string value) => file.Append(CultureInfo.InvariantCulture, $"{code,3}\r\n{value}\r\n");
        void Pair(string name, double x, double y)
        {
            Add(9, name);
            Add(10, Text(x));
            Add(20, Text(y));
            Add(30, "0.0");
        }

        Add(0, "SECTION");
        Add(2, "HEADER");
        Add(9, "$ACADVER");
        Add(1, "AC1009");
        Add(9, "$INSUNITS");
        Add(70, "4");
        Add(9, "$MEASUREMENT");
        Add(70, "1");
        Pair("$EXTMIN", empty ? 0 : _low.X, empty ? 0 : _low.Y);
        Pair("$EXTMAX", empty ? 0 : _high.X, empty ? 0 : _high.Y);
        Add(0, "ENDSEC");
        Add(0, "SECTION");
        Add(2, "TABLES");
        Add(0, "TABLE");
        Add(2, "LTYPE");
        Add(70, "1");
        Add(0, "LTYPE");
        Add(2, "CONTINUOUS");
        Add(70, "0");
        Add(3, "Solid line");
        Add(72, "65");
        Add(73, "0");
        Add(40, "0.0");
        Add(0, "ENDTAB");
        Add(0, "TABLE");
        Add(2, "LAYER");
        Add(70, "3");
        foreach (var (layer, colour) in new[] { (DxfLayer.Cut, "1"), (DxfLayer.Drill, "5"), (DxfLayer.Mark, "3") })
        {
            Add(0, "LAYER");
            Add(2, NameOf(layer));
            Add(70, "0");
            Add(62, colour);
            Add(6, "CONTINUOUS");
        }

        Add(0, "ENDTAB");
        Add(0, "ENDSEC");
        Add(0, "SECTION");
        Add(2, "ENTITIES");
        file.Append(_entities);
        Add(0, "ENDSEC");
        Add(0, "EOF");
        return file.ToString();
    }

    public static string NameOf(DxfLayer layer) => layer switch
    {
        DxfLayer.Cut => "CUT",
        DxfLayer.Drill => "DRILL",
        DxfLayer.Mark => "MARK",
        _ => throw new ArgumentOutOfRangeException(nameof(layer), layer, "Unknown layer."),
    };

    // R12 knows no Unicode; umlauts and the like would come out as other letters elsewhere.
    private static string Plain(string text) => string.Concat(text.Select(letter => letter switch
    {
        '×' => 'x',
        '\u00a0' => ' ',
        >= ' ' and <= '~' => letter,
        _ => '?',
    }));

    private void Begin(string entity, DxfLayer layer)
    {
        Raw(0, entity);
        Raw(8, NameOf(layer));
    }

    private void Point(int code, double x, double y)
    {
        Number(code, x);
        Number(code + 10, y);
        Raw(code + 20, "0.0");
        Reach(x, y);
    }

    private void Reach(double x, double y)
    {
        _low = (Math.Min(_low.X, x), Math.Min(_low.Y, y));
        _high = (Math.Max(_high.X, x), Math.Max(_high.Y, y));
    }

    private void Number(int code, double value) => Raw(code, Text(value));

    private void Integer(int code, int value) => Raw(code, value.ToString(CultureInfo.InvariantCulture));

    private void Raw(int code, string value) => _entities.Append(CultureInfo.InvariantCulture, $"{code,3}\r\n{value}\r\n");

    private static string Text(double value)
    {
        if (!double.IsFinite(value))
            throw new ArgumentException($"A drawing cannot hold the number {value.ToString(CultureInfo.InvariantCulture)}.", nameof(value));
        var rounded = Math.Round(value, 6);
        return (rounded == 0 ? 0 : rounded).ToString("0.0#####", CultureInfo.InvariantCulture);
    }
}
