using System.Text.Json;
using ShopFloor.Documents.Handover;
using ShopFloor.Documents.Signal;
using ShopFloor.Documents.Tests.Drawing;
using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Signal;
using ShopFloor.Engineering.Signal.Chain;
using ShopFloor.Engineering.Signal.Loads;
using ShopFloor.Shop.Phases.Build;
using ShopFloor.Shop.Phases.Design;
using ShopFloor.Shop.Phases.Handover;
using ShopFloor.Shop.Storage;
using SignalLink = ShopFloor.Engineering.Signal.Chain.SignalLink;

namespace ShopFloor.Documents.Tests.Papers;

/// <summary>The gain sheet drawn as PDF and read back.</summary>
public sealed class SignalPaperTests
{
    [Fact]
    public void The_bench_reads_what_drives_what_and_the_voltage_to_set()
    {
        using var pdf = DrawnPdf.Of(SignalDocument.Compose(Sheet()));

        // √(40 W · 4 Ω) = 12.6 V; 80 % of 4 Ω is 3.2 Ω (IEC 60268-5).
        foreach (var expected in new[] { "Channel map", "Gain sheet", "Tweeter", "12.6", "(3.2)", "1000", "hearing protection", "true-rms", "Amplifier, output 2", "connector by connector" })
            Assert.Contains(expected, pdf.Text, StringComparison.Ordinal);
        Assert.DoesNotContain("Not to be switched on", pdf.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void A_stop_stands_before_everything_else()
    {
        var sheet = Sheet();
        var stop = new Finding("high-pass-missing", Severity.Stop, "d", "Tweeter", "Nothing keeps low notes away.", "", "");

        using var pdf = DrawnPdf.Of(SignalDocument.Compose(sheet with { View = sheet.View with { Findings = [stop] } }));

        Assert.True(pdf.Text.IndexOf("Nothing keeps low notes away", StringComparison.Ordinal) < pdf.Text.IndexOf("connector by connector", StringComparison.Ordinal));
        Assert.Contains("Nothing keeps low notes away", pdf.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void What_was_measured_stands_beside_the_volts_to_set_and_a_line_to_write_on_where_nothing_was()
    {
        var sheet = Sheet();
        var measured = new Dictionary<string, MeasuredFact> { ["c"] = new("Amplifier, output 1", "V", "tone", 12.71, 12.65, false, 11.94, 13.4, MeasuredVerdict.Within, "Tom Tech") };

        using var with = DrawnPdf.Of(SignalDocument.Compose(sheet, measured));
        using var without = DrawnPdf.Of(SignalDocument.Compose(sheet));

        Assert.Contains("12.71", with.Text, StringComparison.Ordinal);
        Assert.Contains("good", with.Text, StringComparison.Ordinal);
        Assert.Contains("________", without.Text, StringComparison.Ordinal);
        Assert.Contains("0.5", with.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void The_connection_list_names_ends_kind_and_length_of_every_cable()
    {
        var sheet = Sheet();
        ConnectionRow[] cables =
        [
            new("S1", "Player, left", "Amplifier, input 1", "unbalanced line", "phono (RCA) plug", "phono (RCA) plug", 4, true, "screened twin signal cable"),
            new("L1", "Amplifier, output 1", "Tweeter", "speaker level", "ferrules", "its own terminals", 3.5, false, "loudspeaker cable, 16 AWG"),
        ];

        using var pdf = DrawnPdf.Of(SignalDocument.Compose(sheet with { View = sheet.View with { Connections = cables } }));

        foreach (var expected in new[] { "S1", "both ends", "about", "ferrules; its own terminals", "16 AWG" })
            Assert.Contains(expected, pdf.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void The_client_keeps_drawing_channels_levels_and_cables_and_older_handovers_still_print()
    {
        var facts = SampleJob.Handover;
        var view = Sheet().View;
        var signal = new HandoverSignal(
            SignalGraph.Of(view),
            [new HandoverChannel("Tweeter", "Amplifier, output 1", "1 coil", 4, "Player, left", 40, 1000, -5)],
            [new MeasuredFact("Amplifier, output 1: Tweeter", "V", "tone", 14.2, 12.65, false, 11.94, 13.4, MeasuredVerdict.Outside, "Tom Tech")],
            [new ConnectionRow("S1", "Player, left", "Amplifier, input 1", "unbalanced line", "phono (RCA) plug", "phono (RCA) plug", 4, true, "screened twin signal cable")]);
        var kept = JsonSerializer.Deserialize<HandoverSignal>(JsonSerializer.Serialize(signal, StoredJson.Options), StoredJson.Options);

        using var pdf = DrawnPdf.Of(HandoverDocument.Compose(facts with { Signal = kept }));
        using var older = DrawnPdf.Of(HandoverDocument.Compose(facts with { Signal = null }));

        foreach (var expected in new[] { "How the sound runs", "Levels as we set them", "14.20", "outside", "1000", "Player, left", "S1" })
            Assert.Contains(expected, pdf.Text, StringComparison.Ordinal);
        Assert.DoesNotContain("How the sound runs", older.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void A_job_without_links_prints_what_to_do()
    {
        var sheet = Sheet();
        using var pdf = DrawnPdf.Of(SignalDocument.Compose(sheet with { View = sheet.View with { Input = null, Result = null, Channels = [], Unused = [] } }));

        Assert.Contains("say on the design page what feeds which loudspeaker", pdf.Text, StringComparison.Ordinal);
    }

    private static SignalSheet Sheet()
    {
        var path = new SignalPathInput
        {
            Devices =
            [
                new SourceDevice { Id = "s", Name = "Player", Outputs = [new SignalPort { Id = "l", Name = "left", Kind = PortKind.UnbalancedLine, MaxVolts = 2 }] },
                new AmplifierDevice
                {
                    Id = "a", Name = "Amplifier", RatedPowers = [new RatedPower(4, 100)],
                    Inputs = [new SignalPort { Id = "in1", Name = "input 1", Kind = PortKind.UnbalancedLine }, new SignalPort { Id = "in2", Name = "input 2", Kind = PortKind.UnbalancedLine }],
                    Outputs = [new SignalPort { Id = "out1", Name = "output 1", Kind = PortKind.SpeakerLevel }, new SignalPort { Id = "out2", Name = "output 2", Kind = PortKind.SpeakerLevel }],
                },
                new DriverDevice { Id = "d", Name = "Tweeter", CoilOhms = 4, RatedWatts = 40 },
            ],
            Links = [new SignalLink { Id = "1", FromDevice = "s", FromPort = "l", ToDevice = "a", ToPort = "in1" }],
            Loads = [new ChannelLoad { Id = "c", AmplifierId = "a", Outputs = ["out1"], Wiring = new Coil("d") }],
        };
        var result = SignalPath.Compute(path);
        return new SignalSheet(SampleJob.Letterhead, "J-0042", "Clear voices", "2028 Verano Lince", new SignalPathView
        {
            JobId = Guid.Empty, Input = path, Result = result, Channels = [new PathChannel("Tweeter", "1 coil", "Player, left", "", result.Channels[0])], Unused = ["Amplifier, output 2"], Findings = result.Findings,
        });
    }
}
