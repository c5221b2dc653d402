using System.Numerics;
using CsCheck;
using ShopFloor.Engineering.Acoustics.Drivers;
using ShopFloor.Engineering.Acoustics.Enclosures;
using ShopFloor.Engineering.Physics;

namespace ShopFloor.Engineering.Tests.Acoustics;

public class EnclosureGoalTests
{
    private static readonly DriverSheet Sheet = new() { ResonanceHertz = 28, Qes = 0.52, Qms = 6, VasCubicMeters = 0.062, PistonSquareMeters = 0.033, ReOhms = 3.4, LeHenries = 1.2e-3, XmaxMeters = 0.014 };

    private static readonly DriverParameters Driver = DriverCompletion.Complete(Sheet, Air.Standard).Parameters!;

    private static EnclosureGoalInput For(EnclosureGoal goal) => new() { Driver = Sheet, Goal = goal };

    [Fact]
    public void A_Butterworth_Q_asks_for_52_litres()
    {
        // Small (1972), worked by hand: 62 L/((0.7071/0.4785)² − 1) = 52.386 l, fc = f3 = 41.375 Hz.
        var result = EnclosureGoalSearch.Compute(For(new QtcGoal(Math.Sqrt(0.5))));

        Assert.True(result.Reached);
        Assert.Equal(0.052386, result.Box.NetCubicMeters, 5e-7);
        Assert.Equal(41.375, result.Summary.CornerHertz!.Value, 2e-3);
        Assert.Equal(Math.Sqrt(0.5), result.Summary.Qtc!.Value, 9);
        Assert.Equal(0, result.Summary.PeakDecibels, 2e-3);
    }

    [Fact]
    public void A_goal_beyond_the_room_gives_the_nearest_box_and_says_so()
    {
        var small = EnclosureGoalSearch.Compute(For(new QtcGoal(Math.Sqrt(0.5))) with { MostCubicMeters = 0.03 });
        Assert.Equal((false, 0.03), (small.Reached, small.Box.NetCubicMeters));
        Assert.Equal("A Q of 0.707 asks for 52.4 l; there is room for 5 l to 30 l.", Assert.Single(small.Findings).Text.Replace('\u00a0', ' '));

        var low = EnclosureGoalSearch.Compute(For(new QtcGoal(0.45)));
        Assert.Equal("The driver's own Q of 0.479 is not below 0.45: no closed box lowers it.", Assert.Single(low.Findings).Text);
    }

    [Fact]
    public void The_smallest_box_for_a_corner_has_that_corner()
    {
        // Fixture's driver in 24 l: f3 43.802 Hz (closed form of Small, 1972).
        var result = EnclosureGoalSearch.Compute(For(new CornerGoal(43.802)));
        Assert.True(result.Reached);
        Assert.Equal(0.024, result.Box.NetCubicMeters, 2e-5);
        Assert.Equal(43.802, result.Summary.CornerHertz!.Value, 2e-3);

        var never = EnclosureGoalSearch.Compute(For(new CornerGoal(25)));
        Assert.False(never.Reached);
    }

    [Fact]
    public void A_cabin_that_mirrors_the_roll_off_is_flattened_exactly()
    {
        // Qtc = 1/√2 and fc equal to the cabin's corner are flat to 0 Hz: the volume is that of the Q, 52.386 l, with a coil without inductance.
        var corner = 28 * Math.Sqrt(0.5) / Driver.Qts;
        var result = EnclosureGoalSearch.Compute(For(new FlatGoal(false, new CabinLift(corner))) with { Driver = Sheet with { LeHenries = 0 } });

        Assert.Equal(0.052386, result.Box.NetCubicMeters, 2e-5);
        Assert.InRange(result.Summary.RippleDecibels, 0, 1e-3);
    }

    [Fact]
    public void No_vented_box_of_a_fine_grid_is_flatter_than_the_one_found()
    {
        var goal = new FlatGoal(true, new CabinLift(65, 25), 22, 80);
        var found = EnclosureGoalSearch.Compute(For(goal));
        var least = double.MaxValue;
        for (var volume = 0.005; volume <= 0.2; volume *= 1.15)
        {
            for (var tuning = 18.0; tuning <= 60; tuning *= 1.06)
            {
                var box = new VentedBox { NetCubicMeters = volume, TuningHertz = tuning, PortSquareMeters = 0.008, LeakQ = 7 };
                least = Math.Min(least, BoxSummary.Of(Driver, box, Air.Standard, 2.83, (22, 80), goal.Cabin, []).UnevenDecibels);
            }
        }

        Assert.True(found.Summary.UnevenDecibels <= least + 1e-3, $"found {found.Summary.UnevenDecibels}, grid {least}");
    }

    [Fact]
    public void The_largest_box_within_the_excursion_just_keeps_it()
    {
        // In 24 l the cone reaches 14 mm at 29.71 V at its worst frequency (the fixture's circuit): 29.71²/3.4 = 259.6 W into Re.
        var result = EnclosureGoalSearch.Compute(For(new ExcursionGoal(29.71 * 29.71 / 3.4)));

        Assert.True(result.Reached);
        Assert.Equal(0.024, result.Box.NetCubicMeters, 3e-5);
        Assert.Equal(0.014, result.Summary.ExcursionMeters, 1e-5);
        Assert.False(EnclosureGoalSearch.Compute(For(new ExcursionGoal(5_000))).Reached);
    }

    [Fact]
    public void A_high_pass_lets_a_vented_box_be_larger()
    {
        var bare = EnclosureGoalSearch.Compute(For(new ExcursionGoal(150, 32, 10)) with { LeastCubicMeters = 0.01 });
        var held = EnclosureGoalSearch.Compute(For(new ExcursionGoal(150, 32, 10)) with { LeastCubicMeters = 0.01, Filters = [new FilterSection(FilterKind.HighPass, 28), new FilterSection(FilterKind.HighPass, 28)] });

        Assert.True(held.Reached && (!bare.Reached || held.Box.NetCubicMeters > bare.Box.NetCubicMeters));
    }

    // Butterworth sections: −3.0103 dB at f0; 4th-order Linkwitz and Riley (JAES 24, 1976): two of Q 1/√2, −6.0206 dB; bell and shelves by their gain (W3C cookbook).
    [Theory]
    [InlineData(FilterKind.HighPass, 80, 80, 0, -3.0103)]
    [InlineData(FilterKind.LowPass, 80, 80, 0, -3.0103)]
    [InlineData(FilterKind.HighPassFirst, 80, 80, 0, -3.0103)]
    [InlineData(FilterKind.LowPassFirst, 80, 80, 0, -3.0103)]
    [InlineData(FilterKind.HighPass, 80, 40, 0, -12.3045)]
    [InlineData(FilterKind.Bell, 50, 50, 6, 6)]
    [InlineData(FilterKind.Bell, 50, 50_000, 6, 0)]
    [InlineData(FilterKind.LowShelf, 100, 0.1, 4, 4)]
    [InlineData(FilterKind.LowShelf, 100, 100, 4, 2)]
    [InlineData(FilterKind.HighShelf, 100, 1e5, -5, -5)]
    [InlineData(FilterKind.HighShelf, 100, 0.1, -5, 0)]
    public void Sections_have_their_published_gain(FilterKind kind, double at, double hertz, double gain, double decibels) =>
        Assert.Equal(decibels, 20 * Math.Log10(new FilterSection(kind, at, GainDecibels: gain).At(hertz).Magnitude), 1e-3);

    [Fact]
    public void Sections_multiply_and_a_bell_undoes_its_opposite() =>
        Gen.Select(Gen.Double[20, 200], Gen.Double[0.3, 8], Gen.Double[-12, 12], Gen.Double[10, 500]).Sample((at, q, gain, hertz) =>
            (FilteredResponse.Gain([new FilterSection(FilterKind.Bell, at, q, gain), new FilterSection(FilterKind.Bell, at, q, -gain)], hertz) - Complex.One).Magnitude < 1e-9);

    [Fact]
    public void A_filter_acts_on_level_excursion_and_power_alike()
    {
        var points = EnclosureResponse.Over(Driver, new ClosedBox { NetCubicMeters = 0.024 }, Air.Standard, 10, [40, 80]);
        var filtered = FilteredResponse.Of(points, [new FilterSection(FilterKind.HighPass, 40), new FilterSection(FilterKind.HighPass, 40)]);
        // Linkwitz and Riley: half the voltage at the corner; the two leads of 90° make 180°.
        Assert.Equal(points[0].LevelDecibels - 6.0206, filtered[0].LevelDecibels, 4);
        Assert.Equal(points[0].ExcursionMeters / 2, filtered[0].ExcursionMeters, 12);
        Assert.Equal(points[0].Watts / 4, filtered[0].Watts, 12);
        Assert.Equal(180, Math.Abs(Math.IEEERemainder(filtered[0].PhaseDegrees - points[0].PhaseDegrees, 360)), 6);
        Assert.Equal(points[0].ImpedanceOhms, filtered[0].ImpedanceOhms);
    }

    [Fact]
    public void Behind_a_high_pass_the_whole_may_be_driven_harder()
    {
        // 29.71 V at 31.7 Hz without (the fixture's circuit).
        var points = EnclosureResponse.Over(Driver, new ClosedBox { NetCubicMeters = 0.024 }, Air.Standard, 1, EnclosureResponse.LogSpaced(20, 200, 400));
        Assert.Equal(29.71, FilteredResponse.LargestInput(points, 1, [], Driver, new LevelLimits(null))!.Value.Volts, 0.01);
        var held = FilteredResponse.LargestInput(points, 1, [new FilterSection(FilterKind.HighPass, 40)], Driver, new LevelLimits(null))!.Value;
        Assert.True(held.Volts > 35);
        var amplifier = FilteredResponse.LargestInput(points, 1, [], Driver, new LevelLimits(20))!.Value;
        Assert.Equal((20, LevelLimit.Amplifier), (Math.Round(amplifier.Volts, 9), amplifier.Limit));
    }

    [Fact]
    public void Boxes_side_by_side_keep_their_own_numbers()
    {
        // Fixtures: closed 24 l, peak 0.719 dB (Small, 1972); vented 45 l at 32 Hz with QL 7, f3 31.03 Hz and peak 2.34 dB (same circuit without inductance).
        var result = EnclosureComparison.Compute(new EnclosureComparisonInput
        {
            Alternatives =
            [
                new("closed", new EnclosureInput { Driver = Sheet, Box = new ClosedBox { NetCubicMeters = 0.024 }, FromHertz = 20, ToHertz = 200 }),
                new("vented", new EnclosureInput { Driver = Sheet, Box = new VentedBox { NetCubicMeters = 0.045, TuningHertz = 32, PortSquareMeters = Math.PI * 0.05 * 0.05, LeakQ = 7 }, FromHertz = 20, ToHertz = 200 }),
            ],
            LevelsAtHertz = [40],
        });

        Assert.Equal(43.802, result[0].Summary.CornerHertz!.Value, 2e-3);
        Assert.Equal(0.7191, result[0].Summary.PeakDecibels, 2e-3);
        Assert.Equal(31.03, result[1].Summary.CornerHertz!.Value, 0.01);
        Assert.Equal(2.34, result[1].Summary.PeakDecibels, 0.01);
        Assert.Null(result[1].Summary.Qtc);
        // Xmax ends the closed box at 40 Hz: 85.338 dB and 1.3091 mm at 2.83 V by ngspice; 14 mm are 20.58 dB more.
        Assert.Equal(85.338 + 20 * Math.Log10(14 / 1.3091), result[0].Largest[0].LevelDecibels!.Value, 2e-3);
    }

    [Fact]
    public void Bad_input_is_refused_by_name()
    {
        Assert.Equal("Total Q: 5 is not accepted; enter 0.3 to 2.", Assert.Single(For(new QtcGoal(5)).Validate()).Message);
        Assert.Equal("Driver.XmaxMeters", Assert.Single((For(new ExcursionGoal(100)) with { Driver = Sheet with { XmaxMeters = null } }).Validate()).Field);
        Assert.Equal("MostCubicMeters", Assert.Single((For(new QtcGoal(0.7)) with { LeastCubicMeters = 0.3 }).Validate()).Field);
        Assert.Equal("Filters[0].Hertz", Assert.Single((For(new QtcGoal(0.7)) with { Filters = [new FilterSection(FilterKind.Bell, double.NaN)] }).Validate()).Field);
    }
}
