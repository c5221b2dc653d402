namespace ShopFloor.Engineering.Signal.Levels;

/// <summary>Ratios and voltages in decibels.</summary>
public static class DecibelLevels
{
    /// <summary>Reference of dBu, V: the voltage of 1 mW in 600 Ω, √0.6 V.</summary>
    public static readonly double DecibelUVolts = Math.Sqrt(0.6);

    /// <summary>20·log10 of a voltage ratio, dB.</summary>
    /// <param name="ratio">Ratio, above 0.</param>
    /// <exception cref="ArgumentOutOfRangeException">The ratio is not above 0.</exception>
    public static double OfRatio(double ratio)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(ratio);
        return 20 * Math.Log10(ratio);
    }

    /// <summary>The voltage ratio of a level difference.</summary>
    /// <param name="decibels">Difference, dB.</param>
    public static double ToRatio(double decibels) => Math.Pow(10, decibels / 20);

    /// <summary>Level against 1 V, dBV.</summary>
    /// <param name="volts">Voltage, V rms, above 0.</param>
    public static double OfVolts(double volts) => OfRatio(volts);

    /// <summary>Level against √0.6 V, dBu.</summary>
    /// <param name="volts">Voltage, V rms, above 0.</param>
    public static double OfVoltsInDecibelU(double volts) => OfRatio(volts / DecibelUVolts);

    /// <summary>Level of uncorrelated noises together, each below the same reference, dB below it: −10·log10 Σ 10^(−S/10).</summary>
    /// <param name="signalToNoiseDecibels">Each, dB; at least one.</param>
    /// <exception cref="ArgumentException">None was given.</exception>
    public static double Together(IReadOnlyCollection<double> signalToNoiseDecibels)
    {
        ArgumentNullException.ThrowIfNull(signalToNoiseDecibels);
        return signalToNoiseDecibels.Count == 0
            ? throw new ArgumentException("At least one is needed.", nameof(signalToNoiseDecibels))
            : -10 * Math.Log10(signalToNoiseDecibels.Sum(one => Math.Pow(10, -one / 10)));
    }
}
