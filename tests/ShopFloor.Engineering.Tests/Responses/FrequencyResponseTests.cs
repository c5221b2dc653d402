using System.Numerics;
using ShopFloor.Engineering.Responses;

namespace ShopFloor.Engineering.Tests.Responses;

/// <summary>The record every measurement, filter and target is kept in.</summary>
public class FrequencyResponseTests
{
    [Fact]
    public void Between_points_level_goes_straight_over_log_frequency()
    {
        var response = new FrequencyResponse([100, 1_000], [0, 20], null);

        // 316.23 Hz is half a decade: half of 20 dB.
        Assert.Equal(10, response.DecibelsAt(100 * Math.Sqrt(10)), 1e-9);
        Assert.Equal(0, response.DecibelsAt(20));
        Assert.Equal(20, response.DecibelsAt(20_000));
        Assert.Equal(0, (new Complex(10, 0) - response.At(1_000)).Magnitude, 1e-12);
        Assert.True(response.Covers(100) && !response.Covers(99));
    }

    [Fact]
    public void Phase_goes_the_shorter_way_round()
    {
        var response = new FrequencyResponse([100, 1_000], [0, 0], [3.0, -3.0]);

        // From 3 up to −3 + 2π = 3.2832: half way is π.
        Assert.Equal(Math.PI, response.PhaseAt(100 * Math.Sqrt(10)), 1e-9);
    }

    [Theory]
    [InlineData(new[] { 100.0 }, new[] { 0.0 }, null, "Hertz")]
    [InlineData(new[] { 100.0, 100 }, new[] { 0.0, 0 }, null, "Hertz[1]")]
    [InlineData(new[] { 100.0, -5 }, new[] { 0.0, 0 }, null, "Hertz[1]")]
    [InlineData(new[] { 100.0, 200 }, new[] { 0.0 }, null, "Decibels")]
    [InlineData(new[] { 100.0, 200 }, new[] { 0.0, double.NaN }, null, "Decibels[1]")]
    [InlineData(new[] { 100.0, 200 }, new[] { 0.0, 0 }, new[] { 1.0 }, "PhaseRadians")]
    [InlineData(new[] { 100.0, 200 }, new[] { 0.0, 0 }, new[] { 1.0, double.PositiveInfinity }, "PhaseRadians[1]")]
    public void What_cannot_be_used_is_named(double[] hertz, double[] decibels, double[]? phase, string field) =>
        Assert.Contains(new FrequencyResponse(hertz, decibels, phase).Validate(), problem => problem.Field == field);

    [Fact]
    public void A_good_response_has_no_problems()
    {
        Assert.Empty(new FrequencyResponse([20, 20_000], [90, 80], [0, -1]).Validate());
        Assert.Empty(new ImpulseResponse(48_000, [.. Enumerable.Range(0, 16).Select(n => (double)n)]).Validate());
        Assert.Contains(new ImpulseResponse(48_000, new double[16]).Validate(), problem => problem.Message.Contains("all are 0", StringComparison.Ordinal));
        Assert.Contains(new ImpulseResponse(48_000, [.. Enumerable.Repeat(double.NaN, 16)]).Validate(), problem => problem.Field == "Samples[0]");
    }
}
