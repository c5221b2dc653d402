using System.Globalization;

namespace ShopFloor.Documents.Tests.Fabrication;

/// <summary>
/// Reads ASCII DXF by its group codes (Autodesk, AutoCAD R12 DXF reference) and refuses what R12 does not allow: odd lines, values of the wrong type,
/// sections or tables out of place, entities on layers that are not in the table, polylines without their end.
/// </summary>
internal sealed class DxfReader
{
    private static readonly Dictionary<string, int[]> Needed = new()
    {
        ["LINE"] = [8, 10, 20, 11, 21], ["CIRCLE"] = [8, 10, 20, 40], ["ARC"] = [8, 10, 20, 40, 50, 51], ["TEXT"] = [8, 10, 20, 40, 1],
        ["POLYLINE"] = [8, 66, 10, 20, 70], ["VERTEX"] = [8, 10, 20], ["SEQEND"] = [8],
    };

    private readonly List<(int Code, string Value)> _groups = [];
    private int _at;

    private DxfReader(string file)
    {
        var lines = file.Split("\r\n");
        Assert.Equal("", lines[^1]);
        Assert.Equal(1, lines.Length % 2);
        for (var n = 0; n + 1 < lines.Length; n += 2)
        {
            var code = int.Parse(lines[n], NumberStyles.AllowLeadingWhite, CultureInfo.InvariantCulture);
            var value = lines[n + 1];
            Assert.All(value, letter => Assert.InRange(letter, ' ', '~'));
            if (code is >= 10 and <= 59)
                Assert.True(double.TryParse(value, NumberStyles.Float, CultureInfo.InvariantCulture, out _), $"{code}: {value}");
            if (code is >= 60 and <= 79)
                Assert.True(short.TryParse(value, NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out _), $"{code}: {value}");
            _groups.Add((code, value));
        }
    }

    public Dictionary<string, List<(int Code, string Value)>> Header { get; } = [];

    public List<string> Layers { get; } = [];

    public List<DxfEntity> Entities { get; } = [];

    public static DxfReader Read(string file)
    {
        var reader = new DxfReader(file);
        Assert.Equal(["HEADER", "TABLES", "ENTITIES"], reader.Sections());
        return reader;
    }

    private List<string> Sections()
    {
        var names = new List<string>();
        while (Next() is not (0, "EOF"))
        {
            Assert.Equal((0, "SECTION"), _groups[_at - 1]);
            var (code, name) = Next();
            Assert.Equal(2, code);
            names.Add(name);
            switch (name)
            {
                case "HEADER":
                    ReadHeader();
                    break;
                case "TABLES":
                    ReadTables();
                    break;
                default:
                    ReadEntities();
                    break;
            }
        }

        Assert.Equal(_groups.Count, _at);
        return names;
    }

    private void ReadHeader()
    {
        List<(int, string)>? variable = null;
        while (Next() is var group && group is not (0, "ENDSEC"))
        {
            if (group.Code == 9)
                Header.Add(group.Value, variable = []);
            else
                variable!.Add(group);
        }
    }

    private void ReadTables()
    {
        while (Next() is not (0, "ENDSEC"))
        {
            Assert.Equal((0, "TABLE"), _groups[_at - 1]);
            var name = Next().Value;
            var (code, most) = Next();
            Assert.Equal(70, code);
            var entries = 0;
            while (Next() is var group && group is not (0, "ENDTAB"))
            {
                if (group.Code == 0)
                {
                    Assert.Equal(name, group.Value);
                    entries++;
                    var entry = Next();
                    Assert.Equal(2, entry.Code);
                    if (name == "LAYER")
                        Layers.Add(entry.Value);
                }
            }

            Assert.InRange(entries, 0, int.Parse(most, CultureInfo.InvariantCulture));
        }
    }

    private void ReadEntities()
    {
        var inPolyline = false;
        while (Next() is var start && start is not (0, "ENDSEC"))
        {
            Assert.Equal(0, start.Code);
            var entity = new DxfEntity(start.Value, []);
            while (_groups[_at].Code != 0)
            {
                var (code, value) = Next();
                Assert.True(entity.Groups.TryAdd(code, value), $"{start.Value}: {code} twice");
            }

            Assert.All(Needed[start.Value], code => Assert.True(entity.Groups.ContainsKey(code), $"{start.Value} without {code}"));
            Assert.Contains(entity.Layer, Layers);
            // Vertices stand between their polyline and its end, and nowhere else.
            Assert.Equal(inPolyline, start.Value is "VERTEX" or "SEQEND");
            inPolyline = start.Value is "POLYLINE" or "VERTEX";
            Entities.Add(entity);
        }

        Assert.False(inPolyline);
    }

    private (int Code, string Value) Next() => _groups[_at++];
}

internal sealed record DxfEntity(string Kind, Dictionary<int, string> Groups)
{
    public string Layer => Groups[8];

    public double this[int code] => double.Parse(Groups[code], NumberStyles.Float, CultureInfo.InvariantCulture);
}
