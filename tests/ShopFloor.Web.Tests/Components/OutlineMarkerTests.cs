using System.Globalization;
using Bunit;
using ShopFloor.Web.Components;

namespace ShopFloor.Web.Tests.Components;

public class OutlineMarkerTests : ComponentTest
{
    private readonly List<OutlinePoint> _placed = [];

    [Fact]
    public void A_tap_gives_its_place_as_shares_of_the_drawing()
    {
        Marker().Find("[data-outline-value]").Change("0.2500;0.8000");

        Assert.Equal(new OutlinePoint(0.25, 0.8), Assert.Single(_placed));
    }

    [Fact]
    public void The_place_is_read_the_same_in_a_culture_with_decimal_commas()
    {
        CultureInfo.CurrentCulture = CultureInfo.GetCultureInfo("de-DE");

        var marker = Marker(new OutlineMark(1, 0.125, 0.5, "Scratch"));
        marker.Find("[data-outline-value]").Change("0.2500;0.8000");

        Assert.Equal(0.25, Assert.Single(_placed).X);
        Assert.Equal("left:12.5%;top:50%", marker.Find(".outline-mark").GetAttribute("style"));
    }

    [Theory]
    [InlineData("1.2;0.5")]
    [InlineData("-0.1;0.5")]
    [InlineData("0.5")]
    [InlineData("NaN;0.5")]
    [InlineData("a;b")]
    [InlineData("")]
    public void Anything_that_is_not_a_place_on_the_drawing_is_ignored(string written)
    {
        Marker().Find("[data-outline-value]").Change(written);

        Assert.Empty(_placed);
    }

    [Fact]
    public void A_mark_can_be_placed_by_choosing_an_area()
    {
        var marker = Marker();

        marker.Find("select").Change("Tailgate");
        marker.Find(".outline-add button").Click();

        Assert.Equal(new OutlinePoint(0.92, 0.5, "Tailgate"), Assert.Single(_placed));
    }

    [Fact]
    public void A_read_only_drawing_takes_no_marks()
    {
        var marker = Marker(readOnly: true);

        marker.Find("[data-outline-value]").Change("0.25;0.8");

        Assert.Empty(_placed);
        Assert.Empty(marker.FindAll("select"));
        Assert.False(marker.Find(".outline-sheet").HasAttribute("data-outline"));
    }

    [Fact]
    public void A_signature_is_taken_only_as_moves_and_lines()
    {
        Assert.Equal(new SignatureStroke("M0 0L12.5 3", 12.5, 3, null), SignatureStroke.Read("""{"path":"M0 0L12.5 3","width":12.5,"height":3,"typedName":null}"""));
        Assert.Equal("Mara Lind", SignatureStroke.Read("""{"path":null,"width":0,"height":0,"typedName":"Mara Lind"}""")!.TypedName);
        Assert.Null(SignatureStroke.Read("""{"path":"M0 0\"/><script>","width":1,"height":1}"""));
        Assert.Null(SignatureStroke.Read("""{"path":"","width":0,"height":0}"""));
        Assert.Null(SignatureStroke.Read("not json"));
        Assert.Null(SignatureStroke.Read(""));
    }

    private IRenderedComponent<OutlineMarker> Marker(OutlineMark? mark = null, bool readOnly = false) =>
        Render<OutlineMarker>(parameters => parameters
            .Add(each => each.Svg, "<svg></svg>")
            .Add(each => each.Label, "Car from above")
            .Add(each => each.Marks, mark is null ? [] : [mark])
            .Add(each => each.Areas, [new("Front bumper", 0.08, 0.5), new("Tailgate", 0.92, 0.5)])
            .Add(each => each.ReadOnly, readOnly)
            .Add(each => each.MarkPlaced, (OutlinePoint point) => _placed.Add(point)));
}
