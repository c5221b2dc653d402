namespace ShopFloor.Engineering.Acoustics.Enclosures;

/// <summary>A vented box by its ratios to the driver.</summary>
/// <param name="VasOverVolume">Vas over net volume.</param>
/// <param name="TuningOverResonance">Tuning over the driver's resonance.</param>
/// <param name="CornerOverResonance">Frequency 3 dB down over the driver's resonance.</param>
/// <param name="PeakDecibels">Highest point of the response above its flat part, dB.</param>
public sealed record VentedAlignment(double VasOverVolume, double TuningOverResonance, double CornerOverResonance, double PeakDecibels);

/// <summary>
/// Vented boxes whose response has a wanted shape, without coil inductance: Thiele, JAES 19 (1971); Small, JAES 21 (1973), with leak losses QL.
/// </summary>
/// <remarks>
/// |D|² = Ω⁸ + A1·Ω⁶ + A2·Ω⁴ + A3·Ω² + 1 over normalised frequency. Quasi-Butterworth of third order (QB3): A1 = A2 = 0, for drivers with a Q
/// below that of the fourth-order Butterworth (B4: all three 0). Solved by Newton's method over box ratio and tuning ratio.
/// </remarks>
public static class VentedAlignments
{
    /// <summary>The QB3 box of a driver; B4 where its Q allows it exactly. Null when none exists for this Q.</summary>
    /// <param name="qts">Total Q of the driver, 0.1 to 0.6.</param>
    /// <param name="leakQ">Q of leaks; null for none.</param>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="qts"/> is outside its range.</exception>
    public static VentedAlignment? QuasiButterworth(double qts, double? leakQ = null)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(qts, 0.1);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(qts, 0.6);
        var q = 1 / (leakQ ?? double.PositiveInfinity);
        // A start that holds over the range: h ≈ 0.42/Q^0.96, α ≈ 0.35/Q² − 1 (shape of the published tables).
        var (alpha, h) = (Math.Max(0.2, 0.34 / (qts * qts) - 0.9), 0.39 / qts);
        for (var turn = 0; turn < 100; turn++)
        {
            var (f, g) = Shape(alpha, h);
            const double step = 1e-6;
            var (fa, ga) = Shape(alpha + step, h);
            var (fh, gh) = Shape(alpha, h + step);
            var (dfa, dga, dfh, dgh) = ((fa - f) / step, (ga - g) / step, (fh - f) / step, (gh - g) / step);
            var determinant = dfa * dgh - dfh * dga;
            var (da, dh) = ((-f * dgh + g * dfh) / determinant, (-g * dfa + f * dga) / determinant);
            // Shortened, so that neither ratio leaves the positive side.
            var share = Math.Min(1, 0.5 * Math.Min(alpha / Math.Max(1e-12, Math.Abs(da)), h / Math.Max(1e-12, Math.Abs(dh))));
            (alpha, h) = (alpha + share * da, h + share * dh);
            if (!double.IsFinite(alpha + h))
                return null;
            if (Math.Abs(da) < 1e-10 * alpha && Math.Abs(dh) < 1e-10 * h)
                return alpha > 0.05 && Coefficients(qts, alpha, h, q).A3 >= -1e-6 ? Describe(qts, alpha, h, q) : null;
        }

        return null;

        (double A1, double A2) Shape(double a, double t)
        {
            var (a1, a2, _) = Coefficients(qts, a, t, q);
            return (a1, a2);
        }
    }

    /// <summary>Corner and peak of any vented box.</summary>
    /// <param name="qts">Total Q of the driver.</param>
    /// <param name="vasOverVolume">Vas over net volume.</param>
    /// <param name="tuningOverResonance">Tuning over resonance.</param>
    /// <param name="leakQ">Q of leaks; null for none.</param>
    public static VentedAlignment Of(double qts, double vasOverVolume, double tuningOverResonance, double? leakQ = null) =>
        Describe(qts, vasOverVolume, tuningOverResonance, 1 / (leakQ ?? double.PositiveInfinity));

    private static (double A1, double A2, double A3) Coefficients(double qts, double alpha, double h, double q)
    {
        var root = Math.Sqrt(h);
        var (a1, a2, a3) = ((1 + h * qts * q) / (root * qts), (h * q / qts + alpha + 1 + h * h) / h, (h + qts * q) / (root * qts));
        return (a1 * a1 - 2 * a2, a2 * a2 + 2 - 2 * a1 * a3, a3 * a3 - 2 * a2);
    }

    private static VentedAlignment Describe(double qts, double alpha, double h, double q)
    {
        var (a1, a2, a3) = Coefficients(qts, alpha, h, q);
        double Level(double over)
        {
            // Frequency over resonance, normalised to √(fs·fb).
            var w = over * over / h;
            return 10 * Math.Log10(w * w * w * w / (w * w * w * w + a1 * w * w * w + a2 * w * w + a3 * w + 1));
        }

        var peak = Enumerable.Range(0, 2_000).Max(n => Level(0.2 * Math.Pow(100, n / 1_999.0)));
        // From above, the first frequency 3.0103 dB down, then halved between.
        var (low, high) = (20.0, 20.0);
        while (low > 0.05 && Level(low) > HalfPowerDecibels)
            (high, low) = (low, low / 1.01);
        for (var turn = 0; turn < 60; turn++)
        {
            var middle = Math.Sqrt(low * high);
            (low, high) = Level(middle) > HalfPowerDecibels ? (low, middle) : (middle, high);
        }

        return new VentedAlignment(alpha, h, low, peak);
    }

    private static readonly double HalfPowerDecibels = 10 * Math.Log10(0.5);
}
