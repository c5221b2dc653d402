using ShopFloor.Engineering.Tuning.Filters;

namespace ShopFloor.Engineering.Tuning.Factory;

/// <summary>Explains a phase beyond the minimum phase by a delay, a polarity and up to two all-pass filters of second order.</summary>
/// <remarks>For given all-passes, delay and polarity follow by least squares; frequency and Q are searched coarsely and then ever finer. An all-pass must explain a third of what is left to be kept; common practice, no source.</remarks>
internal sealed class ExcessFit(double[] hertz, double[] excessRadians)
{
    private const int MostFilters = 2;
    private const double GoodRadians = 0.03;
    private const double WorthShare = 0.67;
    private static readonly double[] CoarseQ = [0.35, 0.5, 0.7, 1, 1.4, 2, 3, 4.5];

    /// <summary>Delay in s, whether the polarity is turned, the all-passes and what is left, rad rms.</summary>
    public (double DelaySeconds, bool IsInverted, List<(double Hertz, double Q)> AllPasses, double LeftRadians) Best()
    {
        List<(double Hertz, double Q)> filters = [];
        var best = Solve(filters);
        while (filters.Count < MostFilters && best.Left > GoodRadians)
        {
            var next = Refined(With(filters));
            var solved = Solve(next);
            if (solved.Left > WorthShare * best.Left)
                break;
            (filters, best) = (next, solved);
        }

        return (best.Delay, best.Inverted, filters, best.Left);
    }

    private List<(double Hertz, double Q)> With(List<(double Hertz, double Q)> filters)
    {
        var best = (Left: double.PositiveInfinity, One: (Hertz: hertz[0], Q: 1.0));
        for (var f = hertz[0]; f <= hertz[^1]; f *= Math.Pow(2, 1.0 / 6))
        {
            foreach (var q in CoarseQ)
            {
                if (Solve([.. filters, (f, q)]).Left is var left && left < best.Left)
                    best = (left, (f, q));
            }
        }

        return [.. filters, best.One];
    }

    private List<(double Hertz, double Q)> Refined(List<(double Hertz, double Q)> filters)
    {
        var (at, least) = (filters.ToList(), Solve(filters).Left);
        for (var step = 0.12; step > 1e-4; step /= 1.6)
        {
            for (var moved = true; moved;)
            {
                moved = false;
                for (var n = 0; n < at.Count; n++)
                {
                    foreach (var (byHertz, byQ) in new[] { (step, 0.0), (-step, 0), (0, 2 * step), (0, -2 * step) })
                    {
                        var trial = at.ToList();
                        trial[n] = (Math.Clamp(at[n].Hertz * Math.Exp(byHertz), hertz[0], hertz[^1]), Math.Clamp(at[n].Q * Math.Exp(byQ), 0.1, 20));
                        if (Solve(trial).Left is var left && left < least - 1e-9)
                            (at, least, moved) = (trial, left, true);
                    }
                }
            }
        }

        return at;
    }

    private (double Delay, bool Inverted, double Left) Solve(List<(double Hertz, double Q)> filters)
    {
        double n = hertz.Length, sx = 0, sy = 0, sxx = 0, sxy = 0;
        var rest = new double[hertz.Length];
        for (var i = 0; i < rest.Length; i++)
        {
            rest[i] = excessRadians[i] - filters.Sum(one => Turn(hertz[i], one.Hertz, one.Q));
            var w = 2 * Math.PI * hertz[i];
            (sx, sy, sxx, sxy) = (sx + w, sy + rest[i], sxx + w * w, sxy + w * rest[i]);
        }

        // The constant is a whole number of half turns; the slope is found again with it held.
        var free = (n * sxy - sx * sy) / (n * sxx - sx * sx);
        var halves = Math.Round((sy - free * sx) / n / Math.PI);
        var slope = (sxy - halves * Math.PI * sx) / sxx;
        var sum = 0.0;
        for (var i = 0; i < rest.Length; i++)
            sum += Math.Pow(rest[i] - halves * Math.PI - slope * 2 * Math.PI * hertz[i], 2);
        return (-slope, Math.Abs(halves % 2) > 0.5, Math.Sqrt(sum / n));
    }

    // Phase of (s² − s/Q + 1)/(s² + s/Q + 1), without jumps: 0 far below, −2π far above.
    private static double Turn(double hertz, double at, double q) => -2 * Math.Atan2(hertz / at / q, 1 - hertz / at * (hertz / at));

    public static FilterSetting Setting((double Hertz, double Q) one) => new() { Kind = FilterKind.AllPass, Hertz = Math.Round(one.Hertz, 1), Q = Math.Round(one.Q, 3) };
}
