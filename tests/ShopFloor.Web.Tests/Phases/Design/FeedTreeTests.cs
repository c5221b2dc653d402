using System.Globalization;
using Bunit;
using ShopFloor.Documents.Diagrams;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Phases.Design;
using ShopFloor.Web.Phases.Design;
using ShopFloor.Web.Tests.Components;

namespace ShopFloor.Web.Tests.Phases.Design;

public sealed class FeedTreeTests : ComponentTest
{
    private static readonly UnitText Text = new(ShopFloor.Engineering.Units.UnitSystem.Metric, CultureInfo.InvariantCulture);
    private readonly SomePlan _plan = new();
    private readonly List<FeedCommand> _commands = [];

    [Fact]
    public void The_outline_runs_from_the_battery_over_the_main_run_to_the_loads_and_keeps_the_rest_apart()
    {
        _plan.Load("Amplifier", 50);
        var radio = _plan.Load("Radio", 2);
        _plan.Load("Lamp", 1, zone: "");
        _plan.Load("Unknown box", null);
        _plan.Hang(radio, FeedSources.VehicleCircuit);
        _plan.Add(PartKind.Battery, "Second battery", new BatteryData());

        var rows = FeedOutline.Of(_plan.View(), Text);

        Assert.Equal(
            ["1 Battery", "2 Main run to the distribution", "3 Amplifier", "1 Second battery", "1 On circuits of the car", "2 Radio", "1 Not placed yet", "2 Lamp", "2 Unknown box"],
            rows.Select(row => $"{row.Level} {row.Name}"));
        Assert.Contains("nothing hangs on it yet", rows[3].Facts);
        Assert.Contains("current not known", rows[^1].Facts);
        Assert.False(rows[^1].Moves);
    }

    [Fact]
    public void A_line_says_current_size_fuse_and_drop()
    {
        _plan.Load("Amplifier", 50);

        var facts = FeedOutline.Of(_plan.View(), Text)[2].Facts;

        Assert.Contains(facts, fact => fact.Contains("50\u00A0A full", StringComparison.Ordinal));
        Assert.Contains(facts, fact => fact.EndsWith("AWG", StringComparison.Ordinal));
        Assert.Contains(facts, fact => fact.StartsWith("fuse ", StringComparison.Ordinal));
        Assert.Contains(facts, fact => fact.StartsWith("drop ", StringComparison.Ordinal));
    }

    [Fact]
    public void Lines_have_the_roles_and_states_of_a_tree_and_one_of_them_is_reached_by_tab()
    {
        _plan.Load("Amplifier", 50);
        _plan.Load("Fan", 1);
        var tree = Tree();

        Assert.Equal("tree", tree.Find("[aria-label='Outline of the feed']").GetAttribute("role"));
        var fan = tree.FindAll("[role=treeitem]")[3];
        Assert.Equal(("3", "2", "2"), (fan.GetAttribute("aria-level"), fan.GetAttribute("aria-posinset"), fan.GetAttribute("aria-setsize")));
        Assert.Null(fan.GetAttribute("aria-expanded"));
        Assert.Equal("true", tree.FindAll("[role=treeitem]")[0].GetAttribute("aria-expanded"));
        Assert.Single(tree.FindAll("[role=treeitem][tabindex='0']"));
        Assert.True(fan.HasAttribute("data-moves"));
        Assert.False(fan.HasAttribute("data-takes"));
    }

    [Fact]
    public void Arrows_go_through_the_lines_that_show_and_fold_and_unfold()
    {
        _plan.Load("Amplifier", 50);
        _plan.Load("Fan", 1);
        var tree = Tree();

        Press(tree, "ArrowDown", "ArrowDown");
        Assert.Equal("Amplifier", ChosenName(tree));
        Press(tree, "ArrowLeft");
        Assert.Equal("Main run to the distribution", ChosenName(tree));
        Press(tree, "ArrowLeft");
        Assert.Equal("false", Chosen(tree).GetAttribute("aria-expanded"));
        Assert.DoesNotContain("Amplifier", tree.Markup, StringComparison.Ordinal);
        Press(tree, "ArrowDown");
        Assert.Equal("On circuits of the car", ChosenName(tree));
        Press(tree, "Home", "ArrowRight", "ArrowRight", "ArrowRight");
        Assert.Equal("Amplifier", ChosenName(tree));
        Press(tree, "End");
        Assert.Equal("On circuits of the car", ChosenName(tree));
        Press(tree, "ArrowDown");
        Assert.Equal("On circuits of the car", ChosenName(tree));
    }

    [Fact]
    public void A_line_chosen_elsewhere_is_unfolded()
    {
        var amplifier = _plan.Load("Amplifier", 50);
        var tree = Tree();
        Press(tree, "ArrowLeft");
        Assert.DoesNotContain("Amplifier", tree.Markup, StringComparison.Ordinal);

        Show(tree, amplifier);

        Assert.Equal("Amplifier", ChosenName(tree));
    }

    [Fact]
    public void A_fold_over_the_chosen_line_stays_when_the_page_is_drawn_again()
    {
        var amplifier = _plan.Load("Amplifier", 50);
        var tree = Tree();
        Show(tree, amplifier);
        tree.Find(".feed-twist").Click();
        Assert.DoesNotContain("Amplifier", tree.Markup, StringComparison.Ordinal);

        Show(tree, amplifier);

        Assert.DoesNotContain("Amplifier", tree.Markup, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("m", false, FeedCommand.Move)]
    [InlineData("x", true, FeedCommand.Cut)]
    [InlineData("v", true, FeedCommand.Paste)]
    [InlineData("Delete", false, FeedCommand.Usual)]
    [InlineData("Enter", false, FeedCommand.Open)]
    [InlineData("F2", false, FeedCommand.Rename)]
    [InlineData("Escape", false, FeedCommand.Cancel)]
    public void Keys_ask_for_what_the_buttons_do(string key, bool control, FeedCommand expected)
    {
        _plan.Load("Amplifier", 50);
        var tree = Tree();

        tree.Find("[role=tree]").KeyDown(new Microsoft.AspNetCore.Components.Web.KeyboardEventArgs { Key = key, CtrlKey = control });

        Assert.Equal([expected], _commands);
    }

    [Fact]
    public void A_plain_v_pastes_nothing()
    {
        _plan.Load("Amplifier", 50);
        Press(Tree(), "v", "x");

        Assert.Empty(_commands);
    }

    [Fact]
    public void Who_may_not_design_has_nothing_to_drag()
    {
        _plan.Load("Amplifier", 50);

        var tree = Tree(mayEdit: false);

        Assert.Empty(tree.FindAll("[data-moves], [data-grip]"));
        Assert.NotEmpty(tree.FindAll("[role=treeitem]"));
    }

    [Fact]
    public void Outline_and_drawing_know_the_same_lines_by_the_same_keys()
    {
        for (var load = 1; load <= 40; load++)
        {
            _plan.Load($"Load {load}", load);
        }

        _plan.Add(PartKind.Battery, "Second battery", new BatteryData());
        var view = _plan.View();
        var rows = FeedOutline.Of(view, Text);
        var drawn = FeedDiagram.Arrange(PlanDiagram.ForEditing(view, Text)).Nodes.Select(node => node.Node.Key).ToHashSet();

        Assert.Equal(44, rows.Count); // battery, main run, forty loads, second battery, circuits of the car
        Assert.All(rows, row => Assert.Contains(PlanDiagram.KeyOf(row.Id), drawn));
    }

    private static AngleSharp.Dom.IElement Chosen(IRenderedComponent<FeedTree> tree) => tree.Find("[aria-selected=true]");

    private static string ChosenName(IRenderedComponent<FeedTree> tree) => Chosen(tree).QuerySelector("[data-name]")!.TextContent;

    private static void Press(IRenderedComponent<FeedTree> tree, params string[] keys)
    {
        foreach (var key in keys)
        {
            tree.Find("[role=tree]").KeyDown(key);
        }
    }

    private IRenderedComponent<FeedTree> Tree(bool mayEdit = true)
    {
        IRenderedComponent<FeedTree>? tree = null;
        tree = Render<FeedTree>(parameters => parameters
            .Add(line => line.Rows, FeedOutline.Of(_plan.View(), Text))
            .Add(line => line.MayEdit, mayEdit)
            .Add(line => line.Choose, id => Show(tree!, id)) // raised after the first drawing
            .Add(line => line.Command, command => _commands.Add(command)));
        Show(tree, FeedSources.Battery);
        return tree;
    }

    private static void Show(IRenderedComponent<FeedTree> tree, string id) => tree.Render(parameters => parameters.Add(line => line.Selected, id));
}
