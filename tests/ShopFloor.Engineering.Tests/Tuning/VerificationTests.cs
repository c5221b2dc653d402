using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Tuning.Equalisation;
using ShopFloor.Engineering.Tuning.Verification;

namespace ShopFloor.Engineering.Tests.Tuning;

public class VerificationTests
{
    private static readonly double[] _hertz = [.. Enumerable.Range(0, 240).Select(n => 20 * Math.Pow(1_000, n / 239.0))];

    private static readonly TuningVerificationInput _good = new()
    {
        Hertz = _hertz,
        LeftDecibels = [.. _hertz.Select(_ => 80.0)],
        RightDecibels = [.. _hertz.Select(_ => 79.0)],
        Target = new TargetCurve { Name = "Flat", Points = [new(20, 0), new(20_000, 0)] },
        Arrivals = [new("l", "Left", 0.01), new("r", "Right", 0.01005), new("rear", "Rear", 0.025, true)],
    };

    [Fact]
    public void Within_all_limits_it_passes()
    {
        var result = TuningVerification.Compute(_good);
        Assert.True(result.Passed);
        Assert.Empty(result.Findings);
        Assert.Equal(1, result.LargestDecibels, 1e-9);
        Assert.Equal(1, result.WithinTargetShare!.Value);
        Assert.Equal(5e-5, result.ArrivalSpreadSeconds!.Value, 1e-12); // rear fill does not count
        Assert.Equal("Yes, all of them.", result.Explanation.Answer);
    }

    [Fact]
    public void A_side_too_loud_in_a_band_is_named_with_its_place()
    {
        double[] Raised(double by) => [.. _good.LeftDecibels.Select((level, i) => level + (_hertz[i] is > 800 and < 1_250 ? by : 0))];
        var result = TuningVerification.Compute(_good with { LeftDecibels = Raised(2), LeftBeforeDecibels = Raised(7), RightBeforeDecibels = _good.RightDecibels });
        Assert.False(result.Passed);
        // 2 dB more over more than the smoothing's third of an octave: 3 dB in all, 8 before.
        Assert.Equal(3, result.LargestDecibels, 1e-6);
        Assert.Equal(8, result.LargestBeforeDecibels!.Value, 1e-6);
        var finding = Assert.Single(result.Findings);
        Assert.Equal(("left-right-differ", Severity.Stop), (finding.Code, finding.Severity));
        Assert.Contains("left is 3 dB louder", finding.Text.Replace('\u00a0', ' '), StringComparison.Ordinal);
        Assert.Equal("Left and right", result.Explanation.DecidedBy);
    }

    [Fact]
    public void A_narrow_comb_is_smoothed_away()
    {
        double[] comb = [.. _good.RightDecibels.Select((level, i) => level + (i % 2 == 0 ? 3 : -3) + 0.5)];
        Assert.True(TuningVerification.Compute(_good with { LeftDecibels = comb, RightDecibels = [.. _good.RightDecibels.Select(level => level + 1.4)], FromHertz = 30, ToHertz = 15_000 }).LargestDecibels < 1);
    }

    [Fact]
    public void A_late_driver_and_a_missed_target_are_named()
    {
        var late = TuningVerification.Compute(_good with { Arrivals = [new("l", "Left", 0.01), new("r", "Right", 0.0101)] });
        Assert.Equal("arrivals-differ", Assert.Single(late.Findings).Code);
        double[] slope = [.. _hertz.Select(f => 80 + 4 * Math.Log2(f / 600))];
        var off = TuningVerification.Compute(_good with { LeftDecibels = slope, RightDecibels = slope });
        Assert.False(off.Passed);
        Assert.Equal(("target-missed", Severity.Warn), (Assert.Single(off.Findings).Code, off.Findings[0].Severity));
        // Within 3 dB of a line of 4 dB per octave lie 1.5 of its 10 octaves.
        Assert.Equal(0.15, off.WithinTargetShare!.Value, 0.01);
    }

    [Fact]
    public void What_cannot_be_judged_is_named()
    {
        Assert.Equal("RightDecibels", Assert.Single((_good with { RightDecibels = [1, 2] }).Validate()).Field);
        Assert.Equal("LeftDecibels[3]", Assert.Single((_good with { LeftDecibels = [.. _good.LeftDecibels.Select((level, i) => i == 3 ? double.NaN : level)] }).Validate()).Field);
        Assert.Equal("Hertz[1]", Assert.Single((_good with { Hertz = [.. _hertz.Select((f, i) => i == 1 ? 20 : f)] }).Validate()).Field);
        Assert.Equal("ArrivalLimitSeconds", Assert.Single((_good with { ArrivalLimitSeconds = 0 }).Validate()).Field);
    }

    [Fact]
    public void The_listening_checklist_has_each_point_once() =>
        Assert.Equal(ListeningChecklist.Points.Count, ListeningChecklist.Points.Select(point => point.Id).Distinct().Count());
}
