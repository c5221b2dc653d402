using ShopFloor.Engineering.Physics;

namespace ShopFloor.Engineering.Acoustics.Enclosures;

/// <summary>What a closed cabin adds at low frequencies, when no measurement is at hand.</summary>
/// <remarks>
/// Below the first mode the pressure in a closed cabin is even: 10·log10(1 + (f0/f)⁴) dB with f0 = c/(2·Lmax) (from memory; the asymptote is the
/// pressure of a small closed volume). Real cabins leak and give; the corner is good to ±20 % and the rise often stops below 20 to 25 Hz.
/// </remarks>
public static class CabinGain
{
    /// <summary>Corner of the pressure zone, Hz.</summary>
    /// <param name="air">The air.</param>
    /// <param name="longestMeters">Longest dimension inside, m, above 0.</param>
    /// <exception cref="ArgumentOutOfRangeException">The dimension is not above 0.</exception>
    public static double CornerHertz(Air air, double longestMeters)
    {
        ArgumentNullException.ThrowIfNull(air);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(longestMeters);
        return air.SpeedMetersPerSecond / (2 * longestMeters);
    }

    /// <summary>Gain at a frequency, dB.</summary>
    /// <param name="hertz">Frequency, Hz, above 0.</param>
    /// <param name="cornerHertz">Corner, Hz.</param>
    /// <param name="leakHertz">Frequency below which the rise stops because the cabin leaks, Hz; null for a tight one.</param>
    public static double Decibels(double hertz, double cornerHertz, double? leakHertz = null)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(hertz);
        return 10 * Math.Log10(1 + Math.Pow(cornerHertz / Math.Max(hertz, leakHertz ?? 0), 4));
    }
}
