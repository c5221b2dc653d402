using ShopFloor.Engineering.Numerics;
using ShopFloor.Engineering.Tuning.Measurements;

namespace ShopFloor.Engineering.Tests.Tuning;

/// <summary>Exponential sweeps (Farina, AES 108, 2000): made, taken apart, and their harmonics told apart.</summary>
public class SweepTests
{
    private static readonly ExponentialSweep _plain = new() { Seconds = 4, LevelDecibelsFullScale = 0, FadeInSeconds = 0, FadeOutSeconds = 0 };

    private static readonly ExponentialSweep _fixture = new() { Seconds = 1, LevelDecibelsFullScale = 20 * Math.Log10(0.5), FadeInSeconds = 0, FadeOutSeconds = 0 };

    /// <summary>Values by NumPy from the formula, 20 Hz to 20 kHz in 4 s.</summary>
    [Theory]
    [InlineData(48_000, 1, 0.0026180379827644446)]
    [InlineData(48_000, 100, 0.2592744646438148)]
    [InlineData(48_000, 10_000, 0.09285214920108574)]
    [InlineData(48_000, 191_999, 0.925883399200998)]
    [InlineData(96_000, 1_000, 0.9689236200868756)]
    [InlineData(96_000, 383_999, 0.6046002335743985)]
    public void A_sweep_follows_the_formula(int rate, int sample, double value)
    {
        var sweep = _plain with { SampleRateHertz = rate };

        Assert.Equal(value, sweep.Samples()[sample], 1e-8);
        Assert.Equal(0.5790593092043358, sweep.RateSeconds, 1e-12);
        Assert.Equal(632.4555320336758, sweep.HertzAt(2), 1e-6);
        Assert.Equal(0.4013733275519749, sweep.HarmonicLeadSeconds(2), 1e-12);
        Assert.Equal(0.6361616729595498, sweep.HarmonicLeadSeconds(3), 1e-12);
    }

    [Fact]
    public void Fades_begin_and_end_at_silence()
    {
        var samples = new ExponentialSweep { Seconds = 1 }.Samples();

        Assert.Equal(0, samples[0]);
        Assert.Equal(0, samples[^1], 1e-12);
        Assert.Equal(Math.Pow(10, -6 / 20.0), samples.Max(), 1e-4);
    }

    /// <summary>The pulse stands at the last sample with gain 1; between 100 Hz and 10 kHz the sum is flat within the ±0.46 dB an unfaded sweep has (NumPy).</summary>
    [Theory]
    [InlineData(48_000)]
    [InlineData(96_000)]
    public void A_sweep_through_its_inverse_filter_is_a_pulse(int rate)
    {
        var sweep = _plain with { SampleRateHertz = rate };
        var length = Fft.LengthFor(2L * sweep.Length);
        var (x, inverse) = (Fft.OfReal(sweep.Samples(), length), Fft.OfReal(sweep.InverseFilter(), length));
        for (var k = 0; k < x.Length; k++)
            x[k] *= inverse[k];
        var pulse = Fft.ToReal(x);

        Assert.Equal(sweep.Length - 1, Enumerable.Range(0, length).MaxBy(n => Math.Abs(pulse[n])));
        double[] levels = [.. Enumerable.Range(0, x.Length).Where(k => (double)k * rate / length is >= 100 and <= 10_000).Select(k => 20 * Math.Log10(x[k].Magnitude))];
        Assert.InRange(levels.Min(), -0.47, -0.45);
        Assert.InRange(levels.Max(), 0.45, 0.47);
    }

    /// <summary>Against the truth of the recording: pulse after 3.396 ms, second harmonic −39.89 dB and third −52.34 dB, 100.343 and 159.040 ms before (NumPy; theory −40.07 and −52.1 dB).</summary>
    [Theory]
    [InlineData(DeconvolutionMethod.InverseFilter, -39.89, 0.1, -52.34, 0.2)]
    // Division lets the linear pulse reach a little beyond 20 kHz, which the harmonics do not: up to half a decibel more between the peaks.
    [InlineData(DeconvolutionMethod.SpectralDivision, -40.07, 0.5, -52.1, 0.5)]
    public void Response_and_harmonics_of_a_recording_are_told_apart(DeconvolutionMethod method, double secondDecibels, double secondWithin, double thirdDecibels, double thirdWithin)
    {
        var recorded = TuningFixtures.Wave("sweep_recorded_48k.wav");

        var result = SweepDeconvolution.Compute(new SweepRecording { Sweep = _fixture, Recorded = recorded.Channels[0], Method = method, KeptSeconds = 0.14 });

        var peak = Enumerable.Range(0, result.Impulse.Samples.Length).MaxBy(n => Math.Abs(result.Impulse.Samples[n]));
        Assert.Equal(3.396e-3, result.Impulse.SecondsAt(peak), 0.5 / 48_000);
        var (second, third) = (result.Harmonics[0], result.Harmonics[1]);
        Assert.Equal(100.343e-3, second.LeadSeconds, 1.0 / 48_000);
        Assert.Equal(159.040e-3, third.LeadSeconds, 1.0 / 48_000);
        Assert.Equal(secondDecibels, second.PeakDecibels, secondWithin);
        Assert.Equal(thirdDecibels, third.PeakDecibels, thirdWithin);
        // Gain 0.9, and the cube's share of the fundamental: 20·log10(0.9·(1 + 0.75·0.04·0.5²)) = −0.850 dB.
        Assert.Equal(-0.850, Level(result, 1_000), 0.01);
        // Second harmonic of 0.04·s² on s at 0.5: 0.01 of the fundamental plus that of the cube, −40.07 dB, everywhere the sweep holds both.
        Assert.Equal(-40.07, second.Relative.DecibelsAt(1_000), 0.1);
        // Noise of −75.9 dB full scale in the recording, the sweep's rms −9.1 dB.
        Assert.Equal(66, result.RecordingToNoiseDecibels!.Value, 2.0);
        Assert.DoesNotContain(result.Findings, finding => finding.Severity == Explained.Severity.Stop);
    }

    [Fact]
    public void Division_gives_what_scipy_gives_by_the_same_formula()
    {
        var recorded = TuningFixtures.Wave("sweep_recorded_48k.wav").Channels[0];
        var result = SweepDeconvolution.Compute(new SweepRecording { Sweep = _fixture, Recorded = recorded, BeforeSeconds = 0, KeptSeconds = 0.1 });

        var theirs = Scipy.Run("""
            fs = 48000; L = 1/np.log(1000); n = np.arange(fs)
            x = 0.5*np.sin(2*np.pi*20*L*(np.exp(n/fs/L)-1)); y = inputs[0]
            N = 1 << int(np.ceil(np.log2(len(x)+len(y))))
            X = np.fft.rfft(x, N); Y = np.fft.rfft(y, N); f = np.fft.rfftfreq(N, 1/fs); f[0] = 1e-9
            out = np.clip(np.maximum(np.log2(20/f), np.log2(f/20000))/0.5, 0, 1)
            eps = (abs(X)**2).max()*10**(-6*(1-out))
            result = np.fft.irfft(Y*np.conj(X)/(abs(X)**2+eps), N)[:4800]
            """, recorded);

        Assert.All(theirs.Zip(result.Impulse.Samples), pair => Assert.Equal(pair.First, pair.Second, 1e-9));
    }

    [Fact]
    public void A_loopback_takes_the_sound_cards_delay_and_gain_out()
    {
        var sweep = new ExponentialSweep { Seconds = 1, FadeInSeconds = 0.01 };
        double[] card = [.. new double[500], .. sweep.Samples().Select(sample => 0.3 * sample), .. new double[9_500]];
        double[] microphone = [.. new double[96], .. card[..^96].Select(sample => 0.5 * sample)];

        var result = SweepDeconvolution.Compute(new SweepRecording { Sweep = sweep, Recorded = microphone, Loopback = card });

        // 96 samples of path are 2 ms; the 500 of the card are gone, and its 0.3.
        var peak = Enumerable.Range(0, result.Impulse.Samples.Length).MaxBy(n => Math.Abs(result.Impulse.Samples[n]));
        Assert.Equal(2e-3, result.Impulse.SecondsAt(peak), 1e-9);
        Assert.Equal(20 * Math.Log10(0.5), Level(result, 1_000), 0.01);
    }

    [Fact]
    public void A_recording_at_full_scale_is_stopped_and_a_short_one_refused()
    {
        var sweep = new ExponentialSweep { Seconds = 1, LevelDecibelsFullScale = 0 };
        double[] clipped = [.. sweep.Samples().Select(sample => Math.Clamp(2 * sample, -1, 1))];

        Assert.Contains(SweepDeconvolution.Compute(new SweepRecording { Sweep = sweep, Recorded = clipped }).Findings, finding => finding.Code == "sweep-recording-clipped");
        Assert.Contains(new SweepRecording { Sweep = sweep, Recorded = clipped[..1_000] }.Validate(), problem => problem.Field == "Recorded" && problem.Message.Contains("48000", StringComparison.Ordinal));
        Assert.Contains(new SweepRecording { Sweep = sweep with { ToHertz = 30_000 }, Recorded = clipped }.Validate(), problem => problem.Field == "Sweep.ToHertz");
        Assert.Contains(new SweepRecording { Sweep = sweep, Recorded = new double[48_000] }.Validate(), problem => problem.Message.Contains("silent", StringComparison.Ordinal));
    }

    private static double Level(SweepResult result, double hertz)
    {
        var samples = result.Impulse.Samples;
        var (real, imaginary) = (0.0, 0.0);
        for (var n = 0; n < samples.Length; n++)
        {
            real += samples[n] * Math.Cos(2 * Math.PI * hertz * n / result.Impulse.SampleRateHertz);
            imaginary += samples[n] * Math.Sin(2 * Math.PI * hertz * n / result.Impulse.SampleRateHertz);
        }

        return 10 * Math.Log10(real * real + imaginary * imaginary);
    }
}
