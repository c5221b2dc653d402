namespace ShopFloor.Engineering.Fabrication.Nesting;

/// <summary>The least weight of whole sheets for a small cut list, proved.</summary>
/// <remarks>
/// Every guillotine pattern is made by joining two smaller ones side by side or one above the other (Wang, Operations Research 31, 1983). For every
/// set of pieces the smallest rectangles that hold it that way are kept, none larger both ways than another; a set fits a board when one of them does.
/// Then the whole set is split over boards by dynamic programming. Equal pieces count as one kind, so sets are counts.
/// </remarks>
internal sealed class ExactNesting
{
    private const int MostSets = 4096;
    private const int MostOffcuts = 4;
    private const long Work = 60_000_000;

    private readonly NestingProblem _problem;
    private readonly CancellationToken _cancellation;
    private readonly int[] _strides;
    private readonly int _sets;
    private readonly List<Build>[] _builds;
    private long _work = Work;

    private ExactNesting(NestingProblem problem, int sets, CancellationToken cancellation)
    {
        (_problem, _sets, _cancellation) = (problem, sets, cancellation);
        _strides = new int[problem.Pieces.Count];
        var stride = 1;
        for (var n = 0; n < _strides.Length; n++)
        {
            _strides[n] = stride;
            stride *= problem.Pieces[n].Count + 1;
        }

        _builds = new List<Build>[sets];
    }

    /// <summary>A layout of the least weight when there are enough sheets of every kind, or null where the list is too long to prove it.</summary>
    public static CutLayout? Solve(NestingProblem problem, CancellationToken cancellation)
    {
        var sets = 1L;
        foreach (var piece in problem.Pieces)
        {
            sets *= piece.Count + 1;
            if (sets > MostSets)
                return null;
        }

        // One way of lying for all boards, else a set would need its rectangles board by board.
        var ways = problem.Boards[0].Ways;
        if (problem.Whole.Count == 0 || problem.Offcuts.Sum(board => (long)board.Available) > MostOffcuts || problem.Boards.Any(board => !board.Ways.SequenceEqual(ways)))
            return null;
        var exact = new ExactNesting(problem, (int)sets, cancellation);
        return exact.BuildAll() ? exact.Cover() : null;
    }

    private bool BuildAll()
    {
        var (length, width) = (_problem.Boards.Max(board => board.Length), _problem.Boards.Max(board => board.Width));
        _builds[0] = [];
        for (var set = 1; set < _sets; set++)
        {
            _cancellation.ThrowIfCancellationRequested();
            var front = new List<Build>();
            var kind = Array.IndexOf(_strides, set);
            if (kind >= 0)
            {
                var piece = _problem.Pieces[kind];
                var (asIs, turned) = _problem.Boards[0].Ways[kind];
                if (asIs)
                    Add(front, new Build(piece.Length, piece.Width, false, null, null, kind, false));
                if (turned)
                    Add(front, new Build(piece.Width, piece.Length, false, null, null, kind, true));
            }

            foreach (var part in Parts(set))
            {
                // Each split once: the other half comes by itself.
                if (part == 0 || part > set - part)
                    continue;
                _work -= 1 + 2L * _builds[part].Count * _builds[set - part].Count;
                if (_work < 0)
                    return false;
                foreach (var a in _builds[part])
                {
                    foreach (var b in _builds[set - part])
                    {
                        Add(front, new Build(a.Length + b.Length, Math.Max(a.Width, b.Width), true, a, b, -1, false));
                        Add(front, new Build(Math.Max(a.Length, b.Length), a.Width + b.Width, false, a, b, -1, false));
                    }
                }
            }

            _builds[set] = front;
        }

        return true;

        void Add(List<Build> front, Build build)
        {
            if (build.Length > length || build.Width > width)
                return;
            foreach (var other in front)
            {
                if (other.Length <= build.Length && other.Width <= build.Width)
                    return;
            }

            front.RemoveAll(other => other.Length >= build.Length && other.Width >= build.Width);
            front.Add(build);
        }
    }

    // Least weight over whole sheets for every set, then what the offcuts may take off the full set.
    private CutLayout? Cover()
    {
        var cost = new double[_sets];
        var taken = new (int Part, Board Board)[_sets];
        for (var set = 1; set < _sets; set++)
        {
            _cancellation.ThrowIfCancellationRequested();
            cost[set] = double.PositiveInfinity;
            var first = FirstKind(set);
            foreach (var part in Parts(set))
            {
                // The first kind has to lie somewhere: let it be on this sheet.
                if (part == 0 || Count(part, first) == 0 || _builds[part].Count == 0)
                    continue;
                foreach (var board in _problem.Whole)
                {
                    var sum = board.Weight + cost[set - part];
                    if (sum < cost[set] - 1e-12 && Fitting(part, board) is not null)
                        (cost[set], taken[set]) = (sum, (part, board));
                }
            }
        }

        var offcuts = _problem.Offcuts.SelectMany(board => Enumerable.Repeat(board, board.Available)).ToList();
        var reached = new List<int[]> { Enumerable.Repeat(-1, _sets).ToArray() };
        reached[0][0] = 0;
        foreach (var board in offcuts)
        {
            var (before, after) = (reached[^1], Enumerable.Repeat(-1, _sets).ToArray());
            for (var set = 0; set < _sets; set++)
            {
                _cancellation.ThrowIfCancellationRequested();
                foreach (var part in Parts(set))
                {
                    if (before[set - part] >= 0 && (part == 0 || Fitting(part, board) is not null))
                        after[set] = after[set] < 0 ? part : Math.Min(after[set], part);
                }
            }

            reached.Add(after);
        }

        var full = _sets - 1;
        var best = -1;
        for (var set = 0; set < _sets; set++)
        {
            if (reached[^1][set] >= 0 && (best < 0 || cost[full - set] < cost[full - best] - 1e-12))
                best = set;
        }

        if (best < 0 || double.IsInfinity(cost[full - best]))
            return null;
        var boards = new List<CutBoard>();
        for (var (n, set) = (offcuts.Count, best); n > 0; n--)
        {
            var part = reached[n][set];
            if (part > 0)
                boards.Insert(0, Lay(part, offcuts[n - 1]));
            set -= part;
        }

        for (var set = full - best; set > 0; set -= taken[set].Part)
            boards.Add(Lay(taken[set].Part, taken[set].Board));
        return new CutLayout(boards, []);
    }

    private Build? Fitting(int set, Board board) => _builds[set].Find(build => build.Length <= board.Length && build.Width <= board.Width);

    private CutBoard Lay(int set, Board board)
    {
        var root = new CutTree(0, 0, board.Length, board.Width);
        Lay(root, Fitting(set, board)!);
        return new CutBoard(board, root);
    }

    private static void Lay(CutTree room, Build build)
    {
        if (build.First is { } first && build.Second is { } second)
        {
            var (one, other) = room.Cut(build.Crosscut, build.Crosscut ? first.Length : first.Width);
            Lay(one, first);
            Lay(other, second);
            return;
        }

        room.Put(build.Piece, build.Length, build.Width, build.Turned, room.Length - build.Length >= room.Width - build.Width, []);
    }

    private int Count(int set, int kind) => set / _strides[kind] % (_problem.Pieces[kind].Count + 1);

    private int FirstKind(int set)
    {
        var kind = 0;
        while (Count(set, kind) == 0)
            kind++;
        return kind;
    }

    // All sets that are part of a set, in counting order.
    private IEnumerable<int> Parts(int set)
    {
        var limits = Enumerable.Range(0, _strides.Length).Select(kind => Count(set, kind)).ToArray();
        var counts = new int[limits.Length];
        var part = 0;
        while (true)
        {
            yield return part;
            var kind = 0;
            while (kind < limits.Length && counts[kind] == limits[kind])
            {
                part -= counts[kind] * _strides[kind];
                counts[kind++] = 0;
            }

            if (kind == limits.Length)
                yield break;
            counts[kind]++;
            part += _strides[kind];
        }
    }

    private sealed record Build(long Length, long Width, bool Crosscut, Build? First, Build? Second, int Piece, bool Turned);
}
