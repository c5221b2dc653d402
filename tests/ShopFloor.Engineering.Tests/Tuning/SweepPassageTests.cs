using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Tuning.Measurements;
using ShopFloor.Engineering.Tuning.Simulation;

namespace ShopFloor.Engineering.Tests.Tuning;

/// <summary>Which sweep a recording holds and which of its channels is the loopback, told from invented loudspeakers in an invented cabin; the truth is what was played to them.</summary>
public class SweepPassageTests
{
    private static readonly (double From, double To, SimulatedDriver Driver)[] _channels =
        [(25, 1_000, Driver(27, 220)), (60, 20_000, Driver(62, 5_500)), (120, 20_000, Driver(100, 15_000)), (250, 20_000, Driver(210, 9_000)), (2_000, 20_000, Driver(1_300, 24_000))];

    private static readonly ExponentialSweep[] _offered =
        [.. _channels.SelectMany(channel => new[] { 5.0, 10, 20, 40 }.Select(seconds => new ExponentialSweep { FromHertz = channel.From, ToHertz = channel.To, Seconds = seconds, LevelDecibelsFullScale = -20 }))];

    public static IEnumerable<object[]> Played => from channel in Enumerable.Range(0, _channels.Length) from seconds in new[] { 5.0, 10, 20 } select new object[] { channel, seconds };

    /// <summary>Noise of −50 dB full scale below a recording of about −20; L = T/ln(f2/f1) (Farina, AES 108, 2000).</summary>
    [Theory]
    [MemberData(nameof(Played))]
    public void Each_sweep_on_offer_is_told_from_every_other_by_what_was_recorded(int channel, double seconds)
    {
        var (from, to, driver) = _channels[channel];
        var played = _offered.Single(sweep => (sweep.FromHertz, sweep.ToHertz, sweep.Seconds) == (from, to, seconds));
        var (microphone, _) = driver.Record(played, null, 0.3, 0, -50, channel);

        var heard = SweepPassage.Of(microphone, 48_000);

        Assert.NotNull(heard);
        Assert.Equal(played.RateSeconds, heard.RateSeconds, 0.01 * played.RateSeconds);
        Assert.Same(played, SweepPassage.Among(heard, _offered));
        Assert.All(_offered, sweep => Assert.Equal(sweep == played, heard.Fits(sweep)));
    }

    [Theory]
    [InlineData(10, 60, 20_000, false)]
    [InlineData(5, 60, 20_000, true)] // half the length
    [InlineData(10, 120, 20_000, true)] // another beginning
    [InlineData(10, 60, 10_000, true)] // another end
    public void A_recording_read_with_another_sweep_than_was_played_is_stopped(double seconds, double from, double to, bool stopped)
    {
        var played = new ExponentialSweep { FromHertz = 60, Seconds = 10, LevelDecibelsFullScale = -20 };
        var (microphone, _) = Driver(62, 5_500).Record(played, null, 0.02, 0, -60, 3);

        var read = SweepDeconvolution.Compute(new SweepRecording { Sweep = played with { FromHertz = from, ToHertz = to, Seconds = seconds }, Recorded = microphone });

        Assert.Equal(stopped, read.Findings.Any(finding => finding is { Code: "sweep-other", Severity: Severity.Stop }));
    }

    [Fact]
    public void Noise_silence_and_a_steady_tone_hold_no_sweep()
    {
        var random = new Random(1);

        Assert.Null(SweepPassage.Of([.. Enumerable.Range(0, 240_000).Select(_ => random.NextDouble() - 0.5)], 48_000));
        Assert.Null(SweepPassage.Of([.. Enumerable.Range(0, 240_000).Select(n => Math.Sin(2 * Math.PI * 440 * n / 48_000))], 48_000));
        Assert.Null(SweepPassage.Of(new double[240_000], 48_000));
    }

    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    [InlineData(4)]
    public void The_loopback_is_the_channel_that_returns_the_sweep_as_one_pulse(int channel)
    {
        var (from, to, driver) = _channels[channel];
        var sweep = new ExponentialSweep { FromHertz = from, ToHertz = to, Seconds = 5, LevelDecibelsFullScale = -20 };
        var (microphone, loopback) = driver.Record(sweep, null, 0.3, 0, -50, 1);
        var (other, _) = driver.Record(sweep, null, 0.301, -3, -50, 2);

        Assert.Equal(1, LoopbackGuess.Of(sweep, [microphone, loopback]).Channel);
        Assert.Equal(0, LoopbackGuess.Of(sweep, [loopback, microphone]).Channel);
        Assert.Null(LoopbackGuess.Of(sweep, [microphone, other]).Channel);
        Assert.Null(LoopbackGuess.Of(sweep, [microphone, new double[microphone.Length]]).Channel);
    }

    private static SimulatedDriver Driver(double highPass, double lowPass) => new()
    {
        HighPassHertz = highPass, LowPassHertz = lowPass, LevelDecibels = 0, Meters = 1.05, ArrivalSeconds = 0.003,
        Modes = [new(highPass * 1.4, 7, 4), new(highPass * 3, -4, 4)], Reflections = [new(0.0011, -8), new(0.0027, -10)],
    };
}
