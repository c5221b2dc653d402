using CsCheck;
using ShopFloor.Engineering.Electrical;
using ShopFloor.Engineering.Electrical.Budget;
using ShopFloor.Engineering.Explained;

namespace ShopFloor.Engineering.Tests.Electrical.Budget;

public class AlternatorBudgetTests
{
    private static AlternatorBudgetInput Rated(double amperes, double added, double vehicle = 35) => new()
    {
        RatedAmperes = amperes,
        VehicleBaseAmperes = vehicle,
        Loads = [new MusicLoad("a", "Amplifier", added)],
    };

    // Form of the rating: SAE J56 / ISO 8854.
    [Theory]
    [InlineData("50/120 A 13.5 V", 50, 120, 13.5)]
    [InlineData("70/140A 14V", 70, 140, 14)]
    [InlineData("45/90 A 13,5 V", 45, 90, 13.5)]
    public void Label_rating_is_read(string label, double low, double rated, double volts)
    {
        Assert.Equal(new AlternatorRating(low, rated, volts), AlternatorRating.Parse(label));
    }

    [Theory]
    [InlineData("120 A")]
    [InlineData("140/70 A 14 V")]
    [InlineData("")]
    [InlineData(null)]
    public void Text_that_is_no_label_rating_is_refused(string? label) => Assert.Null(AlternatorRating.Parse(label));

    [Fact]
    public void Rating_alone_gives_four_tenths_at_idle()
    {
        // By hand: 0.4 · 120 = 48; 48 − 35 = 13 left; with 20 A of music 7 short.
        Assert.Equal(48, AlternatorBudget.Compute(Rated(120, 0)).Idle.AvailableAmperes, 9);
        Assert.Equal(13, AlternatorBudget.Compute(Rated(120, 0)).Idle.SurplusAmperes, 9);
        var result = AlternatorBudget.Compute(Rated(120, 20));
        Assert.Equal(-7, result.Idle.SurplusAmperes, 9);
        Assert.Contains(result.Findings, f => f.Code == "alternator-deficit-idle" && f.Severity == Severity.Note);
    }

    [Fact]
    public void Label_rating_is_met_at_its_two_test_speeds()
    {
        var input = Rated(120, 0) with { StampedRating = "50/120 A 13.5 V", HotFraction = 1, PulleyRatio = 2, IdleEngineRpm = 750, CruiseEngineRpm = 3000 };

        var result = AlternatorBudget.Compute(input);

        Assert.Equal(50, result.Idle.AvailableAmperes, 9);
        Assert.Equal(120, result.Cruise.AvailableAmperes, 9);
    }

    [Fact]
    public void Published_hot_curve_is_followed_between_its_points()
    {
        // A marine engine maker's technical data, 50 A unit hot: 16 A at 1300, 41 A at 2500, 48 A at 5000 rpm, pulley 1.78 : 1.
        var input = new AlternatorBudgetInput
        {
            Curve = [new(1300, 16), new(2500, 41), new(5000, 48)],
            CurveIsHot = true,
            PulleyRatio = 1.78,
            IdleEngineRpm = 1300 / 1.78,
            CruiseEngineRpm = 5000 / 1.78,
            VehicleBaseAmperes = 0,
            Loads = [],
        };

        var result = AlternatorBudget.Compute(input);

        Assert.Equal(16, result.Idle.AvailableAmperes, 9);
        Assert.Equal(48, result.Cruise.AvailableAmperes, 9);
        // Halfway from 1300 to 2500 rpm: (16 + 41) / 2.
        Assert.Equal(28.5, AlternatorPoint.OutputAmperes(input.Curve, 1900), 9);
        Assert.Equal(0, AlternatorPoint.OutputAmperes(input.Curve, 900));
        Assert.Equal(48, AlternatorPoint.OutputAmperes(input.Curve, 9000));
    }

    [Fact]
    public void Deficit_drains_and_surplus_fills_the_battery()
    {
        // By hand: −7 A of 70 Ah is −10 %/h; cruise 0.85·120 − 55 = 47 A, stored 0.85 of it: 57.07 %/h.
        var result = AlternatorBudget.Compute(Rated(120, 20) with { BatteryAmpereHours = 70 });

        Assert.Equal(-10, result.Idle.DriftPercentPerHour!.Value, 9);
        Assert.Equal(57.07, result.Cruise.DriftPercentPerHour!.Value, 0.01);
    }

    [Fact]
    public void Unknown_load_is_listed_and_not_counted_as_zero()
    {
        var result = AlternatorBudget.Compute(Rated(120, 5) with { Loads = [new("a", "Amplifier", 5), new("b", "Lights", null)] });

        Assert.Equal(["b"], result.MissingLoadIds);
        Assert.Contains(result.Findings, f => f.SubjectId == "b");
    }

    [Fact]
    public void Short_at_cruise_warns() =>
        Assert.Contains(AlternatorBudget.Compute(Rated(60, 60)).Findings, f => f.Code == "alternator-deficit-cruise" && f.Severity == Severity.Warn);

    [Fact]
    public void Nothing_known_about_the_alternator_is_refused()
    {
        var problem = Assert.Single(new AlternatorBudgetInput { Loads = [] }.Validate());
        Assert.Equal("RatedAmperes", problem.Field);
        Assert.Throws<ArgumentOutOfRangeException>(() => AlternatorBudget.Compute(new AlternatorBudgetInput { Loads = [] }));
    }

    [Fact]
    public void Curve_with_falling_speed_is_refused() =>
        Assert.Equal("Curve[1].AlternatorRpm", Assert.Single((Rated(100, 0) with { Curve = [new(2000, 10), new(1500, 20)] }).Validate()).Field);

    [Fact]
    public void More_music_never_leaves_more_current() =>
        Gen.Select(Gen.Double[10, 1000], Gen.Double[0, 500], Gen.Double[0, 500]).Sample((rated, music, more) =>
            AlternatorBudget.Compute(Rated(rated, music + more)).Idle.SurplusAmperes <= AlternatorBudget.Compute(Rated(rated, music)).Idle.SurplusAmperes + 1e-9);

    [Fact]
    public void Below_the_first_point_the_output_falls_to_nothing_at_cut_in()
    {
        // Halfway from 1000 to 1500 1/min: half of 50 A.
        var points = AlternatorRating.Parse("50/120 A 13.5 V")!.Points;

        Assert.Equal(25, AlternatorPoint.OutputAmperes(points, 1250), 9);
        Assert.Equal(0, AlternatorPoint.OutputAmperes(points, 1000), 9);
    }

    [Fact]
    public void Hot_share_is_taken_off_a_cold_curve_only()
    {
        var curve = new AlternatorPoint[] { new(1500, 50), new(6000, 120) };
        double Idle(bool hot) => AlternatorBudget.Compute(Rated(120, 0) with { Curve = curve, CurveIsHot = hot, PulleyRatio = 2, IdleEngineRpm = 750 }).Idle.AvailableAmperes;

        Assert.Equal(50, Idle(hot: true), 9);
        Assert.Equal(42.5, Idle(hot: false), 9);
    }

    [Fact]
    public void Budget_and_plan_refuse_the_same_speeds_and_curve_in_the_same_words()
    {
        var curve = new AlternatorPoint[] { new(1500, 50), new(1400, 1200) };
        var budget = Rated(120, 0) with { Curve = curve, PulleyRatio = 0.9, IdleEngineRpm = 200, CruiseEngineRpm = 9000 };
        var output = new AlternatorOutput { HotCurve = curve, PulleyRatio = 0.9, IdleEngineRpm = 200, CruiseEngineRpm = 9000, Origin = "entered" };
        var plan = Plans.Of(Plans.Fixed("a", 60)) with { Alternator = new AlternatorData { RatedAmperes = 120, Output = output } };

        var words = plan.Validate().Select(problem => problem.Message).Order(StringComparer.Ordinal).ToList();

        Assert.Equal(5, words.Count);
        Assert.Equal(words, budget.Validate().Select(problem => problem.Message).Order(StringComparer.Ordinal));
    }

    [Fact]
    public void Straight_lines_stay_below_a_published_curve()
    {
        // The same marine unit by its first and last point only: 26.4 A at 2500 1/min where it gave 41 A. The rating form errs on the low side.
        Assert.True(AlternatorPoint.OutputAmperes([new(1300, 16), new(5000, 48)], 2500) < 41);
    }
}
