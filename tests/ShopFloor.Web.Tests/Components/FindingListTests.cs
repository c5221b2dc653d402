using Bunit;
using ShopFloor.Engineering.Explained;
using ShopFloor.Web.Components;

namespace ShopFloor.Web.Tests.Components;

public class FindingListTests : ComponentTest
{
    [Fact]
    public void Findings_are_grouped_with_stop_first_and_keep_the_order_of_the_check_inside()
    {
        var list = Render<FindingList>(parameters => parameters.Add(each => each.Findings,
        [
            Finding(Severity.Note, "Remote run"), Finding(Severity.Stop, "Main run"), Finding(Severity.Warn, "Ground"), Finding(Severity.Stop, "Battery"),
        ]));

        Assert.Equal(["Stop: 2", "Warn: 1", "Note: 1"], list.FindAll("section").Select(section => section.GetAttribute("aria-label")));
        Assert.Equal(["Main run", "Battery", "Ground", "Remote run"], list.FindAll("li strong").Select(subject => subject.TextContent));
    }

    [Fact]
    public void Each_finding_shows_text_remedy_and_source()
    {
        var list = Render<FindingList>(parameters => parameters.Add(each => each.Findings, [Finding(Severity.Warn, "Ground")]));

        var words = list.Find("li").TextContent;
        Assert.Contains("Ground is wrong", words);
        Assert.Contains("Put right by: Mend Ground", words);
        Assert.Contains("Source: ISO 8820", words);
    }

    [Fact]
    public void Severity_is_said_by_word_and_by_a_shape_of_its_own()
    {
        var marks = Enum.GetValues<Severity>().Select(severity => Render<SeverityMark>(parameters => parameters.Add(mark => mark.Severity, severity))).ToArray();

        Assert.Equal(["Note", "Warn", "Stop"], marks.Select(mark => mark.Find(".mark").TextContent));
        Assert.Equal(3, marks.Select(mark => mark.Find("svg").InnerHtml).Distinct().Count());
    }

    [Fact]
    public void No_findings_says_what_was_checked()
    {
        var list = Render<FindingList>(parameters => parameters.Add(each => each.Findings, []).Add(each => each.NoneText, "All 12 wiring checks passed."));

        Assert.Contains("All 12 wiring checks passed.", list.Markup);
        Assert.Empty(list.FindAll("section"));
    }

    [Fact]
    public void Buttons_get_the_finding_they_stand_beside()
    {
        var list = Render<FindingList>(parameters => parameters
            .Add(each => each.Findings, [Finding(Severity.Stop, "Main run")])
            .Add(each => each.Actions, finding => $"<button>Sign off {finding.Subject}</button>"));

        Assert.Equal("Sign off Main run", list.Find("li button").TextContent);
    }

    [Theory]
    [InlineData(2)]
    [InlineData(6)]
    public void Several_stops_of_one_kind_get_buttons_together(int count)
    {
        var stops = Enumerable.Range(1, count).Select(number => Finding(Severity.Stop, $"Step {number}")).ToList();
        var list = Render<FindingList>(parameters => parameters
            .Add(each => each.Findings, [.. stops, Finding(Severity.Warn, "Note 1"), Finding(Severity.Warn, "Note 2")])
            .Add(each => each.AlikeActions, alike => $"<button>All {alike.Count}</button>"));

        Assert.Equal($"All {count}", Assert.Single(list.FindAll("button")).TextContent);
    }

    [Fact]
    public void A_single_stop_has_nothing_to_be_put_together_with()
    {
        var list = Render<FindingList>(parameters => parameters
            .Add(each => each.Findings, [Finding(Severity.Stop, "Main run")])
            .Add(each => each.AlikeActions, _ => "<button>All</button>"));

        Assert.Empty(list.FindAll("button"));
    }

    private static Finding Finding(Severity severity, string subject) =>
        new("rule", severity, subject, subject, $"{subject} is wrong.", $"Mend {subject}.", "ISO 8820");
}
