using ShopFloor.Documents.Signal;
using ShopFloor.Documents.Tests.Drawing;
using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Signal;
using ShopFloor.Engineering.Signal.Chain;
using ShopFloor.Engineering.Signal.Loads;
using ShopFloor.Shop.Phases.Design;
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
