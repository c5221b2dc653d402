using System.Collections.Concurrent;
using System.Numerics;

namespace ShopFloor.Engineering.Numerics;

/// <summary>Factors e^(−πi·k/m), k = 0 to m − 1, of the stages of a transform. They hang on the stage alone, not on the length, so they are kept; the largest are made anew, as they would fill the memory.</summary>
internal static class FftFactors
{
    private const int MostKept = 1 << 19;
    private static readonly ConcurrentDictionary<int, Complex[]> Kept = new();

    public static Complex[] Of(int m) => m <= MostKept ? Kept.GetOrAdd(m, Made) : Made(m);

    // From sine and cosine of an eighth of a turn; the rest is that mirrored.
    private static Complex[] Made(int m)
    {
        var factors = new Complex[m];
        for (var k = 0; k < m; k++)
        {
            if (m >= 4 && k > m / 4)
            {
                // e^(−i(π/2 − a)) = −i·conj(e^(−ia)), and past a quarter turn −i times what lies a quarter before.
                var source = k > m / 2 ? factors[k - m / 2] : factors[m / 2 - k];
                factors[k] = k > m / 2 ? new Complex(source.Imaginary, -source.Real) : new Complex(-source.Imaginary, -source.Real);
                continue;
            }

            var (sin, cos) = Math.SinCos(-Math.PI * k / m);
            factors[k] = new Complex(cos, sin);
        }

        return factors;
    }
}
