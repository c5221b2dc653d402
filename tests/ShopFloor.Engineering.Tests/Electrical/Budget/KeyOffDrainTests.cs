using CsCheck;
using ShopFloor.Engineering.Electrical.Budget;

namespace ShopFloor.Engineering.Tests.Electrical.Budget;

public class KeyOffDrainTests
{
    private static KeyOffDrainInput Car(double vehicle, params StandbyDraw[] parts) => new()
    {
        Draws = parts,
        VehicleSleepAmperes = vehicle,
        ReserveCapacityMinutes = 100,
    };

    // RC 100 min is 60 Ah (0.6·RC), 40 % of it 24 Ah: 40, 20 and 10 days by hand from 24 Ah / (24 h · I).
    [Theory]
    [InlineData(0.025, 40)]
    [InlineData(0.050, 20)]
    [InlineData(0.100, 10)]
    public void Days_follow_from_the_charge(double amperes, double days) => Assert.Equal(days, KeyOffDrain.Compute(Car(amperes)).DaysToNoStart!.Value, 9);

    [Fact]
    public void Limit_is_a_quarter_of_the_reserve_capacity_in_ma()
    {
        // A vehicle maker's service manual: RC 100 min gives 25 mA.
        Assert.Equal(0.025, KeyOffDrain.Compute(Car(0.01)).LimitAmperes!.Value, 9);
        Assert.Equal(0.080, KeyOffDrain.Compute(Car(0.01) with { MakersLimitAmperes = 0.080 }).LimitAmperes!.Value, 9);
    }

    [Fact]
    public void Sum_above_the_limit_warns_and_names_the_part_that_draws_most()
    {
        var result = KeyOffDrain.Compute(Car(0.010, new StandbyDraw("a", "Processor", 0.005), new StandbyDraw("b", "Camera", 0.016)));

        Assert.Equal(0.031, result.KnownAmperes, 9);
        Assert.Equal("b", result.Dominant!.Id);
        var finding = Assert.Single(result.Findings, f => f.Code == "key-off-drain-above-limit");
        Assert.Contains("Camera", finding.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void Unknown_current_is_listed_and_makes_the_sum_a_lower_bound()
    {
        var result = KeyOffDrain.Compute(Car(0.010, new StandbyDraw("a", "Processor", null)));

        Assert.False(result.IsComplete);
        Assert.Equal(["a"], result.MissingDrawIds);
        Assert.Contains("at most", result.Explanation.Answer, StringComparison.Ordinal);
        Assert.Contains("not complete", result.Explanation.Answer, StringComparison.Ordinal);
    }

    [Fact]
    public void Vehicle_current_that_was_never_measured_is_reported() =>
        Assert.Contains(KeyOffDrain.Compute(Car(0) with { VehicleSleepAmperes = null }).Findings, f => f.Code == "vehicle-sleep-missing");

    [Fact]
    public void Refused_current_names_part_value_and_range()
    {
        var problem = Assert.Single(Car(0, new StandbyDraw("a", "Camera", -1)).Validate());
        Assert.Equal("Draws[0].StandbyAmperes", problem.Field);
        Assert.Contains("Camera", problem.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Another_part_never_gives_more_days() =>
        Gen.Select(Gen.Double[0.001, 1], Gen.Double[0, 1]).Sample((vehicle, part) =>
            KeyOffDrain.Compute(Car(vehicle, new StandbyDraw("a", "Part", part))).DaysToNoStart <= KeyOffDrain.Compute(Car(vehicle)).DaysToNoStart);

    [Fact]
    public void Days_wanted_are_held_against_the_days_there_are()
    {
        // 50 mA: 20 days.
        bool TooLong(double days) => KeyOffDrain.Compute(Car(0.050) with { ParkedDays = days }).Findings.Any(f => f.Code == "parked-too-long");

        Assert.True(TooLong(21));
        Assert.False(TooLong(19));
    }
}
