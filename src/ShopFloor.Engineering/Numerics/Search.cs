namespace ShopFloor.Engineering.Numerics;

/// <summary>Searches over one or two values, always with the same result for the same question.</summary>
public static class Search
{
    /// <summary>Where a function crosses zero between two ends, by halving.</summary>
    /// <param name="function">Continuous function with different signs at the ends.</param>
    /// <param name="low">One end.</param>
    /// <param name="high">The other end.</param>
    /// <returns>The crossing; null when both ends have the same sign or are not numbers.</returns>
    public static double? Zero(Func<double, double> function, double low, double high)
    {
        ArgumentNullException.ThrowIfNull(function);
        var (atLow, atHigh) = (function(low), function(high));
        if (atLow == 0)
            return low;
        if (atHigh == 0)
            return high;
        if (!double.IsFinite(atLow) || !double.IsFinite(atHigh) || Math.Sign(atLow) == Math.Sign(atHigh))
            return null;
        for (var turn = 0; turn < 200 && Math.Abs(high - low) > 1e-13 * Math.Abs(high); turn++)
        {
            var middle = (low + high) / 2;
            (low, high) = Math.Sign(function(middle)) == Math.Sign(atLow) ? (middle, high) : (low, middle);
        }

        return (low + high) / 2;
    }

    /// <summary>Least value on a rectangle: a grid, then ever smaller steps from its best points.</summary>
    /// <param name="function">Function of both values; not a number counts as very large.</param>
    /// <param name="first">Ends of the first value.</param>
    /// <param name="second">Ends of the second value; equal for a search over one.</param>
    /// <param name="grid">Points along each side, 3 or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">Fewer than 3 points.</exception>
    public static (double First, double Second, double Value) Least(Func<double, double, double> function, (double Low, double High) first, (double Low, double High) second, int grid = 21)
    {
        ArgumentNullException.ThrowIfNull(function);
        ArgumentOutOfRangeException.ThrowIfLessThan(grid, 3);
        double Value(double x, double y) => function(x, y) is var value && double.IsFinite(value) ? value : double.MaxValue;
        double At((double Low, double High) side, int n) => side.Low + (side.High - side.Low) * n / (grid - 1);
        var starts = Enumerable.Range(0, grid)
            .SelectMany(n => Enumerable.Range(0, second.Low == second.High ? 1 : grid), (n, m) => (X: At(first, n), Y: At(second, m)))
            .Select(point => (point.X, point.Y, Value: Value(point.X, point.Y)))
            .OrderBy(point => point.Value).Take(4).ToList();
        var best = starts[0];
        foreach (var start in starts)
        {
            var (x, y, least) = start;
            var (dx, dy) = ((first.High - first.Low) / (grid - 1), (second.High - second.Low) / (grid - 1));
            for (var turn = 0; turn < 400 && dx > 1e-9 * (first.High - first.Low); turn++)
            {
                var moved = false;
                foreach (var (sx, sy) in new[] { (1, 0), (-1, 0), (0, 1), (0, -1), (1, 1), (-1, -1), (1, -1), (-1, 1) })
                {
                    var (nx, ny) = (Math.Clamp(x + sx * dx, first.Low, first.High), Math.Clamp(y + sy * dy, second.Low, second.High));
                    var value = Value(nx, ny);
                    if (value < least)
                    {
                        (x, y, least, moved) = (nx, ny, value, true);
                        break;
                    }
                }

                if (!moved)
                    (dx, dy) = (dx / 2, dy / 2);
            }

            if (least < best.Value)
                best = (x, y, least);
        }

        return best;
    }
}
