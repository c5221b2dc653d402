using ShopFloor.Documents.Diagrams;
using ShopFloor.Shop.Vehicles;

namespace ShopFloor.Documents.Tests.Diagrams;

public sealed class VehicleTopPlanTests
{
    public static TheoryData<BodyStyle> Bodies => new(Enum.GetValues<BodyStyle>());

    [Fact]
    public void Zones_have_keys_and_names_of_their_own()
    {
        Assert.Equal(VehicleTopPlan.Zones.Count, VehicleTopPlan.Zones.Select(zone => zone.Key).Distinct().Count());
        Assert.Equal(VehicleTopPlan.Zones.Count, VehicleTopPlan.Zones.Select(zone => zone.Name).Distinct().Count());
        Assert.All(VehicleTopPlan.Zones, zone => Assert.Matches("^[a-z]+(-[a-z]+)*$", zone.Key));
    }

    [Theory]
    [MemberData(nameof(Bodies))]
    public void Zones_are_far_enough_apart_for_one_badge_each(BodyStyle body)
    {
        var anchors = VehicleTopPlan.Zones.Select(zone => VehicleTopPlan.Anchor(body, zone.Key)).ToList();
        for (var i = 0; i < anchors.Count; i++)
        {
            for (var j = i + 1; j < anchors.Count; j++)
                Assert.True(double.Hypot(anchors[i].X - anchors[j].X, anchors[i].Y - anchors[j].Y) > 26,
                    $"{VehicleTopPlan.Zones[i].Key} {VehicleTopPlan.Zones[j].Key}");
        }
    }

    [Theory]
    [MemberData(nameof(Bodies))]
    public void Badges_stay_inside_the_frame_on_the_side_they_belong_to(BodyStyle body)
    {
        var badges = VehicleTopPlan.Zones.SelectMany(zone => Enumerable.Range(1, 4)
            .Select(i => new PlanBadge(zone.Key, $"{i}", (BadgeShape)(i % 4)))).ToArray();
        var root = SvgGeometry.Parse(VehicleTopPlan.Draw(body, badges));

        foreach (var zone in VehicleTopPlan.Zones)
        {
            var points = SvgGeometry.Points(Assert.Single(SvgGeometry.Groups(root, zone.Key))).ToList();
            Assert.All(points, point =>
            {
                Assert.InRange(point.X, 0, VehicleTopPlan.Width);
                Assert.InRange(point.Y, 0, VehicleTopPlan.Height);
            });
            // The nose points left, so the vehicle's left is at the foot of the drawing.
            var middle = points.Average(point => point.Y);
            if (zone.Key.EndsWith("left", StringComparison.Ordinal))
                Assert.True(middle > VehicleTopPlan.Height / 2.0);
            if (zone.Key.EndsWith("right", StringComparison.Ordinal))
                Assert.True(middle < VehicleTopPlan.Height / 2.0);
        }
    }

    [Fact]
    public void Badge_in_a_zone_that_does_not_exist_is_refused_by_name()
    {
        var error = Assert.Throws<ArgumentException>(() => VehicleTopPlan.Draw(BodyStyle.Van, new PlanBadge("attic", "1")));

        Assert.Contains("'attic'", error.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Label_that_looks_like_markup_is_only_text()
    {
        var root = SvgGeometry.Parse(VehicleTopPlan.Draw(BodyStyle.Van, new PlanBadge("dash", "<script>")));

        Assert.DoesNotContain(root.Descendants(), element => element.Name.LocalName == "script");
    }
}
