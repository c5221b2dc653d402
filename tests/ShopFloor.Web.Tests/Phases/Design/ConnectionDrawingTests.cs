using Bunit;
using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Signal.Chain;
using ShopFloor.Engineering.Signal.Rules;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Phases.Design;
using ShopFloor.Web.Components;
using ShopFloor.Web.Phases.Design;
using ShopFloor.Web.Tests.Components;

namespace ShopFloor.Web.Tests.Phases.Design;

public sealed class ConnectionDrawingTests : ComponentTest
{
    private static readonly Guid _player = Guid.CreateVersion7();
    private static readonly Guid _amplifier = Guid.CreateVersion7();
    private static readonly Guid _woofer = Guid.CreateVersion7();

    [Fact]
    public void Every_connector_is_a_key_that_says_what_it_is_and_what_it_does()
    {
        var drawing = Draw(View(null));

        Assert.Equal(
            [
                "Output Player, left, unbalanced line, free", "Output Player, right, unbalanced line, free", "Input Amplifier, input 1, unbalanced line, free", "Output Amplifier, output 1, speaker level, free",
                "Input Woofer, speaker level, free",
            ],
            drawing.FindAll("button").Select(key => key.GetAttribute("aria-label")));
        // A finger needs 44 px; a row has 50.
        Assert.All(drawing.FindAll("button"), key => Assert.Matches("height:(5[0-9]|[6-9][0-9])", key.GetAttribute("style")!));
    }

    [Fact]
    public void An_output_that_waits_shows_the_inputs_it_fits()
    {
        var view = View(null);
        var drawing = Draw(view, view.Output(_player, 0));

        Assert.Equal("true", drawing.Find("[data-out]").GetAttribute("aria-pressed"));
        Assert.Equal("Input Amplifier, input 1, unbalanced line, free", Assert.Single(drawing.FindAll(".port-fits")).GetAttribute("aria-label"));
    }

    [Fact]
    public void What_is_joined_is_drawn_and_told_and_what_does_not_fit_is_marked()
    {
        var fits = Draw(View(new SignalLinkForm { FromPartId = _player, FromOutput = 1 }));
        Assert.Contains("fed by Player, right", fits.Find($"[data-in='{_amplifier}:0']").GetAttribute("aria-label")!, StringComparison.Ordinal);
        Assert.Contains("Player feeds Amplifier.", fits.Markup, StringComparison.Ordinal);
        Assert.DoesNotContain("stroke-dasharray", fits.Markup, StringComparison.Ordinal);

        var misfit = Draw(View(new SignalLinkForm { FromPartId = _player, FromOutput = 1 }, fits: false));
        Assert.EndsWith("does not fit", misfit.Find($"[data-in='{_amplifier}:0']").GetAttribute("aria-label"), StringComparison.Ordinal);
        Assert.Contains("stroke-dasharray", misfit.Markup, StringComparison.Ordinal);
    }

    [Fact]
    public void A_key_tells_its_page_what_was_pressed()
    {
        ConnectedOutput? output = null;
        ConnectedInput? input = null;
        var drawing = Render<ConnectionDrawing>(parameters => parameters
            .Add(shown => shown.View, View(null)).Add(shown => shown.Output, pressed => output = pressed).Add(shown => shown.Input, pressed => input = pressed));

        drawing.Find($"[data-out='{_player}:1']").Click();
        drawing.Find($"[data-in='{_woofer}:0']").Click();

        Assert.Equal(("Player, right", "Woofer"), (output?.Name, input?.Name));
    }

    [Fact]
    public void Every_rule_has_a_place_on_the_page_of_checks_and_its_findings_lead_there()
    {
        var page = Render<SignalRulesPage>();
        foreach (var rule in SignalRules.All)
        {
            var place = page.Find($"#{rule.Code}").TextContent;
            foreach (var words in new[] { rule.Title, rule.Why, rule.Example, rule.Remedy, rule.Source })
            {
                Assert.Contains(words, place, StringComparison.Ordinal);
            }
        }

        Finding[] findings = [new("side-mixed", Severity.Stop, "1", "Tweeter", "Wrong side.", "Change over.", "x"), new("other", Severity.Stop, "2", "Tweeter", "Else.", "Do.", "x")];
        var list = Render<FindingList>(parameters => parameters.Add(shown => shown.Findings, findings).Add(shown => shown.Page, SignalRulesPage.AddressOf));
        Assert.Equal("/help/signal-rules#side-mixed", Assert.Single(list.FindAll("a")).GetAttribute("href"));
    }

    private IRenderedComponent<ConnectionDrawing> Draw(ConnectionsView view, ConnectedOutput? from = null) =>
        Render<ConnectionDrawing>(parameters => parameters.Add(shown => shown.View, view).Add(shown => shown.From, from));

    private static ConnectionsView View(SignalLinkForm? link, bool fits = true) => new()
    {
        JobId = Guid.Empty,
        Units =
        [
            new ConnectedUnit("p", _player, PartKind.Source, "Player", [], [Out(_player, 0, "left", "Player, left", PortKind.UnbalancedLine), Out(_player, 1, "right", "Player, right", PortKind.UnbalancedLine)]),
            new ConnectedUnit(
                "a", _amplifier, PartKind.Amplifier, "Amplifier", [new ConnectedInput(_amplifier, 0, "input 1", "Amplifier, input 1", PortKind.UnbalancedLine, ImageSide.Both, link, Guid.Empty, fits)],
                [Out(_amplifier, 0, "output 1", "Amplifier, output 1", PortKind.SpeakerLevel)]),
            new ConnectedUnit("w", _woofer, PartKind.Loudspeaker, "Woofer", [new ConnectedInput(_woofer, 0, "", "Woofer", PortKind.SpeakerLevel, ImageSide.Both, null, Guid.Empty, true)], []),
        ],
        Processors = [],
    };

    private static ConnectedOutput Out(Guid part, int number, string label, string name, PortKind kind) => new(part, number, label, name, kind, ImageSide.Both, 0);
}
