using Bunit;
using Microsoft.AspNetCore.Components.Web;
using ShopFloor.Documents.Enclosures;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Phases.Design;
using ShopFloor.Web.Components;
using ShopFloor.Web.Phases.Design;
using ShopFloor.Web.Tests.Components;

namespace ShopFloor.Web.Tests.Phases.Design;

public sealed class EnclosurePanelsTests : ComponentTest
{
    [Fact]
    public void Arrow_keys_change_volume_and_tuning_by_a_fiftieth()
    {
        var moves = new List<(double CubicMeters, double? Hertz)>();
        var pad = Pad(1, moves);

        pad.Find("[role=slider]").KeyDown(new KeyboardEventArgs { Key = "ArrowRight" });
        pad.Find("[role=slider]").KeyDown(new KeyboardEventArgs { Key = "ArrowDown" });

        Assert.Equal(0.042 * 1.02, moves[0].CubicMeters, 1e-12);
        Assert.Equal((0.042, 31 / 1.02), (moves[1].CubicMeters, moves[1].Hertz!.Value));
    }

    [Fact]
    public void A_closed_box_moves_along_its_volume_alone()
    {
        var moves = new List<(double CubicMeters, double? Hertz)>();
        var pad = Pad(0, moves);

        pad.Find("[data-pad-value]").Change("0.5|0.9|7");

        Assert.Null(Assert.Single(moves).Hertz);
        Assert.Equal("7", pad.Find("[data-pad]").GetAttribute("data-pad-seen"));
    }

    [Fact]
    public void A_locked_pad_shows_and_does_not_move()
    {
        var moves = new List<(double CubicMeters, double? Hertz)>();
        var pad = Pad(1, moves, locked: true);

        pad.Find("[role=slider]").KeyDown(new KeyboardEventArgs { Key = "ArrowRight" });

        Assert.Empty(moves);
        Assert.Equal("locked", pad.Find("[data-pad]").GetAttribute("data-pad"));
    }

    [Theory]
    [InlineData(EnclosureKind.Closed, new[] { "Net volume" }, new[] { "Tuning", "Port", "Radiators alike" })]
    [InlineData(EnclosureKind.Vented, new[] { "Tuning", "Diameter inside" }, new[] { "Net volume before", "Radiators alike" })]
    [InlineData(EnclosureKind.BandPass, new[] { "Net volume behind", "Net volume before", "Tuning" }, new[] { "Radiators alike" })]
    [InlineData(EnclosureKind.PassiveRadiator, new[] { "Radiators alike", "Mass added to it" }, new[] { "Port", "Tuning" })]
    public void Only_what_a_kind_of_box_has_is_asked(EnclosureKind kind, string[] asked, string[] unasked)
    {
        var labels = Render<BoxFields>(parameters => parameters.Add(shown => shown.Box, new BoxAlternative { Kind = kind }).Add(shown => shown.Text, UnitText.Invariant))
            .FindAll("label").Select(label => label.TextContent.Trim()).ToList();

        Assert.All(asked, label => Assert.Contains(label, labels));
        Assert.All(unasked, label => Assert.DoesNotContain(label, labels));
    }

    [Fact]
    public void A_plot_carries_its_scale_and_a_place_for_what_is_read()
    {
        var view = View();
        var plot = Render<PlotView>(parameters => parameters.Add(shown => shown.Plot, EnclosurePlots.Of(view, EnclosurePlots.Level, 0, UnitText.Invariant, UnitSystem.Metric)));

        // A wide drawing and a narrow one.
        Assert.Equal(2, plot.FindAll("[data-plot-scale$='|even|dB'] svg").Count);
        Assert.Single(plot.FindAll("[data-plot-readout]"));
        Assert.Equal(4, plot.FindAll(".plot-narrow [data-key^='series:']").Count); // two alternatives, each in the car and free
    }

    [Fact]
    public void Excursion_is_drawn_in_the_reader_s_unit()
    {
        var us = EnclosurePlots.Of(View(), EnclosurePlots.Excursion, 0, UnitText.Invariant, UnitSystem.Us);

        Assert.Equal("in", us.Y.Unit);
        // 15 mm are 0.5906 in (25.4 mm, exact).
        Assert.Equal(15 / 25.4, Assert.Single(us.Limits).Value, 1e-9);
    }

    [Fact]
    public void The_driver_card_tells_entered_from_filled_in_and_contradicting()
    {
        var view = View(data => data.Qts = 0.7);
        var card = Render<DriverDataCard>(parameters => parameters.Add(shown => shown.Driver, view.Driver!).Add(shown => shown.Completed, view.Completed).Add(shown => shown.Text, UnitText.Invariant));

        Assert.Contains("contradicts the rest", card.Find("tr.driver-contradicts").TextContent, StringComparison.Ordinal);
        Assert.Contains("Force factor", string.Concat(card.FindAll("tr.driver-filledin").Select(row => row.TextContent)), StringComparison.Ordinal);
    }

    [Fact]
    public void A_file_that_was_taken_in_raises_its_id_and_anything_else_nothing()
    {
        var ids = new List<Guid>();
        var pick = Render<FilePick>(parameters => parameters.Add(shown => shown.Label, "Take a file").Add(shown => shown.Kind, "Mesh").Add(shown => shown.JobId, Guid.CreateVersion7()).Add(shown => shown.Uploaded, ids.Add));
        var id = Guid.CreateVersion7();

        pick.Find("[data-file-value]").Change("not an id");
        pick.Find("[data-file-value]").Change(id.ToString());

        Assert.Equal(id, Assert.Single(ids));
    }

    [Fact]
    public void A_filter_is_added_told_and_removed()
    {
        var box = new BoxAlternative();
        var told = 0;
        var shown = Render<BoxFilters>(parameters => parameters.Add(each => each.Box, box).Add(each => each.Changed, () => told++));

        shown.FindAll("button").Single(button => button.TextContent.Contains("Low shelf", StringComparison.Ordinal)).Click();

        Assert.Equal((1, BoxFilterKind.LowShelf), (told, Assert.Single(box.Filters).Kind));
        shown.Find("[aria-label='Remove filter 1']").Click();
        Assert.Empty(box.Filters);
    }

    [Theory]
    [InlineData(FillKind.None, 0)]
    [InlineData(FillKind.WaterWeighed, 2)]
    [InlineData(FillKind.BeadsWeighed, 5)]
    [InlineData(FillKind.BeadsPoured, 3)]
    public void Only_what_a_way_of_filling_needs_is_asked(FillKind kind, int fields) =>
        Assert.Equal(fields, Render<BoxFill>(parameters => parameters.Add(each => each.Fill, new BoxFillForm { Kind = kind }).Add(each => each.MayEdit, true)).FindAll("input[inputmode=decimal]").Count);

    [Fact]
    public void The_level_plot_says_whether_the_cabin_was_measured()
    {
        var view = View();
        string Title(EnclosureView each) => EnclosurePlots.Of(each, EnclosurePlots.Level, 0, UnitText.Invariant, UnitSystem.Metric).Title;

        Assert.Contains("cabin estimated", Title(view), StringComparison.Ordinal);
        Assert.Contains("cabin measured", Title(view with { Cabin = view.Cabin! with { Measured = new([20, 80], [10, 2], null) } }), StringComparison.Ordinal);
    }

    private IRenderedComponent<EnclosurePad> Pad(int shown, List<(double CubicMeters, double? Hertz)> moves, bool locked = false) => Render<EnclosurePad>(parameters => parameters
        .Add(pad => pad.View, View()).Add(pad => pad.Shown, shown).Add(pad => pad.Disabled, locked).Add(pad => pad.Moved, moves.Add));

    // An invented driver in two boxes.
    private static EnclosureView View(Action<LoudspeakerData>? change = null)
    {
        var part = Guid.CreateVersion7();
        var data = new LoudspeakerData { NominalOhms = 4, Coils = 1, RatedWatts = 500, ResonanceHertz = 29, Qes = 0.51, Qms = 5.8, VasLitres = 36, PistonSquareCentimeters = 346, ReOhms = 3.4, XmaxMillimeters = 15 };
        change?.Invoke(data);
        var form = new EnclosureForm { LoudspeakerPartId = part, Watts = 300, Alternatives = [new BoxAlternative { NetCubicMeters = 0.024 }, new BoxAlternative { Kind = EnclosureKind.Vented, NetCubicMeters = 0.042, TuningHertz = 31 }] };
        return EnclosureStudies.Of(form, new EnclosureFacts([new EnclosureDriver(part, "Woofer", 1, data, null, null)], 3.1), Guid.CreateVersion7(), "Boot box", UnitText.Invariant);
    }
}
