namespace ShopFloor.Engineering.Tuning.Analysis;

/// <summary>A band of a fraction of an octave.</summary>
/// <param name="Name">Nominal frequency as written on meters, Hz: ISO 266 for octaves and third octaves, else three digits.</param>
/// <param name="MiddleHertz">Exact middle, Hz.</param>
/// <param name="LowerHertz">Lower edge, Hz.</param>
/// <param name="UpperHertz">Upper edge, Hz.</param>
public sealed record OctaveBand(string Name, double MiddleHertz, double LowerHertz, double UpperHertz);

/// <summary>Fractional-octave bands of base 10 (IEC 61260-1:2014): G = 10^0.3; middles 1000·G^(x/b) for odd b, 1000·G^((2x + 1)/(2b)) for even b; edges G^(±1/(2b)) around.</summary>
public static class OctaveBands
{
    /// <summary>The octave ratio G = 10^0.3.</summary>
    public static readonly double Octave = Math.Pow(10, 0.3);

    // Preferred numbers R10 (ISO 266).
    private static readonly double[] _preferred = [1, 1.25, 1.6, 2, 2.5, 3.15, 4, 5, 6.3, 8];

    /// <summary>Bands whose middles lie between two frequencies, lowest first.</summary>
    /// <param name="fraction">b: 1 for octaves, 3 for third octaves, to 96.</param>
    /// <param name="fromHertz">Lowest middle, Hz, from 0.1.</param>
    /// <param name="toHertz">Highest middle, Hz, to 1,000,000.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is outside its range.</exception>
    public static IReadOnlyList<OctaveBand> Between(int fraction, double fromHertz, double toHertz)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(fraction, 1);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(fraction, 96);
        if (!(fromHertz >= 0.1))
            throw new ArgumentOutOfRangeException(nameof(fromHertz), fromHertz, "Accepted is 0.1 and more.");
        if (!(toHertz <= 1e6))
            throw new ArgumentOutOfRangeException(nameof(toHertz), toHertz, "Accepted is up to 1,000,000.");
        var shift = fraction % 2 == 0 ? 0.5 : 0;
        var first = (int)Math.Ceiling(fraction * Math.Log(fromHertz / 1000) / Math.Log(Octave) - shift - 1e-9);
        var last = (int)Math.Floor(fraction * Math.Log(toHertz / 1000) / Math.Log(Octave) - shift + 1e-9);
        var half = Math.Pow(Octave, 0.5 / fraction);
        var bands = new List<OctaveBand>();
        for (var x = first; x <= last; x++)
        {
            var middle = 1000 * Math.Pow(Octave, (x + shift) / fraction);
            bands.Add(new OctaveBand(Name(fraction, middle), middle, middle / half, middle * half));
        }

        return bands;
    }

    private static string Name(int fraction, double middle)
    {
        var decade = Math.Pow(10, Math.Floor(Math.Log10(middle) + 1e-9));
        var digits = fraction is 1 or 3 ? _preferred.MinBy(one => Math.Abs(Math.Log(one * decade / middle))) : Math.Round(middle / decade, 2);
        // The step from 8 to 10 is that of the next decade.
        if (fraction is 1 or 3 && middle / decade > 9)
            (digits, decade) = (1, decade * 10);
        return (digits * decade).ToString("0.####", System.Globalization.CultureInfo.InvariantCulture);
    }
}
