using ShopFloor.Engineering.Responses;
using ShopFloor.Engineering.Tuning.Analysis;

namespace ShopFloor.Engineering.Tests.Tuning;

/// <summary>Arrival times of responses whose path is known (see <see cref="TuningFixtures"/>; feature times by SciPy on the noise-free response).</summary>
public class ArrivalTests
{
    /// <remarks>One sample at 48 kHz is 0.0208 ms. The midbass holds nothing above 300 Hz, where a tenth of a millisecond is 11°: SciPy's correlation with the known filter is off by 0.09 ms there.</remarks>
    [Theory]
    [InlineData("two_drivers_48k.wav", 0, 1.25, 1.3815, 1.2786, 1.3568, 0.0208)]
    [InlineData("two_drivers_96k.wav", 0, 1.25, 1.3809, 1.2819, 1.3568, 0.0208)]
    [InlineData("two_drivers_48k.wav", 1, 3.40, 4.5521, 3.6927, 4.4310, 0.035)]
    [InlineData("two_drivers_96k.wav", 1, 3.40, 4.5514, 3.6927, 4.4303, 0.035)]
    public void The_path_is_found_behind_the_filters_rise(string file, int channel, double path, double peak, double threshold, double energy, double within)
    {
        var result = Arrival.Compute(new ArrivalInput { Response = Channel(file, channel) });

        Assert.Equal(path, 1e3 * result.Seconds, within);
        Assert.Equal(peak, Milliseconds(result, ArrivalMethod.Peak), 0.02);
        Assert.Equal(threshold, Milliseconds(result, ArrivalMethod.Threshold), 0.02);
        Assert.Equal(energy, Milliseconds(result, ArrivalMethod.Energy), 0.03);
        Assert.Equal(path, Milliseconds(result, ArrivalMethod.Correlation), within);
        Assert.Equal(path, Milliseconds(result, ArrivalMethod.ExcessPhase), within);
        Assert.False(result.IsInverted);
        Assert.Contains(result.Findings, finding => finding.Code == "arrival-peak-late");
    }

    [Theory]
    [InlineData("pair_48k.wav")]
    [InlineData("pair_96k.wav")]
    public void The_difference_of_two_sides_is_found_within_a_hundredth_of_a_millisecond(string file)
    {
        var (left, right) = (Channel(file, 0), Channel(file, 1));

        var against = Arrival.Compute(new ArrivalInput { Response = right, Reference = left });
        var alone = Arrival.Compute(new ArrivalInput { Response = left });

        // 3.40 − 1.25 ms; SciPy's correlation gives 2.1497.
        Assert.Equal(2.15, Milliseconds(against, ArrivalMethod.Reference), 0.01);
        Assert.Equal(2.15, 1e3 * (against.Seconds - alone.Seconds), 0.0208);
        Assert.Equal(1.25, 1e3 * alone.Seconds, 0.0208);
    }

    [Fact]
    public void A_response_upside_down_is_told_and_keeps_its_time()
    {
        var response = Channel("pair_48k.wav", 0);

        var result = Arrival.Compute(new ArrivalInput { Response = response with { Samples = [.. response.Samples.Select(sample => -sample)] } });

        Assert.True(result.IsInverted);
        Assert.Contains(result.Findings, finding => finding.Code == "arrival-inverted");
        Assert.Equal(1.25, 1e3 * result.Seconds, 0.0208);
    }

    /// <summary>A pulse limited to the band, put between samples: every propagation method follows by the part of a sample.</summary>
    [Theory]
    [InlineData(100.0)]
    [InlineData(100.25)]
    [InlineData(100.5)]
    [InlineData(317.9)]
    public void Parts_of_a_sample_are_kept(double delay)
    {
        double[] samples = [.. Enumerable.Range(0, 4_096).Select(n => n == delay ? 1 : Math.Sin(Math.PI * (n - delay)) / (Math.PI * (n - delay)))];

        var result = Arrival.Compute(new ArrivalInput { Response = new ImpulseResponse(48_000, samples), FromHertz = 200, ToHertz = 18_000 });

        Assert.Equal(delay / 48, 1e3 * result.Estimates.First(one => one.Method == ArrivalMethod.Correlation).Seconds, 0.002);
        Assert.Equal(delay / 48, 1e3 * result.Estimates.First(one => one.Method == ArrivalMethod.Peak).Seconds, 0.002);
    }

    [Fact]
    public void Noise_alone_is_called_uncertain()
    {
        var random = new Random(3);
        var result = Arrival.Compute(new ArrivalInput { Response = new ImpulseResponse(48_000, [.. Enumerable.Range(0, 4_096).Select(_ => random.NextDouble() - 0.5)]) });

        Assert.Contains(result.Findings, finding => finding.Code == "arrival-noisy");
    }

    [Fact]
    public void What_cannot_be_timed_is_refused()
    {
        var response = Channel("pair_48k.wav", 0);
        Assert.Contains(new ArrivalInput { Response = response, FromHertz = 500, ToHertz = 400 }.Validate(), problem => problem.Field == "ToHertz");
        Assert.Contains(new ArrivalInput { Response = response, Reference = response with { SampleRateHertz = 44_100 } }.Validate(), problem => problem.Field == "Reference.SampleRateHertz");
        Assert.Throws<ArgumentOutOfRangeException>(() => Arrival.Compute(new ArrivalInput { Response = new ImpulseResponse(48_000, new double[64]) }));
    }

    private static double Milliseconds(ArrivalResult result, ArrivalMethod method) => 1e3 * result.Estimates.First(one => one.Method == method).Seconds;

    private static ImpulseResponse Channel(string file, int channel)
    {
        var sound = TuningFixtures.Wave(file);
        return new ImpulseResponse(sound.SampleRateHertz, sound.Channels[channel]);
    }
}
