using System.Numerics;
using ShopFloor.Engineering.Numerics;

namespace ShopFloor.Engineering.Acoustics.Drivers;

/// <summary>Models of a voice coil's inductance.</summary>
public enum CoilModel
{
    /// <summary>One inductance.</summary>
    Inductance,

    /// <summary>An inductance and a second one bridged by a resistance (Dodd, Klippel and Oclee-Brown, AES 117, 2004, from memory).</summary>
    LossyInductance,

    /// <summary>Semi-inductance K·(jω)ⁿ of eddy currents in the iron (Vanderkooy, JAES 37, 1989; the exponent left open: Leach, JAES 50, 2002, from memory).</summary>
    SemiInductance,
}

/// <summary>A semi-inductance.</summary>
/// <param name="OhmsAtKilohertz">Magnitude at 1 kHz, Ω.</param>
/// <param name="Exponent">Exponent n, 0.5 for eddy currents alone, 1 for a plain inductance.</param>
public sealed record SemiInductance(double OhmsAtKilohertz, double Exponent);

/// <summary>A coil by the logarithms of its values, from index <see cref="First"/> of a fit's parameters.</summary>
internal static class Coil
{
    /// <summary>Before them stand resonance, mechanical and electrical Q.</summary>
    public const int First = 3;

    private const double Kilohertz = 2 * Math.PI * 1_000;

    public static int Values(CoilModel model) => model switch { CoilModel.Inductance => 1, CoilModel.LossyInductance => 3, _ => 2 };

    /// <summary>The exponent stays between 0 and 1.</summary>
    public static double Exponent(double value) => 1 / (1 + Math.Exp(-value));

    public static Complex Impedance(CoilModel model, double[] p, Complex s)
    {
        switch (model)
        {
            case CoilModel.Inductance:
                return s * Math.Exp(p[First]);
            case CoilModel.LossyInductance:
                var (second, loss) = (Math.Exp(p[First + 1]), Math.Exp(p[First + 2]));
                return s * Math.Exp(p[First]) + s * second * loss / (s * second + loss);
            default:
                return Math.Exp(p[First]) * Complex.Pow(s / Kilohertz, Exponent(p[First + 1]));
        }
    }

    /// <summary>Where to start from the inductance of the plain model.</summary>
    public static double[] Start(CoilModel model, double plain) => model switch
    {
        CoilModel.Inductance => [plain],
        CoilModel.LossyInductance => [plain - Math.Log(2), plain, plain + Math.Log(2 * Math.PI * 500)],
        // 0.7 of a circle's quarter.
        _ => [plain + Math.Log(Kilohertz), 0.85],
    };

    /// <summary>The lossy inductance nearest to a semi-inductance over a band, for the lumped circuit.</summary>
    public static (double Le, double Loss, double LossOhms) Lumped(SemiInductance semi, double fromHertz, double toHertz)
    {
        double[] p = [0, 0, 0, Math.Log(semi.OhmsAtKilohertz), Math.Log(semi.Exponent / (1 - semi.Exponent))];
        (Complex S, Complex Wanted)[] band = [.. Enumerable.Range(0, 40).Select(n => new Complex(0, 2 * Math.PI * fromHertz * Math.Pow(toHertz / fromHertz, n / 39.0))).Select(s => (s, Impedance(CoilModel.SemiInductance, p, s)))];
        var plain = Math.Log(band[^1].Wanted.Imaginary / band[^1].S.Imaginary);
        var fit = LeastSquares.Fit(
            q => [.. band.SelectMany(point => (Impedance(CoilModel.LossyInductance, q, point.S) - point.Wanted) / Math.Sqrt(point.Wanted.Magnitude) is var off ? new[] { off.Real, off.Imaginary } : [])],
            [0, 0, 0, .. Start(CoilModel.LossyInductance, plain)]);
        return (Math.Exp(fit.Values[First]), Math.Exp(fit.Values[First + 1]), Math.Exp(fit.Values[First + 2]));
    }
}
