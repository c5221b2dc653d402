namespace ShopFloor.Documents.Plots;

/// <summary>Keeps curves within the frame: cut where they leave it, never bent along its edge.</summary>
internal static class PlotClip
{
    public static List<List<(double X, double Y)>> Lines(IReadOnlyList<(double X, double Y)> points, double top, double bottom)
    {
        List<List<(double, double)>> lines = [[]];
        for (var n = 1; n < points.Count; n++)
        {
            if (Cut(points[n - 1], points[n], top, bottom) is not var (from, to))
            {
                Break();
                continue;
            }

            if (lines[^1].Count == 0 || lines[^1][^1] != from)
            {
                Break();
                lines[^1].Add(from);
            }

            lines[^1].Add(to);
        }

        return lines;

        void Break()
        {
            if (lines[^1].Count > 0)
                lines.Add([]);
        }
    }

    private static ((double X, double Y) From, (double X, double Y) To)? Cut((double X, double Y) a, (double X, double Y) b, double top, double bottom)
    {
        if (double.IsNaN(a.Y) || double.IsNaN(b.Y) || Math.Max(a.Y, b.Y) < top || Math.Min(a.Y, b.Y) > bottom)
            return null;
        return (Held(a, b), Held(b, a));

        (double X, double Y) Held((double X, double Y) point, (double X, double Y) other)
        {
            var edge = point.Y < top ? top : point.Y > bottom ? bottom : point.Y;
            return edge == point.Y ? point : (point.X + ((other.X - point.X) * (edge - point.Y) / (other.Y - point.Y)), edge);
        }
    }
}
