using System.Numerics;

namespace ShopFloor.Engineering.Acoustics.Enclosures;

/// <summary>A Butterworth high-pass before the amplifier (S. Butterworth, Wireless Engineer 7, 1930).</summary>
/// <param name="Hertz">Corner, 3 dB down, Hz, above 0.</param>
/// <param name="Order">Order, 1 to 8: 6 dB an octave each.</param>
public sealed record HighPass(double Hertz, int Order)
{
    /// <summary>What it leaves of a voltage, with its phase.</summary>
    /// <param name="hertz">Frequency, Hz, above 0.</param>
    /// <exception cref="ArgumentOutOfRangeException">Frequency, corner or order is outside its range.</exception>
    public Complex At(double hertz)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(hertz);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(Hertz);
        ArgumentOutOfRangeException.ThrowIfLessThan(Order, 1);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(Order, 8);
        // The low-pass at 1/s: its poles lie evenly on the left half of the unit circle.
        var turned = new Complex(0, -Hertz / hertz);
        var product = Complex.One;
        for (var k = 1; k <= Order; k++)
            product *= turned - Complex.FromPolarCoordinates(1, Math.PI * (2 * k + Order - 1) / (2 * Order));
        return 1 / product;
    }
}
