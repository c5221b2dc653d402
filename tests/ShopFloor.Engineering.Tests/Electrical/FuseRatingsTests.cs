using ShopFloor.Engineering.Electrical;

namespace ShopFloor.Engineering.Tests.Electrical;

public class FuseRatingsTests
{
    [Theory]
    [InlineData(32, 0.80, 40)] // published: 40 A fuse for 32 A continuous at 80 %
    [InlineData(80, 0.80, 100)] // published: minimum fuse 1.25 × load
    [InlineData(30, 0.75, 40)]
    public void The_least_rating_is_the_load_over_the_loading(double load, double loading, double rating)
    {
        var least = FuseRatings.MinimumRating(load, loading);

        Assert.Equal(rating, least, 9);
        Assert.Equal(rating, FuseRatings.Smallest(FuseRatings.All, least, 1000, 13.8)!.RatingAmperes);
    }

    [Fact]
    public void Hot_surroundings_ask_for_a_larger_fuse_when_derating_is_on()
    {
        // 15 / (0.75 · (1 − 0.002 · 40)) = 21.7 A -> 25 A.
        var least = FuseRatings.MinimumRating(15, 0.75, 65, 0.002);

        Assert.Equal(21.74, least, 0.005);
        Assert.Equal(25, FuseRatings.Smallest(FuseRatings.All, least, 1000, 13.8)!.RatingAmperes);
        Assert.Equal(20, FuseRatings.MinimumRating(15, 0.75, 65), 9);
        Assert.Equal(20, FuseRatings.MinimumRating(15, 0.75, 0, 0.002), 9); // cold gives no bonus
    }

    [Fact]
    public void Forms_stay_within_the_published_ranges()
    {
        // ISO 8820 ranges: regular blade 1 to 40 A, small blade 2 to 30 A, high-current blade 20 to 120 A; bolt-in up to 500 A.
        Assert.Equal((1.0, 40.0), (FuseRatings.Blade.RatingsAmperes.Min(), FuseRatings.Blade.RatingsAmperes.Max()));
        Assert.Equal((2.0, 30.0), (FuseRatings.MiniBlade.RatingsAmperes.Min(), FuseRatings.MiniBlade.RatingsAmperes.Max()));
        Assert.Equal((20.0, 120.0), (FuseRatings.HighCurrentBlade.RatingsAmperes.Min(), FuseRatings.HighCurrentBlade.RatingsAmperes.Max()));
        Assert.Equal(500, FuseRatings.BoltInLarge.RatingsAmperes.Max());
        Assert.All(FuseRatings.All, s => Assert.Equal(s.RatingsAmperes.Order().Distinct(), s.RatingsAmperes));
        Assert.All(FuseRatings.All, s => Assert.Contains("from memory", s.Source, StringComparison.Ordinal));
    }

    [Fact]
    public void A_fuse_rated_below_the_circuit_voltage_is_left_out()
    {
        Assert.Null(FuseRatings.Smallest(FuseRatings.All, 10, 1000, 48));
        Assert.NotNull(FuseRatings.Smallest(FuseRatings.All, 10, 1000, 32));
    }

    [Fact]
    public void At_equal_ratings_the_earlier_form_wins()
    {
        Assert.Equal(FuseForm.Blade, FuseRatings.Smallest(FuseRatings.All, 30, 30, 12)!.Form);
        Assert.Equal(FuseForm.BoltInSmall, FuseRatings.Smallest(new SizingRules().BatteryFuses, 30, 30, 12)!.Form);
    }

    [Theory]
    [InlineData(double.NaN, 0.8, "continuousAmperes")]
    [InlineData(-1, 0.8, "continuousAmperes")]
    [InlineData(10, 0, "loading")]
    [InlineData(10, 1.1, "loading")]
    [InlineData(10, double.NaN, "loading")]
    public void Impossible_loads_are_refused_by_name(double load, double loading, string name)
    {
        Assert.Equal(name, Assert.Throws<ArgumentOutOfRangeException>(() => FuseRatings.MinimumRating(load, loading)).ParamName);
    }
}
