using System.Diagnostics;
using System.Globalization;
using ShopFloor.Engineering.Signal.TestSignals;
using ShopFloor.Engineering.Waves;

namespace ShopFloor.Engineering.Tests.Signal;

/// <summary>The audio program sox (Debian's package) reads the files and judges level, frequency and length.</summary>
public class TestSignalTests
{
    [Theory]
    [InlineData(1_000, -6, 48_000, 24)]
    [InlineData(50, -20, 44_100, 16)]
    [InlineData(5_000, -1, 96_000, 24)]
    public void A_tone_has_the_level_and_the_frequency_asked_for(double hertz, double decibels, int rate, int bits)
    {
        var stats = Judge(WaveFile.Write(new SampledSound(rate, [TestTone.Sine(hertz, decibels, 4, rate)]), bits));

        Assert.Equal(decibels, stats.PeakDecibels, 0.06);
        Assert.Equal(decibels - 3.01, stats.RmsDecibels, 0.06);
        Assert.Equal(hertz, stats.RoughHertz, hertz * 0.02);
        Assert.Equal(4, stats.Seconds, 3);
        Assert.Equal(bits, stats.Bits);
    }

    [Fact]
    public void Steps_of_a_sine_rise_by_equal_ratios_and_each_lasts_as_long_with_silence_between()
    {
        var hertz = TestTone.StepHertz(20, 320, 6);
        var samples = TestTone.Steps([100, 200], -6, 2, 48_000);
        var second = Judge(WaveFile.Write(new SampledSound(48_000, [samples[96_000..]]), 24));

        Assert.Equal(25, hertz.Count); // four octaves of six steps and the first
        Assert.Equal(320, hertz[^1], 1e-9);
        Assert.All(hertz.Zip(hertz.Skip(1)), pair => Assert.Equal(Math.Pow(2, 1 / 6d), pair.Second / pair.First, 1e-12));
        Assert.Equal(4 * 48_000, samples.Length);
        Assert.Equal((0, 0), (samples[95_999], samples[96_000]));
        Assert.Equal(200, second.RoughHertz, 4d);
        Assert.Throws<ArgumentOutOfRangeException>(() => TestTone.Steps(TestTone.StepHertz(20, 320, 24), -6, 3, 48_000));
    }

    [Fact]
    public void Pink_noise_has_its_level_and_the_same_power_in_every_octave()
    {
        var file = WaveFile.Write(new SampledSound(48_000, [TestTone.PinkNoise(-20, 60, 48_000)]));

        // The level is against a full-scale sine, whose rms is 3.01 dB below its peak.
        Assert.Equal(-23.01, Judge(file).RmsDecibels, 0.05);
        // Octaves 125 Hz to 4 kHz, cut out by sox with sharp filters: within 0.7 dB of each other. σ ≈ 4.34/√(B·T) = 0.06 dB at the lowest.
        double[] octaves = [.. new[] { 125.0, 250, 500, 1_000, 2_000, 4_000 }.Select(mid => Judge(file, "sinc", "-n", "32767", $"{(mid / Math.Sqrt(2)).ToString("0.###", CultureInfo.InvariantCulture)}-{(mid * Math.Sqrt(2)).ToString("0.###", CultureInfo.InvariantCulture)}").RmsDecibels)];
        Assert.True(octaves.Max() - octaves.Min() < 0.7, string.Join(" ", octaves));
    }

    [Fact]
    public void A_seed_gives_the_same_noise_again_and_another_seed_another()
    {
        Assert.Equal(TestTone.PinkNoise(-20, 1, 8_000, 5), TestTone.PinkNoise(-20, 1, 8_000, 5));
        Assert.NotEqual(TestTone.PinkNoise(-20, 1, 8_000, 5), TestTone.PinkNoise(-20, 1, 8_000, 6));
    }

    [Fact]
    public void A_sweep_rises_by_the_same_ratio_in_the_same_time()
    {
        var sweep = TestTone.Sweep(20, 20_000, -6, 6, 48_000);
        // Three decades in six seconds: 200 Hz is passed at 2 s, 2 kHz at 4 s. Zero crossings in 0.1 s around count the frequency there.
        foreach (var (second, hertz) in new[] { (2.0, 200.0), (4.0, 2_000.0) })
        {
            var from = (int)((second - 0.05) * 48_000);
            var crossings = Enumerable.Range(from, 4_800).Count(n => sweep[n] < 0 != sweep[n + 1] < 0);
            Assert.InRange(crossings / 0.2, hertz * 0.93, hertz * 1.07);
        }
    }

    [Fact]
    public void Sides_are_told_apart_by_the_number_of_bursts()
    {
        var sound = TestTone.Sides(-12, 48_000);
        Assert.Equal((4, 5), (Bursts(sound.Channels[0]), Bursts(sound.Channels[1]))); // one and three, two and three
        Assert.True(Array.FindIndex(sound.Channels[0], value => value != 0) < Array.FindIndex(sound.Channels[1], value => value != 0));
    }

    [Fact]
    public void Polarity_pulses_only_ever_push_outwards()
    {
        var pulses = TestTone.PolarityPulses(-6, 5, 48_000);
        Assert.True(pulses.Min() >= 0);
        Assert.Equal(0.501, pulses.Max(), 3);
    }

    [Theory]
    [InlineData(24_000, -6, 1, 48_000)]
    [InlineData(0, -6, 1, 48_000)]
    [InlineData(1_000, 1, 1, 48_000)]
    [InlineData(1_000, -6, 0.01, 48_000)]
    [InlineData(1_000, -6, 121, 48_000)]
    [InlineData(1_000, -6, 1, 4_000)]
    [InlineData(double.NaN, -6, 1, 48_000)]
    public void What_cannot_be_made_is_refused(double hertz, double decibels, double seconds, int rate) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => TestTone.Sine(hertz, decibels, seconds, rate));

    // NIOSH 98-126: 85 dB(A) 480 min, 100 dB(A) 15 min. 29 CFR 1910.95 table G-16: 90 dB(A) 8 h, 100 dB(A) 2 h, 115 dB(A) 15 min.
    [Theory]
    [InlineData(85, 480, 960)]
    [InlineData(88, 240, 633.4)]
    [InlineData(100, 15, 120)]
    [InlineData(115, 0.4688, 15)]
    public void Exposure_times(double level, double niosh, double osha)
    {
        Assert.Equal(niosh, SoundExposure.NioshMinutes(level), niosh * 1e-3);
        Assert.Equal(osha, SoundExposure.OshaMinutes(level), osha * 1e-3);
    }

    private static int Bursts(double[] samples)
    {
        var (count, silent) = (0, 10_000);
        foreach (var value in samples)
        {
            if (value != 0 && silent >= 5_000)
                count++;
            silent = value == 0 ? silent + 1 : 0;
        }

        return count;
    }

    private static SoxStats Judge(byte[] file, params string[] effects)
    {
        var path = Path.Combine(Path.GetTempPath(), $"signal-{Guid.CreateVersion7():N}.wav");
        try
        {
            File.WriteAllBytes(path, file);
            var stats = Run([path, "-n", .. effects, "stats"]);
            var stat = Run([path, "-n", "stat"]);
            return new SoxStats(Number(stats, "Pk lev dB"), Number(stats, "RMS lev dB"), Number(stats, "Length s"), Number(stat, "Rough   frequency:"), (int)Number(Run(["--i", "-b", path]), ""));
        }
        finally
        {
            File.Delete(path);
        }
    }

    private static double Number(string text, string label) =>
        double.Parse(text.Split('\n').First(line => line.StartsWith(label, StringComparison.Ordinal))[label.Length..], NumberStyles.Float, CultureInfo.InvariantCulture);

    private static string Run(string[] arguments)
    {
        using var process = Process.Start(new ProcessStartInfo("sox", arguments) { RedirectStandardError = true, RedirectStandardOutput = true })!; // started or thrown
        // What sox writes is a few hundred bytes, so reading one stream after the other cannot block.
        var output = process.StandardOutput.ReadToEnd();
        var figures = process.StandardError.ReadToEnd();
        process.WaitForExit();
        Assert.True(process.ExitCode == 0, figures);
        return output + figures;
    }

    private sealed record SoxStats(double PeakDecibels, double RmsDecibels, double Seconds, double RoughHertz, int Bits);
}
