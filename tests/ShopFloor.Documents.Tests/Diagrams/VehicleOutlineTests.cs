using CsCheck;
using ShopFloor.Documents.Diagrams;
using ShopFloor.Shop.Phases.Intake;
using ShopFloor.Shop.Vehicles;

namespace ShopFloor.Documents.Tests.Diagrams;

public sealed class VehicleOutlineTests
{
    public static TheoryData<BodyStyle> Bodies => new(Enum.GetValues<BodyStyle>());

    [Theory]
    [MemberData(nameof(Bodies))]
    public void Outline_is_well_formed_stays_inside_its_frame_and_is_always_the_same(BodyStyle body)
    {
        var svg = VehicleOutline.Draw(body);

        var root = SvgGeometry.Parse(svg);
        Assert.Equal("0 0 1000 700", root.Attribute("viewBox")!.Value);
        Assert.All(SvgGeometry.Points(root), point =>
        {
            Assert.InRange(point.X, 0, VehicleOutline.Width);
            Assert.InRange(point.Y, 0, VehicleOutline.Height);
        });
        Assert.Equal(svg, VehicleOutline.Draw(body));
    }

    [Fact]
    public void Each_body_style_has_a_drawing_of_its_own()
    {
        Assert.Equal(7, Enum.GetValues<BodyStyle>().Select(body => VehicleOutline.Draw(body)).Distinct().Count());
    }

    [Fact]
    public void Marks_anywhere_stay_inside_the_frame()
    {
        var mark =
            from x in Gen.Double[-0.5, 1.5]
            from y in Gen.Double[-0.5, 1.5]
            from kind in Gen.Enum<ConditionKind>()
            from label in Gen.String[0, 12]
            select new DrawnMark(x, y, kind, label);
        mark.Sample(
            one =>
            {
                var root = SvgGeometry.Parse(VehicleOutline.Draw(BodyStyle.Estate, one));
                foreach (var (x, y) in SvgGeometry.Groups(root, "mark-").SelectMany(SvgGeometry.Points))
                {
                    Assert.InRange(x, 0, VehicleOutline.Width);
                    Assert.InRange(y, 0, VehicleOutline.Height);
                }
            },
            iter: 300);
    }

    [Fact]
    public void Each_kind_of_mark_has_a_shape_of_its_own_and_is_explained_in_words()
    {
        var marks = Enum.GetValues<ConditionKind>().Select(kind => new DrawnMark(0.5, 0.5, kind, "")).ToArray();
        var root = SvgGeometry.Parse(VehicleOutline.Draw(BodyStyle.Saloon, marks));

        var shapes = SvgGeometry.Groups(root, "mark-").Select(group => string.Concat(group.Elements().Select(shape => shape.ToString())));
        Assert.Equal(6, shapes.Distinct().Count());
        var words = root.Descendants().Where(element => element.Name.LocalName == "text").Select(text => text.Value).ToList();
        Assert.All((string[])["scratch", "dent", "chip", "crack", "worn", "missing"], word => Assert.Contains(word, words));
    }

    [Fact]
    public void Label_that_looks_like_markup_is_only_text()
    {
        var root = SvgGeometry.Parse(VehicleOutline.Draw(BodyStyle.Saloon, new DrawnMark(0.5, 0.5, ConditionKind.Dent, "<script>")));

        Assert.DoesNotContain(root.Descendants(), element => element.Name.LocalName == "script");
        Assert.Contains(root.Descendants(), element =>
            element.Name.LocalName == "text" && element.Value.StartsWith("<scrip", StringComparison.Ordinal));
    }

    [Theory]
    // Read off the rendered drawing by eye.
    [InlineData(0.50, 0.50, VehicleView.Top, "top, roof")]
    [InlineData(0.32, 0.50, VehicleView.Top, "top, bonnet")]
    [InlineData(0.42, 0.50, VehicleView.Top, "top, windscreen")]
    [InlineData(0.46, 0.83, VehicleView.LeftSide, "left side, front door")]
    [InlineData(0.55, 0.83, VehicleView.LeftSide, "left side, rear door")]
    [InlineData(0.355, 0.84, VehicleView.LeftSide, "left side, front wheel")]
    [InlineData(0.46, 0.73, VehicleView.LeftSide, "left side, front window")]
    [InlineData(0.54, 0.21, VehicleView.RightSide, "right side, front door")]
    [InlineData(0.45, 0.21, VehicleView.RightSide, "right side, rear door")]
    [InlineData(0.645, 0.22, VehicleView.RightSide, "right side, front wheel")]
    [InlineData(0.131, 0.44, VehicleView.Front, "front, windscreen")]
    [InlineData(0.20, 0.52, VehicleView.Front, "front, left headlamp")]
    [InlineData(0.06, 0.52, VehicleView.Front, "front, right headlamp")]
    [InlineData(0.795, 0.495, VehicleView.Rear, "rear, left tail lamp")]
    [InlineData(0.945, 0.495, VehicleView.Rear, "rear, right tail lamp")]
    [InlineData(0.868, 0.44, VehicleView.Rear, "rear, rear window")]
    [InlineData(0.02, 0.02, null, "beside the vehicle")]
    public void Point_is_named_by_view_and_panel(double x, double y, VehicleView? view, string text)
    {
        Assert.Equal(new VehicleArea(view, text), VehicleOutline.Locate(BodyStyle.Saloon, x, y));
    }

    [Fact]
    public void Every_point_of_every_body_has_a_name()
    {
        (from body in Gen.Enum<BodyStyle>() from x in Gen.Double[-0.1, 1.1] from y in Gen.Double[-0.1, 1.1] select (body, x, y))
            .Sample(point => Assert.NotEmpty(VehicleOutline.Locate(point.body, point.x, point.y).Text));
    }
}
