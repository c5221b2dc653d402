using AngleSharp.Dom;
using Bunit;
using CsCheck;
using Microsoft.AspNetCore.Components.Web;
using ShopFloor.Engineering.Geometry;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Phases.Design;
using ShopFloor.Shop.Staff;
using ShopFloor.Web.Layout;
using ShopFloor.Web.Phases.Design;
using ShopFloor.Web.Tests.Components;

namespace ShopFloor.Web.Tests.Phases.Design;

/// <summary>An outline drawn by taps, drags and keys on a grid. The view begins 600 mm wide and 450 mm high with its foot at 0, on steps of 10 mm.</summary>
public sealed class OutlineEntryTests : ComponentTest
{
    private static readonly Viewer Desk = new(new Actor(Guid.CreateVersion7(), "Dora Desk", ShopRole.FrontDesk, ActorVia.Desk), UnitSystem.Metric, TimeZoneInfo.Utc, "EUR", "Shop");

    [Fact]
    public void Taps_add_corners_on_the_steps_of_the_grid_and_area_and_volume_follow()
    {
        var (entry, corners) = Entry([], length: 0.5);

        foreach (var (right, up) in new[] { (0.0, 0.0), (0.503, 0.0), (0.503, 0.663), (0.0, 0.663) })
            Say(entry, FormattableString.Invariant($"add|{right}|{up}|1"));

        // 302 mm and 298 mm lie nearest to 300 mm.
        Assert.Equal([new(0, 0), new(0.3, 0), new(0.3, 0.3), new(0, 0.3)], corners());
        Assert.Contains("900", entry.Find(".outline-facts").TextContent, StringComparison.Ordinal); // 30 · 30 cm²
        Assert.Contains("45", entry.Find(".outline-facts").TextContent, StringComparison.Ordinal); // 0.09 m² · 0.5 m
        Assert.StartsWith("0 0\n300 0\n300 300", entry.Find("textarea").GetAttribute("value"), StringComparison.Ordinal);
    }

    [Fact]
    public void A_tap_on_a_side_puts_a_corner_into_it()
    {
        var (entry, corners) = Entry([new(0, 0), new(0.4, 0), new(0.4, 0.3)]);

        Say(entry, "add|0.3333|0.005|1"); // 200 mm across, 2 mm up

        Assert.Equal(new Point2(0.2, 0), corners()[1]);
        Assert.Equal(4, corners().Count);
    }

    [Fact]
    public void A_drag_is_one_step_back_however_many_places_it_passed()
    {
        var (entry, corners) = Entry([new(0, 0), new(0.4, 0), new(0.4, 0.3)]);

        Say(entry, "take|1|0.5|0.1|7");
        Say(entry, "move|1|0.55|0.2|8");
        Assert.Equal("8", entry.Find("[data-outline-board]").GetAttribute("data-outline-seen"));
        Assert.Equal(new Point2(0.33, 0.09), corners()[1]);
        Button(entry, "Undo").Click();

        Assert.Equal(new Point2(0.4, 0), corners()[1]);
        Assert.True(Button(entry, "Undo").HasAttribute("disabled"));
    }

    [Fact]
    public void Arrow_keys_move_a_corner_by_a_step_and_delete_takes_it_away()
    {
        var (entry, corners) = Entry([new(0, 0), new(0.4, 0), new(0.4, 0.3), new(0, 0.3)]);

        entry.FindAll(".outline-corner")[2].KeyDown(new KeyboardEventArgs { Key = "ArrowLeft" });
        entry.FindAll(".outline-corner")[2].KeyDown(new KeyboardEventArgs { Key = "ArrowDown" });
        Assert.Equal(new Point2(0.39, 0.29), corners()[2]);

        entry.FindAll(".outline-corner")[2].KeyDown(new KeyboardEventArgs { Key = "Delete" });
        Assert.Equal([new(0, 0), new(0.4, 0), new(0, 0.3)], corners());
    }

    [Fact]
    public void Sides_that_cross_are_named_while_they_are_drawn()
    {
        var (entry, _) = Entry([new(0, 0), new(0.3, 0.3), new(0.3, 0), new(0, 0.3)]);

        Assert.Contains("cross", entry.Find(".outline-facts").TextContent, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("add|2|0.5|1")]
    [InlineData("add|x|0.5|1")]
    [InlineData("move|9|0.5|0.5|1")]
    [InlineData("take|-1|0.5|0.5|1")]
    [InlineData("erase|1")]
    [InlineData("")]
    public void A_word_that_means_nothing_changes_nothing(string word)
    {
        var (entry, corners) = Entry([new(0, 0), new(0.4, 0), new(0.4, 0.3)]);

        Say(entry, word);

        Assert.Equal([new(0, 0), new(0.4, 0), new(0.4, 0.3)], corners());
    }

    [Fact]
    public void A_locked_outline_shows_and_takes_no_taps()
    {
        var entry = Render<OutlineEntry>(parameters => parameters.AddCascadingValue(Desk).Add(each => each.Corners, [new(0, 0), new(0.4, 0), new(0.4, 0.3)]).Add(each => each.Label, "Outline").Add(each => each.Disabled, true));

        Assert.Empty(entry.FindAll("[data-outline-word]"));
        Assert.Equal("locked", entry.Find("[data-outline-board]").GetAttribute("data-outline-board"));
    }

    [Fact]
    public void Typed_corners_beyond_the_view_widen_it_so_that_all_are_seen() =>
        Gen.Double[-3, 3].Array[6].Sample(at =>
        {
            var board = new OutlineBoard();
            board.Show([new(at[0], at[1]), new(at[2], at[3]), new(at[4], at[5])]);
            return board.Corners.TrueForAll(corner => board.Share(corner) is { Right: >= 0 and <= 1, Up: >= 0 and <= 1 });
        });

    [Fact]
    public void Every_change_can_be_taken_back_in_turn() =>
        Gen.Select(Gen.Double[0, 1], Gen.Double[0, 1]).Array[1, 20].Sample(taps =>
        {
            var board = new OutlineBoard();
            List<List<Point2>> seen = [board.Corners];
            foreach (var (right, up) in taps)
            {
                board.Add(right, up);
                seen.Add(board.Corners);
            }

            for (var n = seen.Count - 2; n >= 0; n--)
            {
                board.Undo();
                if (!board.Corners.SequenceEqual(seen[n]))
                    return false;
            }

            return !board.CanUndo;
        });

    [Fact]
    public void A_finished_shape_is_one_line_and_one_that_lacks_something_is_open()
    {
        var form = new BoxVolumeForm { Shapes = [new() { Kind = ShapeKind.Box, Meters = [0.4, 0.3, 0.25, null, null] }, new() { Kind = ShapeKind.Cylinder, Takes = true, Meters = [0.3, null, null, null, null] }] };
        var shapes = Render<BoxShapes>(parameters => parameters.AddCascadingValue(Desk).Add(each => each.Form, form).Add(each => each.MayEdit, true)).FindAll("details.shape");

        Assert.Equal([false, true], shapes.Select(shape => shape.HasAttribute("open")));
        Assert.Contains("400 × 300 × 250", shapes[0].QuerySelector("summary")!.TextContent, StringComparison.Ordinal);
        Assert.Contains("still needed: length", shapes[1].QuerySelector("summary")!.TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public void Filters_of_the_tuning_are_offered_taken_and_typed_again()
    {
        var box = new BoxAlternative();
        TunedFilters first = new() { VersionId = Guid.CreateVersion7(), Label = "Bass, version 1", Channel = "Subwoofer", HighPassHertz = 25, Words = "high-pass 25 Hz" };
        var second = first with { VersionId = Guid.CreateVersion7(), Label = "Bass, version 2", HighPass = [new(Engineering.Acoustics.Enclosures.FilterKind.HighPassFirst, 30)] };
        IRenderedComponent<BoxFields> Fields(params TunedFilters[] offered) => Render<BoxFields>(parameters => parameters.Add(each => each.Box, box).Add(each => each.Text, UnitText.Invariant).Add(each => each.Tuned, offered));

        Button(Fields(first), "Use the filters of the tuning").Click();
        Assert.Equal(first, box.Tuned);
        var stale = Fields(second);
        Assert.Contains("The car holds other filters", stale.Markup, StringComparison.Ordinal);
        Assert.DoesNotContain(stale.FindAll("label"), label => label.TextContent.Contains("Slope of the high-pass", StringComparison.Ordinal));

        Button(stale, "Take the filters of the car").Click();
        Assert.Equal(second, box.Tuned);
        Button(Fields(second), "Type the filters instead").Click();
        Assert.Null(box.Tuned);
    }

    private (IRenderedComponent<OutlineEntry> Entry, Func<List<Point2>> Corners) Entry(List<Point2> corners, double? length = null)
    {
        var now = corners;
        var entry = Render<OutlineEntry>(parameters => parameters.AddCascadingValue(Desk).Add(each => each.Corners, corners).Add(each => each.Label, "Outline").Add(each => each.LengthMeters, length).Add(each => each.Changed, (List<Point2> changed) => now = changed));
        return (entry, () => now);
    }

    private static void Say(IRenderedComponent<OutlineEntry> entry, string words) => entry.Find("[data-outline-word]").Change(words);

    private static IElement Button<TComponent>(IRenderedComponent<TComponent> shown, string words)
        where TComponent : Microsoft.AspNetCore.Components.IComponent => shown.FindAll("button").First(button => button.TextContent.Trim().StartsWith(words, StringComparison.Ordinal));
}
