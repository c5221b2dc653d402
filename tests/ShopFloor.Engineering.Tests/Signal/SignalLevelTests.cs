using CsCheck;
using ShopFloor.Engineering.Signal.Chain;
using ShopFloor.Engineering.Signal.Levels;
using ShopFloor.Engineering.Signal.Presets;

namespace ShopFloor.Engineering.Tests.Signal;

public class SignalLevelTests
{
    // dBV against 1 V, dBu against √0.6 V (D. Self, Small Signal Audio Design: 775 mV, 1 mW in 600 Ω).
    [Theory]
    [InlineData(1, 0, 2.2185)]
    [InlineData(2, 6.0206, 8.2391)]
    [InlineData(4, 12.041, 14.260)]
    [InlineData(1.2277, 1.7818, 4.000)]
    [InlineData(0.316228, -10.000, -7.7815)]
    public void Voltages_in_decibels(double volts, double decibelVolts, double decibelU)
    {
        Assert.Equal(decibelVolts, DecibelLevels.OfVolts(volts), 3);
        Assert.Equal(decibelU, DecibelLevels.OfVoltsInDecibelU(volts), 1e-3);
    }

    // S = −10·log10 Σ 10^(−Si/10), worked with a pocket calculator.
    [Fact]
    public void Noises_add_as_powers()
    {
        Assert.Equal(109.586, DecibelLevels.Together([120, 110]), 3);
        Assert.Equal(114.990, DecibelLevels.Together([118, 118]), 3);
        Assert.Equal(104.463, DecibelLevels.Together([120, 115, 105]), 3);
    }

    [Fact]
    public void Noise_never_improves_down_the_chain() =>
        Gen.Double[40, 140].Array[1, 6].Sample(each => DecibelLevels.Together(each) <= each.Min() + 1e-9);

    // A 2 V line into an amplifier of 100 W into 4 Ω (20 V): ten times, 20 dB.
    [Fact]
    public void Gain_is_the_ratio_of_voltages_and_overlap_adds_to_it()
    {
        Assert.Equal(20, DecibelLevels.OfRatio(SignalLevels.GainFor(20, 2, 0)), 9);
        Assert.Equal(25, DecibelLevels.OfRatio(SignalLevels.GainFor(20, 2, 5)), 9);
    }

    [Fact]
    public void The_gain_sheet_gives_the_voltage_of_ohms_law_at_the_terminals()
    {
        var channel = SignalLevels.Compute(SamplePath.Good()).Single(levels => levels.Channel.Load.Id == "load-mid-l");

        // The driver bears 60 W, the amplifier has 75 W into 4 Ω: 60 W. V = √(60/4)·4.02 = 15.569 V with 0.02 Ω of cable.
        Assert.Equal(60, channel.Step!.Watts, 9);
        Assert.Equal(15.569, channel.Step.TargetVolts, 3);
        Assert.Equal(-5, channel.Step.ToneDecibelsFullScale);
        Assert.Equal(1_000, channel.Step.ToneHertz);
        // 4 V through 100 Ω into 20 kΩ are 3.980 V. 15.569 V over that, and 5 dB (1.7783) of overlap: 6.956 times.
        Assert.Equal(3.980, channel.Loudest!.InputVolts!.Value, 3);
        Assert.Equal(6.956, channel.Gain!.Value, 3);
        // 75 W into 4 Ω are √300 = 17.321 V; over 6.956.
        Assert.Equal(2.490, channel.SensitivityVolts!.Value, 3);
        Assert.Equal(0, channel.OutsideRangeDecibels);
    }

    [Fact]
    public void The_stage_that_clips_first_lies_before_the_amplifier_whose_own_input_is_told_apart()
    {
        // 3.98 V arrive at inputs that clip at 2 V; the radio, first on the way, reaches its own 6 V at full scale and not before.
        var path = SamplePath.Good().With(device => device is AmplifierDevice { Id: "six" } six ? six with { Inputs = [.. six.Inputs.Select(port => port with { MaxVolts = 2 })] } : device);

        var first = SignalLevels.Compute(path).Single(levels => levels.Channel.Load.Id == "load-mid-l").Loudest!.ClipsFirst!;

        Assert.Equal("radio", first.DeviceId);
        Assert.Equal(0, first.HeadroomDecibels!.Value, 9);
        Assert.Contains(path.Findings(), finding => finding.Code == "input-clipped" && finding.SubjectId.StartsWith("six:", StringComparison.Ordinal));
    }

    [Fact]
    public void The_bass_tone_lies_in_the_bass()
    {
        // Its band is 25 to 70 Hz: 50 Hz is not an octave inside, so the middle of the band, √(25·70).
        var channel = SignalLevels.Compute(SamplePath.Good()).Single(levels => levels.Channel.Load.Id == "load-mono");
        Assert.Equal(42, channel.Step!.ToneHertz);
    }

    // 15.569 V at the driver, 6.956 times the 3.980 V from the processor. Below full scale: player 110 dB, radio 95 dB, processor 112 dB; the
    // amplifier 100 dB below √300 V, 0.1732 mV. Player: √(10^−11 + 10^−11.2) · 3.980 V · 6.956 = 0.1118 mV, with the amplifier's 0.2062 mV,
    // 97.56 dB. Radio: √(10^−9.5 + 10^−11.2) · 3.980 V · 6.956 = 0.4972 mV, with the amplifier's 0.5265 mV, 89.42 dB.
    [Theory]
    [InlineData("player", 97.56)]
    [InlineData("radio", 89.42)]
    public void Noise_at_the_driver_is_the_root_of_the_sum_of_squares(string source, double decibels)
    {
        var path = SamplePath.Good();
        var only = path with { Links = [.. path.Links.Where(link => link.ToDevice != "processor" || link.FromDevice == source)] };

        var channel = SignalLevels.Compute(only).Single(levels => levels.Channel.Load.Id == "load-mid-l");

        Assert.Equal(source, channel.Loudest!.Route.Source.Id);
        Assert.Equal(decibels, channel.SignalToNoiseDecibels!.Value, 2);
    }

    [Fact]
    public void What_is_not_known_stays_unknown()
    {
        var path = SamplePath.Good().With(device => device is AmplifierDevice amplifier ? amplifier with { SignalToNoiseDecibels = null } : device);
        Assert.All(SignalLevels.Compute(path), channel => Assert.Null(channel.SignalToNoiseDecibels));
    }

    [Fact]
    public void The_player_arrives_whole_and_each_change_is_named()
    {
        var route = SignalLevels.Compute(SamplePath.Good())[0].Routes.Single(way => way.Route.Source.Id == "player").Route;
        var carried = FormatCarrier.Follow(route);

        Assert.True(carried.IsWhole);
        Assert.Equal(44_100, carried.SampleRateHertz);
        Assert.Equal(16, carried.Bits);
        Assert.Equal(["Processor: 44.1 kHz into 96 kHz", "Processor: numbers into volts"], carried.Conversions.Select(change => $"{change.DeviceName}: {change.What}"));
        Assert.Equal(0.0035, carried.DelaySeconds!.Value, 9);
    }

    // Bits · rate · channels: 16/44.1 stereo 1.4112 Mbit/s, 24/96 4.608, 24/192 9.216.
    [Theory]
    [InlineData(16, 44_100, 1.4112)]
    [InlineData(24, 96_000, 4.608)]
    [InlineData(24, 192_000, 9.216)]
    public void Bit_rates_of_linear_pcm(int bits, double hertz, double megabits) => Assert.Equal(megabits, new AudioFormat(hertz, bits).BitsPerSecond() / 1e6, 9);

    [Fact]
    public void A_loop_and_unknown_connectors_are_refused_by_name()
    {
        var path = SamplePath.Good() with
        {
            Devices = [.. SamplePath.Good().Devices, new ProcessingDevice { Id = "eq", Name = "Equaliser", Inputs = [SamplePath.Line("in", "in", PortKind.UnbalancedLine, 4, 10_000)], Outputs = [SamplePath.Line("out", "out", PortKind.UnbalancedLine, 4, 100)] }],
        };
        var loop = path with { Links = [.. path.Links, SamplePath.Link("processor", "o9", "eq", "in"), SamplePath.Link("eq", "out", "processor", "i3")] };
        Assert.Contains(loop.Validate(), problem => problem.Message == "Links: the signal comes back to Processor; open the loop there." || problem.Message == "Links: the signal comes back to Equaliser; open the loop there.");

        var unknown = path with { Links = [.. path.Links, SamplePath.Link("processor", "o99", "eq", "in")] };
        Assert.Equal("Link processor:o99-eq:in: there is no output “processor, o99”.", Assert.Single(unknown.Validate()).Message);
        Assert.Throws<ArgumentOutOfRangeException>(() => SignalLevels.Compute(unknown));
    }

    [Fact]
    public void A_wide_path_without_sources_is_no_trap()
    {
        // Thirty stages of two devices each, everything joined: 2^30 ways that begin nowhere.
        ProcessingDevice Stage(int at, string side) => new()
        {
            Id = $"{at}{side}", Name = $"Stage {at}{side}",
            Inputs = [SamplePath.Line("a", "a", PortKind.UnbalancedLine, 4, 10_000), SamplePath.Line("b", "b", PortKind.UnbalancedLine, 4, 10_000)],
            Outputs = [SamplePath.Line("a", "a", PortKind.UnbalancedLine, 4, 100), SamplePath.Line("b", "b", PortKind.UnbalancedLine, 4, 100)],
        };
        var good = SamplePath.Good();
        var path = good with
        {
            Devices = [.. good.Devices, .. Enumerable.Range(0, 30).SelectMany(at => new[] { Stage(at, "x"), Stage(at, "y") })],
            Links =
            [
                .. good.Links.Where(link => link.ToDevice != "mono"),
                .. Enumerable.Range(0, 29).SelectMany(at => new[] { "x", "y" }.SelectMany(from => new[] { ("x", "a"), ("y", "b") }.Select(to => SamplePath.Link($"{at}{from}", to.Item2, $"{at + 1}{to.Item1}", from == "x" ? "a" : "b")))),
                SamplePath.Link("29x", "a", "mono", "1"),
            ],
        };
        Assert.Empty(SignalLevels.Compute(path).Single(levels => levels.Channel.Load.Id == "load-mono").Routes);
    }
}
