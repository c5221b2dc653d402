using ShopFloor.Engineering.Signal.Chain;
using ShopFloor.Engineering.Signal.Levels;
using ShopFloor.Engineering.Signal.Presets;

namespace ShopFloor.Engineering.Tests.Signal;

/// <summary>What a source's way does to what it plays. IEC 60958-1: linear PCM of 16 to 24 bits; rates of the channel-status table of IEC 60958-3, from memory.</summary>
public class SourcePresetTests
{
    [Fact]
    public void The_way_is_told_device_by_device_with_what_lies_between()
    {
        var player = Preset(SamplePath.Good(), "player");

        Assert.Equal(["Player", "Processor", "Six-channel amplifier"], player.Way);
        Assert.Equal([PortKind.Optical, PortKind.UnbalancedLine], player.Links.Select(link => link.Kind));
        Assert.Contains("Left tweeter", player.Drivers);
        Assert.DoesNotContain("Chime loudspeaker", player.Drivers);
        // 2 ms of the player and 1.5 ms of the processor.
        Assert.Equal(0.0035, player.Carried!.DelaySeconds!.Value, 9);
        Assert.Equal("Processor", player.VolumeAt);
    }

    [Fact]
    public void Other_sources_of_chimes_that_are_heard_stay_beside_and_one_that_is_not_is_lost()
    {
        Assert.Equal(["Vehicle sounds"], Preset(SamplePath.Good(), "player").VehicleSoundsBeside);

        var cut = SamplePath.Good();
        cut = cut with { Links = [.. cut.Links.Where(link => link.FromDevice != "chimes")] };

        Assert.Equal(["Vehicle sounds"], Preset(cut, "player").VehicleSoundsLost);
        Assert.False(Preset(cut, "chimes").IsHeard);
        Assert.Empty(Preset(cut, "chimes").Formats);
    }

    // The optical connector takes 96 kHz where it says nothing else, the processor works at 96 kHz: of 192 kHz half the rate is left.
    [Fact]
    public void Rates_up_to_the_narrowest_place_arrive_whole_and_finer_ones_are_reduced_to_it()
    {
        var formats = Preset(Playing(new AudioFormat(192_000, 24)), "player").Formats;

        Assert.Equal(
            [(44_100.0, Passage.Whole), (48_000, Passage.Whole), (88_200, Passage.Whole), (96_000, Passage.Whole), (176_400, Passage.Reduced), (192_000, Passage.Reduced)],
            formats.Select(format => (format.Format.SampleRateHertz, format.Passage)));
        Assert.Equal(new AudioFormat(96_000, 24), formats[^1].Arrives);
    }

    // A one-bit stream of 64 · 44.1 kHz = 2.8224 MHz is no linear PCM: IEC 60958 has no place for it.
    [Theory]
    [InlineData(PortKind.Optical, Passage.NotNative)]
    [InlineData(PortKind.Usb, Passage.AsTheEndsAgree)]
    [InlineData(PortKind.UnbalancedLine, Passage.IntoVoltsAtSource)]
    public void A_one_bit_stream_does_not_travel_over_IEC_60958_as_it_is(PortKind kind, Passage passage)
    {
        var path = Playing(new AudioFormat(2_822_400, 1))
            .With(device => device is SourceDevice { Id: "player" } player ? player with { Outputs = [player.Outputs[0] with { Kind = kind, MaxVolts = 2 }] } : device)
            .WithProcessor(processor => processor with { Inputs = [.. processor.Inputs.Select(port => port.Id == "opt" ? port with { Kind = kind, MaxVolts = 4 } : port)] });

        Assert.Equal(passage, Preset(path, "player").Formats.Single(format => format.Format.IsOneBit).Passage);
    }

    // IEC 60958-1: the sample word has 24 bits at most; 32 bits lose 8.
    [Fact]
    public void A_word_of_32_bits_loses_eight_on_its_way_over_IEC_60958()
    {
        var route = SignalLevels.Compute(Playing(new AudioFormat(96_000, 32))).SelectMany(channel => channel.Routes).First(way => way.Route.Source.Id == "player").Route;

        Assert.Equal(new FormatPassage(new AudioFormat(96_000, 32), Passage.Reduced, new AudioFormat(96_000, 24)), SourcePresets.Follow(route, new AudioFormat(96_000, 32)));
    }

    [Fact]
    public void A_source_whose_output_moves_with_its_volume_is_where_it_is_turned() =>
        Assert.Equal("Player", Preset(SamplePath.Good().With(device => device is SourceDevice { Id: "player" } player ? player with { Volume = VolumeControl.Here } : device), "player").VolumeAt);

    [Fact]
    public void A_source_that_does_not_say_what_it_plays_is_asked_nothing() => Assert.Empty(Preset(SamplePath.Good(), "radio").Formats);

    private static SignalPathInput Playing(AudioFormat format) => SamplePath.Good().With(device => device is SourceDevice { Id: "player" } player ? player with { Format = format } : device);

    private static SourcePreset Preset(SignalPathInput path, string source) => SourcePresets.Of(path, SignalLevels.Compute(path)).Single(preset => preset.SourceId == source);
}
