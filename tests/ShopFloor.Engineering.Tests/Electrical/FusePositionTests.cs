using ShopFloor.Engineering.Electrical;
using ShopFloor.Engineering.Explained;

namespace ShopFloor.Engineering.Tests.Electrical;

public class FusePositionTests
{
    [Fact]
    public void Distances_are_the_regulations_inches()
    {
        // 33 CFR 183.455(b): 7 in and 40 in; 33 CFR 183.460(a): 72 in.
        Assert.Equal(0.1778, FusePosition.OpenMeters, 12);
        Assert.Equal(1.016, FusePosition.SheathedMeters, 12);
        Assert.Equal(1.8288, FusePosition.BatteryMeters, 12);
        Assert.Equal(0.4572, FusePosition.TradeHabitMeters, 12);
    }

    [Theory]
    [InlineData(false, false, 0.17, null)]
    [InlineData(false, false, 0.18, Severity.Stop)]
    [InlineData(false, true, 1.0, null)]
    [InlineData(false, true, 1.02, Severity.Stop)]
    [InlineData(true, false, 0.17, null)]
    [InlineData(true, false, 0.3, Severity.Note)]
    [InlineData(true, false, 0.5, Severity.Warn)]
    [InlineData(true, true, 0.3, null)]
    [InlineData(true, true, 0.5, Severity.Warn)]
    [InlineData(true, true, 1.5, Severity.Warn)]
    [InlineData(true, true, 1.9, Severity.Stop)]
    [InlineData(true, false, 1.9, Severity.Stop)]
    public void A_fuse_too_far_from_its_source_is_graded(bool battery, bool sheathed, double meters, Severity? severity)
    {
        var input = (Runs.Run(20, 3) with { FedFromBattery = battery })
            .WithRun(r => r with { SourceToFuseMeters = meters, SheathedWholeWay = sheathed });

        Assert.Equal(severity, RunSizing.Size(input).Findings.Of("fuse-too-far")?.Severity);
    }

    [Fact]
    public void The_trade_habit_is_marked_as_having_no_source()
    {
        var result = RunSizing.Size((Runs.Run(40, 3) with { FedFromBattery = true }).WithRun(r => r with { SourceToFuseMeters = 0.5 }));

        Assert.Equal("common practice, no source", result.Findings.Of("fuse-too-far")!.Source);
        Assert.Contains(result.Limits, l => l.Source == "33 CFR 183.460(a)" && l.Passed);
    }

    [Theory]
    [InlineData(0.5, "common practice, no source")]
    [InlineData(1.5, "33 CFR 183.455(b)")]
    [InlineData(1.9, "33 CFR 183.460(a)")]
    public void The_gravest_limit_that_a_sheathed_battery_feed_breaks_is_named(double meters, string source)
    {
        var input = (Runs.Run(40, 3) with { FedFromBattery = true }).WithRun(r => r with { SourceToFuseMeters = meters, SheathedWholeWay = true });

        Assert.Equal(source, RunSizing.Size(input).Findings.Of("fuse-too-far")!.Source);
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void An_unmeasured_distance_is_a_finding_and_not_zero(bool battery)
    {
        var result = RunSizing.Size((Runs.Run(40, 3) with { FedFromBattery = battery }).WithRun(r => r with { SourceToFuseMeters = null }));

        Assert.Equal(Severity.Warn, result.Findings.Of("fuse-distance-unknown")!.Severity);
        Assert.DoesNotContain(result.Limits, l => l.Unit == "m");
    }
}
