using System.Numerics;

namespace ShopFloor.Engineering.Tuning.Equalisation;

/// <summary>A model whose squared residuals are to be least.</summary>
internal interface IResidualModel
{
    /// <summary>Number of residuals, a multiple of the vector width.</summary>
    int Points { get; }

    /// <summary>Residuals, and their derivatives by each parameter where wanted.</summary>
    void Evaluate(double[] parameters, double[] residuals, double[][]? jacobian);
}

/// <summary>Levenberg's and Marquardt's method within bounds: parameters that press against a bound are held, the others take a damped step cut at theirs.
/// K. Levenberg 1944, D. W. Marquardt 1963; damping by H. B. Nielsen (IMM-REP-1999-05).</summary>
internal sealed class LeastSquares(IResidualModel model, double[] low, double[] high)
{
    private readonly int _count = low.Length;
    private readonly double[] _gradient = new double[low.Length];
    private readonly double[] _step = new double[low.Length];
    private readonly double[] _trial = new double[low.Length];
    private readonly double[] _scale = new double[low.Length];
    private readonly double[,] _normal = new double[low.Length, low.Length];
    private readonly double[,] _factor = new double[low.Length, low.Length];
    private readonly int[] _free = new int[low.Length];
    private readonly double[][] _jacobian = [.. low.Select(_ => new double[model.Points])];
    private double[] _residuals = new double[model.Points];
    private double[] _trialResiduals = new double[model.Points];

    /// <summary>Improves the parameters in place and returns the sum of squares.</summary>
    /// <param name="x">Parameters; changed.</param>
    /// <param name="iterations">Most iterations.</param>
    /// <param name="abandonAbove">Given up after a third of the iterations when the sum is still above this.</param>
    /// <param name="least">Relative gain below which an iteration counts as standing still; three of them end it.</param>
    public double Minimise(double[] x, int iterations, double abandonAbove = double.PositiveInfinity, double least = 1e-7)
    {
        for (var i = 0; i < _count; i++)
            x[i] = Math.Clamp(x[i], low[i], high[i]);
        Array.Clear(_scale);
        model.Evaluate(x, _residuals, _jacobian);
        var cost = Dot(_residuals, _residuals);
        Derivatives();
        double damping = 1e-3, growth = 2;
        var still = 0;
        for (var iteration = 0; iteration < iterations && still < 3; iteration++)
        {
            if (iteration == iterations / 3 && cost > abandonAbove)
                break;
            var free = Free(x);
            if (free == 0)
                break;
            if (!Step(free, damping))
            {
                damping *= growth;
                growth *= 2;
                continue;
            }

            double predicted = 0;
            for (var i = 0; i < _count; i++)
                _trial[i] = x[i];
            for (var k = 0; k < free; k++)
            {
                var i = _free[k];
                _trial[i] = Math.Clamp(x[i] + _step[k], low[i], high[i]);
                var taken = _trial[i] - x[i];
                predicted += taken * (damping * _scale[i] * taken - _gradient[i]);
            }

            model.Evaluate(_trial, _trialResiduals, null);
            var next = Dot(_trialResiduals, _trialResiduals);
            if (next < cost)
            {
                var ratio = predicted > 0 ? (cost - next) / predicted : 1;
                damping = Math.Max(1e-12, damping * Math.Max(1.0 / 3, 1 - Math.Pow(2 * ratio - 1, 3)));
                growth = 2;
                still = cost - next < least * cost ? still + 1 : 0;
                cost = next;
                Array.Copy(_trial, x, _count);
                (_residuals, _trialResiduals) = (_trialResiduals, _residuals);
                model.Evaluate(x, _residuals, _jacobian);
                Derivatives();
            }
            else
            {
                if (damping > 1e12)
                    break;
                damping *= growth;
                growth *= 2;
            }
        }

        return cost;
    }

    internal static double Dot(double[] a, double[] b)
    {
        var sum = Vector<double>.Zero;
        for (var i = 0; i < a.Length; i += Vector<double>.Count)
            sum += new Vector<double>(a, i) * new Vector<double>(b, i);
        return Vector.Sum(sum);
    }

    private void Derivatives()
    {
        for (var i = 0; i < _count; i++)
        {
            _gradient[i] = Dot(_jacobian[i], _residuals);
            for (var j = 0; j <= i; j++)
                _normal[i, j] = _normal[j, i] = Dot(_jacobian[i], _jacobian[j]);
            _scale[i] = Math.Max(Math.Max(_scale[i], _normal[i, i]), 1e-9);
        }
    }

    private int Free(double[] x)
    {
        var free = 0;
        for (var i = 0; i < _count; i++)
        {
            var held = high[i] <= low[i] || (x[i] <= low[i] && _gradient[i] > 0) || (x[i] >= high[i] && _gradient[i] < 0);
            if (!held)
                _free[free++] = i;
        }

        return free;
    }

    /// <summary>Solves (JᵀJ + damping·D)·step = −Jᵀr over the free parameters by Cholesky's method; false when it is not positive definite.</summary>
    private bool Step(int free, double damping)
    {
        for (var r = 0; r < free; r++)
        {
            for (var c = 0; c <= r; c++)
            {
                var sum = _normal[_free[r], _free[c]];
                if (r == c)
                    sum += damping * _scale[_free[r]];
                for (var k = 0; k < c; k++)
                    sum -= _factor[r, k] * _factor[c, k];
                if (r == c)
                {
                    if (!(sum > 0))
                        return false;
                    _factor[r, r] = Math.Sqrt(sum);
                }
                else
                {
                    _factor[r, c] = sum / _factor[c, c];
                }
            }
        }

        for (var r = 0; r < free; r++)
        {
            var sum = -_gradient[_free[r]];
            for (var k = 0; k < r; k++)
                sum -= _factor[r, k] * _step[k];
            _step[r] = sum / _factor[r, r];
        }

        for (var r = free - 1; r >= 0; r--)
        {
            var sum = _step[r];
            for (var k = r + 1; k < free; k++)
                sum -= _factor[k, r] * _step[k];
            _step[r] = sum / _factor[r, r];
        }

        return true;
    }
}
