using Bunit;
using Microsoft.AspNetCore.Components;
using ShopFloor.Engineering.Electrical;
using ShopFloor.Engineering.Electrical.Budget;
using ShopFloor.Engineering.Electrical.Runs;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Phases.Design;
using ShopFloor.Web.Phases.Design;
using ShopFloor.Web.Tests.Components;

namespace ShopFloor.Web.Tests.Phases.Design;

public sealed class BudgetPanelsTests : ComponentTest
{
    [Fact]
    public void The_alternator_says_what_is_short_in_words_and_bars()
    {
        // 60 A at 1500 and 120 A at 6000 1/min (SAE J56), times 0.85 hot; 35 A for the car and 40 A added.
        var result = AlternatorBudget.Compute(new AlternatorBudgetInput
        {
            StampedRating = "60/120 A 13.5 V", PulleyRatio = 2, IdleEngineRpm = 750, CruiseEngineRpm = 3000, VehicleBaseAmperes = 35, Loads = [new MusicLoad("a", "Amplifier", 40), new MusicLoad("b", "Fan", null)],
        });

        var card = Render<AlternatorCard>(parameters => parameters.Add(shown => shown.Result, result).Add(shown => shown.Text, UnitText.Invariant));

        Assert.Contains("24\u00A0A short", card.FindAll(".balance")[0].TextContent, StringComparison.Ordinal);
        Assert.Contains("27\u00A0A to spare", card.FindAll(".balance")[1].TextContent, StringComparison.Ordinal);
        Assert.Equal("Engine idle: 51\u00A0A given, 75\u00A0A drawn", card.Find(".balance-bar").GetAttribute("aria-label"));
        Assert.Contains("1 part is not known", card.Markup, StringComparison.Ordinal);
    }

    [Fact]
    public void An_unknown_alternator_says_where_to_enter_it()
    {
        var card = Render<AlternatorCard>(parameters => parameters.Add(shown => shown.Result, null).Add(shown => shown.Text, UnitText.Invariant));

        Assert.Empty(card.FindAll(".balance"));
        Assert.Contains("job card", card.Markup, StringComparison.Ordinal);
    }

    [Fact]
    public void A_part_whose_drain_is_unknown_is_listed_apart_and_not_as_zero()
    {
        var part = Guid.CreateVersion7();
        var job = Guid.CreateVersion7();
        var budget = Budget(new KeyOffDrainInput { Draws = [new StandbyDraw("a", "Amplifier", null)], VehicleSleepAmperes = 0.02, BatteryAmpereHours = 60 }, [new(null, "The car itself, asleep", 20), new(part, "Amplifier", null)]);

        var card = Render<DrainCard>(parameters => parameters.Add(shown => shown.JobId, job).Add(shown => shown.Budget, budget).Add(shown => shown.Text, UnitText.Invariant));

        Assert.Single(card.FindAll("tbody tr"));
        Assert.Contains("Amplifier", card.Find(".notice-warn").TextContent, StringComparison.Ordinal);
        Assert.Equal($"/jobs/{job}/parts?part={part}", card.Find(".notice-warn a").GetAttribute("href"));
        Assert.Contains("Starts for, at most", card.Markup, StringComparison.Ordinal);
    }

    [Fact]
    public void A_peak_shows_its_end_with_and_without_help()
    {
        var alone = new PeakSupportInput { SourceVolts = 12.65, SourceOhms = 0.01, BurstWatts = 1300, BurstSeconds = 0.2, LeastVolts = 11.6 };
        var helped = alone with { Capacitor = new SupportCapacitor(20, 0.0005, 20) };
        var view = new PeakView(1300, 12.65, 0.01, ["Capacitor"], PeakSupport.Compute(alone), PeakSupport.Compute(helped));

        var card = Render<PeakCard>(parameters => parameters.Add(shown => shown.Peak, view).Add(shown => shown.Settings, new BudgetSettingsForm { LeastVolts = 11.6 }).Add(shown => shown.Text, UnitText.Invariant));

        // (12.65 + √(12.65² − 4 · 0.01 · 1300)) / 2 = 11.516 V, by hand.
        Assert.Contains("11.52", card.FindAll(".data-point")[0].TextContent, StringComparison.Ordinal);
        Assert.Contains("not kept", card.FindAll(".data-point")[0].TextContent, StringComparison.Ordinal);
        Assert.Contains("With Capacitor", card.FindAll(".data-point")[1].TextContent, StringComparison.Ordinal);
        Assert.Single(card.FindAll(".sag-helped"));
        Assert.Contains("no steady current", card.Markup, StringComparison.Ordinal);
    }

    [Fact]
    public void Warmth_is_told_in_the_readers_units_and_only_a_designer_may_change_the_box()
    {
        var place = new CompartmentView("boot-floor-left", "Boot floor, left", ["Amplifier"], null, 40, 8.5, null);

        var us = Render<HeatCard>(parameters => parameters.Add(shown => shown.Compartments, [place]).Add(shown => shown.Text, UnitText.Invariant).Add(shown => shown.Us, true));
        var chosen = new List<CompartmentView>();
        var metric = Render<HeatCard>(parameters => parameters.Add(shown => shown.Compartments, [place]).Add(shown => shown.Text, UnitText.Invariant).Add(shown => shown.MayEdit, true)
            .Add(shown => shown.Edit, EventCallback.Factory.Create<CompartmentView>(this, chosen.Add)));

        // 1 m³/h is 0.5886 ft³/min (0.3048 m a foot, exactly): 8.5 are 5.0.
        Assert.Contains("ft³/min", us.Markup, StringComparison.Ordinal);
        Assert.Equal("5\u00A0ft³/min", us.Find(".data-point-value").TextContent.Trim());
        Assert.Empty(us.FindAll("button"));
        metric.Find("button").Click();
        Assert.Same(place, Assert.Single(chosen));
    }

    [Fact]
    public void A_loudspeaker_run_shows_what_was_decided_and_what_is_open()
    {
        var result = SpeakerRun.Compute(new SpeakerRunInput { LengthMeters = 5, LoadOhms = 4, AmplifierDampingFactor = 200, AreaSquareMillimeters = 2.5 });
        var fed = new SpeakerRow(Guid.CreateVersion7(), 0, 1, "Tweeter", new SignalLinkForm { FromPartId = Guid.Empty }, Guid.Empty, "Amplifier, output 1", 5, 4, new ConductorSize("2.5 mm²", 2.5), OnList: true, result);
        var open = new SpeakerRow(Guid.CreateVersion7(), 0, 1, "Woofer", null, Guid.Empty, "", null, null, null, OnList: false, null);

        var table = Render<SpeakerTable>(parameters => parameters.Add(shown => shown.Rows, [fed, open]).Add(shown => shown.Text, UnitText.Invariant));

        var rows = table.FindAll("tbody tr");
        Assert.Contains("from Amplifier, output 1", rows[0].TextContent, StringComparison.Ordinal);
        Assert.Contains("suggested", rows[0].TextContent, StringComparison.Ordinal);
        Assert.Contains("on the parts list", rows[0].TextContent, StringComparison.Ordinal);
        Assert.Contains("not decided what feeds it", rows[1].TextContent, StringComparison.Ordinal);
        Assert.Contains("impedance not known", rows[1].TextContent, StringComparison.Ordinal);
        Assert.Empty(table.FindAll("button[aria-label^=Choose]"));
    }

    private static BudgetView Budget(KeyOffDrainInput drain, IReadOnlyList<DrainRow> rows) => new()
    {
        JobId = Guid.Empty, Settings = new BudgetSettingsForm(), SettingsVersion = Guid.Empty, Alternator = null, Batteries = [], Drain = KeyOffDrain.Compute(drain), DrainRows = rows, Peak = null, Compartments = [], Findings = [],
    };
}
