namespace ShopFloor.Engineering.Fabrication.Nesting;

/// <summary>Best of many fillings: several orders by every rule, then small changes of the best order. The same input gives the same answer.</summary>
internal sealed class NestingSearch(NestingProblem problem, long keptLength, long keptWidth, CancellationToken cancellation)
{
    // Work in piece-pairs; bounds the time at about a second for any input.
    private const long Work = 30_000_000;
    private const int MostTries = 6_000;

    private CutLayout? _best;
    private Score _bestScore;
    private int[] _bestOrder = [];
    private FillRule _bestRule;

    /// <summary>The best layout found.</summary>
    /// <param name="atLeast">Whole sheets that are needed in any case: with these reached only the offcuts are still improved.</param>
    public CutLayout Run(int atLeast)
    {
        foreach (var order in Orders())
        {
            foreach (var rule in Rules())
                Try(order, rule);
        }

        Improve(atLeast);
        return _best!; // at least one order and one rule were tried
    }

    private void Improve(int atLeast)
    {
        var count = problem.PieceCount;
        if (count < 2)
            return;
        var rules = Rules().ToList();
        var random = new Steps(20_011);
        var tries = (int)Math.Clamp(Work / ((long)count * count), 100, MostTries);
        for (var n = 0; n < tries; n++)
        {
            if (_best!.Unplaced.Count == 0 && _best.Whole <= atLeast && n >= tries / 8)
                return;
            var order = (int[])_bestOrder.Clone();
            for (var change = 1 + random.Next(3); change > 0; change--)
            {
                var (from, to) = (random.Next(count), random.Next(count));
                if (random.Next(2) == 0)
                {
                    (order[from], order[to]) = (order[to], order[from]);
                    continue;
                }

                var moved = order[from];
                if (from < to)
                    Array.Copy(order, from + 1, order, from, to - from);
                else
                    Array.Copy(order, to, order, to + 1, from - to);
                order[to] = moved;
            }

            Try(order, random.Next(3) == 0 ? rules[random.Next(rules.Count)] : _bestRule);
        }
    }

    private void Try(int[] order, FillRule rule)
    {
        cancellation.ThrowIfCancellationRequested();
        var layout = GuillotineFill.Run(problem, order, rule);
        var score = Judge(layout);
        // An equal one is taken too, so that the search can walk along a plateau.
        if (_best is null || score.CompareTo(_bestScore) <= 0)
            (_best, _bestScore, _bestOrder, _bestRule) = (layout, score, order, rule);
    }

    private Score Judge(CutLayout layout)
    {
        var (crowded, kept) = (0.0, 0.0);
        foreach (var board in layout.Boards)
        {
            var used = 0.0;
            foreach (var leaf in board.Tree.Leaves())
            {
                var area = (double)leaf.Length * leaf.Width;
                if (leaf.Piece >= 0)
                    used += area;
                else if (IsKept(leaf))
                    kept = Math.Max(kept, area);
            }

            crowded += used * used;
        }

        return new Score(layout.Unplaced.Count, layout.Weight, layout.Boards.Count, -(crowded + kept * kept));
    }

    private bool IsKept(CutTree leaf)
    {
        var (length, width) = (leaf.Length - problem.Kerf, leaf.Width - problem.Kerf);
        return Math.Max(length, width) >= keptLength && Math.Min(length, width) >= keptWidth;
    }

    private IEnumerable<int[]> Orders()
    {
        var all = problem.Pieces.SelectMany(piece => Enumerable.Repeat(piece, piece.Count)).ToList();
        Func<Piece, long>[] keys =
        [
            piece => piece.Length * piece.Width,
            piece => Math.Max(piece.Length, piece.Width),
            piece => Math.Min(piece.Length, piece.Width),
            piece => piece.Length + piece.Width,
            piece => piece.Length,
            piece => piece.Width,
            piece => Math.Abs(piece.Length - piece.Width),
        ];
        foreach (var key in keys)
            yield return [.. all.OrderByDescending(key).ThenByDescending(piece => piece.Length * piece.Width).ThenBy(piece => piece.Index).Select(piece => piece.Index)];
    }

    private IEnumerable<FillRule> Rules()
    {
        var whole = Enumerable.Range(0, problem.Boards.Count).Where(n => !problem.Boards[n].IsOffcut).DefaultIfEmpty(-1).ToList();
        bool[] offcuts = problem.Offcuts.Count > 0 ? [true, false] : [false];
        return
            from first in whole
            from open in offcuts
            from fit in Enum.GetValues<FitRule>()
            from split in Enum.GetValues<SplitRule>()
            select new FillRule(fit, split, open, first);
    }

    private readonly record struct Score(int Unplaced, double Weight, int Boards, double Loose) : IComparable<Score>
    {
        public int CompareTo(Score other) =>
            Unplaced != other.Unplaced ? Unplaced.CompareTo(other.Unplaced)
            : Math.Abs(Weight - other.Weight) > 1e-9 * (1 + Weight) ? Weight.CompareTo(other.Weight)
            : Boards != other.Boards ? Boards.CompareTo(other.Boards)
            : Loose.CompareTo(other.Loose);
    }

    /// <summary>A linear congruential sequence (constants of Knuth, MMIX): the same on every machine and runtime.</summary>
    private sealed class Steps(ulong state)
    {
        private ulong _state = state;

        public int Next(int below)
        {
            _state = unchecked(_state * 6364136223846793005UL + 1442695040888963407UL);
            return (int)((_state >> 33) % (ulong)below);
        }
    }
}
