namespace ShopFloor.Engineering.Geometry;

/// <summary>Whether two triangles of a mesh cross.</summary>
internal sealed class TrianglePair(TriangleMesh mesh, double tolerance)
{
    private readonly Point3[] _vertices = [.. mesh.Vertices];
    private readonly int[] _triangles = mesh.Triangles;
    private Dictionary<(int, int), EdgeUse>? _edges;

    public Point3 Middle(int n) => (Corner(n, 0) + Corner(n, 1) + Corner(n, 2)) * (1.0 / 3);

    public bool Cross(int first, int second)
    {
        if (Apart(first, second))
            return false;
        var (shared, mine, other) = Shared(first, second);
        return shared switch
        {
            0 => PiercedByAny(first, second) || PiercedByAny(second, first),
            1 => Pierced(second, Corner(first, mine + 1), Corner(first, mine + 2)) || Pierced(first, Corner(second, other + 1), Corner(second, other + 2)),
            _ => false,
        };
    }

    private bool Apart(int first, int second)
    {
        var (a, b, c) = (Corner(first, 0), Corner(first, 1), Corner(first, 2));
        var (d, e, f) = (Corner(second, 0), Corner(second, 1), Corner(second, 2));
        return Between(a.X, b.X, c.X, d.X, e.X, f.X) || Between(a.Y, b.Y, c.Y, d.Y, e.Y, f.Y) || Between(a.Z, b.Z, c.Z, d.Z, e.Z, f.Z);

        static bool Between(double a, double b, double c, double d, double e, double f) =>
            Math.Max(a, Math.Max(b, c)) < Math.Min(d, Math.Min(e, f)) || Math.Max(d, Math.Max(e, f)) < Math.Min(a, Math.Min(b, c));
    }

    private (int Count, int Mine, int Other) Shared(int first, int second)
    {
        var (count, mine, other) = (0, 0, 0);
        for (var n = 0; n < 3; n++)
        {
            for (var m = 0; m < 3; m++)
            {
                if (_triangles[3 * first + n] != _triangles[3 * second + m])
                    continue;
                (mine, other) = (n, m);
                count++;
            }
        }

        return (count, mine, other);
    }

    private bool PiercedByAny(int triangle, int other)
    {
        if (Plane(triangle) is not { } normal)
            return false;
        var corner = Corner(triangle, 0);
        var (p, q, r) = (Corner(other, 0), Corner(other, 1), Corner(other, 2));
        var (dp, dq, dr) = (normal.Dot(p - corner), normal.Dot(q - corner), normal.Dot(r - corner));
        return Through(triangle, normal, p, q, dp, dq) || Through(triangle, normal, q, r, dq, dr) || Through(triangle, normal, r, p, dr, dp);
    }

    private bool Pierced(int triangle, Point3 from, Point3 to)
    {
        if (Plane(triangle) is not { } normal)
            return false;
        var corner = Corner(triangle, 0);
        return Through(triangle, normal, from, to, normal.Dot(from - corner), normal.Dot(to - corner));
    }

    // Clearly on both sides of the plane, and within the triangle. What runs through its rim crosses when it runs through the neighbour's plane too: so the seam
    // of two triangles of a face is a part of the face, and a side that lies in a face and ends at the rim of another only touches.
    private bool Through(int triangle, Point3 normal, Point3 from, Point3 to, double dFrom, double dTo)
    {
        if (!Parts(dFrom, dTo))
            return false;
        var at = from + (to - from) * (dFrom / (dFrom - dTo));
        var rim = 0;
        for (var n = 0; n < 3; n++)
        {
            var (start, side) = (Corner(triangle, n), Corner(triangle, n + 1) - Corner(triangle, n));
            var within = side.Cross(at - start).Dot(normal);
            if (within < -tolerance * side.Length)
                return false;
            if (within <= tolerance * side.Length)
                rim |= 1 << n;
        }

        return rim == 0 || (AcrossParts(triangle, rim, 0, from, to) && AcrossParts(triangle, rim, 1, from, to) && AcrossParts(triangle, rim, 2, from, to));
    }

    private bool Parts(double dFrom, double dTo) => (dFrom > tolerance && dTo < -tolerance) || (dFrom < -tolerance && dTo > tolerance);

    private bool AcrossParts(int triangle, int rim, int side, Point3 from, Point3 to)
    {
        if ((rim & 1 << side) == 0)
            return true;
        _edges ??= MeshMeasure.Edges(_triangles);
        var (a, b) = (_triangles[3 * triangle + side], _triangles[3 * triangle + (side + 1) % 3]);
        if (_edges[a < b ? (a, b) : (b, a)].Other(triangle) is not (>= 0 and { } neighbour) || Plane(neighbour) is not { } normal)
            return true;
        var corner = Corner(neighbour, 0);
        return Parts(normal.Dot(from - corner), normal.Dot(to - corner));
    }

    // A sliver without height has no plane of its own; its neighbours tell what it would.
    private Point3? Plane(int triangle)
    {
        var (along, up) = (Corner(triangle, 1) - Corner(triangle, 0), Corner(triangle, 2) - Corner(triangle, 0));
        var normal = along.Cross(up);
        var length = normal.Length;
        return length > tolerance * Math.Max(along.Length, up.Length) ? normal * (1 / length) : null;
    }

    private Point3 Corner(int triangle, int n) => _vertices[_triangles[3 * triangle + n % 3]];
}
