using Bunit;
using ShopFloor.Documents.Signal;
using ShopFloor.Engineering.Signal;
using ShopFloor.Engineering.Signal.Chain;
using ShopFloor.Engineering.Signal.Loads;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Phases.Design;
using ShopFloor.Web.Components;
using ShopFloor.Web.Phases.Design;
using ShopFloor.Web.Tests.Components;

namespace ShopFloor.Web.Tests.Phases.Design;

public sealed class SignalPathPanelsTests : ComponentTest
{
    [Fact]
    public void The_channel_map_shows_load_power_and_what_feeds_it()
    {
        var map = Render<ChannelMap>(parameters => parameters.Add(shown => shown.Rows, [Row(2, 40)]).Add(shown => shown.Text, UnitText.Invariant));

        var words = map.Find("tbody tr").TextContent;
        // 80 % of 4 Ω (IEC 60268-5); 100 W at 4 Ω; the driver bears 40 W.
        foreach (var expected in new[] { "Tweeter", "4\u00A0Ω", "least 3.2\u00A0Ω", "100\u00A0W", "40\u00A0W", "Processor, output 1" })
        {
            Assert.Contains(expected, words, StringComparison.Ordinal);
        }
    }

    [Fact]
    public void The_gain_sheet_gives_the_voltage_and_the_tone_to_play()
    {
        var table = Render<GainTable>(parameters => parameters.Add(shown => shown.Rows, [Row(2, 40)]).Add(shown => shown.Text, UnitText.Invariant));

        // √(40 W · 4 Ω) = 12.6 V; 1 kHz at the usual overlap of 5 dB.
        Assert.Equal("12.6\u00A0V", table.Find(".gain-volts").TextContent);
        Assert.Equal("/documents/test-signals/tone.wav?hz=1000&level=-5", table.Find("td a").GetAttribute("href"));
        Assert.Contains("Player, left, just at full scale", table.Markup, StringComparison.Ordinal);
        Assert.Single(table.FindAll(".why-button"));
    }

    [Fact]
    public void What_was_measured_stands_beside_the_target_with_its_distance()
    {
        var measured = new Dictionary<string, MeasuredLevel> { ["c"] = new("12.90\u00A0V", 0.173, true) };
        var within = Render<GainTable>(parameters => parameters.Add(shown => shown.Rows, [Row(2, 40)]).Add(shown => shown.Text, UnitText.Invariant).Add(shown => shown.Measured, measured));
        var off = Render<GainTable>(parameters => parameters.Add(shown => shown.Rows, [Row(2, 40)]).Add(shown => shown.Text, UnitText.Invariant)
            .Add(shown => shown.Measured, new Dictionary<string, MeasuredLevel> { ["c"] = new("14.20\u00A0V", 1.006, false) }));

        // 12.9 V over 12.65 V are 0.17 dB, 14.2 V are 1.01 dB.
        Assert.Contains("12.90\u00A0V", within.Markup, StringComparison.Ordinal);
        Assert.Equal("+0.2\u00A0dB", within.Find(".gain-within").TextContent);
        Assert.Equal("+1\u00A0dB", off.Find(".gain-outside").TextContent);
        Assert.DoesNotContain("Measured", Render<GainTable>(parameters => parameters.Add(shown => shown.Rows, [Row(2, 40)]).Add(shown => shown.Text, UnitText.Invariant)).Markup, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("100", "15\u00A0min", "2\u00A0h", true)]
    [InlineData("85", "8\u00A0h", "16\u00A0h", true)]
    [InlineData("70", "the whole day", "the whole day", false)]
    public void A_measured_level_says_how_long_an_ear_may_bear_it(string typed, string niosh, string osha, bool protect)
    {
        // NIOSH 98-126: 85 dB(A) for 8 h, halved every 3 dB; 29 CFR 1910.95: 90 dB(A) for 8 h, halved every 5 dB.
        var note = Render<ExposureNote>(parameters => parameters.Add(shown => shown.Text, UnitText.Invariant));
        note.Find("input").Change(typed);

        var says = note.Find(".exposure-says").TextContent;
        Assert.Contains(niosh, says, StringComparison.Ordinal);
        Assert.Contains(osha, says, StringComparison.Ordinal);
        Assert.Equal(protect, says.Contains("Hearing protection on", StringComparison.Ordinal));
    }

    [Fact]
    public void The_connection_list_shows_ends_and_offers_its_files()
    {
        var job = Guid.CreateVersion7();
        var list = Render<ConnectionList>(parameters => parameters.Add(shown => shown.JobId, job).Add(shown => shown.Text, UnitText.Invariant)
            .Add(shown => shown.Rows, [new ConnectionRow("S1", "Player, left", "Amplifier, input 1", "unbalanced line", "phono (RCA) plug", "ferrules", 4, false, "screened twin signal cable")]));

        foreach (var expected in new[] { "S1", "phono (RCA) plug", "ferrules", "4\u00A0m", "suggested" })
        {
            Assert.Contains(expected, list.Find("tbody tr").TextContent, StringComparison.Ordinal);
        }

        Assert.Equal(
            [$"/documents/jobs/{job}/signal-connections.csv", $"/documents/jobs/{job}/gain-sheet.csv", $"/documents/jobs/{job}/signal-path.json"],
            list.FindAll(".button-row a").Select(link => link.GetAttribute("href")));
    }

    [Fact]
    public void A_figure_nobody_knows_is_said_and_not_made_up()
    {
        var table = Render<GainTable>(parameters => parameters.Add(shown => shown.Rows, [Row(null, null)]).Add(shown => shown.Text, UnitText.Invariant));

        // Without the source's voltage there is no control position, but the amplifier's 100 W still ask for √(100 W · 4 Ω) = 20 V.
        Assert.Equal("20\u00A0V", table.Find(".gain-volts").TextContent);
        Assert.Equal("not known", table.FindAll("tbody td.number")[1].TextContent);
    }

    [Fact]
    public void An_empty_path_says_so_and_test_signals_name_the_time_an_ear_bears()
    {
        Assert.Contains("No channel has a load yet", Render<ChannelMap>(parameters => parameters.Add(shown => shown.Rows, [])).Markup, StringComparison.Ordinal);

        var signals = Render<TestSignalList>(parameters => parameters.Add(shown => shown.Text, UnitText.Invariant));
        // NIOSH 98-126: 85 dB(A) for 8 h, halved every 3 dB; 29 CFR 1910.95: 90 dB(A) for 8 h, halved every 5 dB.
        Assert.Equal(["8\u00A0h", "16\u00A0h"], signals.FindAll("tbody tr")[0].QuerySelectorAll("td").Select(cell => cell.TextContent));
        Assert.Equal(["15\u00A0min", "2\u00A0h"], signals.FindAll("tbody tr")[3].QuerySelectorAll("td").Select(cell => cell.TextContent));
    }

    private static PathChannel Row(double? sourceVolts, double? borne)
    {
        var path = new SignalPathInput
        {
            Devices =
            [
                new SourceDevice { Id = "s", Name = "Player", Outputs = [new SignalPort { Id = "l", Name = "left", Kind = PortKind.UnbalancedLine, MaxVolts = sourceVolts }] },
                new AmplifierDevice
                {
                    Id = "a", Name = "Amplifier", Inputs = [new SignalPort { Id = "in1", Name = "input 1", Kind = PortKind.UnbalancedLine }], Outputs = [new SignalPort { Id = "out1", Name = "output 1", Kind = PortKind.SpeakerLevel }],
                    RatedPowers = [new RatedPower(4, 100)],
                },
                new DriverDevice { Id = "d", Name = "Tweeter", CoilOhms = 4, RatedWatts = borne },
            ],
            Links = [new ShopFloor.Engineering.Signal.Chain.SignalLink { Id = "1", FromDevice = "s", FromPort = "l", ToDevice = "a", ToPort = "in1" }],
            Loads = [new ChannelLoad { Id = "c", AmplifierId = "a", Outputs = ["out1"], Wiring = new Coil("d") }],
        };
        return new PathChannel("Tweeter", "1 coil", "Processor, output 1", "", Assert.Single(SignalPath.Compute(path).Channels));
    }
}
