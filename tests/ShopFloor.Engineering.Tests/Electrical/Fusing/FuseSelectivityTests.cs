using CsCheck;
using ShopFloor.Engineering.Electrical.Fusing;

namespace ShopFloor.Engineering.Tests.Electrical.Fusing;

public class FuseSelectivityTests
{
    private static readonly FuseCurve[] _curves = [FuseCurves.Blade, FuseCurves.HighCurrentBlade, FuseCurves.BoltIn];

    private static FuseInSeries Blade(double amperes) => new($"{amperes} A blade", amperes, FuseCurves.Blade);

    private static FuseInSeries BoltIn(double amperes) => new($"{amperes} A bolt-in", amperes, FuseCurves.BoltIn);

    [Fact]
    public void A_small_blade_behind_a_large_bolt_in_fuse_is_selective_up_to_a_weak_short_circuit()
    {
        // 500 A: 0.1 s at the latest against 0.13 s at the earliest (500 % of 100 A).
        var result = FuseSelectivity.Compare(Blade(10), BoltIn(100), 500);

        Assert.Equal(Selectivity.Total, result.Selectivity);
        Assert.Equal(500, result.UpToAmperes);
        Assert.Empty(result.Gaps);
        Assert.True(result.RestsOnMemory);
        Assert.Contains("makers' curves", result.Explanation.Answer, StringComparison.Ordinal);
    }

    [Fact]
    public void Above_600_percent_the_bands_prove_nothing_more()
    {
        // Both 0.1 s at 600 A, where the band of 100 A bolt-in ends.
        var result = FuseSelectivity.Compare(Blade(10), BoltIn(100), 2000);

        Assert.Equal(Selectivity.Partial, result.Selectivity);
        Assert.Equal(600, result.UpToAmperes, 0.001);
        Assert.Equal(2000, Assert.Single(result.Gaps).ToAmperes, 9);
        Assert.Contains(result.Explanation.Limits, l => !l.Passed && l.Limit < 601);
    }

    [Fact]
    public void Makers_melting_and_clearing_heat_can_prove_it_at_a_hard_short_circuit()
    {
        // Beyond the curves: clears by 360 A²s/I² downstream, melts not before 1000 A²s/I² upstream.
        var result = FuseSelectivity.Compare(
            Blade(10) with { ClearingAmpereSquaredSeconds = 360 }, BoltIn(100) with { MeltingAmpereSquaredSeconds = 36_000 }, 5000);

        Assert.Equal(Selectivity.Total, result.Selectivity);

        var worse = FuseSelectivity.Compare(
            Blade(10) with { ClearingAmpereSquaredSeconds = 36_001 }, BoltIn(100) with { MeltingAmpereSquaredSeconds = 36_000 }, 5000);

        Assert.Equal(Selectivity.Partial, worse.Selectivity);
        Assert.Equal(600, worse.UpToAmperes, 0.5);
    }

    [Fact]
    public void Ten_behind_thirty_is_selective_up_to_the_crossing_worked_out_by_hand()
    {
        // Upstream 0.15 s at 60 A and 0.04 s at 105 A; downstream 0.1 s from 60 A on: 60·(105/60)^(ln 1.5/ln 3.75) = 71.24 A.
        var result = FuseSelectivity.Compare(Blade(10), Blade(30), 300);

        Assert.Equal(Selectivity.Partial, result.Selectivity);
        Assert.Equal(71.24, result.UpToAmperes, 0.01);
    }

    [Theory]
    [InlineData(30, 40)]
    [InlineData(30, 30)]
    [InlineData(40, 30)]
    public void Fuses_too_close_to_each_other_are_not_selective(double downstream, double upstream)
    {
        var result = FuseSelectivity.Compare(Blade(downstream), Blade(upstream), 500);

        Assert.Equal(Selectivity.None, result.Selectivity);
        Assert.Equal(0, result.UpToAmperes);
    }

    [Fact]
    public void The_gaps_are_exactly_the_currents_at_which_the_upstream_fuse_may_open_first()
    {
        var selective = 0;
        var not = 0;
        Gen.Select(Gen.Double[1, 100], Gen.Double[1, 300], Gen.Int[0, 2], Gen.Int[0, 2], Gen.Double[0, 1]).Sample(
            (down, up, downCurve, upCurve, at) =>
            {
                const double Prospective = 3000;
                var amperes = down * Math.Pow(Prospective / down, at);
                if (amperes <= Math.Min(down, up) * 1.0001)
                    return true;
                var result = FuseSelectivity.Compare(new("down", down, _curves[downCurve]), new("up", up, _curves[upCurve]), Prospective);
                var (latest, earliest) = (_curves[downCurve].MaxSeconds(100 * amperes / down), _curves[upCurve].MinSeconds(100 * amperes / up));
                if (Math.Abs(latest / earliest - 1) < 1e-6 || result.Gaps.Any(g => Near(g.FromAmperes, amperes) || Near(g.ToAmperes, amperes)))
                    return true; // on an edge
                var upstreamMay = !double.IsPositiveInfinity(earliest) && latest >= earliest;
                Interlocked.Increment(ref upstreamMay ? ref not : ref selective);
                return upstreamMay == result.Gaps.Any(g => amperes > g.FromAmperes && amperes < g.ToAmperes);
            },
            iter: 2000);

        Assert.True(selective > 200 && not > 200, $"{selective} selective, {not} not");
    }

    [Fact]
    public void A_larger_upstream_fuse_of_the_same_form_is_never_less_selective()
    {
        Gen.Select(Gen.Double[1, 60], Gen.Double[1, 8], Gen.Double[1, 3], Gen.Int[0, 2]).Sample((down, ratio, more, curve) =>
            FuseSelectivity.Compare(Blade(down), new("up", down * ratio, _curves[curve]), 2000).UpToAmperes
            <= FuseSelectivity.Compare(Blade(down), new("larger", Math.Min(down * ratio * more, 1000), _curves[curve]), 2000).UpToAmperes * (1 + 1e-9));
    }

    [Theory]
    [InlineData(0, 100, 500, "downstream.RatingAmperes")]
    [InlineData(10, double.NaN, 500, "upstream.RatingAmperes")]
    [InlineData(10, 100, -1, "prospectiveAmperes")]
    public void Impossible_fuses_are_refused_by_name(double down, double up, double prospective, string field)
    {
        Assert.Contains(FuseSelectivity.Validate(Blade(down), BoltIn(up), prospective), p => p.Field == field);
        Assert.Equal(field, Assert.Throws<ArgumentOutOfRangeException>(() => FuseSelectivity.Compare(Blade(down), BoltIn(up), prospective)).ParamName);
    }

    private static bool Near(double a, double b) => Math.Abs(a / b - 1) < 1e-6;
}
