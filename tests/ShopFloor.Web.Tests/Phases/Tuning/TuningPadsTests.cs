using Bunit;
using Microsoft.AspNetCore.Components.Web;
using ShopFloor.Engineering.Tuning.Equalisation;
using ShopFloor.Engineering.Tuning.Filters;
using ShopFloor.Shop.Phases.Tuning.Presets;
using ShopFloor.Web.Phases.Tuning;
using ShopFloor.Web.Tests.Components;

namespace ShopFloor.Web.Tests.Phases.Tuning;

public sealed class TuningPadsTests : ComponentTest
{
    private static readonly ChannelSetting Channel = new() { Id = "m", Name = "Midbass, left", Filters = [new FilterSetting { Kind = FilterKind.Peaking, Hertz = 200, GainDecibels = -3, Q = 2 }, new FilterSetting { Kind = FilterKind.Peaking, Hertz = 2_000, GainDecibels = 1, Q = 1 }] };

    [Fact]
    public void A_drag_moves_frequency_and_gain_of_the_chosen_filter_and_leaves_its_q()
    {
        FilterSetting? moved = null;
        var pad = Render<EqualiserPad>(parameters => parameters.Add(shown => shown.Channel, Channel).Add(shown => shown.Selected, 1).Add(shown => shown.SampleRateHertz, 48_000).Add(shown => shown.Moved, filter => moved = filter));

        // A third of the way from 20 Hz to 20 kHz is 200 Hz; half of −18 to 12 dB is −3 dB.
        pad.Find("[data-pad-value]").Change("0.33333|0.5|4");

        Assert.Equal((200.0, -3.0, 1.0), (Math.Round(moved!.Hertz), moved.GainDecibels, moved.Q)); // raised by the change
        Assert.Equal("4", pad.Find("[data-pad]").GetAttribute("data-pad-seen"));
    }

    [Fact]
    public void A_point_of_the_target_never_passes_its_neighbours_and_the_ends_keep_their_frequency()
    {
        var target = TargetCurve.BuiltIn.First(curve => curve.Name == "Even slope");
        var moved = (At: -1, Point: target.Points[0]);
        var pad = Render<TargetPad>(parameters => parameters.Add(shown => shown.Target, target).Add(shown => shown.Moved, change => moved = change));

        pad.Find("[data-pad-value]").Change("0.9|1|1");
        Assert.Equal((0, 20.0, 15.0), (moved.At, moved.Point.Hertz, moved.Point.Decibels));

        pad.FindAll(".pad-mark")[0].Click();
        pad.Find("[data-pad-value]").Change("0.99|0.5|2");
        Assert.Equal(1, moved.At);
        Assert.True(moved.Point.Hertz < target.Points[2].Hertz, $"{moved.Point.Hertz} Hz");
    }

    [Fact]
    public void Keys_move_a_point_and_a_locked_pad_does_not()
    {
        var moves = 0;
        var pad = Render<TargetPad>(parameters => parameters.Add(shown => shown.Target, TargetCurve.BuiltIn[0]).Add(shown => shown.Disabled, true).Add(shown => shown.Moved, _ => moves++));

        pad.Find("[role=slider]").KeyDown(new KeyboardEventArgs { Key = "ArrowUp" });

        Assert.Equal(0, moves);
        Assert.Equal("locked", pad.Find("[data-pad]").GetAttribute("data-pad"));
    }

    [Fact]
    public void The_bench_takes_back_steps_one_by_one_and_a_drag_as_one()
    {
        var bench = new PresetBench();
        bench.Open(new PresetDraft { Name = "Seat", Profile = ProcessorProfiles.Generic, Target = TargetCurve.BuiltIn[0], Channels = [Channel] });
        bench.Set(Channel with { GainDecibels = -1 });
        bench.Set(Channel with { GainDecibels = -2 });
        bench.Set(Channel with { GainDecibels = -3 }, step: false);

        bench.Undo();
        Assert.Equal(-1, bench.Draft!.Channels[0].GainDecibels); // opened above
        bench.Undo();
        Assert.Equal(0, bench.Draft.Channels[0].GainDecibels);
        Assert.False(bench.CanUndo);
    }

    [Fact]
    public void A_bench_with_every_step_taken_back_is_as_it_was_kept_and_has_nothing_to_lose()
    {
        var (bench, unsaved) = (new PresetBench(), new List<PresetDraft?>());
        bench.Told = unsaved.Add;
        bench.Open(new PresetDraft { Name = "Seat", Profile = ProcessorProfiles.Generic, Target = TargetCurve.BuiltIn[0], Channels = [Channel] });
        bench.Set(Channel with { GainDecibels = -1 });
        bench.Set(Channel with { GainDecibels = -2 });
        Assert.True(bench.Changed);

        bench.Undo();
        Assert.True(bench.Changed);
        Assert.Equal(-1, unsaved[^1]!.Channels[0].GainDecibels); // told while changed
        bench.Undo();

        Assert.False(bench.Changed);
        Assert.Null(unsaved[^1]);
    }

    [Fact]
    public void Changes_taken_up_again_count_as_changes_until_they_are_kept()
    {
        var bench = new PresetBench();

        bench.TakeUp(new PresetDraft { Name = "Seat", BasedOn = 2, Profile = ProcessorProfiles.Generic, Target = TargetCurve.BuiltIn[0], Channels = [Channel] });

        Assert.True(bench.Changed);
        Assert.False(bench.CanUndo);
    }
}
