using CsCheck;
using ShopFloor.Engineering.Electrical.Lighting;

namespace ShopFloor.Engineering.Tests.Electrical.Lighting;

public class LedStripTests
{
    private static LedStripInput Strip(LedStripKind kind, int feeds = 1, double meters = 5, double ampereMeters = 1.2, double ohms = 0.1, double segments = 20) => new()
    {
        LengthMeters = meters,
        SupplyVolts = 12,
        Channels = [new("white", ampereMeters)],
        SegmentsPerMeter = segments,
        Kind = kind,
        LoopOhmsPerMeter = ohms,
        FeedPoints = feeds,
    };

    [Fact]
    public void Five_meters_of_72_w_strip_match_the_sums_by_hand()
    {
        // 5 m · 1.2 A/m = 6 A, 72 W; supply 72/0.8 = 90 W, fuse 6/0.8 = 7.5 A; I·R/2 = 6 · 0.5 / 2 = 1.50 V.
        var result = LedStrip.Compute(Strip(LedStripKind.ConstantCurrent));

        Assert.Equal(6, result.FullAmperes, 9);
        Assert.Equal(1.50, result.DropVolts, 9);
        Assert.Equal(90, result.SupplyRatingWatts, 9);
        Assert.Equal(7.5, result.FuseAmperes);
    }

    // Uniform load, both ends: I·R/8 = 0.375 V. Three points: each half is again fed at both ends, 3 A · 0.25 Ω / 8.
    [Theory]
    [InlineData(2, 0.375)]
    [InlineData(3, 0.09375)]
    public void Feeding_at_more_points_divides_the_drop(int feeds, double volts) =>
        Assert.Equal(volts, LedStrip.Compute(Strip(LedStripKind.ConstantCurrent, feeds)).DropVolts, 9);

    // Published: SMD5050, 60/m in groups of three, 60 mA a group: 14.4 W/m at 12 V. RGB 60/m 1.2 A/m, 30/m 0.6 A/m (a maker's learning page).
    [Theory]
    [InlineData(60, 3, 0.060, 1.2)]
    [InlineData(30, 3, 0.060, 0.6)]
    [InlineData(60, 1, 0.060, 3.6)]
    public void Current_of_a_meter_matches_published_strips(double leds, int series, double amperes, double perMeter) =>
        Assert.Equal(perMeter, LedStripInput.AmperesPerMeter(leds, series, amperes), 9);

    [Fact]
    public void White_is_the_sum_of_the_colours()
    {
        var result = LedStrip.Compute(Strip(LedStripKind.ConstantCurrent) with { Channels = [new("red", 0.4), new("green", 0.4), new("blue", 0.4)] });

        Assert.Equal([2.0, 2.0, 2.0], result.Channels.Select(c => Math.Round(c.Amperes, 9)));
        Assert.Equal(6, result.FullAmperes, 9);
    }

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(4)]
    public void Fine_resistor_strip_follows_the_transmission_line_solution(int feeds)
    {
        // u'' = r·g·u with u = V − V_f: far end u = u_0 / cosh(ℓ·√(r·g)), current u_0·√(g/r)·tanh(ℓ·√(r·g)) for each section.
        var input = Strip(LedStripKind.ResistorLimited, feeds, segments: 300);
        var sections = feeds == 1 ? 1 : 2 * (feeds - 1);
        var (swing, length) = (12 - 9.6, 5.0 / sections);
        var (r, g) = (0.1, 1.2 / swing);
        var x = length * Math.Sqrt(r * g);

        var result = LedStrip.Compute(input);

        Assert.Equal(swing * (1 - 1 / Math.Cosh(x)), result.DropVolts, 0.0005);
        Assert.Equal(sections * swing * Math.Sqrt(g / r) * Math.Tanh(x), result.DrawnAmperes, 0.001);
    }

    [Fact]
    public void Coarse_resistor_strip_matches_three_segments_solved_by_hand()
    {
        // Steps 0.2 Ω, g = 0.25 S. From the far end: u 1; 1 + 0.2·0.25 = 1.05; current 0.5125, u 1.1525; current 0.800625; source u = 1.1525 + 0.1·0.800625 = 1.2325625.
        var input = Strip(LedStripKind.ResistorLimited, meters: 3, ampereMeters: 0.6, ohms: 0.2, segments: 1);
        var result = LedStrip.Compute(input);

        Assert.Equal(2.4 * (1 - 1 / 1.2325625), result.DropVolts, 9);
        Assert.Equal(2.4 * 0.800625 / 1.2325625, result.DrawnAmperes, 9);
        Assert.Equal(1 / 1.1525, result.DimmestShare, 9);
    }

    [Fact]
    public void Feeder_drop_is_added()
    {
        // 6 A through 0.1 Ω more: 0.6 V at one end; at both ends 3 A each.
        Assert.Equal(2.10, LedStrip.Compute(Strip(LedStripKind.ConstantCurrent) with { FeederLoopOhms = 0.1 }).DropVolts, 9);
        Assert.Equal(0.675, LedStrip.Compute(Strip(LedStripKind.ConstantCurrent, 2) with { FeederLoopOhms = 0.1 }).DropVolts, 9);
    }

    [Fact]
    public void Least_number_of_feed_points_keeps_the_drop_and_one_less_does_not()
    {
        var input = Strip(LedStripKind.ConstantCurrent, meters: 10);
        var least = LedStrip.Compute(input).LeastFeedPoints!.Value;

        Assert.True(LedStrip.Compute(input with { FeedPoints = least }).DropVolts <= 0.6);
        Assert.True(LedStrip.Compute(input with { FeedPoints = least - 1 }).DropVolts > 0.6);
    }

    [Fact]
    public void Light_seen_from_outside_carries_the_road_caution() =>
        Assert.Contains(LedStrip.Compute(Strip(LedStripKind.ConstantCurrent) with { VisibleFromOutside = true }).Findings, f => f.Code == "led-road-legal");

    [Fact]
    public void Forward_voltage_above_the_supply_is_refused() =>
        Assert.Equal("SegmentForwardVolts", Assert.Single((Strip(LedStripKind.ResistorLimited) with { SupplyVolts = 5 }).Validate()).Field);

    [Fact]
    public void Longer_strips_drop_more_and_resistor_strips_never_more_than_constant_current() =>
        Gen.Select(Gen.Double[0.5, 20], Gen.Double[1.1, 2], Gen.Double[0.1, 3]).Sample((meters, factor, perMeter) =>
        {
            double Drop(LedStripKind kind, double length) => LedStrip.Compute(Strip(kind, meters: length, ampereMeters: perMeter)).DropVolts;
            return Drop(LedStripKind.ConstantCurrent, meters * factor) > Drop(LedStripKind.ConstantCurrent, meters)
                && Drop(LedStripKind.ResistorLimited, meters) <= Drop(LedStripKind.ConstantCurrent, meters) + 1e-9;
        });
}
