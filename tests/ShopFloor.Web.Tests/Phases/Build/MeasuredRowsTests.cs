using System.Globalization;
using Bunit;
using ShopFloor.Engineering.Electrical.Commissioning;
using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Signal.Levels;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Phases.Build;
using ShopFloor.Shop.Phases.Design;
using ShopFloor.Shop.Staff;
using ShopFloor.Web.Layout;
using ShopFloor.Web.Phases.Build;
using ShopFloor.Web.Tests.Components;

namespace ShopFloor.Web.Tests.Phases.Build;

public sealed class MeasuredRowsTests : ComponentTest
{
    private static readonly DateTimeOffset At = new(2031, 3, 3, 10, 5, 0, TimeSpan.Zero);
    private static readonly Explanation Why = new("Which voltage?", "13.6 V", [], [], [], null);
    private static readonly CommissioningPoint Load = new("load:1", CommissioningKind.LoadVoltage, "Voltage at the amplifier under load", "V", "Engine idling", 13.61, false, 13.1, 15, Why);

    [Fact]
    public void A_value_not_measured_yet_shows_prediction_limits_and_a_number_pad()
    {
        var rows = Rows(Row());

        Assert.Contains("Predicted 13.61\u00A0V · accepted 13.1 to 15.0\u00A0V", rows.Find(".measure-limits").TextContent, StringComparison.Ordinal);
        Assert.Equal(12, rows.FindAll(".measure-key").Count);
        Assert.Equal(("13.1", "15", "V"), (rows.Find("[data-measure]").GetAttribute("data-lowest"), rows.Find("[data-measure]").GetAttribute("data-highest"), rows.Find("[data-measure]").GetAttribute("data-unit")));
        Assert.Empty(rows.FindAll(".measure-verdict"));
        Assert.Contains("0 of 1 within limits", rows.Find(".measures-heading").TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public void The_value_goes_to_the_outbox_and_may_be_measured_again_while_one_waits()
    {
        var enter = Rows(Row()).Find(".measure-send");

        Assert.Equal("/build/commands/measure", enter.GetAttribute("data-outbox-url"));
        Assert.Contains("\"pointId\":\"load:1\"", enter.GetAttribute("data-outbox-body"), StringComparison.Ordinal);
        Assert.True(enter.HasAttribute("data-outbox-repeat"));
    }

    [Theory]
    [InlineData(13.5, "Within limits", "measure-within")]
    [InlineData(12.88, "0.22\u00A0V too low", "measure-outside")]
    [InlineData(15.3, "0.30\u00A0V too high", "measure-outside")]
    public void A_measured_value_says_how_it_stands_who_took_it_and_can_be_taken_back(double volts, string words, string look)
    {
        var rows = Rows(Row(Entry(volts)));

        Assert.Equal(words, rows.Find(".measure-verdict").TextContent);
        Assert.NotEmpty(rows.FindAll($".{look}"));
        Assert.Contains("Tom Tech", rows.Find(".measure-by").TextContent, StringComparison.Ordinal);
        Assert.Equal("/build/commands/unmeasure", rows.Find(".measure-result [data-outbox-url]").GetAttribute("data-outbox-url"));
    }

    [Fact]
    public void A_prediction_that_moved_since_is_told_and_repeats_are_listed()
    {
        var rows = Rows(Row(Entry(13.5) with { Predicted = 13.4 }, Entry(12.0) with { WithdrawnAt = At, WithdrawnBy = "Mia Meter" }));

        Assert.Contains("Predicted then 13.40\u00A0V, now 13.61\u00A0V", rows.Find(".measure-moved").TextContent, StringComparison.Ordinal);
        Assert.Contains("2 measurements so far", rows.Markup, StringComparison.Ordinal);
        Assert.Contains("taken back by Mia Meter", rows.Markup, StringComparison.Ordinal);
    }

    [Fact]
    public void A_job_that_is_closed_shows_values_and_takes_none()
    {
        var rows = Rows(mayAct: false, Row(Entry(13.5)));

        Assert.Empty(rows.FindAll("[data-outbox-url]"));
        Assert.NotEmpty(rows.FindAll(".measure-value"));
    }

    [Fact]
    public void The_decimal_key_is_the_readers_own()
    {
        CultureInfo.CurrentCulture = CultureInfo.GetCultureInfo("de-DE");

        Assert.Contains(Rows(Row()).FindAll(".measure-key"), key => key.TextContent == ",");
    }

    [Fact]
    public void What_holds_commissioning_is_named_with_who_releases_it()
    {
        var stop = new Finding("no-size-carries", Severity.Stop, "main-run", "Main run", "No size carries it.", "Split the load.", "table");
        var missing = new Finding("measured-missing", Severity.Stop, "load:1", "Voltage at the amplifier", "Not measured.", "Measure it.", "practice");
        var signed = new SignOffLine(Guid.CreateVersion7(), "Odile Owner", At, "Agreed with the client.");

        var held = Hold([new GatedFinding(stop, null)], [new GatedFinding(missing, null)]);
        var released = Hold([new GatedFinding(stop, signed)], [new GatedFinding(missing, null)]);
        var open = Hold([new GatedFinding(stop, signed)], []);

        Assert.Contains("not to be switched on yet", held.Markup, StringComparison.Ordinal);
        Assert.Contains("No size carries it.", held.Markup, StringComparison.Ordinal);
        Assert.Contains("Odile Owner (owner)", held.Markup, StringComparison.Ordinal);
        Assert.DoesNotContain("not to be switched on yet", released.Markup, StringComparison.Ordinal);
        Assert.Contains("The last tick waits for: Voltage at the amplifier", released.Find(".hold-note").TextContent, StringComparison.Ordinal);
        Assert.Empty(open.Markup.Trim());
    }

    [Fact]
    public void A_level_of_the_gain_sheet_shows_its_target_its_tone_and_its_distance()
    {
        // 20 V are the 100 W of Ohm's law into 4 Ω; 22 V are 20·log10(1.1) = 0.83 dB more.
        var gain = new GainPoint { ChannelId = "c", ChannelName = "Amplifier, output 1", IsBridged = false, Step = new GainStep(1_000, -5, 20, 100), LowestVolts = 18.88, HighestVolts = 21.19, ClipVolts = 20, DriverVolts = null, Explanation = Why };
        var point = new CommissioningPoint("gain:c", CommissioningKind.ChannelLevel, "Amplifier, output 1: Woofer", "V", "Loudspeakers off", 20, false, 18.88, 21.19, Why);

        var rows = Rows(new MeasuredRow(point, [Entry(22)]) { Gain = gain });

        Assert.Contains("Set to 20.00\u00A0V", rows.Find(".measure-limits").TextContent, StringComparison.Ordinal);
        Assert.Equal("/documents/test-signals/tone.wav?hz=1000&level=-5", rows.Find(".measure-tone").GetAttribute("href"));
        Assert.Contains("+0.8\u00A0dB", rows.Find(".measure-verdict").TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public void A_level_that_harms_says_that_the_last_tick_waits_and_one_that_is_off_does_not()
    {
        var stop = new Finding("level-clips", Severity.Stop, "gain:c", "Amplifier, output 1", "Measured 24 V.", "Turn it down.", "as measured");
        var off = stop with { Code = "level-outside", Severity = Severity.Warn };

        Assert.Contains("last tick of this stage waits", Levels(stop).Markup, StringComparison.Ordinal);
        Assert.Contains("Odile Owner (owner)", Levels(stop).Markup, StringComparison.Ordinal);
        Assert.Contains("Measured 24 V.", Levels(off).Markup, StringComparison.Ordinal);
        Assert.DoesNotContain("last tick", Levels(off).Markup, StringComparison.Ordinal);

        IRenderedComponent<LevelHold> Levels(Finding finding) =>
            Render<LevelHold>(parameters => parameters.Add(panel => panel.Sheet, new MeasuredSheet(Guid.CreateVersion7(), [], [], [new GatedFinding(finding, null)], ["Odile Owner"], SupplySafety.None)));
    }

    private static MeasuredRow Row(params MeasuredEntry[] entries) => new(Load, entries);

    private static MeasuredEntry Entry(double volts) => new(Guid.CreateVersion7(), volts, 13.61, 13.1, 15, null, "Tom Tech", At, null, "");

    private IRenderedComponent<MeasuredRows> Rows(params MeasuredRow[] rows) => Rows(mayAct: true, rows);

    private IRenderedComponent<MeasuredRows> Rows(bool mayAct, params MeasuredRow[] rows) => Render<MeasuredRows>(parameters => parameters
        .AddCascadingValue(new Viewer(new Actor(Guid.CreateVersion7(), "Somebody", ShopRole.Technician, ActorVia.Tablet), UnitSystem.Metric, TimeZoneInfo.Utc, "EUR", "Shop"))
        .Add(panel => panel.Sheet, new MeasuredSheet(Guid.CreateVersion7(), rows, [], [], [], SupplySafety.None))
        .Add(panel => panel.MayAct, mayAct));

    private IRenderedComponent<CommissioningHold> Hold(IReadOnlyList<GatedFinding> design, IReadOnlyList<GatedFinding> values) =>
        Render<CommissioningHold>(parameters => parameters.Add(panel => panel.Sheet, new MeasuredSheet(Guid.CreateVersion7(), [], design, values, ["Odile Owner"], SupplySafety.None)));
}
