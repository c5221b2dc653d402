namespace ShopFloor.Engineering.Numerics;

/// <summary>A fit by least squares.</summary>
/// <param name="Values">The parameters found.</param>
/// <param name="StandardErrors">Standard error of each from the covariance s²·(JᵀJ)⁻¹; infinite where the data do not tell it.</param>
/// <param name="RootMeanSquare">Root of the mean square of the residuals.</param>
/// <param name="Converged">Whether it settled within the steps allowed.</param>
/// <param name="Steps">Steps taken.</param>
public sealed record LeastSquaresFit(IReadOnlyList<double> Values, IReadOnlyList<double> StandardErrors, double RootMeanSquare, bool Converged, int Steps);

/// <summary>Non-linear least squares by Levenberg and Marquardt with the scaling of Marquardt (SIAM J. Appl. Math. 11, 1963).</summary>
/// <remarks>The derivatives are central differences; parameters should be of the order of 1, such as logarithms.</remarks>
public static class LeastSquares
{
    /// <summary>Finds the parameters with the least sum of squared residuals near a start.</summary>
    /// <param name="residuals">Residuals of parameters; always the same number, at least as many as parameters.</param>
    /// <param name="start">Where to start.</param>
    /// <param name="mostSteps">Most steps.</param>
    /// <exception cref="ArgumentException">Fewer residuals than parameters, or the start has residuals that are not numbers.</exception>
    public static LeastSquaresFit Fit(Func<double[], double[]> residuals, IReadOnlyList<double> start, int mostSteps = 200)
    {
        ArgumentNullException.ThrowIfNull(residuals);
        ArgumentNullException.ThrowIfNull(start);
        double[] at = [.. start];
        var current = residuals(at);
        var sum = Squares(current);
        if (current.Length < at.Length)
            throw new ArgumentException($"{current.Length} residuals cannot tell {at.Length} parameters.", nameof(start));
        if (!double.IsFinite(sum))
            throw new ArgumentException("The residuals at the start are not numbers.", nameof(start));
        var (damping, converged, steps) = (1e-3, false, 0);
        while (!converged && steps < mostSteps)
        {
            steps++;
            var slopes = Slopes(residuals, at, current.Length);
            var (normal, gradient) = Normal(slopes, current);
            var moved = false;
            while (!moved && damping < 1e12)
            {
                var damped = (double[,])normal.Clone();
                for (var p = 0; p < at.Length; p++)
                    damped[p, p] += damping * Math.Max(normal[p, p], 1e-12);
                var step = Solve(damped, gradient);
                if (step is null)
                {
                    damping *= 10;
                    continue;
                }

                double[] next = [.. at.Zip(step, (value, change) => value - change)];
                var then = residuals(next);
                var lower = Squares(then);
                if (double.IsFinite(lower) && lower <= sum)
                {
                    converged = sum - lower <= 1e-14 * sum || step.Max(Math.Abs) < 1e-12;
                    (at, current, sum, moved, damping) = (next, then, lower, true, Math.Max(damping / 10, 1e-12));
                }
                else
                {
                    damping *= 10;
                }
            }

            // No shorter step helps: it stands at the bottom.
            converged |= !moved;
        }

        var (last, _) = Normal(Slopes(residuals, at, current.Length), current);
        return new LeastSquaresFit(at, Errors(last, sum / Math.Max(1, current.Length - at.Length)), Math.Sqrt(sum / current.Length), converged, steps);
    }

    private static double Squares(double[] values) => values.Sum(value => value * value);

    private static double[][] Slopes(Func<double[], double[]> residuals, double[] at, int count)
    {
        var slopes = new double[at.Length][];
        for (var p = 0; p < at.Length; p++)
        {
            var step = 1e-6 * Math.Max(1, Math.Abs(at[p]));
            double[] up = [.. at], down = [.. at];
            up[p] += step;
            down[p] -= step;
            var (above, below) = (residuals(up), residuals(down));
            slopes[p] = new double[count];
            for (var n = 0; n < count; n++)
                slopes[p][n] = (above[n] - below[n]) / (2 * step);
        }

        return slopes;
    }

    private static (double[,] Normal, double[] Gradient) Normal(double[][] slopes, double[] current)
    {
        var (normal, gradient) = (new double[slopes.Length, slopes.Length], new double[slopes.Length]);
        for (var p = 0; p < slopes.Length; p++)
        {
            for (var n = 0; n < current.Length; n++)
                gradient[p] += slopes[p][n] * current[n];
            for (var q = 0; q <= p; q++)
            {
                for (var n = 0; n < current.Length; n++)
                    normal[p, q] += slopes[p][n] * slopes[q][n];
                normal[q, p] = normal[p, q];
            }
        }

        return (normal, gradient);
    }

    private static double[] Errors(double[,] normal, double variance)
    {
        var size = normal.GetLength(0);
        var errors = new double[size];
        for (var p = 0; p < size; p++)
        {
            var unit = new double[size];
            unit[p] = 1;
            errors[p] = Solve(normal, unit) is { } column && column[p] >= 0 ? Math.Sqrt(variance * column[p]) : double.PositiveInfinity;
        }

        return errors;
    }

    // Gauss with the largest pivot; null when the matrix tells nothing about a parameter.
    private static double[]? Solve(double[,] matrix, double[] right)
    {
        var size = right.Length;
        var (a, b) = ((double[,])matrix.Clone(), (double[])right.Clone());
        for (var column = 0; column < size; column++)
        {
            var pivot = Enumerable.Range(column, size - column).MaxBy(row => Math.Abs(a[row, column]));
            if (!(Math.Abs(a[pivot, column]) > 1e-13 * Math.Max(1e-300, Math.Abs(matrix[column, column]))))
                return null;
            for (var k = 0; k < size; k++)
                (a[column, k], a[pivot, k]) = (a[pivot, k], a[column, k]);
            (b[column], b[pivot]) = (b[pivot], b[column]);
            for (var row = column + 1; row < size; row++)
            {
                var factor = a[row, column] / a[column, column];
                for (var k = column; k < size; k++)
                    a[row, k] -= factor * a[column, k];
                b[row] -= factor * b[column];
            }
        }

        for (var row = size - 1; row >= 0; row--)
        {
            for (var k = row + 1; k < size; k++)
                b[row] -= a[row, k] * b[k];
            b[row] /= a[row, row];
        }

        return b;
    }
}
