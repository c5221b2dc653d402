using System.Numerics;
using ShopFloor.Engineering.Tuning.Filters;

namespace ShopFloor.Engineering.Tuning.Equalisation;

/// <summary>Error of a response against its target with a level offset and filters; parameters: offset in dB, then log2 of the frequency, gain in dB and log2 of Q of each filter.</summary>
/// <remarks>
/// By the bilinear transform a filter is its analogue prototype at x = tan(w/2)/tan(w0/2). Bell: |H|² = (d² + (A/Q)²)/(d² + 1/(AQ)²), d = x − 1/x.
/// Low shelf: |H|² = A²·N/D, N = (A − x²)² + (A/Q²)x², D = (1 − Ax²)² + (A/Q²)x²; high shelf: A²·D/N.
/// </remarks>
internal sealed class EqualiserModel : IResidualModel
{
    private static readonly double Scale = 10 / Math.Log(10);
    private readonly double[] _tan;
    private readonly double[] _error;
    private readonly double[] _root;
    private readonly double[] _product;
    private readonly int[] _unraised;
    private readonly double _sampleRateHertz;

    public EqualiserModel(FrequencyGrid grid, double[] error, double[] weights, IReadOnlyList<FilterKind> kinds, int[]? unraised = null)
    {
        var width = Vector<double>.Count;
        Points = (error.Length + width - 1) / width * width;
        // Points added to fill the last vector weigh nothing.
        _tan = Padded(grid.TanHalf, Points, 1);
        _error = Padded(error, Points, 0);
        _root = Padded([.. weights.Select(Math.Sqrt)], Points, 0);
        _product = new double[Points];
        _unraised = unraised ?? [];
        _sampleRateHertz = grid.SampleRateHertz;
        Kinds = kinds;
    }

    private EqualiserModel(EqualiserModel other, IReadOnlyList<FilterKind> kinds) =>
        (Points, _tan, _error, _root, _product, _unraised, _sampleRateHertz, Kinds) = (other.Points, other._tan, other._error, other._root, other._product, other._unraised, other._sampleRateHertz, kinds);

    public int Points { get; }

    public IReadOnlyList<FilterKind> Kinds { get; }

    public double SampleRateHertz => _sampleRateHertz;

    /// <summary>The same data with other filters; shares working memory, so only one of both may work at a time.</summary>
    public EqualiserModel With(IReadOnlyList<FilterKind> kinds) => new(this, kinds);

    public void Evaluate(double[] parameters, double[] residuals, double[][]? jacobian)
    {
        Array.Fill(_product, 1);
        double level = parameters[0];
        for (var k = 0; k < Kinds.Count; k++)
        {
            var at = 1 + 3 * k;
            if (Kinds[k] != FilterKind.Peaking)
                level += parameters[at + 1] / 2; // 20·lg A
            var filter = new Prototype(parameters[at], parameters[at + 1], parameters[at + 2], _sampleRateHertz);
            if (Kinds[k] == FilterKind.Peaking)
                Bell(filter, jacobian, at);
            else
                Shelf(filter, Kinds[k] == FilterKind.LowShelf, jacobian, at);
        }

        for (var i = 0; i < Points; i += Vector<double>.Count)
        {
            var root = new Vector<double>(_root, i);
            var decibels = new Vector<double>(_error, i) + new Vector<double>(level) + Scale * Vector.Log(new Vector<double>(_product, i));
            (root * decibels).CopyTo(residuals, i);
            if (jacobian is not null)
                root.CopyTo(jacobian[0], i);
        }

        foreach (var j in _unraised)
            Unraised(j, level - parameters[0], residuals, jacobian);
    }

    /// <summary>A point the filters may lower as they like and shall not raise; the channel's level does not count.</summary>
    private void Unraised(int j, double shelves, double[] residuals, double[][]? jacobian)
    {
        var raised = shelves + Scale * Math.Log(_product[j]);
        residuals[j] = _root[j] * Math.Max(0, raised);
        if (jacobian is null)
            return;
        jacobian[0][j] = 0;
        if (raised > 0)
            return;
        foreach (var slope in jacobian)
            slope[j] = 0;
    }

    private void Bell(Prototype filter, double[][]? jacobian, int at)
    {
        var inverse = new Vector<double>(1 / filter.Tan);
        Vector<double> upper = new(filter.A * filter.A / (filter.Q * filter.Q)), lower = new(1 / (filter.A * filter.A * filter.Q * filter.Q));
        for (var i = 0; i < Points; i += Vector<double>.Count)
        {
            var x = new Vector<double>(_tan, i) * inverse;
            var turned = Vector<double>.One / x;
            var d = x - turned;
            var square = d * d;
            Vector<double> n = square + upper, den = square + lower;
            (new Vector<double>(_product, i) * n / den).CopyTo(_product, i);
            if (jacobian is null)
                continue;
            var root = new Vector<double>(_root, i);
            Vector<double> overN = Vector<double>.One / n, overD = Vector<double>.One / den;
            Vector<double> shareN = upper * overN, shareD = lower * overD;
            (root * ((overN - overD) * d * (x + turned) * (2 * Scale * filter.LogSlope))).CopyTo(jacobian[at], i);
            (root * (shareN + shareD) * 0.5).CopyTo(jacobian[at + 1], i);
            (root * (shareD - shareN) * (2 * Scale * Math.Log(2))).CopyTo(jacobian[at + 2], i);
        }
    }

    private void Shelf(Prototype filter, bool lowShelf, double[][]? jacobian, int at)
    {
        var (a, ratio) = (filter.A, filter.A / (filter.Q * filter.Q));
        var sign = lowShelf ? 1.0 : -1.0;
        for (var i = 0; i < Points; i += Vector<double>.Count)
        {
            var x = new Vector<double>(_tan, i) / filter.Tan;
            var square = x * x;
            Vector<double> first = new Vector<double>(a) - square, second = Vector<double>.One - a * square;
            Vector<double> n = first * first + ratio * square, den = second * second + ratio * square;
            (new Vector<double>(_product, i) * (lowShelf ? n / den : den / n)).CopyTo(_product, i);
            if (jacobian is null)
                continue;
            var root = new Vector<double>(_root, i);
            var bySquare = (new Vector<double>(ratio) - 2 * first) / n - (new Vector<double>(ratio) - 2 * a * second) / den;
            var byA = (2 * first + square * (ratio / a)) / n - (square * (ratio / a) - 2 * square * second) / den;
            var byQ = square * (-2 * ratio) * (Vector<double>.One / n - Vector<double>.One / den);
            (root * bySquare * square * (sign * 2 * Scale * filter.LogSlope)).CopyTo(jacobian[at], i);
            (root * (new Vector<double>(0.5) + byA * (sign * Scale * a * Math.Log(10) / 40))).CopyTo(jacobian[at + 1], i);
            (root * byQ * (sign * Scale * Math.Log(2))).CopyTo(jacobian[at + 2], i);
        }
    }

    private static double[] Padded(double[] values, int length, double filling)
    {
        var padded = new double[length];
        Array.Fill(padded, filling);
        values.CopyTo(padded, 0);
        return padded;
    }

    /// <summary>What the formulas need of a filter. LogSlope is d ln x/d log2 f0 = −ln 2·w0/sin w0.</summary>
    private readonly struct Prototype
    {
        public Prototype(double logHertz, double gain, double logQ, double sampleRateHertz)
        {
            var w = 2 * Math.PI * Math.Pow(2, logHertz) / sampleRateHertz;
            (Tan, A, Q, LogSlope) = (Math.Tan(w / 2), Math.Pow(10, gain / 40), Math.Pow(2, logQ), -Math.Log(2) * w / Math.Sin(w));
        }

        public double Tan { get; }

        public double A { get; }

        public double Q { get; }

        public double LogSlope { get; }
    }
}
