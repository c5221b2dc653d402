using ShopFloor.Engineering.Responses;
using ShopFloor.Engineering.Tuning.Analysis;
using ShopFloor.Engineering.Tuning.Factory;
using ShopFloor.Engineering.Tuning.Filters;
using ShopFloor.Engineering.Tuning.Processors;

namespace ShopFloor.Engineering.Tests.Tuning;

/// <summary>Factory outputs whose filters are made by SciPy, so that what is found can be held against what was put in.</summary>
public class FactorySignalTests
{
    private static readonly double[] _hertz = OctaveSmoothing.Spaced(20, 20_000, 48);

    private const string Parts = """
        fs = 96000; f = inputs[0]; s = 2j*np.pi*f
        def lr(hz, kind): b = ss.butter(2, hz, kind, fs=fs, output='sos'); h = ss.sosfreqz(b, f, fs=fs)[1]; return h*h
        def bell(hz, db, q): A = 10**(db/40); x = 1j*f/hz; return (x*x + x*A/q + 1)/(x*x + x/(A*q) + 1)
        def allpass(hz, q): x = 1j*f/hz; return (x*x - x/q + 1)/(x*x + x/q + 1)
        def given(h): return np.concatenate([20*np.log10(abs(h)), np.angle(h)])

        """;

    [Fact]
    public void Crossover_delay_all_pass_and_polarity_are_those_that_were_put_in()
    {
        var low = Output("low", "h = lr(35,'highpass')*lr(400,'lowpass')*bell(110,5,1.2)", 0.0100);
        var high = Output("high", "h = -0.8*lr(400,'highpass')*allpass(1500,0.8)*np.exp(-s*0.0003)", 0.0105);

        var found = FactorySignal.Compute(new FactorySignalInput { Outputs = [low, high] }).Outputs;

        // Linkwitz-Riley of 24 dB an octave is 6 dB down at its frequency; the bell and the level of the loudest octave move the low one's a little.
        Assert.Equal(400, found[1].Low!.Hertz, 400 * 0.02);
        // 24·x⁴/(1 + x⁴) dB an octave where 1/(1 + x⁴) is −18 dB is 21 still, at −42 dB 23.8.
        Assert.Equal(23, found[1].Low!.SlopeDecibelsPerOctave!.Value, 1.0);
        Assert.Null(found[1].High);
        Assert.InRange(found[0].High!.Hertz, 300, 400);
        Assert.Equal(23, found[0].High!.SlopeDecibelsPerOctave!.Value, 1.5);
        Assert.Equal(20 * Math.Log10(0.8), found[1].LevelDecibels, 0.1);
        // 0.5 ms of clock and 0.3 ms within the response. An output that ends at 400 Hz is placed to some 5° there, 0.04 ms: two equal sounds 5.8° apart lose 0.01 dB.
        Assert.Equal(0.8e-3, found[1].DelaySeconds, 0.04e-3);
        Assert.Equal(0.8e-3, found[0].AddDelaySeconds, 0.04e-3);
        Assert.True(found[1].IsInverted);
        Assert.False(found[0].IsInverted);
        var turned = Assert.Single(found[1].AllPasses);
        Assert.Equal(1_500, turned.Hertz, 1_500 * 0.05);
        Assert.Equal(0.8, turned.Q, 0.08);
        Assert.Empty(found[0].AllPasses);
        Assert.Equal([turned], found[0].AddFilters);
    }

    [Fact]
    public void Outputs_that_cancel_as_they_come_add_up_once_joined_and_the_equaliser_is_undone()
    {
        // The high output comes half a period of 400 Hz late: 1.25 ms. Two Linkwitz-Riley halves in phase sum to flat, so what is left is the bells.
        var low = Output("low", "h = lr(400,'lowpass')*bell(110,5,1.2)", 0.0100);
        var high = Output("high", "h = lr(400,'highpass')*bell(3000,-6,1.5)", 0.01125);

        var result = FactorySignal.Compute(new FactorySignalInput { Outputs = [low, high] });

        Assert.True(result.PlainLossDecibels > 20);
        // The bell of the low output is out of phase by a little where both play.
        Assert.True(result.JoinedLossDecibels < 1, $"{result.JoinedLossDecibels}");
        Assert.True(result.Equaliser!.RmsBeforeDecibels > 1.2);
        Assert.True(result.Equaliser.RmsDecibels < 0.2, $"{result.Equaliser.RmsDecibels}");
        Assert.Contains(result.Equaliser.Filters, filter => Math.Abs(filter.Hertz - 110) < 8 && Math.Abs(filter.GainDecibels + 5) < 0.8);
        Assert.Contains(result.Equaliser.Filters, filter => Math.Abs(filter.Hertz - 3_000) < 150 && Math.Abs(filter.GainDecibels - 6) < 0.8);
        var middle = Enumerable.Range(0, _hertz.Length).Where(n => _hertz[n] is > 50 and < 12_000).Select(n => result.LevelDecibels[n]).ToList();
        Assert.True(middle.Max() - middle.Min() < 1.5, $"{middle.Max() - middle.Min()}");
    }

    [Fact]
    public void An_output_without_processing_is_left_alone()
    {
        var plain = Output("full", "h = np.ones(len(f))*0.5 + 0j", 0.01);

        var result = FactorySignal.Compute(new FactorySignalInput { Outputs = [plain] });
        var one = Assert.Single(result.Outputs);

        Assert.Equal((null, null, 0.0, false), (one.Low, one.High, one.DelaySeconds, one.IsInverted));
        Assert.Empty(one.AllPasses);
        Assert.Empty(result.Equaliser!.Filters);
        Assert.Equal(-6.02, one.LevelDecibels, 0.01);
    }

    [Fact]
    public void What_lies_outside_the_boost_allowed_is_not_boosted()
    {
        // A factory high-pass of 24 dB an octave at 90 Hz: what is below stays missing.
        var low = Output("low", "h = lr(90,'highpass')", 0);

        var result = FactorySignal.Compute(new FactorySignalInput { Outputs = [low] });

        Assert.Equal(90, result.FromHertz, 3.0);
        Assert.True(result.Equaliser!.HeadroomLostDecibels <= 6.5);
        Assert.Contains(result.Findings, finding => finding.Code == "factory-band-short");
    }

    [Fact]
    public void A_table_of_levels_alone_is_refused_by_its_name()
    {
        var input = new FactorySignalInput { Outputs = [new FactoryOutput("a", "Front left", new FrequencyResponse(_hertz, [.. _hertz.Select(_ => 0.0)], null), 0)] };

        Assert.Contains("Front left: it has no phase", Assert.Single(input.Validate()).Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentOutOfRangeException>(() => FactorySignal.Compute(input));
    }

    [Fact]
    public void What_outputs_cancel_against_each_other_is_not_boosted()
    {
        // Two Linkwitz-Riley halves in phase sum to an all-pass, 180° at 400 Hz: a third output without filters, half as loud as both at its corner, cancels it there.
        var low = Output("low", "h = lr(400,'lowpass')", 0.0100);
        var high = Output("high", "h = lr(400,'highpass')", 0.0100);
        var rear = Output("rear", "h = np.ones(len(f)) + 0j", 0.0100);

        var result = FactorySignal.Compute(new FactorySignalInput { Outputs = [low, high, rear] });

        Assert.True(result.JoinedLossDecibels > 20, $"{result.JoinedLossDecibels}");
        Assert.Contains(result.Findings, finding => finding.Code == "factory-sum-loses");
        var at = Enumerable.Range(0, result.Hertz.Count).MinBy(n => Math.Abs(result.Hertz[n] - 400));
        Assert.True(result.LevelDecibels[at] - result.JoinedDecibels[at] < 9, $"{result.LevelDecibels[at] - result.JoinedDecibels[at]} dB");
    }

    [Fact]
    public void A_floor_of_noise_beside_the_band_is_not_taken_for_a_delay()
    {
        // 80 dB below the band a floor of another phase: with it as level, the minimum phase of the low output lacks some 15° at 400 Hz, 0.1 ms.
        var low = Output("low", "h = lr(35,'highpass')*lr(400,'lowpass') + 1e-4", 0.0100);
        var high = Output("high", "h = lr(400,'highpass')+ 1e-4", 0.0110);

        var found = FactorySignal.Compute(new FactorySignalInput { Outputs = [low, high] }).Outputs;

        Assert.Equal(1e-3, found[1].DelaySeconds, 0.04e-3);
    }

    [Fact]
    public void Inputs_get_what_undoes_their_output_and_all_sides_arrive_together()
    {
        // Left: high 0.8 ms after low. Right: one output, 0.3 ms after the latest of the left. On one clock, so the left waits 0.3 ms more.
        var low = Output("low", "h = lr(400,'lowpass')*bell(110,5,1.2)", 0.0100);
        var high = Output("high", "h = -lr(400,'highpass')", 0.0108);
        var right = Output("right", "h = np.ones(len(f)) + 0j", 0.0111);
        FactorySide Side(params FactoryOutput[] outputs) => new(outputs, FactorySignal.Compute(new FactorySignalInput { Outputs = outputs }));
        var left = Side(low, high);

        var inputs = FactoryInputs.Of([left, Side(right)]);

        Assert.Equal(["low", "high", "right"], inputs.Select(input => input.Id));
        Assert.Equal([false, true, false], inputs.Select(input => input.Inverted));
        Assert.Equal(1.1e-3, inputs[0].DelaySeconds, 0.04e-3);
        Assert.Equal(0.3e-3, inputs[1].DelaySeconds, 0.04e-3);
        Assert.Equal(0, inputs[2].DelaySeconds, 1e-9);
        // The bell of the low output is taken out of the sum, so both of its inputs carry the same filters.
        Assert.NotEmpty(left.Result.Equaliser!.Filters);
        Assert.Equal(inputs[0].Filters, inputs[1].Filters);
        Assert.Empty(inputs[2].Filters);
        Assert.Equal(0, inputs.Max(input => input.GainDecibels), 1e-9);
    }

    [Fact]
    public void A_processor_that_cannot_hold_the_inputs_is_told_with_what_it_has()
    {
        FilterSetting[] filters = [new() { Kind = FilterKind.AllPass, Hertz = 900 }, new() { Kind = FilterKind.Peaking, Hertz = 100, GainDecibels = -3 }, new() { Kind = FilterKind.Peaking, Hertz = 300, GainDecibels = 2 }];
        var input = new ChannelSetting { Id = "a", Name = "Front left", DelaySeconds = 0.03, Filters = filters };
        var profile = new ProcessorProfile { Name = "Small one", FiltersPerInput = 2, AllPasses = false };

        var refused = FactoryInputs.Refusals([input], profile);

        Assert.Equal(3, refused.Count);
        Assert.Contains("3 filters with its all-passes; an input of Small one has 2", refused[0], StringComparison.Ordinal);
        Assert.Contains("30 ms; Small one delays by 20 ms at most", refused[1], StringComparison.Ordinal);
        Assert.Contains("Small one has none", refused[2], StringComparison.Ordinal);
        Assert.Empty(FactoryInputs.Refusals([input with { DelaySeconds = 0.001 }], new ProcessorProfile { Name = "Large one" }));
    }

    private static FactoryOutput Output(string id, string script, double arrival)
    {
        var values = Scipy.Run(Parts + script + "\nresult = given(h)", _hertz);
        return new FactoryOutput(id, id, new FrequencyResponse(_hertz, values[.._hertz.Length], values[_hertz.Length..]), arrival);
    }
}
