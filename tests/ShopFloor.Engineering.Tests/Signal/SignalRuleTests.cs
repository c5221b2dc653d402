using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Signal.Chain;
using ShopFloor.Engineering.Signal.Levels;
using ShopFloor.Engineering.Signal.Loads;
using ShopFloor.Engineering.Signal.Rules;

namespace ShopFloor.Engineering.Tests.Signal;

public class SignalRuleTests
{
    [Fact]
    public void A_system_in_order_has_nothing_to_mend()
    {
        Assert.DoesNotContain(SamplePath.Good().Findings(), finding => finding.Severity != Severity.Note);
    }

    /// <summary>One thing broken at a time, with what has to be said about it.</summary>
    public static TheoryData<string, Severity, string, Func<SignalPathInput, SignalPathInput>> Broken => new()
    {
        { "driver-not-driven", Severity.Stop, "Coil 2 of 2 is driven by no amplifier channel.", path => path.WithLoad("load-mono", load => load with { Wiring = CoilWiring.Parallel(CoilWiring.Series(new Coil("sub-1"), new Coil("sub-1", 2)), new Coil("sub-2")) }) },
        { "driver-not-driven", Severity.Stop, "No amplifier channel drives it.", path => path with { Loads = [.. path.Loads.Where(load => load.Id != "load-mid-l")] } },
        { "coil-driven-twice", Severity.Stop, "Coil 1 is connected 2 times.", path => path with { Loads = [.. path.Loads.Where(load => load.Id != "load-mid-l"), SamplePath.Load("six", "3", "mid-r") with { Id = "load-again" }] } },
        { "channel-loaded-twice", Severity.Stop, "Two loads are connected to this channel.", path => path.WithLoad("load-mid-r", load => load with { Outputs = ["3"] }) },
        { "channel-unused", Severity.Note, "This channel drives nothing.", path => path.WithLoad("load-mid-r", load => load with { Outputs = ["3"] }) },
        // Four coils of 4 Ω side by side are 1 Ω; two of them 2 Ω, which the six-channel amplifier takes, but not bridged.
        { "load-below-rating", Severity.Stop, "The load is 0.5 Ω; the amplifier is rated down to 1 Ω.", path => path.WithDriver("sub-1", driver => driver with { CoilOhms = 2 }).WithDriver("sub-2", driver => driver with { CoilOhms = 2 })
            .WithLoad("load-mono", load => load with { Wiring = CoilWiring.Parallel(new Coil("sub-1"), new Coil("sub-1", 2), new Coil("sub-2"), new Coil("sub-2", 2)) }) },
        { "load-below-rating", Severity.Stop, "The load is 2 Ω, so each channel sees 1 Ω; the amplifier is rated down to 4 Ω bridged.", path => Bridge(path, 2) },
        { "bridging-not-allowed", Severity.Stop, "The amplifier has no rating for bridged channels.", path => Bridge(path, 4).With(device => device is AmplifierDevice { Id: "six" } six ? six with { BridgedPowers = [] } : device) },
        { "side-mixed", Severity.Stop, "It sits on the left and is fed with the right signal.", path => path.WithLoad("load-mid-l", load => load with { Outputs = ["4"] }).WithLoad("load-mid-r", load => load with { Outputs = ["3"] }) },
        { "polarity-differs", Severity.Stop, "Its coils are connected against each other.", path => path.WithLoad("load-mono", load => load with { Wiring = CoilWiring.Parallel(CoilWiring.Series(new Coil("sub-1"), new Coil("sub-1", 2, Inverted: true)), CoilWiring.Series(new Coil("sub-2"), new Coil("sub-2", 2))) }) },
        { "polarity-differs", Severity.Warn, "It is changed over against its twin (Left midbass).", path => path.WithLoad("load-bass-r", load => load with { Wiring = new Coil("bass-r", 1, Inverted: true) }) },
        // 6 V into an input that clips at 2 V: 20·log10(3) = 9.54 dB.
        { "input-clipped", Severity.Warn, "6 V arrives at full scale; it clips at 2 V, 9.54 dB lower.", path => path.WithProcessor(processor => processor with { Inputs = [.. processor.Inputs.Select(port => port.Id == "a" ? port with { MaxVolts = 2, MinVolts = 1, Ohms = null } : port)] }) },
        { "input-clipped", Severity.Warn, "The level inside is 6 dB above full scale.", path => path.WithProcessor(processor => processor with { GainDecibels = 6 }) },
        { "gain-out-of-range", Severity.Warn, "too weak", path => path.With(device => device is AmplifierDevice { Id: "six" } six ? six with { SensitivityMinVolts = 6 } : device) },
        { "gain-out-of-range", Severity.Warn, "too strong", path => path.With(device => device is AmplifierDevice { Id: "mono" } mono ? mono with { SensitivityMinVolts = 0.1, SensitivityMaxVolts = 0.2 } : device) },
        { "connector-mismatch", Severity.Stop, "The output is speaker level, the input unbalanced line.", path => path with { Links = [.. path.Links.Where(link => link.FromPort != "l"), SamplePath.Link("radio", "l", "processor", "i3")] } },
        { "input-shared", Severity.Stop, "2 outputs are joined on this input.", path => path with { Links = [.. path.Links, SamplePath.Link("processor", "o8", "mono", "1")] } },
        { "output-shared", Severity.Warn, "It feeds 2 inputs, of loudspeakers on the left and on the right: both play the same.", path => path with { Links = [.. path.Links.Where(link => link.FromPort != "o4"), SamplePath.Link("processor", "o3", "six", "4")] } },
        // 1 kΩ beside 10 kΩ are 909 Ω, below ten times the 100 Ω of the output.
        { "output-shared", Severity.Warn, "Its 2 inputs together are 909 Ω, the output 100 Ω: the level falls.", path => (path with { Links = [.. path.Links.Where(link => link.ToDevice != "factory-amp"), SamplePath.Link("processor", "o7", "factory-amp", "1")] })
            .With(device => device is AmplifierDevice { Id: "mono" } mono ? mono with { Inputs = [.. mono.Inputs.Select(port => port with { Ohms = 1_000 })] } : device) },
        { "output-shared", Severity.Note, "It feeds 2 inputs; all of them play the same.", path => path with { Links = [.. path.Links.Where(link => link.ToDevice != "factory-amp"), SamplePath.Link("processor", "o7", "factory-amp", "1")] } },
        { "no-source", Severity.Stop, "No way leads from a source to this channel.", path => path with { Links = [.. path.Links.Where(link => link.ToDevice != "mono")] } },
        { "format-reduced", Severity.Warn, "one-bit stream (DSD)", path => path.With(device => device is SourceDevice { Id: "player" } player ? player with { Format = new AudioFormat(2_822_400, 1) } : device) },
        { "format-reduced", Severity.Note, "It plays up to 192 kHz and 24 bits; 96 kHz and 24 bits arrive.", path => path.With(device => device is SourceDevice { Id: "player" } player ? player with { Format = new AudioFormat(192_000, 24) } : device) },
        { "driver-overpowered", Severity.Stop, "70 W is wanted; the drivers bear 50 W.", path => path.WithLoad("load-tweeter-l", load => load with { WantedWatts = 70 }) },
        { "high-pass-missing", Severity.Stop, "Nothing keeps low notes away; it may be driven from 2000 Hz up.", path => path.WithProcessor(processor => processor with { Bands = [.. processor.Bands.Where(band => band.Output != "o1")] }) },
        { "high-pass-missing", Severity.Warn, "The high-pass is at 1200 Hz; it may be driven from 2000 Hz up.", path => path.WithProcessor(processor => processor with { Bands = [.. processor.Bands.Select(band => band.Output == "o1" ? band with { HighPassHertz = 1_200 } : band)] }) },
        { "noise-audible", Severity.Warn, "Residual noise is", path => path.WithProcessor(processor => processor with { SignalToNoiseDecibels = 70 }) },
        { "vehicle-sounds-lost", Severity.Stop, "Its warnings, navigation or telephone reach no loudspeaker.", path => path with { Links = [.. path.Links.Where(link => link.FromDevice != "chimes")] } },
        { "not-terminated", Severity.Stop, "It needs a load or a wake signal and has none.", path => path.WithProcessor(processor => processor with { IsTerminated = false }) },
        { "not-terminated", Severity.Stop, "It needs a load or a wake signal and has none.", path => path.With(device => device is SourceDevice { Id: "radio" } radio ? radio with { IsTerminated = false } : device) },
        { "factory-not-measured", Severity.Note, "its outputs were never measured", path => path.WithProcessor(processor => processor with { OutputsMeasured = false }) },
        { "line-beside-supply", Severity.Warn, "This unbalanced line lies beside a supply cable.", path => path with { Links = [.. path.Links.Select(link => link.ToDevice == "mono" ? link with { BesideSupplyCable = true } : link)] } },
        { "grounds-differ", Severity.Warn, "The ends are grounded at two points: boot and dash.", path => path.With(device => device is AmplifierDevice { Id: "mono" } mono ? mono with { GroundPoint = "dash" } : device) },
        // 4 V from the player's way, and the radio's 0.5 V into an input that takes no less than 2 V: 20·log10(4) = 12.04 dB.
        { "sources-differ", Severity.Note, "Player is 12 dB louder than Factory radio at full scale.", path => path.With(device => device is SourceDevice { Id: "radio" } radio ? radio with { Outputs = [.. radio.Outputs.Select(port => port with { MaxVolts = 0.5, Ohms = null })] } : device) },
        { "figure-missing", Severity.Note, "Not known: noise.", path => path.WithProcessor(processor => processor with { SignalToNoiseDecibels = null }) },
    };

    [Theory]
    [MemberData(nameof(Broken))]
    public void What_is_broken_is_found_and_said(string code, Severity severity, string words, Func<SignalPathInput, SignalPathInput> breaking)
    {
        var before = SamplePath.Good().Findings();
        Assert.DoesNotContain(before, finding => finding.Code == code && finding.Text.Contains(words, StringComparison.Ordinal));

        var found = breaking(SamplePath.Good()).Findings();

        var said = found.Where(finding => finding.Code == code).ToList();
        Assert.Contains(said, finding => finding.Severity == severity && finding.Text.Contains(words, StringComparison.Ordinal));
        Assert.All(said, finding => Assert.NotEmpty(finding.Remedy));
    }

    [Fact]
    public void Every_rule_is_broken_by_some_case_above()
    {
        var broken = Broken.Select(row => (string)row[0]).ToHashSet();
        Assert.All(SignalRules.All, rule => Assert.Contains(rule.Code, broken));
    }

    [Fact]
    public void Every_rule_says_why_how_it_is_put_right_and_a_case_of_it()
    {
        Assert.All(SignalRules.All, rule =>
        {
            foreach (var words in new[] { rule.Title, rule.Why, rule.Source, rule.Remedy, rule.Example })
            {
                Assert.NotEmpty(words);
            }

            Assert.Matches("^[a-z]+(-[a-z]+)*$", rule.Code);
        });
        Assert.Equal(SignalRules.All.Count, SignalRules.All.DistinctBy(rule => rule.Code).Count());
    }

    [Fact]
    public void A_one_bit_stream_that_leaves_its_source_as_volts_is_not_reduced()
    {
        // IEC 60958 carries linear PCM; a converter in the source itself makes volts of anything it plays.
        var path = SamplePath.Good().With(device => device is SourceDevice { Id: "player" } player
            ? player with { Format = new AudioFormat(2_822_400, 1), Outputs = [SamplePath.Line("opt", "line out", PortKind.UnbalancedLine, 2, 100)] }
            : device);
        path = path with { Links = [.. path.Links.Where(link => link.FromDevice != "player"), SamplePath.Link("player", "opt", "processor", "i3")] };

        Assert.DoesNotContain(path.WithProcessor(processor => processor with { Routes = [.. processor.Routes, new PortRoute("i3", "o1")] }).Findings(), finding => finding is { Code: "format-reduced", Severity: Severity.Warn });
    }

    [Fact]
    public void A_factory_amplifier_that_was_measured_and_one_that_feeds_nothing_are_not_named()
    {
        var measured = SamplePath.Good().WithProcessor(processor => processor with { OutputsMeasured = true });
        var unused = SamplePath.Good();
        unused = unused with { Devices = [.. unused.Devices, new ProcessingDevice { Id = "spare", Name = "Factory amplifier", OutputsMeasured = false }] };

        Assert.DoesNotContain(measured.Findings().Concat(unused.Findings()), finding => finding.Code == "factory-not-measured");
    }

    [Fact]
    public void Inputs_joined_by_a_switch_inside_a_device_are_no_shared_output()
    {
        var path = SamplePath.Good();
        path = path with { Links = [.. path.Links.Where(link => link.FromPort != "o4"), SamplePath.Link("processor", "o3", "six", "4") with { IsInternal = true }] };

        Assert.DoesNotContain(path.Findings(), finding => finding.Code == "output-shared");
    }

    [Fact]
    public void A_finding_is_known_by_its_rule_and_its_subject()
    {
        foreach (var row in Broken)
        {
            var found = ((Func<SignalPathInput, SignalPathInput>)row[3])(SamplePath.Good()).Findings();
            Assert.Equal(found.Count, found.DistinctBy(finding => (finding.Code, finding.SubjectId)).Count());
        }
    }

    [Fact]
    public void Two_outputs_of_one_source_are_one_source()
    {
        // The radio's second output gives 0.5 V where its first gives 6 V and the player's way 4 V: only the louder of the two is compared.
        var path = SamplePath.Good().With(device => device switch
        {
            SourceDevice { Id: "radio" } radio => radio with { Outputs = [.. radio.Outputs, SamplePath.Line("line", "line out", PortKind.UnbalancedLine, 0.5, 100)] },
            ProcessingDevice processor => processor with { Routes = [.. processor.Routes, new PortRoute("i3", "o1")] },
            _ => device,
        });
        path = path with { Links = [.. path.Links, SamplePath.Link("radio", "line", "processor", "i3")] };

        var ways = SignalLevels.Compute(path).Single(levels => levels.Channel.Load.Id == "load-tweeter-l").Routes.Where(way => way.Route.Source.Id == "radio").Select(way => way.InputVolts!.Value).ToList();

        Assert.Equal(2, ways.Count);
        Assert.True(ways.Max() / ways.Min() > 2);
        Assert.DoesNotContain(path.Findings(), finding => finding.Code == "sources-differ");
    }

    [Theory]
    [InlineData("Amp", "Amp 2")]
    [InlineData("Deck: front", "Deck")]
    [InlineData("Amp", "Amp")]
    public void A_missing_figure_is_said_of_its_device_whatever_the_devices_are_called(string player, string processor)
    {
        var found = SamplePath.Good().With(device => device switch
        {
            SourceDevice { Id: "player" } source => source with { Name = player, SignalToNoiseDecibels = null },
            ProcessingDevice processing => processing with { Name = processor, SignalToNoiseDecibels = null },
            _ => device,
        }).Findings().Where(finding => finding.Code == "figure-missing");

        Assert.Equal(
            [("player:noise", player, "Not known: noise."), ("processor:noise", processor, "Not known: noise.")],
            found.Select(finding => (finding.SubjectId, finding.Subject, finding.Text)).Order());
    }

    private static SignalPathInput Bridge(SignalPathInput path, double ohms) => path
        .WithDriver("bass-l", driver => driver with { CoilOhms = ohms })
        .WithLoad("load-bass-l", load => load with { Outputs = ["5", "6"] }) with { Loads = [.. path.Loads.Where(load => load.Id is not ("load-bass-r" or "load-bass-l")), new ChannelLoad { Id = "load-bass-l", AmplifierId = "six", Outputs = ["5", "6"], Wiring = new Coil("bass-l") }] };
}
