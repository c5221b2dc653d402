using System.Buffers.Binary;
using System.Buffers.Text;
using System.Text;

namespace ShopFloor.Engineering.Geometry;

/// <summary>Reads triangle meshes in the STL format, binary and ASCII (Library of Congress format description fdd000505 and fdd000506).</summary>
public static class StlReader
{
    /// <summary>Most triangles that are read.</summary>
    public const int MostTriangles = 4_000_000;

    private const int HeaderBytes = 84;
    private const int TriangleBytes = 50;

    // Corners closer than this share of the largest coordinate are one: scans write the same corner several times with rounding.
    private const double WeldShare = 1e-6;

    /// <summary>Reads a file.</summary>
    /// <param name="file">Its bytes.</param>
    /// <param name="unit">Unit of its numbers.</param>
    /// <exception cref="MeshFormatException">It is no STL, is cut off, holds numbers that are none, or is too large.</exception>
    public static TriangleMesh Read(ReadOnlySpan<byte> file, MeshUnit unit)
    {
        if (file.Length < 15)
            throw new MeshFormatException($"The file has {file.Length} bytes; that is no mesh.");
        var factor = unit switch
        {
            MeshUnit.Millimeters => 1e-3,
            MeshUnit.Centimeters => 1e-2,
            MeshUnit.Meters => 1,
            MeshUnit.Inches => Units.ExactFactors.MetersPerInch,
            _ => throw new ArgumentOutOfRangeException(nameof(unit)),
        };
        // A binary file may begin with "solid" too, but its length always fits its count.
        var counted = file.Length >= HeaderBytes ? BinaryPrimitives.ReadUInt32LittleEndian(file[80..]) : 0;
        var isBinary = file.Length >= HeaderBytes && file.Length == HeaderBytes + (long)counted * TriangleBytes;
        var looksText = file[..5].SequenceEqual("solid"u8);
        if (!isBinary && !looksText)
        {
            throw new MeshFormatException(file.Length < HeaderBytes ? $"The file has {file.Length} bytes; a binary STL has at least {HeaderBytes}."
                : $"The file says {counted} triangles, which take {HeaderBytes + (long)counted * TriangleBytes} bytes; it has {file.Length}. It is cut off or no STL.");
        }

        var corners = isBinary ? Binary(file, (int)Math.Min(counted, int.MaxValue)) : Text(file);
        return Weld(corners, factor);
    }

    private static List<Point3> Binary(ReadOnlySpan<byte> file, int count)
    {
        Limit(count);
        var corners = new List<Point3>(3 * count);
        for (var n = 0; n < count; n++)
        {
            for (var corner = 0; corner < 3; corner++)
            {
                var at = HeaderBytes + n * TriangleBytes + 12 * (corner + 1);
                var point = new Point3(BinaryPrimitives.ReadSingleLittleEndian(file[at..]), BinaryPrimitives.ReadSingleLittleEndian(file[(at + 4)..]), BinaryPrimitives.ReadSingleLittleEndian(file[(at + 8)..]));
                if (!IsPlace(point))
                    throw new MeshFormatException($"Triangle {n + 1} (offset {at}): a corner is not a number, or beyond 1,000,000.");
                corners.Add(point);
            }
        }

        return corners;
    }

    private static List<Point3> Text(ReadOnlySpan<byte> file)
    {
        var corners = new List<Point3>();
        Span<double> numbers = stackalloc double[3];
        var line = 0;
        while (!file.IsEmpty)
        {
            line++;
            var end = file.IndexOf((byte)'\n');
            var words = (end < 0 ? file : file[..end]).Trim(" \t\r"u8);
            file = end < 0 ? [] : file[(end + 1)..];
            if (!words.StartsWith("vertex"u8))
            {
                if (words.StartsWith("endsolid"u8))
                    return Whole(corners, line);
                continue;
            }

            var rest = words[6..];
            for (var n = 0; n < 3; n++)
            {
                rest = rest.TrimStart(" \t"u8);
                if (!Utf8Parser.TryParse(rest, out double value, out var used))
                    throw new MeshFormatException($"Line {line}: “{Encoding.UTF8.GetString(words[..Math.Min(words.Length, 60)])}” is no corner; three numbers are expected.");
                numbers[n] = value;
                rest = rest[used..];
            }

            var point = new Point3(numbers[0], numbers[1], numbers[2]);
            if (!IsPlace(point))
                throw new MeshFormatException($"Line {line}: a corner is not a number, or beyond 1,000,000.");
            corners.Add(point);
            Limit(corners.Count / 3);
        }

        throw new MeshFormatException($"The file ends at line {line} without “endsolid”: it is cut off.");
    }

    private static List<Point3> Whole(List<Point3> corners, int line) => corners.Count % 3 == 0
        ? corners
        : throw new MeshFormatException($"Up to line {line} there are {corners.Count} corners, which are no whole triangles.");

    private static void Limit(int count)
    {
        if (count > MostTriangles)
            throw new MeshFormatException($"The mesh has more than {MostTriangles:#,0} triangles; make it coarser in the scanning program.");
    }

    private static bool IsPlace(Point3 point) => Math.Abs(point.X) <= 1e6 && Math.Abs(point.Y) <= 1e6 && Math.Abs(point.Z) <= 1e6; // false for NaN

    private static TriangleMesh Weld(List<Point3> corners, double factor)
    {
        if (corners.Count == 0)
            throw new MeshFormatException("The file holds no triangle.");
        var largest = corners.Max(point => Math.Max(Math.Abs(point.X), Math.Max(Math.Abs(point.Y), Math.Abs(point.Z))));
        var grid = Math.Max(largest * WeldShare, 1e-12);
        var numbers = new Dictionary<(long, long, long), int>(corners.Count / 4);
        var vertices = new List<Point3>();
        var triangles = new List<int>(corners.Count);
        Span<int> triangle = stackalloc int[3];
        for (var at = 0; at < corners.Count; at += 3)
        {
            for (var n = 0; n < 3; n++)
            {
                var point = corners[at + n];
                var cell = ((long)Math.Round(point.X / grid), (long)Math.Round(point.Y / grid), (long)Math.Round(point.Z / grid));
                if (!numbers.TryGetValue(cell, out var number))
                {
                    if (Beside(point, grid, numbers, vertices) is { } near)
                    {
                        number = near;
                    }
                    else
                    {
                        number = vertices.Count;
                        vertices.Add(point);
                    }

                    numbers.Add(cell, number);
                }

                triangle[n] = number;
            }

            // A triangle whose corners fell together has no area and no sides.
            if (triangle[0] != triangle[1] && triangle[1] != triangle[2] && triangle[2] != triangle[0])
                triangles.AddRange(triangle);
        }

        return triangles.Count == 0 ? throw new MeshFormatException("Every triangle of the file has no area.") : new TriangleMesh(vertices.ConvertAll(point => point * factor), [.. triangles]);
    }

    // Two corners a hair apart may lie on both sides of a border of cells. Whatever is closer than half a cell lies in one of the eight cells
    // that rounding down or up along each axis gives.
    private static int? Beside(Point3 point, double grid, Dictionary<(long, long, long), int> numbers, List<Point3> vertices)
    {
        for (var way = 0; way < 8; way++)
        {
            var cell = (Side(point.X, way & 1), Side(point.Y, way & 2), Side(point.Z, way & 4));
            if (!numbers.TryGetValue(cell, out var number))
                continue;
            var apart = vertices[number] - point;
            if (Math.Max(Math.Abs(apart.X), Math.Max(Math.Abs(apart.Y), Math.Abs(apart.Z))) <= grid / 2)
                return number;
        }

        return null;

        long Side(double value, int up) => (long)(up == 0 ? Math.Floor(value / grid) : Math.Ceiling(value / grid));
    }
}
