namespace ShopFloor.Engineering.Tuning.Filters;

/// <summary>Coefficients by the Audio EQ Cookbook (R. Bristow-Johnson; W3C Working Group Note, 2021): analogue prototypes through the bilinear
/// transform, exact at the filter's frequency. First-order sections are the same transform of 1/(1+s), s/(1+s) and (1−s)/(1+s).</summary>
public static class CookbookFilters
{
    /// <summary>Coefficients of a filter.</summary>
    /// <param name="filter">The filter.</param>
    /// <param name="sampleRateHertz">Sample rate, Hz.</param>
    /// <exception cref="ArgumentOutOfRangeException">Frequency, gain or Q is outside its range; the parameter name is the field.</exception>
    public static Biquad Design(FilterSetting filter, double sampleRateHertz)
    {
        ArgumentNullException.ThrowIfNull(filter);
        Explained.InputChecks.ThrowIfAny(filter.Validate(sampleRateHertz));
        return Raw(filter.Kind, filter.Hertz, filter.GainDecibels, filter.Q, sampleRateHertz);
    }

    /// <summary>Q of a bandwidth in octaves: 1/Q = 2·sinh(ln 2/2 · BW · w0/sin w0) (cookbook; between −3 dB points, for bells between the points of half the gain in dB).</summary>
    /// <param name="octaves">Bandwidth, octaves, above 0.</param>
    /// <param name="hertz">Frequency, Hz.</param>
    /// <param name="sampleRateHertz">Sample rate, Hz.</param>
    /// <exception cref="ArgumentOutOfRangeException">The bandwidth is not above 0.</exception>
    public static double QOfBandwidth(double octaves, double hertz, double sampleRateHertz)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(octaves);
        var w = 2 * Math.PI * hertz / sampleRateHertz;
        return 1 / (2 * Math.Sinh(Math.Log(2) / 2 * octaves * w / Math.Sin(w)));
    }

    /// <summary>Q of a shelf's slope S: 1/Q = √((A + 1/A)(1/S − 1) + 2) (cookbook; S = 1 is the steepest without a bump).</summary>
    /// <param name="slope">Slope S, above 0.</param>
    /// <param name="gainDecibels">Gain of the shelf, dB.</param>
    /// <exception cref="ArgumentOutOfRangeException">No Q has this slope.</exception>
    public static double QOfSlope(double slope, double gainDecibels)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(slope);
        var a = Math.Pow(10, gainDecibels / 40);
        var squared = (a + 1 / a) * (1 / slope - 1) + 2;
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(squared, nameof(slope));
        return 1 / Math.Sqrt(squared);
    }

    internal static Biquad Raw(FilterKind kind, double hertz, double gainDecibels, double q, double sampleRateHertz)
    {
        var w = 2 * Math.PI * hertz / sampleRateHertz;
        var (sin, c) = Math.SinCos(w);
        var alpha = sin / (2 * q);
        var a = Math.Pow(10, gainDecibels / 40);
        var r = 2 * Math.Sqrt(a) * alpha;
        var k = Math.Tan(w / 2);
        return kind switch
        {
            FilterKind.Peaking => Over(1 + alpha * a, -2 * c, 1 - alpha * a, 1 + alpha / a, -2 * c, 1 - alpha / a),
            FilterKind.LowShelf => Over(
                a * (a + 1 - (a - 1) * c + r), 2 * a * (a - 1 - (a + 1) * c), a * (a + 1 - (a - 1) * c - r),
                a + 1 + (a - 1) * c + r, -2 * (a - 1 + (a + 1) * c), a + 1 + (a - 1) * c - r),
            FilterKind.HighShelf => Over(
                a * (a + 1 + (a - 1) * c + r), -2 * a * (a - 1 + (a + 1) * c), a * (a + 1 + (a - 1) * c - r),
                a + 1 - (a - 1) * c + r, 2 * (a - 1 - (a + 1) * c), a + 1 - (a - 1) * c - r),
            FilterKind.LowPass => Over((1 - c) / 2, 1 - c, (1 - c) / 2, 1 + alpha, -2 * c, 1 - alpha),
            FilterKind.HighPass => Over((1 + c) / 2, -(1 + c), (1 + c) / 2, 1 + alpha, -2 * c, 1 - alpha),
            FilterKind.BandPass => Over(alpha, 0, -alpha, 1 + alpha, -2 * c, 1 - alpha),
            FilterKind.Notch => Over(1, -2 * c, 1, 1 + alpha, -2 * c, 1 - alpha),
            FilterKind.AllPass => Over(1 - alpha, -2 * c, 1 + alpha, 1 + alpha, -2 * c, 1 - alpha),
            FilterKind.FirstOrderLowPass => Over(k, k, 0, k + 1, k - 1, 0),
            FilterKind.FirstOrderHighPass => Over(1, -1, 0, k + 1, k - 1, 0),
            FilterKind.FirstOrderAllPass => Over(k - 1, k + 1, 0, k + 1, k - 1, 0),
            _ => throw new ArgumentOutOfRangeException(nameof(kind)),
        };
    }

    private static Biquad Over(double b0, double b1, double b2, double a0, double a1, double a2) => new(b0 / a0, b1 / a0, b2 / a0, a1 / a0, a2 / a0);
}
