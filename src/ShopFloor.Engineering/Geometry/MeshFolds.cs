namespace ShopFloor.Engineering.Geometry;

/// <summary>How much a closed surface turns along its sides.</summary>
internal static class MeshFolds
{
    // Beyond 150° a side is a blade or a fault of a scan, and its tangent would outweigh all others.
    private static readonly double _sharpest = Math.Cos(150 * Math.PI / 180);

    /// <summary>Σ l·tan(θ/2), m, θ the angle between the normals of both faces; positive where the surface bulges outwards.</summary>
    public static double Sum(IReadOnlyList<Point3> vertices, int[] triangles, Dictionary<(int, int), EdgeUse> edges)
    {
        var sum = 0.0;
        foreach (var ((from, to), use) in edges)
        {
            var (first, second) = (Normal(vertices, triangles, use.First), Normal(vertices, triangles, use.Second));
            if (first.Length <= 0 || second.Length <= 0)
                continue;
            first *= 1 / first.Length;
            second *= 1 / second.Length;
            var turn = Math.Max(first.Dot(second), _sharpest);
            if (turn >= 1)
                continue;
            var length = (vertices[to] - vertices[from]).Length;
            var bulges = (vertices[Third(triangles, use.Second, from, to)] - vertices[from]).Dot(first) < 0;
            sum += (bulges ? 1 : -1) * length * Math.Sqrt((1 - turn) / (1 + turn));
        }

        return sum;
    }

    private static Point3 Normal(IReadOnlyList<Point3> vertices, int[] triangles, int n)
    {
        var corner = vertices[triangles[3 * n]];
        return (vertices[triangles[3 * n + 1]] - corner).Cross(vertices[triangles[3 * n + 2]] - corner);
    }

    private static int Third(int[] triangles, int n, int from, int to)
    {
        for (var at = 3 * n; at < 3 * n + 2; at++)
        {
            if (triangles[at] != from && triangles[at] != to)
                return triangles[at];
        }

        return triangles[3 * n + 2];
    }
}
