using ShopFloor.Engineering.Tuning.Measurements;

namespace ShopFloor.Engineering.Tests.Tuning;

public class ClockDriftTests
{
    private static readonly ExponentialSweep _sweep = new() { FromHertz = 20, ToHertz = 20_000, Seconds = 5, LevelDecibelsFullScale = -12 };

    /// <summary>The sweep's own formula at stretched times is what a clock that runs otherwise records.</summary>
    [Theory]
    [InlineData(0)]
    [InlineData(50)]
    [InlineData(-120)]
    public void The_difference_that_was_put_in_is_found(double partsPerMillion)
    {
        var rate = _sweep.RateSeconds;
        var recorded = new double[_sweep.Length + 72_000];
        for (var n = 24_000; n < recorded.Length; n++)
        {
            var seconds = (n - 24_000) / 48_000.0 / (1 + partsPerMillion * 1e-6);
            recorded[n] = seconds < 4.99 ? 0.2 * Math.Sin(2 * Math.PI * 20 * rate * (Math.Exp(seconds / rate) - 1)) : 0;
        }

        Assert.Equal(partsPerMillion, ClockDrift.PartsPerMillion(_sweep, recorded)!.Value, 1.0);
    }

    [Fact]
    public void Noise_is_no_loopback()
    {
        var random = new Random(1);
        double[] noise = [.. Enumerable.Range(0, _sweep.Length + 48_000).Select(_ => random.NextDouble() - 0.5)];

        Assert.Null(ClockDrift.PartsPerMillion(_sweep, noise));
        Assert.Null(ClockDrift.PartsPerMillion(_sweep with { Seconds = 0.5 }, noise));
    }
}
