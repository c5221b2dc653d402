using AngleSharp.Dom;
using Bunit;
using Microsoft.AspNetCore.Components;
using Microsoft.Extensions.DependencyInjection;
using ShopFloor.Engineering.Tuning.Filters;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Phases.Tuning.Factory;
using ShopFloor.Shop.Phases.Tuning.Measurements;
using ShopFloor.Shop.Phases.Tuning.Placement;
using ShopFloor.Shop.Phases.Tuning.Presets;
using ShopFloor.Shop.Staff;
using ShopFloor.Web.Layout;
using ShopFloor.Web.Phases.Tuning;
using ShopFloor.Web.Tests.Components;

namespace ShopFloor.Web.Tests.Phases.Tuning;

/// <summary>The parts of the tuning tab over the real use cases, each with nothing, with what it needs, and at what it refuses.</summary>
public sealed class TuningPanelsTests : ComponentTest, IClassFixture<TunedShop>
{
    private readonly TunedShop _shop;
    private readonly PresetBench _bench = new();

    public TuningPanelsTests(TunedShop shop)
    {
        _shop = shop;
        Services.AddSingleton(_shop.Get<TuningBench>());
        Services.AddSingleton(_shop.Get<TuningPresets>());
        Services.AddSingleton(_shop.Get<TuningMeasurements>());
        Services.AddSingleton(_shop.Get<FactoryMeasurements>());
        Services.AddSingleton(_shop.Get<PlacementStudies>());
        Services.AddSingleton(_shop.Get<JobDesigns>());
    }

    [Fact]
    public async Task Alignment_without_a_preset_says_where_to_begin_one()
    {
        var panel = Panel<AlignmentPanel>(await _shop.OpenAsync(), withBench: true);

        panel.WaitForAssertion(() => Assert.Contains("Begin a preset, or open one, under Presets.", panel.Markup, StringComparison.Ordinal));
        Assert.Empty(panel.FindAll("button"));
    }

    [Fact]
    public async Task Alignment_takes_the_delays_of_what_was_measured_onto_the_bench()
    {
        var job = await _shop.OpenAsync(loudspeakers: true);
        await _shop.MeasureAsync(job, "Midbass, left", arrivalSeconds: 0.003);
        await _shop.MeasureAsync(job, "Midbass, right", arrivalSeconds: 0.004);
        _bench.Open(await _shop.DraftAsync(job));
        var panel = Panel<AlignmentPanel>(job, withBench: true);
        panel.WaitForElement("[aria-label=Delays]");

        Press(panel, "Take these delays");

        // The left one comes 1 ms earlier and waits as long: 48 samples at 48 kHz.
        Assert.Equal(0.001, _bench.Draft!.Channels[0].DelaySeconds, 1e-5); // opened above
        Assert.Equal(0, _bench.Draft.Channels[1].DelaySeconds);
        Assert.True(_bench.Changed);
        panel.WaitForAssertion(() => Assert.Contains("Changed, not kept yet", panel.Find(".keep-version").TextContent, StringComparison.Ordinal));
    }

    [Fact]
    public async Task Alignment_names_channels_without_a_measurement_and_takes_their_distance()
    {
        var job = await _shop.OpenAsync(loudspeakers: true);
        _bench.Open(await _shop.DraftAsync(job));

        var panel = Panel<AlignmentPanel>(job, withBench: true);

        panel.WaitForAssertion(() => Assert.Contains("Midbass, left: not measured at this seat without a preset.", panel.Find("[aria-label='Not measured yet']").TextContent, StringComparison.Ordinal));
        Field(panel, "Midbass, left").Change("1.00");
        Field(panel, "Midbass, right").Change("1.50");
        panel.WaitForElement("[aria-label=Delays]");
        Press(panel, "Take these delays");

        // Half a metre at 343 m/s is 1.46 ms, on samples of 20.8 µs.
        Assert.Equal(0.5 / 343.2, _bench.Draft!.Channels[0].DelaySeconds, 2e-5); // opened above
    }

    [Fact]
    public async Task Equaliser_without_a_preset_says_where_to_begin_one_and_with_one_adds_and_removes_a_filter()
    {
        var job = await _shop.OpenAsync(loudspeakers: true);
        var panel = Panel<EqualiserPanel>(job, withBench: true);
        panel.WaitForAssertion(() => Assert.Contains("No preset on the bench", panel.Markup, StringComparison.Ordinal));

        _bench.Open(await _shop.DraftAsync(job));
        panel = Panel<EqualiserPanel>(job, withBench: true);
        panel.WaitForElement(".equaliser");
        Press(panel, "Add filter");

        Assert.Single(_bench.Draft!.Channels[0].Filters); // opened above
        Press(panel, "Remove filter 1");
        Assert.Empty(_bench.Draft.Channels[0].Filters);
    }

    [Fact]
    public async Task Presets_without_channels_send_to_the_signal_path()
    {
        var panel = Panel<PresetsPanel>(await _shop.OpenAsync(), withBench: true);

        panel.WaitForAssertion(() => Assert.Contains("No channel to tune yet", panel.Markup, StringComparison.Ordinal));
        Assert.EndsWith("/design", panel.Find("a.button-primary").GetAttribute("href"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Presets_begin_one_refuse_it_without_a_name_and_say_which_is_in_the_car()
    {
        var panel = Panel<PresetsPanel>(await _shop.OpenAsync(loudspeakers: true), withBench: true);
        panel.WaitForAssertion(() => Assert.Contains("No preset yet", panel.Markup, StringComparison.Ordinal));
        Field(panel, "Name").Change("");
        Press(panel, "Begin preset");
        panel.WaitForAssertion(() => Assert.Contains("ame", panel.Find("[role=alert]").TextContent, StringComparison.Ordinal));

        Field(panel, "Name").Change("Both seats");
        Press(panel, "Begin preset");
        panel.WaitForElement("[aria-label='Version 1 is in the car now']").Click();

        panel.WaitForAssertion(() => Assert.Contains("In the car since", panel.Find(".preset-in-car").TextContent, StringComparison.Ordinal));
        Assert.Equal(("Both seats", 1), (_bench.Draft!.Name, _bench.Draft.BasedOn)); // begun above
        Assert.False(_bench.Changed);
    }

    [Fact]
    public async Task Presets_offer_no_linkwitz_riley_that_does_not_exist()
    {
        var job = await _shop.OpenAsync(loudspeakers: true);
        var draft = await _shop.DraftAsync(job);
        _bench.Open(draft with { Channels = [.. draft.Channels.Select(channel => channel with { HighPass = new Crossover(CrossoverShape.LinkwitzRiley, 80, 24) })] });

        var panel = Panel<PresetsPanel>(job, withBench: true);

        panel.WaitForElement(".preset-channel");
        Assert.Equal(["12", "24", "36", "48"], Field(panel, "High-pass shape").QuerySelectorAll("option").Select(option => option.TextContent).Where(text => text.StartsWith("Linkwitz", StringComparison.Ordinal)).Select(text => text.Split(' ')[1]));
    }

    [Fact]
    public async Task Verification_without_a_preset_in_the_car_says_so_and_with_one_keeps_what_was_heard()
    {
        var job = await _shop.OpenAsync(loudspeakers: true);
        var panel = Panel<VerificationPanel>(job);
        panel.WaitForAssertion(() => Assert.Contains("No preset is in the car", panel.Markup, StringComparison.Ordinal));

        await _shop.PutInCarAsync(job, await _shop.DraftAsync(job));
        panel = Panel<VerificationPanel>(job);
        panel.WaitForAssertion(() => Assert.Contains("Driver's seat, version 1 is in the car, and was not measured on both sides since.", panel.Markup, StringComparison.Ordinal));
        panel.FindAll("button[aria-label^='Good:']")[0].Click();

        panel.WaitForAssertion(() => Assert.Contains("1 of 11 heard", panel.Markup, StringComparison.Ordinal));
        Assert.Equal("true", panel.FindAll("button[aria-label^='Good:']")[0].GetAttribute("aria-pressed"));
    }

    [Fact]
    public async Task Verification_offers_the_owner_alone_to_sign_a_broken_limit_off()
    {
        var job = await _shop.OpenAsync(loudspeakers: true);
        await _shop.PutInCarAsync(job, await _shop.DraftAsync(job));
        await _shop.MeasureAsync(job, "Midbass, left", 0.003, preset: "Driver's seat, version 1", level: 85);
        await _shop.MeasureAsync(job, "Midbass, right", 0.003, preset: "Driver's seat, version 1", level: 80);

        var owner = Panel<VerificationPanel>(job);
        var technician = Panel<VerificationPanel>(job, role: ShopRole.Technician);

        owner.WaitForAssertion(() => Assert.Contains("5\u00a0dB louder", owner.Find(".verification").TextContent, StringComparison.Ordinal));
        technician.WaitForAssertion(() => Assert.Contains("5\u00a0dB louder", technician.Find(".verification").TextContent, StringComparison.Ordinal));
        Assert.Contains(owner.FindAll("button"), button => button.TextContent.Contains("Sign off", StringComparison.Ordinal));
        Assert.DoesNotContain(technician.FindAll("button"), button => button.TextContent.Contains("Sign off", StringComparison.Ordinal));
    }

    [Fact]
    public async Task Placement_without_loudspeakers_sends_to_the_signal_path_and_with_them_begins()
    {
        var empty = Panel<PlacementPanel>(await _shop.OpenAsync());
        empty.WaitForAssertion(() => Assert.Contains("link them first", empty.Markup, StringComparison.Ordinal));
        Assert.EndsWith("/design", empty.Find("a.button-primary").GetAttribute("href"), StringComparison.Ordinal);

        var panel = Panel<PlacementPanel>(await _shop.OpenAsync(loudspeakers: true));
        panel.WaitForElement("button.button-primary").Click();

        panel.WaitForElement(".place-views");
        Assert.Equal(["Midbass, left", "Midbass, right"], panel.FindAll("[data-place=top] .place-driver").Select(point => point.GetAttribute("aria-label")));
    }

    [Fact]
    public async Task A_recording_of_another_sweep_is_told_and_the_right_one_is_one_touch_away()
    {
        var job = await _shop.OpenAsync(loudspeakers: true);
        var channels = await _shop.ChannelsAsync(job);
        var recorded = MeasurementDrafts.SweepFor(channels[0]) with { Seconds = 5 };
        var draft = new MeasurementDraft(Guid.CreateVersion7(), "take.wav", null, new ShopFloor.Engineering.Waves.WaveFormat(48_000, 2, 24, false), 6, null, new MeasurementForm { Source = MeasurementSource.Sweep, Sweep = recorded with { Seconds = 10 }, LoopbackChannel = 1 })
        {
            Recognised = recorded, Loopback = 1,
        };

        var card = Render<MeasurementDraftCard>(parameters => parameters.AddCascadingValue(Viewer(ShopRole.Technician)).Add(shown => shown.JobId, job).Add(shown => shown.Draft, draft).Add(shown => shown.Channels, channels).Add(shown => shown.Text, UnitText.Invariant));
        Assert.Contains("The recording holds another sweep: 50\u00a0Hz to 20\u00a0000\u00a0Hz, 5\u00a0s.", card.Find("div.field-problem span").TextContent, StringComparison.Ordinal);
        Assert.Contains("Channel 2 returns the sweep as one pulse", card.Markup, StringComparison.Ordinal);
        Press(card, "Take that one");

        Assert.Contains("Recognised: the sweep 50\u00a0Hz", card.Find(".draft").TextContent, StringComparison.Ordinal);
        Assert.Equal("5", Field(card, "Its length").GetAttribute("value"));
    }

    [Fact]
    public async Task Unsaved_changes_are_taken_up_or_thrown_away()
    {
        var (taken, thrown) = (0, 0);
        var draft = await _shop.DraftAsync(await _shop.OpenAsync(loudspeakers: true)) with { BasedOn = 2, Note = "less treble" };
        var card = Render<UnsavedBenchCard>(parameters => parameters.AddCascadingValue(Viewer(ShopRole.Technician))
            .Add(shown => shown.Left, new UnsavedBench(draft, new DateTimeOffset(2031, 3, 3, 14, 2, 0, TimeSpan.Zero))).Add(shown => shown.TakenUp, () => taken++).Add(shown => shown.ThrownAway, () => thrown++));

        Assert.Equal("Unsaved changes from 3 Mar 2031 14:02", card.Find("h2").TextContent);
        Assert.Equal("Driver's seat, from version 2: less treble", card.Find("p").TextContent);
        Press(card, "Take up");
        Press(card, "Throw away");
        Assert.Equal((1, 1), (taken, thrown));
    }

    private static void Press<TPanel>(IRenderedComponent<TPanel> panel, string text)
        where TPanel : IComponent => panel.FindAll("button").Single(button => button.TextContent.Trim() == text).Click();

    private static IElement Field<TPanel>(IRenderedComponent<TPanel> panel, string label)
        where TPanel : IComponent => panel.Find($"#{panel.FindAll("label[for]").First(each => each.TextContent.Trim().StartsWith(label, StringComparison.Ordinal)).GetAttribute("for")}");

    private Viewer Viewer(ShopRole role) => new(_shop.Actor(role), UnitSystem.Metric, TimeZoneInfo.Utc, "EUR", "Shop");

    private IRenderedComponent<TPanel> Panel<TPanel>(Guid job, bool withBench = false, ShopRole role = ShopRole.Owner)
        where TPanel : IComponent => Render<TPanel>(parameters =>
    {
        parameters.AddCascadingValue(Viewer(role));
        parameters.TryAdd("JobId", job);
        parameters.TryAdd("Round", 1);
        if (withBench)
        {
            parameters.TryAdd("Bench", _bench);
        }
    });
}
