using ShopFloor.Engineering.Tuning.Filters;

namespace ShopFloor.Engineering.Tuning.Equalisation;

/// <summary>Finds filters: adds the most useful one and refits all, until there are enough; then moves, replaces or redraws some of them and refits, keeping what is better.
/// The moves come from a seed and their number is fixed, so the answer does not hang on the machine's speed.</summary>
internal sealed class EqualiserSearch(EqualiserModel all, double[] hertz, EqualiserLimits limits, int starts, int seed, IProgress<TuningProgress>? progress, CancellationToken cancellation)
{
    private static readonly double[] CandidateQ = [0.6, 1.2, 2.4, 4.8, 8];
    private readonly Random _random = new(seed);
    private readonly double[] _residuals = new double[all.Points];
    private readonly double[] _shape = new double[all.Points];
    private double? _heldOffset;

    /// <summary>Local fits made so far.</summary>
    public int Fits { get; private set; }

    /// <summary>Sum of squares with none, one, two … filters.</summary>
    public List<double> CostByCount { get; } = [];

    /// <summary>The best parameters, kinds and their sum of squares.</summary>
    public (double[] Parameters, IReadOnlyList<FilterKind> Kinds, double Cost) Run()
    {
        List<FilterKind> shelves = [];
        if (limits.LowShelf)
            shelves.Add(FilterKind.LowShelf);
        if (limits.HighShelf)
            shelves.Add(FilterKind.HighShelf);
        var best = Greedy(shelves, 0);
        var current = best;
        for (var start = 0; start < starts && limits.Filters > 0; start++)
        {
            cancellation.ThrowIfCancellationRequested();
            progress?.Report(new TuningProgress("fitting filters", start / (double)starts, Rms(best.Cost)));
            // Every twentieth is a whole new beginning; the others change what there is.
            var again = start % 20 == 19;
            var next = again ? Greedy(shelves, 3) : Fit(Changed(current.Parameters, current.Kinds), current.Kinds, 90, current.Cost * 1.6);
            // A little worse is taken too, less and less, so that the search does not sit in the first hollow; the best is kept beside it.
            var slack = again ? 1.2 : 1 + 0.06 * (1 - start / (double)starts);
            if (next.Cost < current.Cost * slack)
                current = next;
            if (next.Cost < best.Cost)
                best = next;
            else if (start % 20 == 14)
                current = best;
        }

        // To the bottom: what is handed out must not hang on where an iteration stopped.
        best = Fit(best.Parameters, best.Kinds, 500, double.PositiveInfinity, 1e-14);
        progress?.Report(new TuningProgress("fitting filters", 1, Rms(best.Cost)));
        return best;
    }

    private double Rms(double cost) => Math.Sqrt(cost / hertz.Length);

    private (double[] Parameters, IReadOnlyList<FilterKind> Kinds, double Cost) Greedy(List<FilterKind> shelves, int spread)
    {
        var best = Fit([0], [], 20);
        // A new beginning keeps a level drawn beforehand until all filters are placed: whether to raise and cut or to lower and boost is the deepest fork.
        _heldOffset = spread == 0 ? null : Math.Clamp(best.Parameters[0] + 4 * Normal(), limits.LeastOffsetDecibels, limits.LargestOffsetDecibels);
        if (spread > 0)
            best = Fit(best.Parameters, [], 1);
        if (spread == 0)
            CostByCount.Add(best.Cost);
        foreach (var shelf in shelves)
        {
            double[] at = spread > 0 ? [hertz[0] * Math.Pow(hertz[^1] / hertz[0], _random.NextDouble())] : shelf == FilterKind.LowShelf ? [hertz[0] * 2, hertz[0] * 6] : [hertz[^1] / 2, hertz[^1] / 6];
            var fits = at.SelectMany(f => new[] { -4.0, Math.Min(2, limits.LargestGainDecibels) }.Select(g => Fit([.. best.Parameters, Math.Log2(f), g, -0.5], [.. best.Kinds, shelf], 40)));
            best = fits.MinBy(fit => fit.Cost);
            if (spread == 0)
                CostByCount.Add(best.Cost);
        }

        while (best.Kinds.Count < limits.Filters)
        {
            cancellation.ThrowIfCancellationRequested();
            var candidates = Candidates(best.Parameters, best.Kinds, 3 + spread);
            if (candidates.Count == 0)
                break;
            if (spread > 0)
                candidates = [candidates[_random.Next(candidates.Count)]];
            var added = candidates.Select(candidate => Fit([.. best.Parameters, .. candidate], [.. best.Kinds, FilterKind.Peaking], spread > 0 ? 25 : 50)).MinBy(fit => fit.Cost);
            // A filter never makes it worse: with gain 0 it does nothing.
            best = added.Cost < best.Cost ? added : ([.. best.Parameters, .. candidates[0][..1], 0, candidates[0][2]], [.. best.Kinds, FilterKind.Peaking], best.Cost);
            if (spread == 0)
            {
                CostByCount.Add(best.Cost);
                progress?.Report(new TuningProgress("placing filters", 0, Rms(best.Cost)));
            }
        }

        _heldOffset = null;
        return Fit(best.Parameters, best.Kinds, 100);
    }

    /// <summary>Bells that would take most off the error, best first, none within a third of an octave of a better one.</summary>
    private List<double[]> Candidates(double[] parameters, IReadOnlyList<FilterKind> kinds, int most)
    {
        all.With(kinds).Evaluate(parameters, _residuals, null);
        var bell = all.With([FilterKind.Peaking]);
        var step = Math.Max(1, hertz.Length / 80);
        var found = new List<(double Gain, double[] Filter)>();
        var zero = new double[all.Points];
        bell.Evaluate([0, 10, 0, 0], zero, null); // the error alone
        for (var i = step / 2; i < hertz.Length; i += step)
        {
            foreach (var q in CandidateQ.Where(q => q >= limits.LeastQ && q <= limits.LargestQ))
            {
                bell.Evaluate([0, Math.Log2(hertz[i]), -3, Math.Log2(q)], _shape, null);
                double along = 0, square = 0;
                for (var j = 0; j < _shape.Length; j++)
                {
                    var shape = _shape[j] - zero[j];
                    along += shape * _residuals[j];
                    square += shape * shape;
                }

                if (square <= 0)
                    continue;
                var gain = Math.Clamp(3 * along / square, limits.LeastGainDecibels, limits.LargestGainDecibels);
                var times = -gain / 3;
                var taken = -2 * times * along - times * times * square;
                if (taken > 1e-9)
                    found.Add((taken, [Math.Log2(hertz[i]), gain, Math.Log2(q)]));
            }
        }

        var chosen = new List<double[]>();
        foreach (var (_, filter) in found.OrderByDescending(pair => pair.Gain))
        {
            if (chosen.Count < most && chosen.All(other => Math.Abs(other[0] - filter[0]) > 1.0 / 3))
                chosen.Add(filter);
        }

        return chosen;
    }

    private double[] Changed(double[] best, IReadOnlyList<FilterKind> kinds)
    {
        double[] x = [.. best];
        var move = _random.NextDouble();
        if (move < 0.55)
        {
            // Take one away and put the most useful ones, as they are then, in its place.
            var bells = Enumerable.Range(0, kinds.Count).Where(k => kinds[k] == FilterKind.Peaking).ToList();
            if (bells.Count > 0)
            {
                var gone = bells[_random.Next(bells.Count)];
                x[2 + 3 * gone] = 0;
                if (Candidates(x, kinds, 5) is { Count: > 0 } candidates)
                {
                    candidates[_random.Next(candidates.Count)].CopyTo(x, 1 + 3 * gone);
                    return x;
                }
            }
        }

        var shelf = Enumerable.Range(0, kinds.Count).Where(k => kinds[k] != FilterKind.Peaking).ToList();
        if (move < 0.65 && shelf.Count > 0)
        {
            var drawn = shelf[_random.Next(shelf.Count)];
            x[1 + 3 * drawn] = Math.Log2(limits.FromHertz) + _random.NextDouble() * Math.Log2(limits.ToHertz / limits.FromHertz);
            x[2 + 3 * drawn] = limits.LeastGainDecibels + _random.NextDouble() * (limits.LargestGainDecibels - limits.LeastGainDecibels);
            x[3 + 3 * drawn] = -0.5;
            return x;
        }

        var (chance, width) = move < 0.8 ? (0.35, 1.0) : (0.7, 0.4);
        x[0] += Normal() * width;
        for (var k = 0; k < kinds.Count; k++)
        {
            if (_random.NextDouble() > chance)
                continue;
            x[1 + 3 * k] += 0.5 * width * Normal();
            x[2 + 3 * k] += 3 * width * Normal();
            x[3 + 3 * k] += 0.8 * width * Normal();
        }

        return x;
    }

    private (double[] Parameters, IReadOnlyList<FilterKind> Kinds, double Cost) Fit(double[] start, IReadOnlyList<FilterKind> kinds, int iterations, double abandonAbove = double.PositiveInfinity, double least = 1e-7)
    {
        Fits++;
        double[] low = [_heldOffset ?? limits.LeastOffsetDecibels, .. kinds.SelectMany(kind => new[] { Math.Log2(limits.FromHertz), limits.LeastGainDecibels, Math.Log2(limits.LeastQ) })];
        // A shelf steeper than Q 1 overshoots.
        double[] high = [_heldOffset ?? limits.LargestOffsetDecibels, .. kinds.SelectMany(kind => new[] { Math.Log2(limits.ToHertz), limits.LargestGainDecibels, Math.Log2(kind == FilterKind.Peaking ? limits.LargestQ : Math.Clamp(1, limits.LeastQ, limits.LargestQ)) })];
        double[] x = [.. start];
        var cost = new LeastSquares(all.With(kinds), low, high).Minimise(x, iterations, abandonAbove, least);
        return (x, kinds, cost);
    }

    private double Normal() => Math.Sqrt(-2 * Math.Log(1 - _random.NextDouble())) * Math.Cos(2 * Math.PI * _random.NextDouble());
}
