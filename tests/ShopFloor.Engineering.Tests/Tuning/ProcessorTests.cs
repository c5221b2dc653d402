using System.Globalization;
using System.Text.Json;
using CsCheck;
using ShopFloor.Engineering.Tuning.Filters;
using ShopFloor.Engineering.Tuning.Processors;

namespace ShopFloor.Engineering.Tests.Tuning;

public class ProcessorTests
{
    private static readonly ProcessorProfile _profile = new() { Name = "P" };

    private static readonly ProcessorPreset _preset = new("Driver's seat",
    [
        new ChannelSetting
        {
            Id = "lt", Name = "Left tweeter", GainDecibels = -3.14, DelaySeconds = 0.0012345, Inverted = true, HighPass = new Crossover(CrossoverShape.LinkwitzRiley, 2_512.4, 24),
            Filters = [new FilterSetting { Kind = FilterKind.Peaking, Hertz = 6_301.2, GainDecibels = -4.26, Q = 2.345 }, new FilterSetting { Kind = FilterKind.HighShelf, Hertz = 9_000, GainDecibels = 1.5, Q = 0.7 }],
        },
        new ChannelSetting { Id = "sub", Name = "Subwoofer", LowPass = new Crossover(CrossoverShape.Butterworth, 80, 24) },
    ]);

    [Fact]
    public void Settings_are_brought_onto_the_steps_and_each_change_is_told()
    {
        var fitted = SettingQuantiser.Fit(_preset, _profile);
        var tweeter = fitted.Preset.Channels[0];
        Assert.Equal((-3.1, 59), (tweeter.GainDecibels, Math.Round(tweeter.DelaySeconds * 48_000, 9))); // 1.2345 ms are 59.256 samples
        Assert.Equal((6_301, -4.3, 2.3), (tweeter.Filters[0].Hertz, tweeter.Filters[0].GainDecibels, tweeter.Filters[0].Q));
        Assert.Equal(
            ["level: -3.14 dB > -3.1 dB", "delay: 1.2345 ms > 1.22917 ms", "high-pass: frequency: 2512.4 Hz > 2512 Hz", "filter 1: frequency: 6301.2 Hz > 6301 Hz", "filter 1: gain: -4.26 dB > -4.3 dB", "filter 1: Q: 2.345 > 2.3"],
            fitted.Rounded.Select(change => $"{change.Field}: {change.From} > {change.To}"));
        Assert.Empty(fitted.Findings);
    }

    [Fact]
    public void What_a_processor_does_not_have_is_replaced_and_said()
    {
        var narrow = _profile with
        {
            Shapes = [CrossoverShape.Butterworth], SlopesDecibelsPerOctave = [12, 18], Shelves = false, MaximumDelaySeconds = 0.001, LargestQ = 2, LeastFilterDecibels = -3, Channels = 1,
        };
        var fitted = SettingQuantiser.Fit(_preset, narrow);
        Assert.Equal(new Crossover(CrossoverShape.Butterworth, 2_512, 18), fitted.Preset.Channels[0].HighPass);
        Assert.Equal(2, Assert.Single(fitted.Preset.Channels[0].Filters).Q);
        Assert.Equal(["crossover-missing", "crossover-missing", "filter-kind-missing", "out-of-range", "out-of-range", "out-of-range", "too-many-channels"], fitted.Findings.Select(finding => finding.Code).Order());
    }

    [Theory]
    [InlineData(CrossoverShape.Butterworth, 18, 24)] // of 12 and 24 the steeper one, as it protects more
    [InlineData(CrossoverShape.Bessel, 6, 12)]
    [InlineData(CrossoverShape.LinkwitzRiley, 36, 36)]
    public void A_processor_of_linkwitz_riley_alone_is_set_to_a_slope_that_exists(CrossoverShape shape, int slope, int kept)
    {
        var channel = new ChannelSetting { Id = "c", Name = "C", HighPass = new Crossover(shape, 100, slope) };

        var fitted = SettingQuantiser.Fit(new ProcessorPreset("P", [channel]), _profile with { Shapes = [CrossoverShape.LinkwitzRiley] });

        Assert.Equal(new Crossover(CrossoverShape.LinkwitzRiley, 100, kept), fitted.Preset.Channels[0].HighPass);
    }

    [Fact]
    public void A_processor_whose_linkwitz_riley_has_no_slope_that_exists_is_refused()
    {
        var problem = Assert.Single((_profile with { Shapes = [CrossoverShape.LinkwitzRiley, CrossoverShape.Bessel], SlopesDecibelsPerOctave = [6, 18] }).Validate());

        Assert.Equal("SlopesDecibelsPerOctave", problem.Field);
        Assert.Equal("Slope: a Linkwitz-Riley of 6 or 18 dB per octave does not exist, as it is two equal halves; add one of 12, 24, 36, 48, or take the shape away.", problem.Message);
        Assert.Empty((_profile with { Shapes = [CrossoverShape.LinkwitzRiley], SlopesDecibelsPerOctave = [18, 24] }).Validate());
    }

    [Fact]
    public void Of_too_many_filters_those_that_do_least_go()
    {
        var channel = _preset.Channels[0] with { Filters = [.. new[] { -6.0, 0.5, -4, 3 }.Select((gain, n) => new FilterSetting { Kind = FilterKind.Peaking, Hertz = 3_000 + 1_000 * n, GainDecibels = gain, Q = 1 })] };
        var fitted = SettingQuantiser.Fit(new ProcessorPreset("P", [channel]), _profile with { FiltersPerChannel = 2 });
        Assert.Equal([-6, -4], fitted.Preset.Channels[0].Filters.Select(filter => filter.GainDecibels));
        Assert.Contains(fitted.Findings, finding => finding.Code == "too-many-filters");
    }

    [Fact]
    public void Rounding_twice_changes_nothing_and_moves_nothing_farther_than_half_a_step() =>
        Gen.Select(Gen.Double[-30, 0], Gen.Double[0, 0.019], Gen.Double[30, 15_000], Gen.Double[-14, 5.9], Gen.Double[0.5, 14]).Sample((level, delay, hertz, gain, q) =>
        {
            var preset = new ProcessorPreset("P", [new ChannelSetting { Id = "c", Name = "C", GainDecibels = level, DelaySeconds = delay, Filters = [new FilterSetting { Kind = FilterKind.Peaking, Hertz = hertz, GainDecibels = gain, Q = q }] }]);
            var once = SettingQuantiser.Fit(preset, _profile);
            var twice = SettingQuantiser.Fit(once.Preset, _profile);
            var (channel, filter) = (once.Preset.Channels[0], once.Preset.Channels[0].Filters[0]);
            return twice.Rounded.Count == 0 && once.Findings.Count == 0
                && Math.Abs(channel.GainDecibels - level) <= 0.05 + 1e-9 && Math.Abs(channel.DelaySeconds - delay) <= 0.5 / 48_000 + 1e-9
                && Math.Abs(filter.Hertz - hertz) <= 0.5 + 1e-9 && Math.Abs(filter.GainDecibels - gain) <= 0.05 + 1e-9 && Math.Abs(filter.Q - q) <= 0.05 + 1e-9;
        });

    [Fact]
    public void Two_presets_are_told_apart_channel_by_channel()
    {
        var after = new ProcessorPreset("Second",
        [
            _preset.Channels[0] with { Inverted = false, HighPass = null, Filters = [_preset.Channels[0].Filters[0] with { GainDecibels = -5 }] },
            new ChannelSetting { Id = "c", Name = "Centre" },
        ]);
        Assert.Equal(
            [
                new SettingChange("lt", "Left tweeter", "polarity", "turned", "normal"),
                new SettingChange("lt", "Left tweeter", "high-pass", "Linkwitz-Riley 24 dB/oct at 2512.4 Hz", "off"),
                new SettingChange("lt", "Left tweeter", "filter 1: gain", "-4.26 dB", "-5 dB"),
                new SettingChange("lt", "Left tweeter", "filter 2", "high shelf 9000 Hz +1.5 dB Q 0.7", ""),
                new SettingChange("sub", "Subwoofer", "channel", "Subwoofer", ""),
                new SettingChange("c", "Centre", "channel", "", "Centre"),
            ],
            PresetComparison.Between(_preset, after));
        Assert.Empty(PresetComparison.Between(_preset, _preset));
    }

    /// <summary>Every coefficient of the printed sheet, read back as text and run by scipy.signal.lfilter on an impulse, sounds as the preset does.</summary>
    [Theory]
    [InlineData(FeedbackSign.Denominator)]
    [InlineData(FeedbackSign.Added)]
    public void The_coefficients_on_the_sheet_make_the_response_in_scipy(FeedbackSign sign)
    {
        var profile = _profile with { FeedbackSign = sign };
        var preset = SettingQuantiser.Fit(_preset, profile).Preset;
        var rows = PresetSheet.Of(preset, profile, 343.2).ToCsv().Split('\n').Skip(1).Where(line => line.StartsWith("\"lt\"", StringComparison.Ordinal)).Select(line => line.Split(',')).Where(cells => cells[2] != "channel").ToList();
        Assert.Equal(["high-pass", "high-pass", "filter 1", "filter 2"], rows.Select(cells => cells[2]));
        var turned = sign == FeedbackSign.Added ? -1 : 1;
        double[] hertz = [1_000, 2_512, 6_301, 12_000];
        var answer = Scipy.Ask(
            """
            x=np.zeros(8192); x[0]=1
            for b0,b1,b2,a1,a2 in given['sections']: x=ss.lfilter([b0,b1,b2],[1,given['sign']*a1,given['sign']*a2],x)
            answer=[float(20*np.log10(abs(np.sum(x*np.exp(-2j*np.pi*f/48000*np.arange(8192)))))) for f in given['hertz']]
            """,
            new { sections = rows.Select(cells => cells[12..17].Select(cell => double.Parse(cell, CultureInfo.InvariantCulture))), sign = turned, hertz });
        var grid = new FrequencyGrid(hertz, 48_000);
        var ours = (preset.Channels[0] with { GainDecibels = 0 }).Response(grid);
        Assert.All(ours.Zip(answer.Numbers()), pair => Assert.Equal(pair.Second, 20 * Math.Log10(pair.First.Magnitude), 1e-6));
    }

    [Fact]
    public void The_sheet_says_the_delay_three_ways_and_the_rest_in_plain_text()
    {
        var sheet = PresetSheet.Of(SettingQuantiser.Fit(_preset, _profile).Preset, _profile, 343.2);
        var text = sheet.ToText();
        Assert.Contains("  Delay      1.229 ms = 59 samples = 42.2 cm\n", text, StringComparison.Ordinal); // 59/48000 s at 343.2 m/s
        Assert.Contains("  High-pass  Linkwitz-Riley 24 dB/oct at 2512 Hz\n", text, StringComparison.Ordinal);
        Assert.Contains("  Filter 1   bell 6301 Hz -4.3 dB Q 2.3\n", text, StringComparison.Ordinal);
        Assert.Contains("- a1 y[n-1] - a2 y[n-2]", text, StringComparison.Ordinal);
        var channel = JsonDocument.Parse(sheet.ToJson()).RootElement.GetProperty("channels")[0];
        Assert.Equal(("Left tweeter", -3.1, true, 2_512), (channel.GetProperty("name").GetString(), channel.GetProperty("levelDecibels").GetDouble(), channel.GetProperty("inverted").GetBoolean(), channel.GetProperty("highPass").GetProperty("hertz").GetDouble()));
    }

    [Fact]
    public void A_name_cannot_become_a_formula_or_a_column()
    {
        var preset = new ProcessorPreset("P", [new ChannelSetting { Id = "c", Name = "=1+1,\"x\"\nnext" }]);
        Assert.Contains("\"c\",\"'=1+1,\"\"x\"\" next\",channel", PresetSheet.Of(preset, _profile, 343.2).ToCsv(), StringComparison.Ordinal);
    }

    [Fact]
    public void A_profile_out_of_range_is_named()
    {
        Assert.Equal(["FrequencyStepHertz", "SlopesDecibelsPerOctave"], (_profile with { FrequencyStepHertz = -1, SlopesDecibelsPerOctave = [24, 20] }).Validate().Select(problem => problem.Field));
        Assert.Equal("Channels", Assert.Throws<ArgumentOutOfRangeException>(() => SettingQuantiser.Fit(new ProcessorPreset("P", [_preset.Channels[0], _preset.Channels[0]]), _profile)).ParamName);
    }

    [Fact]
    public void Inputs_are_rounded_compared_and_written_as_channels_are_and_kept_apart_from_them()
    {
        var input = new ChannelSetting { Id = "in", Name = "Front left", DelaySeconds = 0.001005, Filters = [new FilterSetting { Kind = FilterKind.AllPass, Hertz = 1_500, Q = 0.8 }, new FilterSetting { Kind = FilterKind.Peaking, Hertz = 110, GainDecibels = -5.04, Q = 1.2 }] };
        var fitted = SettingQuantiser.Fit(_preset with { Inputs = [input] }, _profile with { DelayStepSeconds = 0.00001, FiltersPerInput = 1 });

        // 1.005 ms lies between steps of 0.01 ms; of two filters for one place the all-pass stays.
        Assert.Equal(1.01e-3, fitted.Preset.Inputs[0].DelaySeconds, 1e-9);
        Assert.Equal(FilterKind.AllPass, Assert.Single(fitted.Preset.Inputs[0].Filters).Kind);
        Assert.Contains(fitted.Findings, finding => finding.Code == "too-many-filters" && finding.Text.Contains("an input of", StringComparison.Ordinal));
        var change = Assert.Single(PresetComparison.Between(_preset, _preset with { Inputs = [input] }));
        Assert.Equal(("Input: Front left", "input", "", "Front left"), (change.Channel, change.Field, change.From, change.To));
        var sheet = PresetSheet.Of(fitted.Preset, _profile, 343.2);
        Assert.Equal(_preset.Channels.Count, sheet.Channels.Count);
        Assert.Contains("Input: Front left\n", sheet.ToText(), StringComparison.Ordinal);
        Assert.Contains("\"in\",\"Front left\",input,", sheet.ToCsv(), StringComparison.Ordinal);
        Assert.Contains("\"inputs\"", sheet.ToJson(), StringComparison.Ordinal);
        Assert.Contains(new ProcessorPreset("P", _preset.Channels) { Inputs = [input with { DelaySeconds = -1 }] }.Validate(48_000), problem => problem.Field == "Inputs[0].DelaySeconds");
    }
}
