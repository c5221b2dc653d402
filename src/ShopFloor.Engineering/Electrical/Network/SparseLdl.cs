namespace ShopFloor.Engineering.Electrical.Network;

/// <summary>
/// L·D·Lᵀ of a sparse symmetric matrix with a fixed pattern. Rows are eliminated in order of least degree, which leaves a tree without
/// fill; the factorisation is the up-looking one of T. A. Davis, Direct Methods for Sparse Linear Systems, SIAM 2006, chapters 4 and 7.
/// No pivoting: at a stable operating point the matrix is positive definite, and a pivot that is not tells that the point is not one.
/// </summary>
internal sealed class SparseLdl
{
    private readonly int _n;
    private readonly int[] _place;
    private readonly int[] _columnStart;
    private readonly int[] _row;
    private readonly int[] _parent;
    private readonly int[] _lowerStart;
    private readonly int[] _lowerRow;
    private readonly int[] _filled;
    private readonly int[] _mark;
    private readonly int[] _stack;
    private readonly double[] _value;
    private readonly double[] _diagonal;
    private readonly double[] _lower;
    private readonly double[] _pivot;
    private readonly double[] _work;
    private readonly int[] _slot;

    /// <param name="n">Rows.</param>
    /// <param name="edges">Pairs of different rows that share an entry; repeated pairs share one.</param>
    public SparseLdl(int n, IReadOnlyList<(int A, int B)> edges)
    {
        _n = n;
        var order = LeastDegree(n, edges);
        _place = new int[n];
        for (var k = 0; k < n; k++)
            _place[order[k]] = k;

        var entries = new long[edges.Count];
        for (var e = 0; e < edges.Count; e++)
        {
            var (a, b) = (_place[edges[e].A], _place[edges[e].B]);
            entries[e] = (long)Math.Max(a, b) * n + Math.Min(a, b);
        }

        long[] distinct = [.. entries.Distinct().Order()];
        _slot = [.. entries.Select(entry => Array.BinarySearch(distinct, entry))];
        _row = [.. distinct.Select(entry => (int)(entry % n))];
        _columnStart = new int[n + 1];
        foreach (var entry in distinct)
            _columnStart[(int)(entry / n) + 1]++;
        for (var k = 0; k < n; k++)
            _columnStart[k + 1] += _columnStart[k];

        _parent = new int[n];
        _filled = new int[n];
        _mark = new int[n];
        _stack = new int[n];
        _lowerStart = new int[n + 1];
        CountColumns();
        _lowerRow = new int[_lowerStart[n]];
        _lower = new double[_lowerStart[n]];
        _value = new double[distinct.Length];
        _diagonal = new double[n];
        _pivot = new double[n];
        _work = new double[n];
    }

    public void Clear()
    {
        Array.Clear(_value);
        Array.Clear(_diagonal);
    }

    public void AddDiagonal(int row, double value) => _diagonal[_place[row]] += value;

    public void SetDiagonal(int row, double value) => _diagonal[_place[row]] = value;

    /// <summary>Adds to the entry of an edge, by its position in the list given at the start.</summary>
    public void AddOffDiagonal(int edge, double value) => _value[_slot[edge]] += value;

    /// <summary>Factors the matrix; false when it is not positive definite, and then nothing can be solved with it.</summary>
    public bool Factor()
    {
        var y = _work;
        Array.Clear(y);
        Array.Fill(_mark, -1);
        for (var k = 0; k < _n; k++)
        {
            var top = _n;
            _mark[k] = k;
            _filled[k] = 0;
            for (var p = _columnStart[k]; p < _columnStart[k + 1]; p++)
            {
                var i = _row[p];
                y[i] += _value[p];
                var length = 0;
                for (; _mark[i] != k; i = _parent[i])
                {
                    _stack[length++] = i;
                    _mark[i] = k;
                }

                while (length > 0)
                    _stack[--top] = _stack[--length];
            }

            var pivot = _diagonal[k];
            for (; top < _n; top++)
            {
                var i = _stack[top];
                var yi = y[i];
                y[i] = 0;
                var end = _lowerStart[i] + _filled[i];
                for (var p = _lowerStart[i]; p < end; p++)
                    y[_lowerRow[p]] -= _lower[p] * yi;
                var factor = yi / _pivot[i];
                pivot -= factor * yi;
                _lowerRow[end] = k;
                _lower[end] = factor;
                _filled[i]++;
            }

            // A pivot that is lost in rounding is as good as none.
            if (!(pivot > 1e-15 * Math.Abs(_diagonal[k])) || !double.IsFinite(pivot))
                return false;
            _pivot[k] = pivot;
        }

        return true;
    }

    /// <summary>Solves with the last factors; the right side is replaced by the solution.</summary>
    public void Solve(double[] x)
    {
        var y = _work;
        for (var i = 0; i < _n; i++)
            y[_place[i]] = x[i];
        for (var k = 0; k < _n; k++)
        {
            for (var p = _lowerStart[k]; p < _lowerStart[k + 1]; p++)
                y[_lowerRow[p]] -= _lower[p] * y[k];
        }

        for (var k = _n - 1; k >= 0; k--)
        {
            y[k] /= _pivot[k];
            for (var p = _lowerStart[k]; p < _lowerStart[k + 1]; p++)
                y[k] -= _lower[p] * y[_lowerRow[p]];
        }

        for (var i = 0; i < _n; i++)
            x[i] = y[_place[i]];
    }

    private void CountColumns()
    {
        Array.Fill(_mark, -1);
        for (var k = 0; k < _n; k++)
        {
            _parent[k] = -1;
            _mark[k] = k;
            for (var p = _columnStart[k]; p < _columnStart[k + 1]; p++)
            {
                for (var i = _row[p]; _mark[i] != k; i = _parent[i])
                {
                    if (_parent[i] < 0)
                        _parent[i] = k;
                    _filled[i]++;
                    _mark[i] = k;
                }
            }
        }

        for (var k = 0; k < _n; k++)
            _lowerStart[k + 1] = _lowerStart[k] + _filled[k];
    }

    private static int[] LeastDegree(int n, IReadOnlyList<(int A, int B)> edges)
    {
        var near = new HashSet<int>[n];
        for (var i = 0; i < n; i++)
            near[i] = [];
        foreach (var (a, b) in edges)
        {
            near[a].Add(b);
            near[b].Add(a);
        }

        // Entries that are out of date stay in the queue and are passed over when their turn comes.
        var queue = new PriorityQueue<int, (int Degree, int Row)>(n);
        for (var i = 0; i < n; i++)
            queue.Enqueue(i, (near[i].Count, i));
        var order = new int[n];
        var done = new bool[n];
        for (var k = 0; k < n;)
        {
            queue.TryDequeue(out var row, out var priority);
            if (done[row] || priority.Degree != near[row].Count)
                continue;
            done[row] = true;
            order[k++] = row;
            int[] neighbours = [.. near[row]];
            for (var i = 0; i < neighbours.Length; i++)
            {
                var mine = near[neighbours[i]];
                mine.Remove(row);
                for (var j = 0; j < neighbours.Length; j++)
                {
                    if (i != j)
                        mine.Add(neighbours[j]);
                }
            }

            foreach (var neighbour in neighbours)
                queue.Enqueue(neighbour, (near[neighbour].Count, neighbour));
            near[row] = [];
        }

        return order;
    }
}
