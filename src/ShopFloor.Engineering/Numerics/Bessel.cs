namespace ShopFloor.Engineering.Numerics;

/// <summary>Bessel functions.</summary>
public static class Bessel
{
    /// <summary>J1 of a real number, by its integral J1(x) = (1/π)·∫ cos(τ − x·sin τ) dτ from 0 to π (NIST DLMF 10.9.2).</summary>
    /// <remarks>The trapezoidal rule converges beyond every power over a full period; with 32 + 2|x| steps the error is that of rounding.</remarks>
    /// <param name="x">Argument, −10,000 to 10,000.</param>
    /// <exception cref="ArgumentOutOfRangeException">The argument is outside its range.</exception>
    public static double J1(double x)
    {
        if (!(Math.Abs(x) <= 10_000))
            throw new ArgumentOutOfRangeException(nameof(x), x, "Accepted is -10,000 to 10,000.");
        var steps = 32 + 2 * (int)Math.Abs(x);
        // Both ends together count as one: cos 0 and cos π, each by half, cancel.
        var sum = 0.0;
        for (var n = 1; n < steps; n++)
        {
            var angle = Math.PI * n / steps;
            sum += Math.Cos(angle - x * Math.Sin(angle));
        }

        return sum / steps;
    }
}
