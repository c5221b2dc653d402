namespace ShopFloor.Engineering.Fabrication.Nesting;

/// <summary>Which free rectangle a piece goes into: the one with the least of this left over.</summary>
internal enum FitRule
{
    ShortSide,
    LongSide,
    Area,
    Corner,
}

/// <summary>Which way a rectangle is cut first around a piece.</summary>
internal enum SplitRule
{
    ShorterLeftover,
    LongerLeftover,
    LargestPiece,
    EvenPieces,
    Across,
    Along,
}

/// <summary>How one filling goes about it.</summary>
/// <param name="Fit">Where a piece goes.</param>
/// <param name="Split">How the rest is cut.</param>
/// <param name="OffcutsOpen">Whether all offcuts lie open from the start; else one is taken when no open board has room.</param>
/// <param name="First">Which kind of whole sheet is taken first.</param>
internal readonly record struct FillRule(FitRule Fit, SplitRule Split, bool OffcutsOpen, int First);

/// <summary>Fills boards piece by piece with guillotine cuts: the rules of Jylänki, A thousand ways to pack the bin (2010), chapter 2.</summary>
internal static class GuillotineFill
{
    /// <summary>Fills boards in the order of pieces given.</summary>
    public static CutLayout Run(NestingProblem problem, IReadOnlyList<int> order, FillRule rule)
    {
        var used = new int[problem.Boards.Count];
        var open = new List<OpenBoard>();
        var unplaced = new List<int>();
        if (rule.OffcutsOpen)
        {
            for (var n = 0; n < problem.Boards.Count; n++)
            {
                var board = problem.Boards[n];
                for (; board.IsOffcut && used[n] < Math.Min(board.Available, problem.PieceCount); used[n]++)
                    open.Add(new OpenBoard(board));
            }
        }

        foreach (var index in order)
        {
            var piece = problem.Pieces[index];
            if (Best(open, piece, rule.Fit) is not { } place)
            {
                if (Next(problem, used, piece, rule) is not { } number)
                {
                    unplaced.Add(index);
                    continue;
                }

                used[number]++;
                open.Add(new OpenBoard(problem.Boards[number]));
                place = Best([open[^1]], piece, rule.Fit)!.Value;
            }

            place.Board.Take(place.Free, piece, place.Turned, rule.Split);
        }

        return new CutLayout([.. open.Where(board => board.Pieces > 0).Select(board => new CutBoard(board.Kind, board.Root))], unplaced);
    }

    private static int? Next(NestingProblem problem, int[] used, Piece piece, FillRule rule)
    {
        int? best = null;
        for (var n = 0; n < problem.Boards.Count; n++)
        {
            var board = problem.Boards[n];
            if (used[n] >= board.Available || !board.Takes(piece))
                continue;
            if (best is not { } other || Comes(n, other))
                best = n;
        }

        return best;

        // Offcuts first, the smallest that takes it; then the wished kind; then the kind that counts least.
        bool Comes(int one, int other)
        {
            var (a, b) = (problem.Boards[one], problem.Boards[other]);
            if (a.IsOffcut != b.IsOffcut)
                return a.IsOffcut;
            if (a.IsOffcut)
                return a.Length * a.Width < b.Length * b.Width;
            return one == rule.First || (other != rule.First && a.Weight < b.Weight);
        }
    }

    private static (OpenBoard Board, int Free, bool Turned)? Best(List<OpenBoard> open, Piece piece, FitRule fit)
    {
        (OpenBoard Board, int Free, bool Turned)? best = null;
        var (bestScore, bestTie) = (long.MaxValue, long.MaxValue);
        foreach (var board in open)
        {
            var free = board.Free;
            var (asIs, turns) = board.Kind.Ways[piece.Index];
            for (var n = 0; n < free.Count; n++)
            {
                var room = free[n];
                if (asIs)
                    Try(n, room.Length - piece.Length, room.Width - piece.Width, false);
                if (turns && piece.Length != piece.Width)
                    Try(n, room.Length - piece.Width, room.Width - piece.Length, true);

                void Try(int at, long restLength, long restWidth, bool turned)
                {
                    if (restLength < 0 || restWidth < 0)
                        return;
                    var (low, high) = (Math.Min(restLength, restWidth), Math.Max(restLength, restWidth));
                    var (score, tie) = fit switch
                    {
                        FitRule.ShortSide => (low, high),
                        FitRule.LongSide => (high, low),
                        FitRule.Area => (room.Length * room.Width, low),
                        _ => (room.Y, room.X),
                    };
                    if (score < bestScore || (score == bestScore && tie < bestTie))
                        (best, bestScore, bestTie) = ((board, at, turned), score, tie);
                }
            }

            if (fit == FitRule.Corner && best is not null)
                break;
        }

        return best;
    }

    private sealed class OpenBoard
    {
        private readonly List<CutTree> _left = new(2);

        public OpenBoard(Board kind)
        {
            Kind = kind;
            Root = new CutTree(0, 0, kind.Length, kind.Width);
            Free = [Root];
        }

        public Board Kind { get; }

        public CutTree Root { get; }

        public List<CutTree> Free { get; }

        public int Pieces { get; private set; }

        public void Take(int free, Piece piece, bool turned, SplitRule split)
        {
            var room = Free[free];
            Free.RemoveAt(free);
            var (length, width) = turned ? (piece.Width, piece.Length) : (piece.Length, piece.Width);
            _left.Clear();
            room.Put(piece.Index, length, width, turned, CrosscutFirst(room, length, width, split), _left);
            Free.AddRange(_left);
            Pieces++;
        }

        private static bool CrosscutFirst(CutTree room, long length, long width, SplitRule split)
        {
            var (right, above) = (room.Length - length, room.Width - width);
            return split switch
            {
                SplitRule.ShorterLeftover => right >= above,
                SplitRule.LongerLeftover => right < above,
                // The two areas that do not depend on the choice cancel: what the corner is added to decides.
                SplitRule.LargestPiece => right * width >= above * length,
                SplitRule.EvenPieces => right * width < above * length,
                SplitRule.Across => true,
                _ => false,
            };
        }
    }
}
