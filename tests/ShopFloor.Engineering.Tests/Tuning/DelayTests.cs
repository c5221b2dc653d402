using CsCheck;
using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Physics;
using ShopFloor.Engineering.Tuning.Alignment;

namespace ShopFloor.Engineering.Tests.Tuning;

public class DelayTests
{
    // ISO 9613-1: c = 343.2·√((t + 273.15)/293.15), worked out apart from the program.
    [Theory]
    [InlineData(-20, 318.927)]
    [InlineData(0, 331.286)]
    [InlineData(20, 343.200)]
    [InlineData(25, 346.115)]
    [InlineData(40, 354.714)]
    public void The_speed_of_sound_follows_the_temperature(double celsius, double speed) => Assert.Equal(speed, Air.At(celsius).SpeedMetersPerSecond, 6e-4);

    // By hand at 343.2 m/s: (2.10 − 1.05)/343.2 = 3.0594 ms and (2.10 − 1.45)/343.2 = 1.8939 ms; in samples of 48 kHz 146.85 → 147 and 90.91 → 91.
    [Fact]
    public void Near_drivers_wait_for_the_farthest_on_whole_samples()
    {
        var result = Delays.Compute(Distances(1.05, 1.45, 2.10));
        Assert.Equal([147, 91, 0], result.Delays.Select(delay => Math.Round(delay.DelaySamples, 9)));
        Assert.Equal([3.0594, 1.8939, 0], result.Delays.Select(delay => Math.Round(delay.ExactSeconds * 1e3, 4)));
        Assert.Equal(105.105, result.Delays[0].DelayMeters * 100, 1e-3);
        Assert.Equal("d2 arrives last and gets none; the others wait for it, at most 3.062 ms.", result.Explanation.Answer.Replace('\u00a0', ' '));
        Assert.True(result.Explanation.Limits.Single().Passed);
    }

    [Fact]
    public void Measured_arrivals_go_before_distances_and_a_gap_between_them_is_told()
    {
        var input = new DelayInput
        {
            Drivers =
            [
                // 5 ms of latency on all; the subwoofer measured 4 ms late by its low-pass.
                new("l", "Left", 1.0298, 0.005 + 0.003), new("r", "Right", 1.3728, 0.005 + 0.004), new("sub", "Subwoofer", 1.716, 0.005 + 0.009),
            ],
        };
        var result = Delays.Compute(input);
        Assert.Equal([0.006, 0.005, 0], result.Delays.Select(delay => Math.Round(delay.ExactSeconds, 9)));
        Assert.Equal("sub", Assert.Single(result.Findings, finding => finding.Code == "arrival-unlike-distance").SubjectId);
    }

    [Fact]
    public void Everything_arrives_together_within_half_a_step() =>
        Gen.Double[0.05, 3].Array[2, 12].Sample(meters =>
        {
            var result = Delays.Compute(Distances(meters));
            var arrivals = result.Delays.Select(delay => delay.ArrivalSeconds + delay.DelaySeconds).ToList();
            return arrivals.Max() - arrivals.Min() <= 1 / 48_000.0 + 1e-12 && result.Delays.Min(delay => delay.DelaySeconds) == 0
                && result.Delays.All(delay => Math.Abs(Math.IEEERemainder(delay.DelaySamples, 1)) < 1e-6);
        });

    [Fact]
    public void Rear_fill_comes_later_by_its_lag_and_does_not_hold_the_front_up()
    {
        var input = Distances(1.0, 1.5) with { Drivers = [.. Distances(1.0, 1.5).Drivers, new("rear", "Rear", 2.5, null, true)] };
        var result = Delays.Compute(input with { MaximumDelaySeconds = 0.05 });
        Assert.Equal(0, result.Delays[1].DelaySeconds); // the farthest of the front, though the rear is farther
        Assert.Equal(0.015, result.Delays[2].ArrivalSeconds + result.Delays[2].DelaySeconds - result.Delays[1].ArrivalSeconds, 1e-5);
        Assert.Equal(("rear-fill", RearFill.Words), (result.Findings.Single().Code, result.Findings.Single().Text));
        Assert.Equal("rear-fill-lag", Delays.Compute(input with { MaximumDelaySeconds = 0.05, RearFillLagSeconds = 0.025 }).Findings.Single().Code);
        Assert.Equal("rear-fill-echo", Delays.Compute(input with { MaximumDelaySeconds = 0.05, RearFillLagSeconds = 0.04 }).Findings.Single().Code);
    }

    [Fact]
    public void A_delay_the_processor_does_not_have_stops()
    {
        var finding = Assert.Single(Delays.Compute(Distances(0.5, 3) with { MaximumDelaySeconds = 0.005 }).Findings);
        Assert.Equal(("delay-too-long", Severity.Stop, "d0"), (finding.Code, finding.Severity, finding.SubjectId));
    }

    [Fact]
    public void What_is_missing_is_named()
    {
        Assert.Equal("Drivers[1].DistanceMeters", Assert.Single((Distances(1) with { Drivers = [new("a", "A", 1), new("b", "B")] }).Validate()).Field);
        Assert.Equal("Drivers[1].ArrivalSeconds", Assert.Single((Distances(1) with { Drivers = [new("a", "A", 1, 0.004), new("b", "B", 2)] }).Validate()).Field);
        Assert.Equal("AirCelsius", Assert.Single((Distances(1) with { AirCelsius = 90 }).Validate()).Field);
        Assert.Equal("Drivers", Assert.Single((Distances(1) with { Drivers = [new("a", "A", 1, null, true)] }).Validate()).Field);
    }

    private static DelayInput Distances(params double[] meters) => new() { Drivers = [.. meters.Select((way, n) => new DelayDriver($"d{n}", $"d{n}", way))] };
}
