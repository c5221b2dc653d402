using System.Text.Json;
using System.Text.Json.Serialization;
using ShopFloor.Engineering.Responses;
using ShopFloor.Engineering.Tuning.Analysis;
using ShopFloor.Engineering.Tuning.Measurements;
using ShopFloor.Engineering.Waves;

namespace ShopFloor.Engineering.Tests.Tuning;

/// <summary>From a file as it is handed in to everything that is said of it.</summary>
public class WholeAnalysisTests
{
    private static readonly JsonSerializerOptions _web = new(JsonSerializerDefaults.Web) { Converters = { new JsonStringEnumConverter() } };

    [Fact]
    public void A_sound_file_of_a_sweep_gives_response_and_arrival()
    {
        var sweep = new ExponentialSweep { Seconds = 1, LevelDecibelsFullScale = -6 };
        double[] heard = [.. new double[96], .. sweep.Samples().Select(sample => 0.5 * sample), .. new double[9_600]];
        var input = new ImpulseMeasurementInput { Sweep = sweep, Wave = WaveFile.Write(new SampledSound(48_000, [heard])) };

        var result = ImpulseMeasurement.Compute(input);

        // 96 samples of path are 2 ms.
        Assert.Equal(2, 1e3 * result.Arrival.Seconds, 0.02);
        Assert.True(result.Sweep.PeakToNoiseDecibels > 60);
        var json = JsonSerializer.Serialize(result, _web);
        Assert.Equal(json, JsonSerializer.Serialize(JsonSerializer.Deserialize<ImpulseMeasurementResult>(json, _web), _web));
    }

    [Fact]
    public void A_recorded_sweep_of_a_real_kind_arrives_when_it_did()
    {
        var result = ImpulseMeasurement.Compute(new ImpulseMeasurementInput
        {
            Sweep = new ExponentialSweep { Seconds = 1, LevelDecibelsFullScale = 20 * Math.Log10(0.5), FadeInSeconds = 0, FadeOutSeconds = 0 },
            Wave = TuningFixtures.Bytes("sweep_recorded_48k.wav"),
            KeptSeconds = 0.14,
        });

        // 3.40 ms of path before a high-pass.
        Assert.Equal(3.40, 1e3 * result.Arrival.Seconds, 0.0208);
    }

    [Theory]
    [InlineData("Wave", 3, 48_000, 0, null)]
    [InlineData("Channel", 9, 48_000, 3, null)]
    [InlineData("LoopbackChannel", 9, 48_000, 0, 0)]
    [InlineData("Sweep.SampleRateHertz", 9, 44_100, 0, null)]
    public void What_does_not_fit_the_file_is_named(string field, int cut, int rate, int channel, int? loopback)
    {
        var wave = WaveFile.Write(new SampledSound(48_000, [[.. Enumerable.Range(0, 48_000).Select(n => Math.Sin(n))]]));

        var problems = new ImpulseMeasurementInput { Sweep = new ExponentialSweep { Seconds = 0.5, SampleRateHertz = rate }, Wave = cut == 3 ? wave[..300] : wave, Channel = channel, LoopbackChannel = loopback }.Validate();

        Assert.Contains(problems, problem => problem.Field == field);
    }

    [Fact]
    public void A_table_is_read_smoothed_and_judged()
    {
        var hertz = OctaveSmoothing.Spaced(20, 20_000, 24);
        var table = "* Freq(Hz)\tSPL(dB)\tPhase(deg)\n" + string.Concat(hertz.Select(f => FormattableString.Invariant($"{f:0.####}\t{90 - 10 * Math.Log10(1 + Math.Pow(100 / f, 8)):0.####}\t0\n")));

        var result = ResponseAnalysis.Compute(new ResponseAnalysisInput { Table = table });

        Assert.Empty(result.Questions);
        Assert.Equal(90, result.Smoothed.DecibelsAt(1_000), 0.01);
        // Fourth order at 100 Hz is 10 dB down at 100/9^(1/8) = 76 Hz.
        Assert.Equal(76, result.Usable.FromHertz, 2.5);
        Assert.Equal("measurement", result.Usable.UpperLimit);
        Assert.Equal("1000", OctaveBands.Between(3, 999, 1_001)[0].Name);
        Assert.Equal(90, result.ThirdOctaves.DecibelsAt(1_000), 0.01);
        Assert.NotNull(result.ExcessDelaySeconds);
    }

    [Fact]
    public void An_impulse_file_is_windowed_and_timed()
    {
        var result = ResponseAnalysis.Compute(new ResponseAnalysisInput { ImpulseWave = TuningFixtures.Bytes("pair_48k.wav"), Window = new ImpulseWindow { RightSeconds = 0.02 } });

        Assert.Equal(1.25, 1e3 * result.Arrival!.Seconds, 0.0208);
        // Fourth-order Linkwitz-Riley corners at 100 Hz and 12 kHz: flat between, −10 dB a factor of 1.2125 beyond.
        Assert.Equal(0, result.Smoothed.DecibelsAt(1_000), 0.05);
        Assert.Equal(100 / 1.2125, result.Usable.FromHertz, 6.0);
    }

    [Fact]
    public void Not_just_one_source_or_a_bad_one_is_refused_with_its_field()
    {
        Assert.Contains(new ResponseAnalysisInput().Validate(), problem => problem.Field == "Response" && problem.Message.Contains("give one", StringComparison.Ordinal));
        Assert.Contains(new ResponseAnalysisInput { Table = "x", ImpulseWave = [] }.Validate(), problem => problem.Field == "Response");
        Assert.Contains(new ResponseAnalysisInput { Table = "nothing here" }.Validate(), problem => problem.Field == "Table");
        Assert.Contains(new ResponseAnalysisInput { ImpulseWave = [1, 2, 3] }.Validate(), problem => problem.Field == "ImpulseWave");
        Assert.Contains(new ResponseAnalysisInput { Response = new FrequencyResponse([20], [0], null) }.Validate(), problem => problem.Field == "Response.Hertz");
        Assert.Contains(new ResponseAnalysisInput { ImpulseWave = TuningFixtures.Bytes("pair_48k.wav"), Window = new ImpulseWindow { ReferenceSeconds = 9 } }.Validate(), problem => problem.Field == "Window.ReferenceSeconds");
    }
}
