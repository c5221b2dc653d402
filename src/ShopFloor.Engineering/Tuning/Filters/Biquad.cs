using System.Numerics;

namespace ShopFloor.Engineering.Tuning.Filters;

/// <summary>One second-order section: H(z) = (b0 + b1·z⁻¹ + b2·z⁻²)/(1 + a1·z⁻¹ + a2·z⁻²), so y[n] = b0·x[n] + b1·x[n−1] + b2·x[n−2] − a1·y[n−1] − a2·y[n−2].</summary>
/// <param name="B0">b0.</param>
/// <param name="B1">b1.</param>
/// <param name="B2">b2.</param>
/// <param name="A1">a1, as it stands in the denominator. Processors that add the fed-back terms want it with the other sign.</param>
/// <param name="A2">a2, as it stands in the denominator.</param>
public readonly record struct Biquad(double B0, double B1, double B2, double A1, double A2)
{
    /// <summary>A section that changes nothing.</summary>
    public static Biquad Unity { get; } = new(1, 0, 0, 0, 0);

    /// <summary>Whether both poles lie inside the unit circle (the triangle |a2| &lt; 1, |a1| &lt; 1 + a2).</summary>
    public bool IsStable => Math.Abs(A2) < 1 && Math.Abs(A1) < 1 + A2;

    /// <summary>The complex response.</summary>
    /// <param name="hertz">Frequency, Hz.</param>
    /// <param name="sampleRateHertz">Sample rate, Hz.</param>
    public Complex At(double hertz, double sampleRateHertz)
    {
        var z = Complex.FromPolarCoordinates(1, -2 * Math.PI * hertz / sampleRateHertz);
        return (B0 + z * (B1 + z * B2)) / (1 + z * (A1 + z * A2));
    }
}
