using Bunit;
using ShopFloor.Shop.Jobs;
using ShopFloor.Web.Board;

namespace ShopFloor.Web.Tests.Board;

public sealed class StageStripTests : BunitContext
{
    [Fact]
    public void Every_state_has_a_shape_of_its_own_and_the_whole_is_said_in_words()
    {
        var strip = Render<StageStrip>(parameters => parameters.Add(shown => shown.Row, Row("Cabling", 2, "ddbwpo", blockers: 1)));

        Assert.Equal(2, strip.FindAll(".track-done").Count);
        Assert.Single(strip.FindAll(".track-blocked"));
        Assert.Single(strip.FindAll(".track-worked"));
        Assert.Single(strip.FindAll(".track-half"));
        Assert.Equal(2, strip.FindAll(".track-frame").Count);
        Assert.Single(strip.FindAll(".track-here"));
        Assert.Equal("Stages: 2 done, 1 being worked on, 1 begun, 1 blocked, 1 not begun", strip.Find("svg.strip-track").GetAttribute("aria-label"));
        Assert.Contains("Cabling", strip.Find("strong").TextContent, StringComparison.Ordinal);
        Assert.Contains("blocked", strip.Markup, StringComparison.Ordinal);
    }

    [Fact]
    public void A_job_without_stages_says_so_and_draws_no_track()
    {
        var strip = Render<StageStrip>(parameters => parameters.Add(shown => shown.Row, Row("", 0, "", blockers: 0)));

        Assert.Equal("Stages not planned", strip.Find("strong").TextContent);
        Assert.Empty(strip.FindAll("svg.strip-track"));
    }

    [Fact]
    public void A_finished_job_points_at_no_stage()
    {
        var strip = Render<StageStrip>(parameters => parameters.Add(shown => shown.Row, Row("", 3, "ddd", blockers: 0)));

        Assert.Equal("All stages done", strip.Find("strong").TextContent);
        Assert.Empty(strip.FindAll(".track-here"));
    }

    private static BoardRow Row(string stage, int order, string track, int blockers) => new(
        Guid.CreateVersion7(), 7, "Better sound", "Clea Client", 2028, "Verano", "Lince", "AB 123", new DateOnly(2031, 3, 4), stage, order,
        track.Count(letter => letter == StageTrack.Done), track.Length, blockers, track);
}
