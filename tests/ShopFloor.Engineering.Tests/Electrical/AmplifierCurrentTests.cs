using System.Globalization;
using CsCheck;
using ShopFloor.Engineering.Electrical;

namespace ShopFloor.Engineering.Tests.Electrical;

public class AmplifierCurrentTests
{
    private static AmplifierCurrentInput Amplifier(
        AmplifierClass amplifierClass, double watts, double? efficiency, double volts, double crest = 12, double? idle = 0) => new()
    {
        Name = "Amplifier",
        RatedOutputWatts = watts,
        Class = amplifierClass,
        FullPowerEfficiency = efficiency,
        SupplyVolts = volts,
        CrestFactorDecibels = crest,
        IdleAmperes = idle,
    };

    // Definition of crest factor; a sine has 10·log10(2) dB. Values computed by hand to four digits.
    [Theory]
    [InlineData(12, 0.1262)]
    [InlineData(10, 0.2000)]
    [InlineData(7.78, 0.3334)]
    [InlineData(3.0103, 1)]
    [InlineData(3.01, 1)]
    public void Music_power_follows_from_the_crest_factor(double decibels, double fraction)
    {
        Assert.Equal(fraction, AmplifierCurrent.PowerFraction(decibels), 0.0001);
    }

    [Fact]
    public void Class_ab_of_300_w_at_half_efficiency_draws_43_48_a_from_13_8_v()
    {
        // 300 / (0.5 · 13.8) = 43.478; class B law at one third power: 43.478 · √(1/3) = 25.10.
        var result = AmplifierCurrent.Compute(Amplifier(AmplifierClass.AB, 300, 0.5, 13.8, crest: 3.0103 + 10 * Math.Log10(3)));

        Assert.Equal(43.48, result.Rated.CurrentAmperes, 0.01);
        Assert.Equal(25.10, result.Music.CurrentAmperes, 0.01);
    }

    [Theory]
    [InlineData(3.0, 28.94)] // one third: 86.81 / 3
    [InlineData(8.0, 10.85)] // one eighth: 86.81 / 8
    public void Class_d_of_1000_w_keeps_its_efficiency_below_full_power(double divisor, double amperes)
    {
        var result = AmplifierCurrent.Compute(Amplifier(AmplifierClass.D, 1000, 0.8, 14.4, crest: 3.0103 + 10 * Math.Log10(divisor)));

        Assert.Equal(86.81, result.Rated.CurrentAmperes, 0.01);
        Assert.Equal(amperes, result.Music.CurrentAmperes, 0.01);
    }

    [Fact]
    public void Constant_efficiency_would_understate_class_ab_at_one_eighth_power_2_83_times()
    {
        // Class B theory: current goes with √f, so the ratio to a constant-efficiency model is √f / f = √8.
        var result = AmplifierCurrent.Compute(Amplifier(AmplifierClass.AB, 400, 0.55, 13.8, crest: 3.0103 + 10 * Math.Log10(8)));
        var atConstantEfficiency = result.Music.OutputWatts / (0.55 * 13.8);

        Assert.Equal(2.828, result.Music.CurrentAmperes / atConstantEfficiency, 0.001);
        Assert.Equal(0.354, result.Music.CurrentAmperes / result.Rated.CurrentAmperes, 0.001);
    }

    // (π/4)·√f: 27.8 % at one eighth and 45.3 % at one third power.
    [Theory]
    [InlineData(8.0, 0.278)]
    [InlineData(3.0, 0.453)]
    public void Class_ab_with_the_ideal_efficiency_reproduces_class_b_theory(double divisor, double efficiency)
    {
        var result = AmplifierCurrent.Compute(Amplifier(AmplifierClass.AB, 100, Math.PI / 4, 12, crest: 3.0103 + 10 * Math.Log10(divisor)));

        Assert.Equal(efficiency, result.Music.Efficiency, 0.0005);
    }

    [Fact]
    public void Class_a_draws_and_heats_the_same_with_and_without_music()
    {
        var result = AmplifierCurrent.Compute(Amplifier(AmplifierClass.A, 50, null, 12.5));

        // 50 / (0.25 · 12.5) = 16 A = 200 W.
        Assert.Equal(16, result.Rated.CurrentAmperes, 9);
        Assert.Equal(16, result.Music.CurrentAmperes, 9);
        Assert.Equal(16, result.Idle.CurrentAmperes, 9);
        Assert.Equal(200, result.Idle.HeatWatts, 9);
        Assert.Equal(150, result.Rated.HeatWatts, 9);
    }

    [Fact]
    public void Stepped_rails_are_never_given_less_current_than_a_switching_stage_of_the_same_efficiency()
    {
        var stepped = AmplifierCurrent.Compute(Amplifier(AmplifierClass.GH, 600, 0.65, 13.8));
        var switching = AmplifierCurrent.Compute(Amplifier(AmplifierClass.D, 600, 0.65, 13.8));

        Assert.Equal(switching.Rated.CurrentAmperes, stepped.Rated.CurrentAmperes, 9);
        Assert.True(stepped.Music.CurrentAmperes > switching.Music.CurrentAmperes);
    }

    [Theory]
    [InlineData(AmplifierClass.A, 0.25)]
    [InlineData(AmplifierClass.AB, 0.50)]
    [InlineData(AmplifierClass.D, 0.80)]
    [InlineData(AmplifierClass.GH, 0.65)]
    public void Defaults_are_used_when_nothing_is_entered_and_say_where_they_come_from(AmplifierClass amplifierClass, double efficiency)
    {
        var result = AmplifierCurrent.Compute(Amplifier(amplifierClass, 500, null, 13.8, idle: null));

        Assert.Equal(efficiency, result.FullPowerEfficiency);
        Assert.StartsWith("default: ", result.EfficiencyOrigin, StringComparison.Ordinal);
        Assert.Contains(result.Explanation.Inputs, i => i.Name == "Efficiency at rated output" && i.Origin == result.EfficiencyOrigin);
    }

    [Fact]
    public void Idle_current_is_added_at_every_level_and_is_all_heat_at_idle()
    {
        var without = AmplifierCurrent.Compute(Amplifier(AmplifierClass.D, 500, 0.8, 14, idle: 0));
        var with = AmplifierCurrent.Compute(Amplifier(AmplifierClass.D, 500, 0.8, 14, idle: 2));

        Assert.Equal(2, with.Rated.CurrentAmperes - without.Rated.CurrentAmperes, 9);
        Assert.Equal(2, with.Music.CurrentAmperes - without.Music.CurrentAmperes, 9);
        Assert.Equal(28, with.Idle.HeatWatts, 9);
        Assert.Equal(0, without.Idle.CurrentAmperes);
    }

    [Fact]
    public void An_efficiency_above_theory_is_pointed_out()
    {
        Assert.Contains(
            AmplifierCurrent.Compute(Amplifier(AmplifierClass.AB, 100, 0.85, 13.8)).Findings, f => f.Code == "efficiency-above-theory");
        Assert.Empty(AmplifierCurrent.Compute(Amplifier(AmplifierClass.D, 100, 0.85, 13.8)).Findings);
    }

    [Fact]
    public void Energy_balances_and_current_rises_with_level_for_every_class()
    {
        Gen.Select(Gen.Enum<AmplifierClass>(), Gen.Double[1, 5000], Gen.Double[0.05, 0.98], Gen.Double[9, 15], Gen.Double[3.01, 30], Gen.Double[0, 5])
            .Sample((amplifierClass, watts, efficiency, volts, crest, idle) =>
            {
                var r = AmplifierCurrent.Compute(Amplifier(amplifierClass, watts, efficiency, volts, crest, idle));
                foreach (var level in new[] { r.Rated, r.Music, r.Idle })
                {
                    Assert.Equal(level.SupplyWatts, level.OutputWatts + level.HeatWatts, 1e-9 * (1 + level.SupplyWatts));
                    Assert.True(level.HeatWatts >= 0, "an amplifier cannot give out more than it takes");
                }

                Assert.True(r.Idle.CurrentAmperes <= r.Music.CurrentAmperes && r.Music.CurrentAmperes <= r.Rated.CurrentAmperes);
            });
    }

    [Theory]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    [InlineData(-5.0)]
    [InlineData(0.0)]
    [InlineData(1e9)]
    public void Absurd_power_is_refused_naming_the_field_and_the_range(double watts)
    {
        var input = Amplifier(AmplifierClass.D, watts, 0.8, 13.8);

        var problem = Assert.Single(input.Validate());
        Assert.Equal("RatedOutputWatts", problem.Field);
        Assert.Contains("1\u00a0W to 20\u00a0000\u00a0W", problem.Message, StringComparison.Ordinal);
        Assert.Equal("RatedOutputWatts", Assert.Throws<ArgumentOutOfRangeException>(() => AmplifierCurrent.Compute(input)).ParamName);
    }

    [Fact]
    public void Every_field_is_checked_and_the_message_carries_the_value()
    {
        var input = Amplifier((AmplifierClass)99, -1, 1.2, 60, crest: 1, idle: -3);

        var problems = input.Validate();

        Assert.Equal(
            ["Class", "CrestFactorDecibels", "FullPowerEfficiency", "IdleAmperes", "RatedOutputWatts", "SupplyVolts"],
            problems.Select(p => p.Field).Order(StringComparer.Ordinal));
        Assert.Equal("Amplifier, supply voltage: 60\u00a0V is not accepted; enter 6\u00a0V to 49.9\u00a0V.", problems.Single(p => p.Field == "SupplyVolts").Message);
    }

    [Fact]
    public void Texts_follow_the_reader()
    {
        var german = new Engineering.Units.UnitText(Engineering.Units.UnitSystem.Metric, CultureInfo.GetCultureInfo("de-DE"));

        Assert.Contains("43,5", AmplifierCurrent.Compute(Amplifier(AmplifierClass.AB, 300, 0.5, 13.8), german).Explanation.Answer, StringComparison.Ordinal);
    }
}
