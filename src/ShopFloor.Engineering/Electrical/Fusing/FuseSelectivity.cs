using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Electrical.Fusing;

/// <summary>A fuse in a chain of fuses.</summary>
/// <param name="Name">Name shown in texts.</param>
/// <param name="RatingAmperes">Rating, A (0.5 to 1000).</param>
/// <param name="Curve">How fast it opens.</param>
public sealed record FuseInSeries(string Name, double RatingAmperes, FuseCurve Curve)
{
    /// <summary>Melting I²t by the maker, A²s: beyond the curve it does not open earlier than this over I².</summary>
    public double? MeltingAmpereSquaredSeconds { get; init; }

    /// <summary>Total clearing I²t by the maker, A²s: beyond the curve it has opened by this over I².</summary>
    public double? ClearingAmpereSquaredSeconds { get; init; }

    internal double MinSeconds(double amperes)
    {
        var percent = 100 * amperes / RatingAmperes;
        var byCurve = Curve.MinSeconds(percent);
        var last = Curve.Points.LastOrDefault(p => p.MinSeconds is not null);
        return MeltingAmpereSquaredSeconds is { } melting && last is not null && percent > last.Percent
            ? Math.Min(last.MinSeconds!.Value, melting / (amperes * amperes))
            : byCurve;
    }

    internal double MaxSeconds(double amperes)
    {
        var percent = 100 * amperes / RatingAmperes;
        var byCurve = Curve.MaxSeconds(percent);
        return ClearingAmpereSquaredSeconds is { } clearing && percent > Curve.Points[^1].Percent
            ? Math.Min(byCurve, clearing / (amperes * amperes))
            : byCurve;
    }

    /// <summary>Currents at which one of its two times has a corner, A.</summary>
    internal IEnumerable<double> Corners()
    {
        yield return RatingAmperes;
        foreach (var point in Curve.Points)
            yield return point.Percent / 100 * RatingAmperes;
        if (MeltingAmpereSquaredSeconds is { } melting && Curve.Points.LastOrDefault(p => p.MinSeconds is not null) is { } min)
            yield return Math.Sqrt(melting / min.MinSeconds!.Value);
        if (ClearingAmpereSquaredSeconds is { } clearing && Curve.Points.LastOrDefault(p => p.MaxSeconds is not null) is { } max)
            yield return Math.Sqrt(clearing / max.MaxSeconds!.Value);
    }
}

/// <summary>How far two fuses in series are selective.</summary>
public enum Selectivity
{
    /// <summary>At every current up to the prospective one only the fuse nearer the fault opens.</summary>
    Total,

    /// <summary>Up to a current below the prospective one.</summary>
    Partial,

    /// <summary>Nowhere: the fuse upstream may open before the one downstream is sure to open at all.</summary>
    None,
}

/// <summary>A range of currents.</summary>
/// <param name="FromAmperes">Lower end, A.</param>
/// <param name="ToAmperes">Upper end, A.</param>
public sealed record CurrentRange(double FromAmperes, double ToAmperes);

/// <summary>Selectivity of two fuses and how it was reached.</summary>
/// <param name="Selectivity">How far.</param>
/// <param name="UpToAmperes">Largest current up to which it is proved, A; the prospective one when total, 0 when none.</param>
/// <param name="Gaps">Currents at which the fuse upstream may open first, rising.</param>
/// <param name="RestsOnMemory">Whether a curve is from memory.</param>
/// <param name="Explanation">How it was reached.</param>
public sealed record SelectivityResult(
    Selectivity Selectivity, double UpToAmperes, IReadOnlyList<CurrentRange> Gaps, bool RestsOnMemory, Explanation Explanation);

/// <summary>Compares two fuses in series by their time-current bands.</summary>
/// <remarks>
/// Selective at a current when the latest opening of the fuse downstream is before the earliest of the one upstream. Both are straight in log
/// time over log current between corners, so every stretch between corners is judged whole, not at samples. The current of other branches
/// through the upstream fuse is not added; it makes selectivity worse. Heat from a former overload is not followed.
/// </remarks>
public static class FuseSelectivity
{
    /// <summary>Compares two fuses.</summary>
    /// <param name="downstream">The fuse nearer the load.</param>
    /// <param name="upstream">The fuse nearer the source.</param>
    /// <param name="prospectiveAmperes">Largest short-circuit current behind the downstream fuse, A (1 to 100 000).</param>
    /// <param name="text">How numbers are written in texts; null is metric, invariant.</param>
    /// <exception cref="ArgumentOutOfRangeException"><see cref="Validate"/> finds a problem; the parameter name is the field.</exception>
    public static SelectivityResult Compare(FuseInSeries downstream, FuseInSeries upstream, double prospectiveAmperes, UnitText? text = null)
    {
        ArgumentNullException.ThrowIfNull(downstream);
        ArgumentNullException.ThrowIfNull(upstream);
        text ??= UnitText.Invariant;
        InputChecks.ThrowIfAny(Validate(downstream, upstream, prospectiveAmperes, text));

        var gaps = Gaps(downstream, upstream, prospectiveAmperes);
        var sure = downstream.Curve.Points.First(p => p.MaxSeconds is not null).Percent / 100 * downstream.RatingAmperes;
        var (verdict, upTo) = gaps.Count == 0 ? (Selectivity.Total, prospectiveAmperes)
            : gaps[0].FromAmperes <= sure * (1 + 1e-9) ? (Selectivity.None, 0)
            : (Selectivity.Partial, gaps[0].FromAmperes);
        var memory = downstream.Curve.IsFromMemory || upstream.Curve.IsFromMemory;
        return new SelectivityResult(verdict, upTo, gaps, memory, Explain(downstream, upstream, prospectiveAmperes, verdict, upTo, gaps, text));
    }

    /// <summary>What is wrong with the input; empty when it can be compared.</summary>
    /// <param name="downstream">The fuse nearer the load.</param>
    /// <param name="upstream">The fuse nearer the source.</param>
    /// <param name="prospectiveAmperes">Largest short-circuit current, A.</param>
    /// <param name="text">How numbers are written; null is metric, invariant.</param>
    public static IReadOnlyList<InputProblem> Validate(
        FuseInSeries downstream, FuseInSeries upstream, double prospectiveAmperes, UnitText? text = null)
    {
        ArgumentNullException.ThrowIfNull(downstream);
        ArgumentNullException.ThrowIfNull(upstream);
        text ??= UnitText.Invariant;
        var checks = new InputChecks(text);
        checks.InRange(nameof(prospectiveAmperes), "Prospective short-circuit current", prospectiveAmperes, 1, 100_000, QuantityKind.Current);
        foreach (var (field, fuse) in new[] { (nameof(downstream), downstream), (nameof(upstream), upstream) })
        {
            checks.Named($"{field}.Name", "Fuse name", fuse.Name);
            checks.InRange($"{field}.RatingAmperes", $"{fuse.Name}, rating", fuse.RatingAmperes, 0.5, 1000, QuantityKind.Current);
            checks.InRange($"{field}.MeltingAmpereSquaredSeconds", $"{fuse.Name}, melting I²t in A²s", fuse.MeltingAmpereSquaredSeconds, 0.001, 1e9);
            checks.InRange(
                $"{field}.ClearingAmpereSquaredSeconds", $"{fuse.Name}, clearing I²t in A²s", fuse.ClearingAmpereSquaredSeconds,
                Math.Max(0.001, fuse.MeltingAmpereSquaredSeconds is { } m && double.IsFinite(m) ? m : 0), 1e9);
            checks.AddRange(fuse.Curve.Validate(text).Select(p => new InputProblem($"{field}.Curve.{p.Field}", $"{fuse.Name}: {p.Message}")));
        }

        return checks.Problems;
    }

    private static List<CurrentRange> Gaps(FuseInSeries downstream, FuseInSeries upstream, double prospective)
    {
        var from = Math.Min(downstream.RatingAmperes, upstream.RatingAmperes);
        var corners = downstream.Corners().Concat(upstream.Corners()).Append(from).Append(prospective)
            .Where(a => a >= from && a <= prospective).Distinct().Order().ToList();
        var gaps = new List<CurrentRange>();
        foreach (var (a, b) in corners.Zip(corners.Skip(1)))
        {
            if (Gap(downstream, upstream, a, b) is not { } gap)
                continue;
            if (gaps.Count > 0 && gap.FromAmperes <= gaps[^1].ToAmperes * (1 + 1e-9))
                gaps[^1] = gaps[^1] with { ToAmperes = gap.ToAmperes };
            else
                gaps.Add(gap);
        }

        return gaps;
    }

    /// <summary>The part of a stretch without corners in which the upstream fuse may open first, or null.</summary>
    private static CurrentRange? Gap(FuseInSeries downstream, FuseInSeries upstream, double a, double b)
    {
        // Ends may be jumps, so the straight lines are taken from two currents inside.
        double Lead(double share)
        {
            var amperes = a * Math.Pow(b / a, share);
            var (down, up) = (downstream.MaxSeconds(amperes), upstream.MinSeconds(amperes));
            if (double.IsPositiveInfinity(up))
                return double.PositiveInfinity; // the upstream fuse holds
            return double.IsPositiveInfinity(down) || up <= 0 ? double.NegativeInfinity : Math.Log(up / down);
        }

        var (third, twoThirds) = (Lead(1 / 3.0), Lead(2 / 3.0));
        if (double.IsInfinity(third) || double.IsInfinity(twoThirds))
            return third > 0 ? null : new CurrentRange(a, b);
        var slope = 3 * (twoThirds - third);
        var atA = third - slope / 3;
        var atB = atA + slope;
        const double Equal = 1e-9;
        if (atA > Equal && atB > Equal)
            return null;
        if (atA <= Equal && atB <= Equal)
            return new CurrentRange(a, b);
        var crossing = a * Math.Pow(b / a, -atA / slope);
        if (atA <= Equal)
            return crossing <= a * (1 + Equal) ? null : new CurrentRange(a, crossing);
        return crossing >= b * (1 - Equal) ? null : new CurrentRange(crossing, b);
    }

    private static Explanation Explain(
        FuseInSeries downstream, FuseInSeries upstream, double prospective, Selectivity verdict, double upTo, List<CurrentRange> gaps, UnitText text)
    {
        var answer = verdict switch
        {
            Selectivity.Total => $"Total: up to {text.Amperes(prospective)} only {downstream.Name} opens.",
            Selectivity.Partial => $"Partial: up to {text.Amperes(upTo)} only {downstream.Name} opens; above that {upstream.Name} may open too.",
            Selectivity.None => $"None: {upstream.Name} may open before {downstream.Name}.",
            _ => throw new ArgumentOutOfRangeException(nameof(verdict)),
        };
        if (downstream.Curve.IsFromMemory || upstream.Curve.IsFromMemory)
            answer += " The bands are from memory: confirm with the makers' curves.";
        var ranges = gaps.Count == 0 ? "no current" : string.Join(", ", gaps.Select(g => $"{text.Amperes(g.FromAmperes)} to {text.Amperes(g.ToAmperes)}"));
        return new Explanation(
            $"Does only {downstream.Name} open when the fault is behind it?", answer,
            [
                new ExplainedInput(downstream.Name, downstream.RatingAmperes, "A", downstream.Curve.Source),
                new ExplainedInput(upstream.Name, upstream.RatingAmperes, "A", upstream.Curve.Source),
                new ExplainedInput("Prospective short-circuit current", prospective, "A", "entered"),
            ],
            [
                new ExplainedStep(
                    "Currents at which the fuse upstream may open first", "t_max,downstream(I) ≥ t_min,upstream(I)",
                    $"{text.Amperes(Math.Min(downstream.RatingAmperes, upstream.RatingAmperes))} to {text.Amperes(prospective)}", ranges,
                    $"{downstream.Curve.Source}; {upstream.Curve.Source}"),
            ],
            gaps.Count == 0
                ? []
                : [new LimitCheck("Prospective current within the selective range", prospective, upTo, "A", false, "time-current bands")],
            gaps.Count == 0 ? null : "Opening times of the two fuses");
    }
}
