namespace ShopFloor.Engineering.Fabrication.Nesting;

/// <summary>Whole sheets that no layout can do without.</summary>
/// <remarks>
/// Area: the area of the pieces over that of the largest board. Dual feasible functions u and v: where Σ u(length)·v(width) exceeds n, more
/// than n boards are needed, whatever the layout. Families of Fekete and Schepers, A general framework for bounds for higher-dimensional
/// orthogonal packing problems, Math. Methods Oper. Res. 60 (2004), which include the bounds of Martello and Vigo, Management Science 44 (1998).
/// A piece that may turn counts with the lesser of both ways (Dell'Amico, Martello and Vigo, Discrete Appl. Math. 118 (2002), weakened).
/// </remarks>
internal static class SheetBound
{
    private const int MostThresholds = 30;
    private const int MostMultiples = 12;
    private const double Slack = 1e-9;

    /// <summary>Bound by area and by dual feasible functions; the larger counts.</summary>
    public static (int Area, int Functions) Of(NestingProblem problem)
    {
        // A board inside this rectangle holds no more than the rectangle does.
        var useful = problem.Boards.Where(board => problem.Pieces.Any(board.Takes)).ToList();
        if (!useful.Any(board => !board.IsOffcut))
            return (0, 0);
        var (length, width) = (useful.Max(board => board.Length), useful.Max(board => board.Width));
        var offcuts = useful.Where(board => board.IsOffcut).Sum(board => (double)Math.Min(board.Available, problem.PieceCount));
        var offcutArea = useful.Where(board => board.IsOffcut).Sum(board => (double)board.Length * board.Width * Math.Min(board.Available, problem.PieceCount));
        var largest = useful.Where(board => !board.IsOffcut).Max(board => (double)board.Length * board.Width);
        var area = problem.Pieces.Sum(piece => (double)piece.Length * piece.Width * piece.Count);
        return (Up((area - offcutArea) / largest), Up(ByFunctions(problem, useful, length, width) - offcuts));
    }

    private static int Up(double value) => Math.Max(0, (int)Math.Ceiling(value - Slack));

    private static double ByFunctions(NestingProblem problem, List<Board> useful, long length, long width)
    {
        var sizes = problem.Pieces.Select(piece => (
            piece.Count,
            AsIs: useful.Any(board => board.Fits(piece, false)) ? (piece.Length, piece.Width) : default((long, long)?),
            Turned: useful.Any(board => board.Fits(piece, true)) ? (piece.Width, piece.Length) : default((long, long)?))).ToList();
        var lengths = Values(length, [.. sizes.SelectMany(size => new[] { size.AsIs?.Item1, size.Turned?.Item1 }).OfType<long>().Distinct().Order()]);
        var widths = Values(width, [.. sizes.SelectMany(size => new[] { size.AsIs?.Item2, size.Turned?.Item2 }).OfType<long>().Distinct().Order()]);
        var most = 0.0;
        foreach (var u in lengths)
        {
            foreach (var v in widths)
            {
                var sum = 0.0;
                foreach (var (count, asIs, turned) in sizes)
                {
                    var one = asIs is { } a ? u[a.Item1] * v[a.Item2] : double.MaxValue;
                    if (turned is { } t)
                        one = Math.Min(one, u[t.Item1] * v[t.Item2]);
                    sum += count * (one < double.MaxValue ? one : 0);
                }

                most = Math.Max(most, sum);
            }
        }

        return most;
    }

    // Every function as a table over the sizes that occur.
    private static List<Dictionary<long, double>> Values(long board, List<long> sizes)
    {
        var functions = new List<Func<long, double>> { size => (double)size / board };
        for (var k = 1; k <= MostMultiples; k++)
        {
            long multiple = k;
            functions.Add(size => (multiple + 1) * size % board == 0 ? (double)size / board : (multiple + 1) * size / board / (double)multiple);
        }

        var halves = sizes.Concat(sizes.Select(size => board - size)).Where(size => size > 0 && 2 * size <= board).Distinct().Order().ToList();
        for (var n = 0; n < Math.Min(halves.Count, MostThresholds); n++)
        {
            // Evenly over the thresholds where there are too many.
            var threshold = halves[(int)((long)n * halves.Count / Math.Min(halves.Count, MostThresholds))];
            functions.Add(size => size > board - threshold ? 1 : size < threshold ? 0 : (double)size / board);
            functions.Add(size => 2 * size > board ? 1 - (board - size) / threshold / (double)(board / threshold) : size < threshold ? 0 : 1 / (double)(board / threshold));
        }

        return [.. functions.Select(function => sizes.ToDictionary(size => size, function))];
    }
}
