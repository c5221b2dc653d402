using CsCheck;
using ShopFloor.Engineering.Electrical.Lighting;
using ShopFloor.Engineering.Explained;

namespace ShopFloor.Engineering.Tests.Electrical.Lighting;

public class LedStripTests
{
    // 60 LEDs per meter in threes, 60 mA a segment: 1.2 A/m; two rails of 0.05 Ω/m: 0.5 Ω there and back on 5 m.
    private static LedStripInput Strip(LedSegment segment, int feeds = 1, double meters = 5, double railOhms = 0.05, double feederOhms = 0) => new()
    {
        SupplyVolts = 12,
        LedsPerMeter = 60,
        LedsPerSegment = 3,
        AmperesPerLedPerColour = 0.06,
        Segment = segment,
        SegmentForwardVolts = 9.6,
        RailOhmsPerMeter = railOhms,
        Zones = [new LedZone { Id = "floor", Name = "Floor", LengthMeters = meters, FeedPoints = feeds, FeederOhms = feederOhms }],
    };

    private static LedStripInput WithZone(LedStripInput input, Func<LedZone, LedZone> change) => input with { Zones = [change(input.Zones[0])] };

    private static LedZoneResult Floor(LedStripInput input) => Assert.Single(LedStrip.Compute(input).Zones);

    [Fact]
    public void Five_meters_of_72_w_strip_match_the_sums_by_hand()
    {
        // 5 m · 1.2 A/m = 6 A, 72 W; supply 72/0.8 = 90 W; fuse 6/0.8 = 7.5 A; drop at the far end I·R/2 = 6 · 0.5 / 2 = 1.50 V.
        var result = LedStrip.Compute(Strip(LedSegment.ConstantCurrent));

        Assert.Equal(6, result.FullAmperes, 9);
        Assert.Equal(72, result.FullWatts, 9);
        Assert.Equal(90, result.LeastSupplyWatts, 9);
        Assert.Equal(7.5, result.Fuse!.RatingAmperes);
        Assert.Equal(1.50, result.Zones[0].WorstDropVolts, 6);
    }

    // Even load, both ends: I·R/8 = 0.375 V. Three points: each half is again fed at both ends, 3 A · 0.25 Ω / 8; the feed lies at the edge
    // of a segment in the sum by hand and in its middle here, so the last row is held to one segment's drop.
    [Theory]
    [InlineData(2, 0.375, 1e-6)]
    [InlineData(3, 0.09375, 0.003)]
    public void Feeding_at_more_points_divides_the_drop(int feeds, double volts, double tolerance) =>
        Assert.Equal(volts, Floor(Strip(LedSegment.ConstantCurrent, feeds)).WorstDropVolts, tolerance);

    // Published strips: 60/m in threes, three colours of 20 mA: 14.4 W/m at 12 V (a strip maker's data sheet for 5050 LEDs);
    // 30/m half of it, 0.6 A/m (a maker's learning pages); 5 V single-LED segments of three colours of 20 mA: 3.6 A/m.
    [Theory]
    [InlineData(12, 60, 3, 1.2, 14.4)]
    [InlineData(12, 30, 3, 0.6, 7.2)]
    [InlineData(5, 60, 1, 3.6, 18.0)]
    public void Current_of_a_meter_matches_published_strips(double volts, double leds, int series, double amperes, double watts)
    {
        var result = LedStrip.Compute(new LedStripInput
        {
            SupplyVolts = volts,
            LedsPerMeter = leds,
            LedsPerSegment = series,
            Colours = 3,
            AmperesPerLedPerColour = 0.02,
            Segment = LedSegment.ConstantCurrent,
            Zones = [new LedZone { Id = "z", Name = "Zone", LengthMeters = 1 }],
        });

        Assert.Equal(amperes, result.FullAmperes, 9);
        Assert.Equal(watts, result.FullWatts, 9);
    }

    [Fact]
    public void Power_per_meter_gives_the_same_current_as_the_led_current_it_stands_for()
    {
        // 14.4 W/m at 12 V is 1.2 A/m.
        var byPower = Strip(LedSegment.ConstantCurrent) with { AmperesPerLedPerColour = null, WattsPerMeter = 14.4 };

        Assert.Equal(LedStrip.Compute(Strip(LedSegment.ConstantCurrent)).FullAmperes, LedStrip.Compute(byPower).FullAmperes, 9);
    }

    [Fact]
    public void White_is_the_sum_of_the_colours_and_a_scene_takes_its_shares()
    {
        var input = WithZone(Strip(LedSegment.ConstantCurrent) with { Colours = 3, AmperesPerLedPerColour = 0.02 }, z => z with { SceneShares = [1, 0.5, 0] });

        var zone = Floor(input);

        Assert.Equal(2, zone.AmperesPerColour, 9);
        Assert.Equal(6, zone.FullAmperes, 9);
        Assert.Equal(3, zone.SceneAmperes, 9);
    }

    [Fact]
    public void Zones_add_up_and_the_controller_is_chosen_for_the_largest()
    {
        var input = Strip(LedSegment.ConstantCurrent);
        input = input with { Zones = [input.Zones[0], new LedZone { Id = "door", Name = "Door", LengthMeters = 1 }] };

        var result = LedStrip.Compute(input);

        Assert.Equal(7.2, result.FullAmperes, 9);
        Assert.Equal(6 / 0.8, result.LeastControllerAmperesPerColour, 9);
    }

    [Fact]
    public void Colours_of_an_analogue_strip_return_on_rails_of_their_own()
    {
        // Common rail carries 6 A, each return 2 A: 6 · 0.25/2 + 2 · 0.25/2 = 1.00 V; addressable, both rails carry all: 1.50 V.
        var analogue = Strip(LedSegment.ConstantCurrent) with { Colours = 3, AmperesPerLedPerColour = 0.02 };

        Assert.Equal(1.00, Floor(analogue).WorstDropVolts, 6);
        Assert.Equal(1.50, Floor(analogue with { Drive = LedDrive.Addressable }).WorstDropVolts, 6);
    }

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    public void Resistor_strip_follows_the_transmission_line_solution(int feeds)
    {
        // u'' = r·g·u with u = V − Vf: at the far end (or the middle, fed at both) u = u0/cosh(ℓ·√(r·g)), current u0·√(g/r)·tanh(ℓ·√(r·g)).
        var input = Strip(LedSegment.ResistorLimited, feeds) with { LedsPerMeter = 600, AmperesPerLedPerColour = 0.006 };
        var (swing, length) = (12 - 9.6, 5.0 / feeds);
        var (r, g) = (0.1, 1.2 / swing);
        var x = length * Math.Sqrt(r * g);

        var zone = Floor(input);

        Assert.Equal(swing * (1 - 1 / Math.Cosh(x)), zone.WorstDropVolts, 0.0005);
        Assert.Equal(feeds * swing * Math.Sqrt(g / r) * Math.Tanh(x), zone.DrawnAmperes, 0.001);
        Assert.Equal(1 / Math.Cosh(x), zone.DimmestShare, 0.0005);
    }

    [Fact]
    public void Coarse_resistor_strip_matches_three_segments_solved_by_hand()
    {
        // Steps of 0.2 Ω, g = 0.6/2.4 = 0.25 S. From the far end: u 1, current 0.25; u 1.05, 0.5125; u 1.1525, 0.800625; source 1.1525 + 0.1 · 0.800625.
        // ngspice, operating point of the same ladder: 11.54716 V at the far end, 1.55895 A.
        var input = Strip(LedSegment.ResistorLimited, meters: 3, railOhms: 0.1) with { LedsPerMeter = 1, LedsPerSegment = 1, AmperesPerLedPerColour = 0.6 };

        var zone = Floor(input);

        Assert.Equal(2.4 * (1 - 1 / 1.2325625), zone.WorstDropVolts, 1e-7);
        Assert.Equal(12 - 11.54716, zone.WorstDropVolts, 0.00001);
        Assert.Equal(2.4 * 0.800625 / 1.2325625, zone.DrawnAmperes, 1e-7);
        Assert.Equal(1.55895, zone.DrawnAmperes, 0.00001);
        Assert.Equal(1 / 1.2325625, zone.DimmestShare, 1e-7);
    }

    [Fact]
    public void Wires_to_the_feed_points_add_their_drop()
    {
        // 6 A through 0.1 Ω more: 0.6 V at one end; at both ends 3 A each.
        Assert.Equal(2.10, Floor(Strip(LedSegment.ConstantCurrent, feederOhms: 0.1)).WorstDropVolts, 6);
        Assert.Equal(0.675, Floor(Strip(LedSegment.ConstantCurrent, 2, feederOhms: 0.1)).WorstDropVolts, 6);
    }

    [Theory]
    [InlineData(LedSegment.ConstantCurrent)]
    [InlineData(LedSegment.ResistorLimited)]
    public void Least_number_of_feed_points_keeps_the_drop_and_one_less_does_not(LedSegment segment)
    {
        var input = Strip(segment, meters: 20);
        var least = Floor(input).LeastFeedPoints!.Value;

        Assert.True(Floor(WithZone(input, z => z with { FeedPoints = least })).WorstDropPercent <= 5);
        Assert.True(Floor(WithZone(input, z => z with { FeedPoints = least - 1 })).WorstDropPercent > 5);
    }

    [Fact]
    public void Course_falls_from_the_feed_to_the_far_end()
    {
        var course = Floor(Strip(LedSegment.ResistorLimited)).Course;

        Assert.Equal(100, course.Count);
        Assert.All(course.Zip(course.Skip(1)), pair => Assert.True(pair.Second.Volts < pair.First.Volts && pair.Second.LightShare < pair.First.LightShare));
    }

    [Fact]
    public void Small_supply_and_small_controller_are_pointed_out()
    {
        var result = LedStrip.Compute(Strip(LedSegment.ConstantCurrent, 2) with { SupplyWatts = 80, ControllerAmperesPerColour = 7 });

        Assert.Contains(result.Findings, f => f.Code == "led-supply-small");
        Assert.Contains(result.Findings, f => f.Code == "led-controller-small");
        var larger = LedStrip.Compute(Strip(LedSegment.ConstantCurrent, 2) with { SupplyWatts = 91, ControllerAmperesPerColour = 8 });
        Assert.DoesNotContain(larger.Findings, f => f.Code is "led-supply-small" or "led-controller-small");
    }

    [Fact]
    public void Light_seen_from_outside_stops_until_someone_has_checked_the_road_rules()
    {
        Assert.Contains(LedStrip.Compute(Strip(LedSegment.ConstantCurrent) with { VisibleFromOutside = true }).Findings, f => f is { Code: "led-road-legal", Severity: Severity.Stop });
        Assert.DoesNotContain(LedStrip.Compute(Strip(LedSegment.ConstantCurrent)).Findings, f => f.Severity == Severity.Stop);
    }

    [Fact]
    public void Copper_rail_is_resistivity_over_its_section()
    {
        // 3 mm × 70 µm = 0.21 mm²: 0.017241 / 0.21 = 0.0821 Ω/m.
        Assert.Equal(0.0821, LedStrip.CopperRailOhmsPerMeter(0.003, 70e-6), 0.0001);
    }

    [Fact]
    public void Absurd_values_are_refused_naming_the_field()
    {
        var input = Strip(LedSegment.ConstantCurrent) with { SupplyVolts = 48, Colours = 9, AmperesPerLedPerColour = null };
        input = WithZone(input, z => z with { LengthMeters = double.NaN, FeedPoints = 0, SceneShares = [0.5] });

        Assert.Equal(
            ["AmperesPerLedPerColour", "Colours", "SupplyVolts", "Zones[0].FeedPoints", "Zones[0].LengthMeters", "Zones[0].SceneShares"],
            input.Validate().Select(p => p.Field).Order(StringComparer.Ordinal));
        Assert.Throws<ArgumentOutOfRangeException>(() => LedStrip.Compute(input));
    }

    [Fact]
    public void Longer_strips_drop_more_and_resistor_strips_never_more_than_constant_current() =>
        Gen.Select(Gen.Double[0.5, 20], Gen.Double[1.1, 2], Gen.Double[0.005, 0.1]).Sample((meters, factor, railOhms) =>
        {
            double Drop(LedSegment segment, double length) => Floor(Strip(segment, meters: length, railOhms: railOhms)).WorstDropVolts;
            return Drop(LedSegment.ConstantCurrent, meters * factor) > Drop(LedSegment.ConstantCurrent, meters)
                && Drop(LedSegment.ResistorLimited, meters * factor) > Drop(LedSegment.ResistorLimited, meters)
                && Drop(LedSegment.ResistorLimited, meters) <= Drop(LedSegment.ConstantCurrent, meters) + 1e-9;
        }, iter: 50);

    [Fact]
    public void No_segment_gets_more_than_the_supply_nor_draws_more_than_its_rating() =>
        Gen.Select(Gen.Double[0.5, 20], Gen.Int[1, 8], Gen.Double[0, 0.5]).Sample((meters, feeds, feeder) =>
        {
            var zone = Floor(Strip(LedSegment.ResistorLimited, feeds, meters, feederOhms: feeder));
            return zone.Course.All(p => p.Volts <= 12 && p.LightShare is >= 0 and <= 1) && zone.DrawnAmperes <= zone.FullAmperes + 1e-9;
        }, iter: 50);
}
