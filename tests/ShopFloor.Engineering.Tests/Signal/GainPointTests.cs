using CsCheck;
using ShopFloor.Engineering.Signal.Levels;
using ShopFloor.Engineering.Signal.Loads;

namespace ShopFloor.Engineering.Tests.Signal;

/// <summary>Levels as values to measure. Voltages are worked by Ohm's law, limits by the definition of the decibel.</summary>
public class GainPointTests
{
    // 60 W into 4 Ω over 0.02 Ω of cable: 15.569 V. Half a decibel is a factor of 1.05925: 14.698 V to 16.492 V, outward to the hundredth.
    [Fact]
    public void Target_and_limits_follow_from_power_load_and_tolerance()
    {
        var point = Point("load-mid-l");

        Assert.Equal(15.569, point.Step.TargetVolts, 3);
        Assert.Equal((14.69, 16.50), (point.LowestVolts, point.HighestVolts));
        // The amplifier has 75 W into 4 Ω: at 4.02 Ω it gives √300 V · 4.02/(4.02 + Ri) – close to √300 = 17.32 V; the driver bears 60 W.
        Assert.Equal(17.3, point.ClipVolts!.Value, 0.1);
        Assert.Equal(15.569, point.DriverVolts!.Value, 3);
        Assert.All(point.Explanation.Limits, limit => Assert.True(limit.Passed));
    }

    // Where the driver bears less than the amplifier has, the driver is what a high level hurts; 40 W are wanted of a driver that bears 50 W.
    [Theory]
    [InlineData("load-mid-l", 15.57, GainVerdict.Within)]
    [InlineData("load-mid-l", 14.68, GainVerdict.TooLow)]
    [InlineData("load-mid-l", 16.51, GainVerdict.Overpowers)]
    [InlineData("load-mid-l", 0, GainVerdict.TooLow)]
    [InlineData("load-tweeter-l", 13.6, GainVerdict.TooHigh)] // √(40/4)·4.02 = 12.71 V wanted, √(50/4)·4.02 = 14.21 V borne
    [InlineData("load-tweeter-l", 14.3, GainVerdict.Overpowers)]
    [InlineData("load-bass-l", 18.5, GainVerdict.Clips)] // 75 W of the amplifier, 100 W borne
    public void A_level_is_judged_by_what_it_would_do(string channel, double volts, GainVerdict verdict) => Assert.Equal(verdict, Point(channel).Judge(volts));

    // 20·log10(2) = 6.0206 dB.
    [Fact]
    public void The_distance_is_told_in_decibels_and_silence_has_none()
    {
        var point = Point("load-mid-l");

        Assert.Equal(6.0206, point.Decibels(2 * point.Step.TargetVolts)!.Value, 4);
        Assert.Equal(-6.0206, point.Decibels(point.Step.TargetVolts / 2)!.Value, 4);
        Assert.Null(point.Decibels(0));
    }

    [Fact]
    public void A_tolerance_outside_its_range_is_refused()
    {
        var channels = SignalLevels.Compute(SamplePath.Good());

        Assert.Throws<ArgumentOutOfRangeException>(() => GainPoints.Of(channels, 0));
        Assert.Throws<ArgumentOutOfRangeException>(() => GainPoints.Of(channels, 3.1));
    }

    [Fact]
    public void A_wider_tolerance_never_accepts_less_and_the_target_is_always_accepted() =>
        Gen.Select(Gen.Double[0.1, 1.5], Gen.Double[1, 2]).Sample((tolerance, wider) =>
        {
            var channels = SignalLevels.Compute(SamplePath.Good());
            return GainPoints.Of(channels, tolerance).Zip(GainPoints.Of(channels, tolerance * wider)).All(pair =>
                pair.Second.LowestVolts <= pair.First.LowestVolts && pair.Second.HighestVolts >= pair.First.HighestVolts && pair.First.Judge(pair.First.Step.TargetVolts) == GainVerdict.Within);
        }, iter: 30);

    // Ohm's law and Joule's law as printed in any table of audio power: P = V²/R.
    [Theory]
    [InlineData(100, 4, 20)]
    [InlineData(50, 4, 14.142)]
    [InlineData(75, 4, 17.321)]
    [InlineData(100, 8, 28.284)]
    [InlineData(1, 8, 2.828)]
    [InlineData(500, 2, 31.623)]
    [InlineData(1000, 1, 31.623)]
    public void The_volts_of_a_power_are_those_of_the_tables(double watts, double ohms, double volts) =>
        Assert.Equal(volts, AvailablePower.Volts([new RatedPower(ohms, watts)], ohms)!.Value, 3);

    // CTA-2006-B states amplifier noise against 1 W into 4 Ω: 2 V. 80 dB below are 0.2 mV; of the same amplifier stated against 100 W into 4 Ω (20 V) it is 100 dB.
    [Fact]
    public void Noise_against_one_watt_is_20_decibels_less_than_against_100_watts() =>
        Assert.Equal(20, DecibelLevels.OfRatio(AvailablePower.Volts([new RatedPower(4, 100)], 4)!.Value / AvailablePower.Volts([new RatedPower(4, 1)], 4)!.Value), 9);

    private static GainPoint Point(string channel) => GainPoints.Of(SignalLevels.Compute(SamplePath.Good())).Single(point => point.ChannelId == channel);
}
