using System.Numerics;
using ShopFloor.Engineering.Acoustics.Drivers;
using ShopFloor.Engineering.Physics;

namespace ShopFloor.Engineering.Acoustics.Enclosures;

/// <summary>What a driver in a box does at one frequency.</summary>
/// <param name="Hertz">Frequency, Hz.</param>
/// <param name="LevelDecibels">Level at 1 m in half-space, dB.</param>
/// <param name="PhaseDegrees">Phase of that pressure against the voltage, delay of the metre taken out, −180 to 180°.</param>
/// <param name="ImpedanceOhms">Magnitude of the impedance, Ω.</param>
/// <param name="ImpedanceDegrees">Its phase, °.</param>
/// <param name="ExcursionMeters">Peak excursion of the cone one way, m.</param>
/// <param name="PortMetersPerSecond">Peak air speed in the port, or of a radiator's cone, m/s; null without one.</param>
/// <param name="RadiatorMeters">Peak excursion of a passive radiator one way, m; null without one.</param>
/// <param name="Watts">Real power into the coil, W.</param>
public sealed record ResponsePoint(
    double Hertz, double LevelDecibels, double PhaseDegrees, double ImpedanceOhms, double ImpedanceDegrees, double ExcursionMeters, double? PortMetersPerSecond, double? RadiatorMeters, double Watts);

/// <summary>Response of a driver in a box by its lumped circuit.</summary>
/// <remarks>
/// Electrical, mechanical and acoustical sides as one circuit (Small, JAES 20 and 21, 1972 and 1973; Beranek, Acoustics): coil Re + jωLe, motor Bl,
/// mass, compliance and friction of the cone, and on its rear the acoustic impedance of the box: compliance V/ρc² beside leaks and port.
/// Half-space at 1 m, cone and port at one place; valid while both are small against the wavelength.
/// </remarks>
public static class EnclosureResponse
{
    /// <summary>Computes one frequency.</summary>
    /// <param name="driver">The driver, or several as one.</param>
    /// <param name="box">The box, without problems.</param>
    /// <param name="air">The air.</param>
    /// <param name="volts">Voltage at the terminals, V rms.</param>
    /// <param name="hertz">Frequency, Hz, above 0.</param>
    /// <exception cref="ArgumentOutOfRangeException">The frequency is not above 0, or the voltage is negative.</exception>
    public static ResponsePoint At(DriverParameters driver, Enclosure box, Air air, double volts, double hertz)
    {
        ArgumentNullException.ThrowIfNull(driver);
        ArgumentNullException.ThrowIfNull(box);
        ArgumentNullException.ThrowIfNull(air);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(hertz);
        ArgumentOutOfRangeException.ThrowIfNegative(volts);
        var s = new Complex(0, 2 * Math.PI * hertz);
        var load = AcousticLoad.Of(box, driver, air, s);
        var coil = driver.ReOhms + s * driver.LeHenries;
        if (driver is { LossHenries: > 0, LossOhms: > 0 })
            coil += s * driver.LossHenries * driver.LossOhms / (s * driver.LossHenries + driver.LossOhms);
        var (bl, area) = (driver.BlTeslaMeters, driver.PistonSquareMeters);
        var mechanical = driver.RmsKilogramsPerSecond + s * driver.MmsKilograms + 1 / (s * driver.CmsMetersPerNewton) + area * area * load.Impedance;
        var impedance = coil + bl * bl / mechanical;
        var current = volts / impedance;
        var speed = bl * current / mechanical;
        var pressure = s * air.DensityKilogramsPerCubicMeter * (area * speed * load.Heard) / (2 * Math.PI);
        var port = load.PortFlow * area * speed;
        return new ResponsePoint(
            hertz,
            20 * Math.Log10(Math.Max(pressure.Magnitude, 1e-30) / Air.ReferencePascals),
            pressure.Phase * 180 / Math.PI,
            impedance.Magnitude,
            impedance.Phase * 180 / Math.PI,
            Math.Sqrt(2) * (speed / s).Magnitude,
            load.PortSquareMeters is { } opening ? Math.Sqrt(2) * port.Magnitude / opening : null,
            box is RadiatorBox radiator ? Math.Sqrt(2) * (port / s).Magnitude / radiator.RadiatorSquareMeters : null,
            current.Magnitude * current.Magnitude * impedance.Real);
    }

    /// <summary>Computes a row of frequencies.</summary>
    /// <param name="driver">The driver, or several as one.</param>
    /// <param name="box">The box, without problems.</param>
    /// <param name="air">The air.</param>
    /// <param name="volts">Voltage at the terminals, V rms.</param>
    /// <param name="hertz">Frequencies, Hz, each above 0.</param>
    public static IReadOnlyList<ResponsePoint> Over(DriverParameters driver, Enclosure box, Air air, double volts, IEnumerable<double> hertz)
    {
        ArgumentNullException.ThrowIfNull(hertz);
        return [.. hertz.Select(one => At(driver, box, air, volts, one))];
    }

    /// <summary>Group delay −dφ/dω between neighbouring points, s, at their geometric mean frequency.</summary>
    /// <param name="points">Points with rising frequency, close enough that the phase turns less than half a circle between two.</param>
    public static IReadOnlyList<(double Hertz, double Seconds)> GroupDelay(IReadOnlyList<ResponsePoint> points)
    {
        ArgumentNullException.ThrowIfNull(points);
        var delays = new List<(double, double)>();
        for (var at = 1; at < points.Count; at++)
        {
            var turn = Math.IEEERemainder(points[at].PhaseDegrees - points[at - 1].PhaseDegrees, 360) * Math.PI / 180;
            delays.Add((Math.Sqrt(points[at].Hertz * points[at - 1].Hertz), -turn / (2 * Math.PI * (points[at].Hertz - points[at - 1].Hertz))));
        }

        return delays;
    }

    /// <summary>Frequencies evenly apart on a logarithmic scale, both ends included.</summary>
    /// <param name="fromHertz">Lowest, Hz, above 0.</param>
    /// <param name="toHertz">Highest, Hz, above the lowest.</param>
    /// <param name="count">How many, 2 or more.</param>
    public static IReadOnlyList<double> LogSpaced(double fromHertz, double toHertz, int count)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(fromHertz);
        ArgumentOutOfRangeException.ThrowIfLessThanOrEqual(toHertz, fromHertz);
        ArgumentOutOfRangeException.ThrowIfLessThan(count, 2);
        return [.. Enumerable.Range(0, count).Select(n => fromHertz * Math.Pow(toHertz / fromHertz, n / (count - 1.0)))];
    }
}
