using System.Numerics;
using ShopFloor.Engineering.Acoustics.Drivers;
using ShopFloor.Engineering.Physics;

namespace ShopFloor.Engineering.Acoustics.Enclosures;

/// <summary>What the air in and around a box does to the cone, at one complex frequency.</summary>
/// <param name="Impedance">Acoustic impedance on the cone, Pa·s/m³.</param>
/// <param name="Heard">Volume velocity heard outside over that of the cone.</param>
/// <param name="PortFlow">Volume velocity through the port over that of the cone.</param>
/// <param name="PortSquareMeters">Cross-section of the port, m²; null without one.</param>
internal readonly record struct AcousticLoad(Complex Impedance, Complex Heard, Complex PortFlow, double? PortSquareMeters)
{
    public static AcousticLoad Of(Enclosure box, DriverParameters driver, Air air, Complex s) => box switch
    {
        ClosedBox => Rear(box, air, s, Resonance(box, driver, air), null, null),
        VentedBox vented => Rear(box, air, s, 2 * Math.PI * vented.TuningHertz, Port(vented.NetCubicMeters, vented.TuningHertz, vented.PortQ, air, s), vented.PortSquareMeters),
        RadiatorBox radiator => Rear(box, air, s, Tuning(radiator, air), Radiator(radiator, s), radiator.RadiatorSquareMeters),
        BandPassBox band => BandPass(band, driver, air, s),
        _ => throw new ArgumentOutOfRangeException(nameof(box), box.GetType().Name, "This kind of box is not known."),
    };

    // Air in the box is a compliance; losses stand at the angular frequency they are stated for.
    private static Complex Air(double volume, double? absorptionQ, double omega, Air air, Complex s)
    {
        var compliance = volume / air.BulkModulusPascals;
        return absorptionQ is { } q ? 1 / (1 / (s * compliance) + 1 / (omega * compliance * q)) : s * compliance;
    }

    private static AcousticLoad Rear(Enclosure box, Air air, Complex s, double omega, Complex? port, double? opening)
    {
        var volume = Air(box.NetCubicMeters, box.AbsorptionQ, omega, air, s);
        var leak = box.LeakQ is { } q ? omega * box.NetCubicMeters / air.BulkModulusPascals / q : 0;
        var impedance = 1 / (volume + leak + (port ?? 0));
        // The cone pushes in what it pushes out in front; port and leak give back all but what the air in the box takes up.
        return new AcousticLoad(impedance, impedance * volume, port is { } through ? impedance * through : 0, opening);
    }

    private static AcousticLoad BandPass(BandPassBox box, DriverParameters driver, Air air, Complex s)
    {
        var rear = Rear(box, air, s, Resonance(box, driver, air), null, null);
        var omega = 2 * Math.PI * box.TuningHertz;
        var port = Port(box.FrontCubicMeters, box.TuningHertz, box.PortQ, air, s);
        var leak = box.FrontQ is { } q ? omega * box.FrontCubicMeters / air.BulkModulusPascals / q : 0;
        var front = 1 / (Air(box.FrontCubicMeters, null, omega, air, s) + leak + port);
        var share = front * port;
        return new AcousticLoad(rear.Impedance + front, share, share, box.PortSquareMeters);
    }

    private static Complex Port(double volume, double tuning, double? frictionQ, Air air, Complex s)
    {
        var omega = 2 * Math.PI * tuning;
        var mass = air.BulkModulusPascals / (omega * omega * volume);
        return 1 / (s * mass + (frictionQ is { } q ? omega * mass / q : 0));
    }

    private static Complex Radiator(RadiatorBox box, Complex s)
    {
        var area = box.RadiatorSquareMeters * box.RadiatorSquareMeters;
        return area / (box.RadiatorKilogramsPerSecond + s * box.RadiatorKilograms + 1 / (s * box.RadiatorMetersPerNewton));
    }

    private static double Tuning(RadiatorBox box, Air air)
    {
        var stiffness = 1 / box.RadiatorMetersPerNewton + air.BulkModulusPascals * box.RadiatorSquareMeters * box.RadiatorSquareMeters / box.NetCubicMeters;
        return Math.Sqrt(stiffness / box.RadiatorKilograms);
    }

    private static double Resonance(Enclosure box, DriverParameters driver, Air air) =>
        2 * Math.PI * driver.ResonanceHertz * Math.Sqrt(1 + driver.VasCubicMeters(air) / box.NetCubicMeters);
}
