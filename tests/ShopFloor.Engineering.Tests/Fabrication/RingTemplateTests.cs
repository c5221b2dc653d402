using CsCheck;
using NetTopologySuite.Geometries;
using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Fabrication.Templates;

namespace ShopFloor.Engineering.Tests.Fabrication;

public class RingTemplateTests
{
    private static readonly TemplateInput Ring = new()
    {
        Name = "Ring", CutOutMeters = 0.28, Outside = new RoundOutside(0.34), ThicknessMeters = 0.018, Holes = 8, BoltCircleMeters = 0.304, HoleMeters = 0.005,
    };

    // Eight holes on a circle of radius 152: every second at 152·cos 45° = 107.480 mm; neighbours 2·152·sin 22.5° = 116.336 mm apart.
    [Fact]
    public void Holes_stand_evenly_on_their_circle()
    {
        var template = RingTemplate.Compute(Ring);

        Assert.Equal((0.152, 0.0), (template.Holes[0].Center.X, template.Holes[0].Center.Y));
        Assert.Equal(0.107480, template.Holes[1].Center.X, 5e-7);
        Assert.Equal(0.107480, template.Holes[1].Center.Y, 5e-7);
        Assert.Equal(0.116336, template.BetweenHolesMeters!.Value, 5e-7);
        Assert.Equal((0.304 - 0.28 - 0.005) / 2, template.HoleToCutOutMeters!.Value, 1e-12);
        Assert.Equal((0.34 - 0.304 - 0.005) / 2, template.HoleToOutsideMeters!.Value, 1e-12);
        Assert.Equal(Math.PI / 4 * (0.34 * 0.34 - 0.28 * 0.28 - 8 * 0.005 * 0.005), template.NetSquareMeters, 1e-12);
        Assert.Empty(template.Findings);
    }

    [Fact]
    public void The_board_left_beside_the_holes_is_what_the_geometry_library_measures() =>
        Gen.Select(Gen.Double[0.2, 0.6], Gen.Double[0.2, 0.6], Gen.Double[0.001, 0.099], Gen.Double[0.1, 0.199], Gen.Int[1, 12], Gen.Double[-360, 360]).Sample((length, width, corner, circle, holes, start) =>
        {
            var template = RingTemplate.Compute(Ring with
            {
                CutOutMeters = 0.05, Outside = new RectangularOutside(length, width, corner), BoltCircleMeters = circle, Holes = holes, FirstHoleDegrees = start,
            });
            // A rectangle of the corners' middles grown by the radius, in fine steps.
            var middles = new GeometryFactory().ToGeometry(new Envelope(-length / 2 + corner, length / 2 - corner, -width / 2 + corner, width / 2 - corner));
            var outside = middles.Buffer(corner, 64);
            var least = template.Holes.Min(hole => ((Polygon)outside).ExteriorRing.Distance(new Point(hole.Center.X, hole.Center.Y)));
            Assert.Equal(least - 0.0025, template.HoleToOutsideMeters!.Value, 2e-5);
            Assert.Equal(outside.Area - Math.PI / 4 * (0.05 * 0.05 + holes * 0.005 * 0.005), template.NetSquareMeters, 1e-5);
        });

    [Theory]
    [InlineData(0.3, "template-edge-thin", Severity.Warn)] // 7.5 mm are left outside, 10 are asked.
    [InlineData(0.283, "template-holes-cut", Severity.Stop)]
    [InlineData(0.339, "template-holes-cut", Severity.Stop)]
    public void Holes_too_near_an_edge_are_found(double circle, string code, Severity severity)
    {
        var template = RingTemplate.Compute(Ring with { BoltCircleMeters = circle, EdgeRatio = 2 });

        Assert.Contains(template.Findings, finding => finding.Code == code && finding.Severity == severity);
    }

    [Fact]
    public void Too_many_holes_run_into_each_other() =>
        Assert.Contains(RingTemplate.Compute(Ring with { Holes = 48, HoleMeters = 0.021, EdgeRatio = 0.1 }).Findings, finding => finding.Text.Contains("between holes", StringComparison.Ordinal) && finding.Severity == Severity.Stop);

    [Fact]
    public void A_step_deeper_than_half_the_board_or_wider_than_the_ring_is_found()
    {
        var template = RingTemplate.Compute(Ring with { Rings = [new TemplateRing("Basket", 0.29, 0.012, false), new TemplateRing("Trim", 0.35, 0.002, true)] });

        Assert.Equal(["template-ring-outside", "template-ring-deep"], template.Findings.Select(finding => finding.Code));
    }

    [Fact]
    public void Missing_and_impossible_sizes_are_named()
    {
        Assert.Equal("BoltCircleMeters", Assert.Single((Ring with { BoltCircleMeters = null }).Validate()).Field);
        Assert.Equal("CutOutMeters", Assert.Single((Ring with { CutOutMeters = 0.34 }).Validate()).Field);
        Assert.Equal("Outside.CornerMeters", Assert.Single((Ring with { Outside = new RectangularOutside(0.4, 0.4, 0.3) }).Validate()).Field);
        Assert.Equal("CutOutMeters", (Ring with { CutOutMeters = double.NaN }).Validate()[0].Field);
    }
}
