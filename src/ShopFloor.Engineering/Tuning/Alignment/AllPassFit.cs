using System.Numerics;
using ShopFloor.Engineering.Tuning.Filters;

namespace ShopFloor.Engineering.Tuning.Alignment;

/// <summary>An all-pass filter found.</summary>
/// <param name="Filter">The filter; null when none makes it better.</param>
/// <param name="LossBeforeDecibels">What the two lose by not being in phase, dB rms, without it.</param>
/// <param name="LossDecibels">The same with it.</param>
public sealed record AllPassChoice(FilterSetting? Filter, double LossBeforeDecibels, double LossDecibels);

/// <summary>Finds the all-pass that brings one sound into phase with another, where a delay cannot: it turns the phase in one place and leaves every level alone.</summary>
public static class AllPassFit
{
    /// <summary>Searches frequency and Q of a second-order all-pass on the first sound, coarsely, then ever finer.</summary>
    /// <param name="grid">Frequencies to judge, and the sample rate.</param>
    /// <param name="turned">The sound it is put on, per place of the microphone, complex at each frequency.</param>
    /// <param name="other">The other sound, likewise.</param>
    /// <param name="leastGainDecibels">Least improvement worth a filter, dB rms.</param>
    /// <exception cref="ArgumentException">The sounds do not have as many places and points.</exception>
    public static AllPassChoice Find(FrequencyGrid grid, IReadOnlyList<Complex[]> turned, IReadOnlyList<Complex[]> other, double leastGainDecibels = 0.2)
    {
        ArgumentNullException.ThrowIfNull(grid);
        ArgumentNullException.ThrowIfNull(turned);
        ArgumentNullException.ThrowIfNull(other);
        if (turned.Count == 0 || turned.Count != other.Count || turned.Concat(other).Any(place => place.Length != grid.Hertz.Count))
            throw new ArgumentException("Both sounds need the same places, at least one, and a value for each frequency of the grid.", nameof(other));
        double Loss(FilterSetting? filter)
        {
            var response = grid.Response(filter is null ? [] : [CookbookFilters.Design(filter, grid.SampleRateHertz)]);
            double sum = 0;
            for (var place = 0; place < turned.Count; place++)
            {
                for (var i = 0; i < response.Length; i++)
                {
                    var loss = 20 * Math.Log10(Math.Max((turned[place][i] * response[i] + other[place][i]).Magnitude, 1e-12) / Math.Max(turned[place][i].Magnitude + other[place][i].Magnitude, 1e-12));
                    sum += loss * loss;
                }
            }

            return Math.Sqrt(sum / (turned.Count * response.Length));
        }

        static FilterSetting At(double logHertz, double logQ) => new() { Kind = FilterKind.AllPass, Hertz = Math.Pow(2, logHertz), Q = Math.Pow(2, logQ) };
        var before = Loss(null);
        var (low, high) = (Math.Log2(grid.Hertz[0]), Math.Log2(grid.Hertz[^1]));
        var best = (F: low, Q: 0.0, Loss: double.PositiveInfinity);
        for (var f = low; f <= high; f += 1.0 / 6)
        {
            for (var q = -2.0; q <= 2.5; q += 0.5)
            {
                if (Loss(At(f, q)) is var loss && loss < best.Loss)
                    best = (f, q, loss);
            }
        }

        for (var (df, dq) = (1.0 / 12, 0.25); df > 1e-4; df /= 2, dq /= 2)
        {
            foreach (var (f, q) in new[] { (best.F - df, best.Q), (best.F + df, best.Q), (best.F, best.Q - dq), (best.F, best.Q + dq) })
            {
                if (f >= low && f <= high && Loss(At(f, q)) is var loss && loss < best.Loss)
                    best = (f, q, loss);
            }
        }

        return before - best.Loss >= leastGainDecibels ? new AllPassChoice(At(best.F, best.Q), before, best.Loss) : new AllPassChoice(null, before, before);
    }
}
