using ShopFloor.Engineering.Physics;

namespace ShopFloor.Engineering.Acoustics.Enclosures;

/// <summary>How an end of a port meets the air.</summary>
public enum PortEnd
{
    /// <summary>In open air: 0.6133 of the radius (Dalmont, Nederveen and Joly, J. Sound Vib. 2001).</summary>
    Free,

    /// <summary>Flush in a wall: 8/(3π) = 0.8488 of the radius, a rigid piston in a flange.</summary>
    Flush,
}

/// <summary>Length of a port for a tuning: L = c²·S/(4π²·fb²·V) − end corrections (Helmholtz resonator).</summary>
public static class PortLength
{
    /// <summary>End correction of an end over the radius.</summary>
    /// <param name="end">How it meets the air.</param>
    public static double Correction(PortEnd end) => end == PortEnd.Flush ? 8 / (3 * Math.PI) : 0.6133;

    /// <summary>Length to cut, m; null when the corrections alone are longer: use a larger port or a lower tuning.</summary>
    /// <param name="air">The air.</param>
    /// <param name="netCubicMeters">Net volume, m³.</param>
    /// <param name="tuningHertz">Tuning, Hz.</param>
    /// <param name="portSquareMeters">Cross-section, m²; slots by their area, which reads a little long near a wall.</param>
    /// <param name="ends">Both ends.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value is not above 0.</exception>
    public static double? Meters(Air air, double netCubicMeters, double tuningHertz, double portSquareMeters, (PortEnd Outer, PortEnd Inner) ends)
    {
        ArgumentNullException.ThrowIfNull(air);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(netCubicMeters);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(tuningHertz);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(portSquareMeters);
        var radius = Math.Sqrt(portSquareMeters / Math.PI);
        var length = Math.Pow(air.SpeedMetersPerSecond / (2 * Math.PI * tuningHertz), 2) * portSquareMeters / netCubicMeters
            - (Correction(ends.Outer) + Correction(ends.Inner)) * radius;
        return length > 0 ? length : null;
    }

    /// <summary>Lowest standing wave in an open port, Hz: c/(2·(L + corrections)).</summary>
    /// <param name="air">The air.</param>
    /// <param name="lengthMeters">Length, m.</param>
    /// <param name="portSquareMeters">Cross-section, m².</param>
    /// <param name="ends">Both ends.</param>
    public static double PipeResonanceHertz(Air air, double lengthMeters, double portSquareMeters, (PortEnd Outer, PortEnd Inner) ends)
    {
        ArgumentNullException.ThrowIfNull(air);
        return air.SpeedMetersPerSecond / (2 * (lengthMeters + (Correction(ends.Outer) + Correction(ends.Inner)) * Math.Sqrt(portSquareMeters / Math.PI)));
    }
}
