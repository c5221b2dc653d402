using ShopFloor.Engineering.Electrical;
using ShopFloor.Engineering.Electrical.Fusing;

namespace ShopFloor.Engineering.Tests.Electrical.Fusing;

public class FuseCurveTests
{
    private static FuseCurve Of(params FuseCurvePoint[] points) => new() { Name = "Sheet", Source = "maker's data sheet", Points = points };

    // Straight lines of log t over log I, worked out separately from the points: blade 200 % 0.15/5 s, 350 % 0.04/0.5 s;
    // bolt-in 200 % 1 s and 350 % 0.3 s earliest.
    [Fact]
    public void Between_two_points_times_follow_straight_lines_on_logarithmic_axes()
    {
        Assert.Equal(1.454457, FuseCurves.Blade.MaxSeconds(270), 0.00001);
        Assert.Equal(0.073834, FuseCurves.Blade.MinSeconds(270), 0.00001);
        Assert.Equal(0.618736, FuseCurves.BoltIn.MinSeconds(250), 0.00001);
    }

    [Fact]
    public void At_the_points_the_times_are_those_of_the_points()
    {
        foreach (var curve in new[] { FuseCurves.Blade, FuseCurves.HighCurrentBlade, FuseCurves.BoltIn })
        {
            foreach (var point in curve.Points)
            {
                Assert.Equal(point.MinSeconds!.Value, curve.MinSeconds(point.Percent), 9);
                Assert.Equal(point.MaxSeconds ?? double.PositiveInfinity, curve.MaxSeconds(point.Percent), 9);
            }
        }
    }

    [Fact]
    public void Up_to_its_rating_a_fuse_holds_and_below_the_first_latest_time_it_need_not_open()
    {
        Assert.Equal(double.PositiveInfinity, FuseCurves.Blade.MinSeconds(100));
        Assert.Equal(360_000, FuseCurves.Blade.MinSeconds(105)); // 100 h at 110 %, so at least as long below
        Assert.Equal(double.PositiveInfinity, FuseCurves.Blade.MaxSeconds(134.9));
        Assert.Equal(1800, FuseCurves.Blade.MaxSeconds(135), 9);
    }

    [Fact]
    public void Beyond_the_last_point_both_times_stay_on_the_cautious_side()
    {
        // Earliest by constant I²t: 0.02 s at 600 % is 0.005 s at 1200 %. Latest stays.
        Assert.Equal(0.005, FuseCurves.Blade.MinSeconds(1200), 12);
        Assert.Equal(0.1, FuseCurves.Blade.MaxSeconds(1200), 12);
    }

    [Fact]
    public void A_larger_current_never_takes_longer()
    {
        foreach (var curve in new[] { FuseCurves.Blade, FuseCurves.HighCurrentBlade, FuseCurves.BoltIn })
        {
            for (var percent = 50.0; percent < 5000; percent *= 1.01)
            {
                Assert.True(curve.MinSeconds(percent * 1.01) <= curve.MinSeconds(percent));
                Assert.True(curve.MaxSeconds(percent * 1.01) <= curve.MaxSeconds(percent));
                Assert.True(curve.MinSeconds(percent) <= curve.MaxSeconds(percent));
            }
        }
    }

    // UL 248-14: a fuse opens at 135 % within one hour and at 200 % within 2 minutes (up to 30 A). The bands of ISO 8820 as remembered are not slower.
    [Fact]
    public void Shipped_bands_are_not_slower_than_another_fuse_standard_and_say_that_they_are_from_memory()
    {
        foreach (var curve in new[] { FuseCurves.Blade, FuseCurves.HighCurrentBlade, FuseCurves.BoltIn })
        {
            Assert.Empty(curve.Validate());
            Assert.True(curve.IsFromMemory);
            Assert.Contains("from memory", curve.Source, StringComparison.Ordinal);
            Assert.InRange(curve.MaxSeconds(135), 1, 3600);
            Assert.InRange(curve.MaxSeconds(200), 1, 120);
        }

        Assert.All(FuseRatings.All, s => Assert.NotNull(s.Curve));
    }

    public static TheoryData<string, FuseCurve, string, string> Faults => new()
    {
        { "no source", Of(new FuseCurvePoint(135, 1, 10)) with { Source = "" }, "Source", "nothing was entered" },
        { "no points", Of(), "Points", "at least one earliest and one latest" },
        { "no latest", Of(new FuseCurvePoint(135, 1, null)), "Points", "at least one earliest and one latest" },
        { "order", Of(new(200, 1, 10), new(135, 1, 10)), "Points[1].Percent", "rising order" },
        { "below zero", Of(new FuseCurvePoint(135, -1, 10)), "Points[0].MinSeconds", "Point 1, earliest" },
        { "not a number", Of(new FuseCurvePoint(double.NaN, 1, 10)), "Points[0].Percent", "current in percent" },
        { "crossed", Of(new FuseCurvePoint(135, 11, 10)), "Points[0].MaxSeconds", "before the earliest" },
        { "earliest rises", Of(new(135, 1, 10), new(200, 2, 9)), "Points[1].MinSeconds", "cannot take longer" },
        { "latest rises past a gap", Of(new(135, 1, 10), new(160, 1, null), new(200, 1, 11)), "Points[2].MaxSeconds", "cannot take longer" },
    };

    [Theory]
    [MemberData(nameof(Faults))]
    public void A_faulty_curve_is_refused_by_point(string fault, FuseCurve curve, string field, string says)
    {
        Assert.NotEmpty(fault);
        Assert.Contains(curve.Validate(), p => p.Field == field && p.Message.Contains(says, StringComparison.Ordinal));
    }

    [Fact]
    public void Further_forms_have_a_voltage_a_source_and_rising_ratings()
    {
        // ISO 8820-4: up to 140 A, 32 V and 58 V, 1000 A.
        Assert.Equal(140, FuseRatings.FemaleBlock.RatingsAmperes.Max());
        Assert.Equal((32.0, 58.0, 1000.0), (FuseRatings.FemaleBlock.VoltageRating, FuseRatings.FemaleBlock58Volts.VoltageRating, FuseRatings.FemaleBlock.InterruptAmperes));
        Assert.NotNull(FuseRatings.Smallest(FuseRatings.Further, 100, 1000, 48));
        Assert.All(FuseRatings.Further, s => Assert.Equal(s.RatingsAmperes.Order().Distinct(), s.RatingsAmperes));
        Assert.All(FuseRatings.Further, s => Assert.Contains("from memory", s.Source, StringComparison.Ordinal));
    }
}
