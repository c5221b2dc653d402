namespace ShopFloor.Engineering.Geometry;

/// <summary>Area, centre and soundness of a polygon given by its corners in order.</summary>
public static class Polygon
{
    /// <summary>Area with its sign, m²: ½·Σ(xᵢ·yᵢ₊₁ − xᵢ₊₁·yᵢ), positive anticlockwise (shoelace formula).</summary>
    /// <param name="corners">Corners, m; the last joins the first.</param>
    public static double SignedSquareMeters(IReadOnlyList<Point2> corners)
    {
        ArgumentNullException.ThrowIfNull(corners);
        // About the first corner, so that a small shape far from the origin keeps its digits.
        var sum = 0.0;
        for (var i = 1; i + 1 < corners.Count; i++)
            sum += Cross(corners[0], corners[i], corners[i + 1]);
        return sum / 2;
    }

    /// <summary>Centre of area, m (shoelace formula).</summary>
    /// <param name="corners">Corners, m.</param>
    /// <exception cref="ArgumentException">The area is nothing.</exception>
    public static Point2 Center(IReadOnlyList<Point2> corners)
    {
        ArgumentNullException.ThrowIfNull(corners);
        var (area, x, y) = (0.0, 0.0, 0.0);
        for (var i = 1; i + 1 < corners.Count; i++)
        {
            var (a, b, c) = (corners[0], corners[i], corners[i + 1]);
            var twice = Cross(a, b, c);
            area += twice;
            x += twice * (a.X + b.X + c.X) / 3;
            y += twice * (a.Y + b.Y + c.Y) / 3;
        }

        return area != 0 ? new Point2(x / area, y / area) : throw new ArgumentException("The polygon has no area.", nameof(corners));
    }

    /// <summary>Length all around, m.</summary>
    /// <param name="corners">Corners, m.</param>
    public static double PerimeterMeters(IReadOnlyList<Point2> corners)
    {
        ArgumentNullException.ThrowIfNull(corners);
        return Enumerable.Range(0, corners.Count).Sum(i => Distance(corners[i], corners[(i + 1) % corners.Count]));
    }

    /// <summary>Numbers of two sides that cross or touch though they are no neighbours, or that fold back on themselves; null for a sound polygon.</summary>
    /// <param name="corners">Corners, m. Side n runs from corner n to the next, counted from 0.</param>
    public static (int First, int Second)? Crossing(IReadOnlyList<Point2> corners)
    {
        ArgumentNullException.ThrowIfNull(corners);
        var count = corners.Count;
        for (var i = 0; i < count; i++)
        {
            var (a, b) = (corners[i], corners[(i + 1) % count]);
            if (a == b)
                return (i, i);
            // A neighbour may only turn, not run back over this side.
            var next = corners[(i + 2) % count];
            if (Cross(a, b, next) == 0 && (next.X - b.X) * (b.X - a.X) + (next.Y - b.Y) * (b.Y - a.Y) < 0)
                return (i, (i + 1) % count);
            for (var j = i + 2; j < count; j++)
            {
                if (i == 0 && j == count - 1)
                    continue;
                if (Meet(a, b, corners[j], corners[(j + 1) % count]))
                    return (i, j);
            }
        }

        return null;
    }

    private static bool Meet(Point2 a, Point2 b, Point2 c, Point2 d)
    {
        var (abc, abd, cda, cdb) = (Math.Sign(Cross(a, b, c)), Math.Sign(Cross(a, b, d)), Math.Sign(Cross(c, d, a)), Math.Sign(Cross(c, d, b)));
        if (abc * abd < 0 && cda * cdb < 0)
            return true;
        return (abc == 0 && Between(a, b, c)) || (abd == 0 && Between(a, b, d)) || (cda == 0 && Between(c, d, a)) || (cdb == 0 && Between(c, d, b));
    }

    private static bool Between(Point2 a, Point2 b, Point2 p) =>
        Math.Min(a.X, b.X) <= p.X && p.X <= Math.Max(a.X, b.X) && Math.Min(a.Y, b.Y) <= p.Y && p.Y <= Math.Max(a.Y, b.Y);

    private static double Cross(Point2 a, Point2 b, Point2 c) => (b.X - a.X) * (c.Y - a.Y) - (b.Y - a.Y) * (c.X - a.X);

    private static double Distance(Point2 a, Point2 b) => Math.Sqrt((a.X - b.X) * (a.X - b.X) + (a.Y - b.Y) * (a.Y - b.Y));
}
