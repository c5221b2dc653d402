using ShopFloor.Engineering.Acoustics.Drivers;

namespace ShopFloor.Engineering.Acoustics.Enclosures;

/// <summary>What ends the level at a frequency.</summary>
public enum LevelLimit
{
    /// <summary>The voltage the amplifier has.</summary>
    Amplifier,

    /// <summary>The cone's linear excursion.</summary>
    Excursion,

    /// <summary>The power the coil bears.</summary>
    Power,

    /// <summary>The air speed in the port.</summary>
    PortSpeed,

    /// <summary>The excursion of the passive radiator.</summary>
    RadiatorExcursion,
}

/// <summary>Limits the level is held to.</summary>
/// <param name="AmplifierVolts">Largest voltage, V rms; null for no limit.</param>
/// <param name="PortMetersPerSecond">Largest air speed in the port, m/s peak.</param>
/// <param name="RadiatorMeters">Linear excursion of a passive radiator one way, m; null for no limit.</param>
public sealed record LevelLimits(double? AmplifierVolts, double PortMetersPerSecond = LevelLimits.DefaultPortMetersPerSecond, double? RadiatorMeters = null)
{
    /// <summary>A common ceiling of the air speed in a port, m/s peak: a twentieth of the speed of sound. From memory.</summary>
    public const double DefaultPortMetersPerSecond = 17;
}

/// <summary>Largest level at a frequency.</summary>
/// <param name="Hertz">Frequency, Hz.</param>
/// <param name="LevelDecibels">Level at 1 m in half-space, dB; null when nothing limits it.</param>
/// <param name="Volts">Voltage it takes, V rms.</param>
/// <param name="Limit">What ends it.</param>
public sealed record LargestLevelPoint(double Hertz, double? LevelDecibels, double? Volts, LevelLimit? Limit);

/// <summary>Largest level by the limit that comes first. Everything is proportional to the voltage, so one response tells all.</summary>
public static class LargestLevel
{
    /// <summary>From a response.</summary>
    /// <param name="response">Response at a voltage.</param>
    /// <param name="volts">That voltage, V rms, above 0.</param>
    /// <param name="driver">The driver, or several as one.</param>
    /// <param name="limits">Limits.</param>
    /// <exception cref="ArgumentOutOfRangeException">The voltage is not above 0.</exception>
    public static IReadOnlyList<LargestLevelPoint> Of(IReadOnlyList<ResponsePoint> response, double volts, DriverParameters driver, LevelLimits limits)
    {
        ArgumentNullException.ThrowIfNull(response);
        ArgumentNullException.ThrowIfNull(driver);
        ArgumentNullException.ThrowIfNull(limits);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(volts);
        return [.. response.Select(point =>
        {
            var first = Factors(point, volts, driver, limits).Where(pair => pair.Factor is not null).Select(pair => (pair.Limit, Factor: pair.Factor!.Value)).OrderBy(pair => pair.Factor).FirstOrDefault(); // filtered
            return first.Factor > 0
                ? new LargestLevelPoint(point.Hertz, point.LevelDecibels + 20 * Math.Log10(first.Factor), volts * first.Factor, first.Limit)
                : new LargestLevelPoint(point.Hertz, null, null, null);
        })];
    }

    private static IEnumerable<(LevelLimit Limit, double? Factor)> Factors(ResponsePoint point, double volts, DriverParameters driver, LevelLimits limits)
    {
        yield return (LevelLimit.Amplifier, limits.AmplifierVolts / volts);
        yield return (LevelLimit.Excursion, driver.XmaxMeters / point.ExcursionMeters);
        yield return (LevelLimit.Power, driver.RatedWatts / point.Watts is { } ratio ? Math.Sqrt(ratio) : null);
        if (point.RadiatorMeters is { } radiator)
            yield return (LevelLimit.RadiatorExcursion, limits.RadiatorMeters / radiator);
        else if (point.PortMetersPerSecond is { } speed)
            yield return (LevelLimit.PortSpeed, limits.PortMetersPerSecond / speed);
    }
}
