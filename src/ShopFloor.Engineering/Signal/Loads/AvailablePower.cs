namespace ShopFloor.Engineering.Signal.Loads;

/// <summary>Power of an amplifier into a load between its rated ones.</summary>
/// <remarks>
/// Each rated point is an output voltage V = √(P·R) at a current I = √(P/R). Between two points the output follows the straight line of V
/// over I through them, the law of a source with a fixed inner resistance (Thévenin), which is what a sagging supply looks like from
/// outside. Above the highest rated load the voltage stays that of the point. Below the lowest rated load nothing is promised.
/// </remarks>
public static class AvailablePower
{
    /// <summary>Output voltage at full power into a load, V rms; null below the lowest rated load or without points.</summary>
    /// <param name="points">Rated points, in any order.</param>
    /// <param name="ohms">Load, Ω, above 0.</param>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="ohms"/> is not above 0.</exception>
    public static double? Volts(IReadOnlyList<RatedPower> points, double ohms)
    {
        ArgumentNullException.ThrowIfNull(points);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(ohms);
        var rising = points.OrderBy(point => point.Ohms).ToList();
        if (rising.Count == 0 || ohms < rising[0].Ohms * (1 - 1e-9))
            return null;

        var above = rising.FindIndex(point => point.Ohms >= ohms * (1 - 1e-9));
        if (above < 0)
            return VoltsOf(rising[^1]);
        if (above == 0)
            return VoltsOf(rising[0]);

        var (low, high) = (rising[above - 1], rising[above]);
        var (lowVolts, highVolts) = (VoltsOf(low), VoltsOf(high));
        var (lowAmperes, highAmperes) = (lowVolts / low.Ohms, highVolts / high.Ohms);
        if (Math.Abs(lowAmperes - highAmperes) < 1e-12)
            return lowAmperes * ohms; // current-limited: the same current into every load between
        var inner = (highVolts - lowVolts) / (lowAmperes - highAmperes);
        var open = highVolts + inner * highAmperes;
        return open * ohms / (ohms + inner);
    }

    /// <summary>Continuous power into a load, W; null below the lowest rated load.</summary>
    /// <param name="points">Rated points, in any order.</param>
    /// <param name="ohms">Load, Ω, above 0.</param>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="ohms"/> is not above 0.</exception>
    public static double? Watts(IReadOnlyList<RatedPower> points, double ohms) => Volts(points, ohms) is { } volts ? volts * volts / ohms : null;

    private static double VoltsOf(RatedPower point) => Math.Sqrt(point.Watts * point.Ohms);
}
