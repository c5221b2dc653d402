using System.Numerics;

namespace ShopFloor.Engineering.Tuning.Filters;

/// <summary>The Bessel low-pass whose power is halved at 1.</summary>
internal static class BesselPrototype
{
    /// <summary>Its sections: frequency and Q; no Q for the first-order one.</summary>
    public static IReadOnlyList<(double Frequency, double? Q)> Sections(int order)
    {
        var coefficients = ReversePolynomial(order);
        var poles = Roots(coefficients);
        var scale = HalfPower(coefficients);
        // Lowest Q first, as in the other shapes.
        return [.. poles.Where(pole => pole.Imaginary > -1e-9).OrderBy(pole => -pole.Magnitude / pole.Real)
            .Select(pole => Math.Abs(pole.Imaginary) < 1e-9 ? (-pole.Real / scale, (double?)null) : (pole.Magnitude / scale, -pole.Magnitude / (2 * pole.Real)))];
    }

    /// <summary>θn(s) = Σ (2n−k)!/(2^(n−k)·k!·(n−k)!)·s^k, lowest power first.</summary>
    private static double[] ReversePolynomial(int order)
    {
        static double Factorial(int n) => n <= 1 ? 1 : n * Factorial(n - 1);
        return [.. Enumerable.Range(0, order + 1).Select(k => Factorial(2 * order - k) / (Math.Pow(2, order - k) * Factorial(k) * Factorial(order - k)))];
    }

    /// <summary>All roots at once by Durand and Kerner's iteration, then each polished by Newton's.</summary>
    private static Complex[] Roots(double[] coefficients)
    {
        var order = coefficients.Length - 1;
        var radius = Math.Pow(coefficients[0], 1.0 / order);
        Complex[] roots = [.. Enumerable.Range(0, order).Select(k => radius * Complex.FromPolarCoordinates(1, 2 * Math.PI * (k + 0.25) / order))];
        for (var pass = 0; pass < 500; pass++)
        {
            for (var i = 0; i < order; i++)
            {
                var others = Complex.One;
                for (var j = 0; j < order; j++)
                {
                    if (j != i)
                        others *= roots[i] - roots[j];
                }

                roots[i] -= Value(coefficients, roots[i]) / others;
            }
        }

        for (var i = 0; i < order; i++)
        {
            for (var pass = 0; pass < 3; pass++)
                roots[i] -= Value(coefficients, roots[i]) / Slope(coefficients, roots[i]);
        }

        return roots;
    }

    private static double HalfPower(double[] coefficients)
    {
        double low = 0, high = 10;
        for (var pass = 0; pass < 200; pass++)
        {
            var middle = (low + high) / 2;
            var magnitude = coefficients[0] / Complex.Abs(Value(coefficients, new Complex(0, middle)));
            if (magnitude * magnitude > 0.5)
                low = middle;
            else
                high = middle;
        }

        return (low + high) / 2;
    }

    private static Complex Value(double[] coefficients, Complex s)
    {
        var value = Complex.Zero;
        for (var k = coefficients.Length - 1; k >= 0; k--)
            value = value * s + coefficients[k];
        return value;
    }

    private static Complex Slope(double[] coefficients, Complex s)
    {
        var value = Complex.Zero;
        for (var k = coefficients.Length - 1; k >= 1; k--)
            value = value * s + k * coefficients[k];
        return value;
    }
}
