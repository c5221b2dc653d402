using ShopFloor.Engineering.Geometry;

namespace ShopFloor.Engineering.Tests.Geometry;

/// <summary>Closed surfaces of triangles, facing outwards.</summary>
public static class Solids
{
    public static TriangleMesh Box(double width, double depth, double height, Point3 at)
    {
        Point3[] corners = [.. Enumerable.Range(0, 8).Select(n => at + new Point3((n & 1) != 0 ? width : 0, (n & 2) != 0 ? depth : 0, (n & 4) != 0 ? height : 0))];
        return new TriangleMesh(corners, [0, 2, 1, 1, 2, 3, 4, 5, 6, 5, 7, 6, 0, 1, 4, 1, 5, 4, 2, 6, 3, 3, 6, 7, 0, 4, 2, 2, 4, 6, 1, 3, 5, 3, 7, 5]);
    }

    /// <summary>A net around both angles; the rows close on themselves.</summary>
    public static TriangleMesh Torus(double ring, double tube, int around, int across)
    {
        List<Point3> corners = [];
        List<int> triangles = [];
        for (var n = 0; n < around; n++)
        {
            for (var m = 0; m < across; m++)
            {
                var (u, v) = (2 * Math.PI * n / around, 2 * Math.PI * m / across);
                corners.Add(new((ring + tube * Math.Cos(v)) * Math.Cos(u), (ring + tube * Math.Cos(v)) * Math.Sin(u), tube * Math.Sin(v)));
                var (a, b, c, d) = (n * across + m, (n + 1) % around * across + m, n * across + (m + 1) % across, (n + 1) % around * across + (m + 1) % across);
                triangles.AddRange([a, b, d, a, d, c]);
            }
        }

        return new TriangleMesh(corners, [.. triangles]);
    }

    /// <summary>Rings of latitude between two poles.</summary>
    public static TriangleMesh Sphere(double radius, int around, Point3 at)
    {
        var rings = around / 2;
        List<Point3> corners = [at + new Point3(0, 0, radius)];
        List<int> triangles = [];
        for (var ring = 1; ring < rings; ring++)
        {
            for (var n = 0; n < around; n++)
            {
                var (down, turn) = (Math.PI * ring / rings, 2 * Math.PI * n / around);
                corners.Add(at + new Point3(Math.Sin(down) * Math.Cos(turn), Math.Sin(down) * Math.Sin(turn), Math.Cos(down)) * radius);
            }
        }

        corners.Add(at - new Point3(0, 0, radius));
        int Of(int ring, int n) => 1 + (ring - 1) * around + n % around;
        for (var n = 0; n < around; n++)
        {
            triangles.AddRange([0, Of(1, n), Of(1, n + 1)]);
            triangles.AddRange([corners.Count - 1, Of(rings - 1, n + 1), Of(rings - 1, n)]);
            for (var ring = 1; ring < rings - 1; ring++)
                triangles.AddRange([Of(ring, n), Of(ring + 1, n), Of(ring + 1, n + 1), Of(ring, n), Of(ring + 1, n + 1), Of(ring, n + 1)]);
        }

        return new TriangleMesh(corners, [.. triangles]);
    }

    public static TriangleMesh Together(TriangleMesh one, TriangleMesh two) =>
        new([.. one.Vertices, .. two.Vertices], [.. one.Triangles, .. two.Triangles.Select(number => number + one.Vertices.Count)]);
}
