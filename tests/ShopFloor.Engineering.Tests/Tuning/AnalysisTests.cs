using ShopFloor.Engineering.Responses;
using ShopFloor.Engineering.Tuning.Analysis;
using ShopFloor.Engineering.Tuning.Measurements;

namespace ShopFloor.Engineering.Tests.Tuning;

/// <summary>Windows, bands, smoothing, phase, decay, coherence and comparisons against SciPy 1.10 and published numbers.</summary>
public class AnalysisTests
{
    /// <summary>Middles and edges of IEC 61260-1:2014, names of ISO 266.</summary>
    [Fact]
    public void Third_octave_bands_are_those_of_the_standard()
    {
        var rows = TuningFixtures.Rows("third_octave_bands.csv");

        var bands = OctaveBands.Between(3, 10, 20_000);

        Assert.Equal(rows.Count, bands.Count);
        Assert.All(rows.Zip(bands), pair =>
        {
            Assert.Equal(pair.First[0], double.Parse(pair.Second.Name, System.Globalization.CultureInfo.InvariantCulture));
            Assert.Equal(pair.First[2], pair.Second.MiddleHertz, 1e-4 * pair.First[2]);
            Assert.Equal(pair.First[3], pair.Second.LowerHertz, 1e-4 * pair.First[3]);
            Assert.Equal(pair.First[4], pair.Second.UpperHertz, 1e-4 * pair.First[4]);
        });
        // Even fractions lie beside 1 kHz: 1/6 at 1059.2537, 1/12 at 1029.2005, 1/24 at 1014.4952 Hz.
        Assert.Equal(1059.2537, OctaveBands.Between(6, 1_000, 1_100)[0].MiddleHertz, 1e-4);
        Assert.Equal(1029.2005, OctaveBands.Between(12, 1_000, 1_050)[0].MiddleHertz, 1e-4);
        Assert.Equal(1014.4952, OctaveBands.Between(24, 1_000, 1_020)[0].MiddleHertz, 1e-4);
    }

    [Theory]
    [InlineData(3)]
    [InlineData(6)]
    [InlineData(24)]
    public void Smoothing_is_the_mean_power_scipy_integrates(int fraction)
    {
        var response = Impulse("pair_48k.wav", 1);

        var spectrum = ImpulseSpectrum.Of(response);
        var wanted = OctaveSmoothing.Spaced(100, 12_000, 12);
        var ours = OctaveSmoothing.Power(spectrum, fraction, wanted);
        // The same definition by brute force: 4001 points over each window, integrated by Simpson's rule.
        var theirs = Scipy.Run($"""
            f, db, at = inputs; half = 0.5*0.3*np.log(10)/{fraction}; r = []
            for w in at:
                x = np.linspace(np.log(w)-half, np.log(w)+half, 4001)
                r.append(10*np.log10(scipy.integrate.simpson(np.interp(x, np.log(f), 10**(db/10)), x=x)/(2*half)))
            result = r
            """, [.. spectrum.Hertz], [.. spectrum.Decibels], wanted);

        Assert.All(theirs.Zip(ours.Decibels), pair => Assert.Equal(pair.First, pair.Second, 0.01));
    }

    [Fact]
    public void A_smoothed_line_stays_a_line_and_does_not_hang_on_the_points()
    {
        var coarse = OctaveSmoothing.Power(new FrequencyResponse([20, 20_000], [5, 5], null), 3, [100, 1_000]);
        Assert.All(coarse.Decibels, level => Assert.Equal(5, level, 1e-9));
    }

    /// <summary>Peaking filter of 6 dB at 1 kHz, Q 1 (Audio EQ Cookbook), 48 kHz: a minimum-phase system whose phase is known from its formula.</summary>
    [Fact]
    public void Minimum_phase_is_that_of_a_filter_that_has_it()
    {
        double[] hertz = [.. Enumerable.Range(1, 4_800).Select(n => 5.0 * n)];
        var decibels = Scipy.Run("b=[1.04395308699034,-1.8953207239366,0.867722284759857];a=[1,-1.8953207239366,0.911675371750192]; result = 20*np.log10(abs(ss.freqz(b,a,inputs[0],fs=48000)[1]))", hertz);

        var phase = MinimumPhase.Of(new FrequencyResponse(hertz, decibels, null), 48_000);

        // Degrees by the formula: 9.937, 18.003, 0, −17.968, −9.743.
        foreach (var (at, degrees) in new[] { (250.0, 9.937), (500.0, 18.003), (1_000.0, 0.0), (2_000.0, -17.968), (4_000.0, -9.743) })
            Assert.Equal(degrees, phase.PhaseAt(at) * 180 / Math.PI, 0.02);
    }

    [Fact]
    public void Minimum_phase_of_bins_is_that_scipy_folds()
    {
        var spectrum = ImpulseSpectrum.Of(Impulse("pair_48k.wav", 0));
        double[] decibels = [spectrum.Decibels[0], .. spectrum.Decibels];

        var ours = MinimumPhase.OfBins(decibels);
        var theirs = Scipy.Run("m = np.log(10**(inputs[0]/20)); full = np.concatenate([m, m[-2:0:-1]]); result = -np.imag(ss.hilbert(full))[:len(m)]", decibels);

        Assert.All(theirs.Zip(ours), pair => Assert.Equal(pair.First, pair.Second, 1e-8));
    }

    [Fact]
    public void Group_delay_is_the_delay_of_a_delay_and_scipys_of_a_filter()
    {
        var samples = new double[1_024];
        samples[48] = 1;
        Assert.All(ImpulseSpectrum.GroupDelay(new ImpulseResponse(48_000, samples)).Seconds, seconds => Assert.Equal(1e-3, seconds, 1e-9));
        Assert.All(MinimumPhase.Delay(ImpulseSpectrum.Of(new ImpulseResponse(48_000, samples)).Hertz, ImpulseSpectrum.Of(new ImpulseResponse(48_000, samples)).PhaseRadians!), seconds => Assert.Equal(1e-3, seconds, 1e-9));

        // Low-pass of second order at 1 kHz: its response and its group delay by SciPy.
        var impulse = Scipy.Run("b,a = ss.butter(2,1000,fs=48000); x=np.zeros(4096); x[0]=1; result = ss.lfilter(b,a,x)");
        var (hertz, delay) = ImpulseSpectrum.GroupDelay(new ImpulseResponse(48_000, impulse));
        var theirs = Scipy.Run("b,a = ss.butter(2,1000,fs=48000); result = ss.group_delay((b,a),inputs[0],fs=48000)[1]/48000", hertz);
        Assert.All(Enumerable.Range(0, 2_000), n => Assert.Equal(theirs[n], delay[n], 1e-7));
    }

    [Fact]
    public void Excess_delay_of_a_delayed_minimum_phase_system_is_the_delay()
    {
        var impulse = Scipy.Run("s = np.vstack([ss.butter(2,100,'highpass',fs=48000,output='sos'), ss.butter(2,8000,fs=48000,output='sos')]); x=np.zeros(16384); x[96]=1; result = ss.sosfilt(s,x)");

        var spectrum = ImpulseSpectrum.Of(new ImpulseResponse(48_000, impulse));
        var excess = MinimumPhase.Excess(spectrum, 48_000);

        // 96 samples are 2 ms.
        foreach (var n in Enumerable.Range(0, spectrum.Hertz.Count).Where(n => spectrum.Hertz[n] is > 200 and < 5_000))
            Assert.Equal(2e-3, excess.ExcessDelaySeconds[n], 2e-5);
    }

    [Fact]
    public void Half_windows_are_scipys()
    {
        var hann = Scipy.Run("result = ss.windows.hann(201)[100:]");
        var tukey = Scipy.Run("result = ss.windows.tukey(201, 0.5)[100:]");

        for (var n = 0; n <= 100; n++)
        {
            Assert.Equal(hann[n], ImpulseWindow.Value(HalfWindow.Hann, n / 100.0, 0.25), 1e-12);
            Assert.Equal(tukey[n], ImpulseWindow.Value(HalfWindow.Tukey, n / 100.0, 0.5), 1e-12);
            Assert.Equal(1, ImpulseWindow.Value(HalfWindow.Rectangular, n / 100.0, 0.5));
        }
    }

    [Fact]
    public void A_window_leaves_a_later_reflection_out_and_says_when_it_misses()
    {
        var samples = new double[4_800];
        (samples[480], samples[480 + 240]) = (1, 0.5);
        var response = new ImpulseResponse(48_000, samples);

        var direct = ImpulseSpectrum.Of(new ImpulseWindow { LeftSeconds = 0.001, RightSeconds = 0.004 }.Apply(response));
        var both = ImpulseSpectrum.Of(response);

        Assert.All(direct.Decibels, level => Assert.Equal(0, level, 1e-9));
        // A reflection of half the pressure: 20·log10(1.5) and 20·log10(0.5) dB.
        Assert.Equal(3.52, both.Decibels.Max(), 0.01);
        Assert.Equal(-6.02, both.Decibels.Min(), 0.01);
        Assert.Throws<ArgumentOutOfRangeException>(() => new ImpulseWindow { ReferenceSeconds = 5 }.Apply(response));
    }

    [Fact]
    public void A_window_of_periods_sees_the_reflection_at_low_frequencies_alone()
    {
        var samples = new double[9_600];
        (samples[4_800], samples[4_800 + 240]) = (1, 0.5);

        var seen = ImpulseSpectrum.WindowedByPeriods(new ImpulseResponse(48_000, samples), [20, 10_000], 6, 0.1);

        // At 20 Hz the window is 300 ms wide and the 5 ms between both are within it: cos² of 1/60 of a half turn, pressures of 1 and 0.5·0.997 at 36°.
        Assert.Equal(20 * Math.Log10(System.Numerics.Complex.Abs(1 + 0.5 * Math.Pow(Math.Cos(Math.PI / 60), 2) * System.Numerics.Complex.FromPolarCoordinates(1, -2 * Math.PI * 20 * 0.005))), seen.Decibels[0], 1e-6);
        Assert.Equal(0, seen.Decibels[1], 1e-9);
    }

    [Fact]
    public void Averaged_spectra_are_scipys_and_pink_noise_is_flat_in_bands()
    {
        var random = new Random(11);
        double[] noise = [.. Enumerable.Range(0, 200_000).Select(_ => random.NextDouble() - 0.4)];

        var ours = NoiseSpectrum.Of(noise, 48_000, 4_096);
        var theirs = Scipy.Run("result = ss.welch(inputs[0], 48000, nperseg=4096)[1]", noise);

        Assert.All(theirs.Zip(ours.PowerPerHertz), pair => Assert.Equal(pair.First, pair.Second, 1e-9 * Math.Max(pair.First, 1e-12)));
        // White noise rises by 1 dB a third octave; its power over all is its variance, 1/12.
        Assert.Equal(1.0 / 12, ours.PowerPerHertz.Sum() * ours.BinHertz, 1e-3);
        var bands = ours.Bands(3, 500, 10_000);
        Assert.Equal(1.0, (bands.Decibels[^1] - bands.Decibels[0]) / (bands.Decibels.Count - 1), 0.05);
    }

    [Fact]
    public void Coherence_is_scipys_and_falls_to_the_bias_for_unrelated_noise()
    {
        var random = new Random(5);
        double[] played = [.. Enumerable.Range(0, 96_000).Select(_ => random.NextDouble() - 0.5)];
        double[] heard = [.. played.Select(sample => 0.7 * sample + 0.5 * (random.NextDouble() - 0.5))];
        double[] other = [.. played.Select(_ => random.NextDouble() - 0.5)];

        var ours = Coherence.Of([played], [heard], 48_000, 1_024);
        var theirs = Scipy.Run("result = ss.coherence(inputs[0], inputs[1], 48000, nperseg=1024)[1][1:]", played, heard);

        Assert.All(theirs.Zip(ours.Squared), pair => Assert.Equal(pair.First, pair.Second, 1e-9));
        Assert.Equal(0.49 / (0.49 + 0.25), ours.Squared.Average(), 0.02);
        Assert.True(Coherence.Of([played], [other], 48_000, 1_024).Squared.Average() < 0.02);
        Assert.Throws<ArgumentException>(() => Coherence.Of([played[..1_024]], [heard[..1_024]], 48_000, 1_024));
    }

    [Fact]
    public void Positions_average_by_power_or_by_value()
    {
        var a = new FrequencyResponse([100, 1_000], [80, 80], [0, 0]);
        var b = new FrequencyResponse([100, 1_000], [80, 74], [Math.PI, 0]);

        var power = PositionAverage.Of([a, b]);
        var complex = PositionAverage.Of([a, b], AverageKind.Complex);

        Assert.Equal(80, power.Mean.Decibels[0], 1e-9);
        // (10^8 + 10^7.4)/2 is 77.96 dB; (10^4 + 10^3.7)/2 is 77.51 dB; opposite phases leave nothing.
        Assert.Equal(77.96, power.Mean.Decibels[1], 0.01);
        Assert.Equal(77.51, complex.Mean.Decibels[1], 0.01);
        Assert.True(complex.Mean.Decibels[0] < -200);
        Assert.Equal(6 / Math.Sqrt(2), power.SpreadDecibels[1], 1e-9);
        Assert.Throws<ArgumentException>(() => PositionAverage.Of([a, a with { PhaseRadians = null }], AverageKind.Complex));
    }

    /// <summary>A second-order band-pass of Q 20 at 100 Hz falls by 60 dB in 3·ln 10·2Q/ω = 0.4398 s.</summary>
    [Fact]
    public void Decay_of_a_resonance_is_that_of_its_q()
    {
        var impulse = Scipy.Run("b,a = ss.iirpeak(100,20,fs=8000); x=np.zeros(16000); x[80]=1; result = ss.lfilter(b,a,x)");

        var decay = DecaySlices.Compute(new DecayInput { Response = new ImpulseResponse(8_000, impulse), StepSeconds = 0.01, Slices = 80, FromHertz = 50, ToHertz = 200 });

        var at = Enumerable.Range(0, decay.Hertz.Count).First(n => decay.Hertz[n] > 99.9);
        Assert.Equal(3 * Math.Log(10) * 2 * 20 / (2 * Math.PI * 100), decay.DecaySeconds[at]!.Value, 0.01);
    }

    [Fact]
    public void Both_sides_differ_by_what_one_is_lower()
    {
        var left = new FrequencyResponse([20, 1_000, 20_000], [80, 82, 84], null);
        var right = new FrequencyResponse([20, 1_000, 20_000], [78, 80, 82], null);

        var result = SideDifference.Of(left, right);

        Assert.Equal(2, result.MeanDecibels, 1e-9);
        Assert.Equal(0, result.LargestDecibels, 1e-9);
    }

    /// <summary>A band-pass of 24 dB an octave falls 10 dB where (f/fc)⁴ = 10^0.5 − 1, by a factor of 1.2125 beyond each corner.</summary>
    [Fact]
    public void The_usable_band_ends_ten_decibels_down_or_where_distortion_begins()
    {
        double[] hertz = OctaveSmoothing.Spaced(10, 20_000, 48);
        var response = new FrequencyResponse(hertz, [.. hertz.Select(f => -20 * Math.Log10(1 + Math.Pow(80 / f, 4)) - 20 * Math.Log10(1 + Math.Pow(f / 3_000, 4)))], null);

        var band = UsableBand.Of(response);
        var distorted = UsableBand.Of(response, 10, new FrequencyResponse([20, 200, 2_000], [-10, -40, -40], null));

        // Third-octave smoothing moves a slope of 24 dB an octave outwards by up to 2 %.
        Assert.Equal(80 / 1.2125, band.FromHertz, 0.03 * 80);
        Assert.Equal(3_000 * 1.2125, band.ToHertz, 0.03 * 3_000);
        Assert.Equal(("level", "level"), (band.LowerLimit, band.UpperLimit));
        // −30 dB is reached two thirds of a decade above 20 Hz: 92.8 Hz.
        Assert.Equal(92.8, distorted.FromHertz, 0.5);
        Assert.Equal("distortion", distorted.LowerLimit);
    }

    private static ImpulseResponse Impulse(string file, int channel)
    {
        var sound = TuningFixtures.Wave(file);
        return new ImpulseResponse(sound.SampleRateHertz, sound.Channels[channel]);
    }
}
