using CsCheck;
using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Geometry;

namespace ShopFloor.Engineering.Tests.Geometry;

/// <summary>Surfaces that pass through themselves, by solids of which geometry tells whether they do.</summary>
public class MeshCrossingTests
{
    // Cubes of 1 m, the second moved alike along all axes, so that its sides run through the seams of the first one's triangles.
    [Theory]
    [InlineData(0.25, true)]
    [InlineData(0.5, true)]
    [InlineData(0.999, true)]
    [InlineData(1.001, false)]
    [InlineData(1, false)] // a corner on a corner touches
    public void Cubes_cross_while_they_overlap(double away, bool crosses)
    {
        var measured = MeshMeasure.Of(Solids.Together(Solids.Box(1, 1, 1, default), Solids.Box(1, 1, 1, new(away, away, away))));

        Assert.Equal(crosses, measured.Crossing!.Pairs > 0);
        Assert.Equal(crosses, measured.Findings.Any(finding => finding is { Code: "mesh-crosses", Severity: Severity.Warn }));
        // What is said of such a mesh: the overlap counts twice.
        Assert.Equal(2, measured.VolumeCubicMeters!.Value, 1e-9);
    }

    [Fact]
    public void Cubes_face_to_face_touch_and_do_not_cross() =>
        Assert.Equal(0, MeshCrossings.Find(Solids.Together(Solids.Box(1, 1, 1, default), Solids.Box(0.5, 0.5, 0.5, new(1, 0.1, 0.2)))).Pairs);

    [Fact]
    public void A_body_inside_another_does_not_cross_it() =>
        Assert.Equal((0, true), MeshCrossings.Find(Solids.Together(Solids.Box(1, 1, 1, default), Solids.Box(0.5, 0.5, 0.5, new(0.2, 0.2, 0.2)))) is var found ? (found.Pairs, found.Whole) : default);

    // A torus whose tube is thicker than its ring is wide crosses itself on its axis; one surface, closed.
    [Theory]
    [InlineData(0.30, 0.1, false)]
    [InlineData(0.11, 0.1, false)]
    [InlineData(0.08, 0.1, true)]
    public void A_torus_crosses_itself_when_its_tube_is_wider_than_its_ring(double ring, double tube, bool crosses)
    {
        var measured = MeshMeasure.Of(Solids.Torus(ring, tube, 48, 32));

        Assert.Equal((1, 0, crosses), (measured.Shells, measured.OpenEdges, measured.Crossing!.Pairs > 0));
        if (crosses)
            Assert.InRange(Math.Sqrt(measured.Crossing.At!.Value.X * measured.Crossing.At.Value.X + measured.Crossing.At.Value.Y * measured.Crossing.At.Value.Y), 0, 0.02 + 0.01); // within tube − ring and a facet of the axis
    }

    [Fact]
    public void Spheres_cross_when_their_distance_lies_between_difference_and_sum_of_their_radii() =>
        Gen.Select(Gen.Double[0.2, 1], Gen.Double[0.2, 1], Gen.Double[0.05, 2.2], Gen.Double[0, 6.28]).Sample((one, two, away, turned) =>
        {
            // Facets lie up to 2 % inside the sphere, so close to the border either is right.
            if (Math.Abs(away - (one + two)) < 0.06 || Math.Abs(away - Math.Abs(one - two)) < 0.06)
                return true;
            var found = MeshCrossings.Find(Solids.Together(Solids.Sphere(one, 24, default), Solids.Sphere(two, 24, new(away * Math.Cos(turned), away * Math.Sin(turned), 0))));
            return found.Pairs > 0 == (away < one + two && away > Math.Abs(one - two));
        });

    // Separating axes: two convex bodies are apart when on one of their normals or products of sides their shadows are (Gottschalk, Lin and Manocha, 1996).
    [Fact]
    public void Loose_triangles_cross_when_no_axis_parts_them() =>
        Gen.Int.Sample(seed =>
        {
            // Evenly random, so that no triangle is a line or a point.
            var random = new Random(seed);
            double Next() => 2 * random.NextDouble() - 1;
            Point3[] corners = [.. Enumerable.Range(0, 6).Select(_ => new Point3(Next(), Next(), Next()))];
            var apart = Gap(corners);
            return Math.Abs(apart) < 1e-4 || MeshCrossings.Find(new TriangleMesh(corners, [0, 1, 2, 3, 4, 5])).Pairs == (apart > 0 ? 0 : 1);
        });

    [Fact]
    public void Of_many_loose_triangles_each_crossing_pair_is_found_once() =>
        Gen.Int.Sample(seed =>
        {
            // Evenly random, so that hardly any two lie in one plane.
            var random = new Random(seed);
            double Next() => 2 * random.NextDouble() - 1;
            Point3[] corners = [.. Enumerable.Range(0, 120).Select(_ => new Point3(Next(), Next(), Next()))];
            var expected = 0;
            for (var one = 0; one < 40; one++)
            {
                for (var two = one + 1; two < 40; two++)
                    expected += MeshCrossings.Find(new TriangleMesh(corners, [3 * one, 3 * one + 1, 3 * one + 2, 3 * two, 3 * two + 1, 3 * two + 2])).Pairs;
            }

            return Math.Abs(MeshCrossings.Find(new TriangleMesh(corners, [.. Enumerable.Range(0, 120)])).Pairs - expected) <= 1; // a hit nearer than a millionth of either size may count in one and not in the other
        }, iter: 30);

    [Fact]
    public void A_search_that_may_not_come_to_its_end_says_so()
    {
        var found = MeshCrossings.Find(Solids.Sphere(1, 48, default), mostSteps: 100);

        Assert.Equal((0, false), (found.Pairs, found.Whole));
    }

    [Fact]
    public void A_search_is_ended_from_outside()
    {
        using var ended = new CancellationTokenSource();
        ended.Cancel();

        Assert.Throws<OperationCanceledException>(() => MeshMeasure.Of(Solids.Sphere(1, 48, default), cancellation: ended.Token));
    }

    // A box of boards: every side is shorter by twice the thickness; 8·t³ of the corners are left out.
    [Fact]
    public void Inside_a_wall_of_one_thickness_a_box_is_smaller_by_it_on_every_side() =>
        Gen.Select(Gen.Double[0.2, 1], Gen.Double[0.2, 1], Gen.Double[0.2, 1], Gen.Double[0.003, 0.03]).Sample((width, depth, height, wall) =>
            Math.Abs(MeshMeasure.Of(Solids.Box(width, depth, height, default)).InsideCubicMeters(wall)!.Value - 8 * wall * wall * wall - (width - 2 * wall) * (depth - 2 * wall) * (height - 2 * wall)) < 1e-9);

    // 4π/3·(r − t)³, of a sphere of facets that holds some less.
    [Fact]
    public void Inside_a_wall_a_sphere_has_a_smaller_radius() =>
        Assert.Equal(Math.Pow(0.18 / 0.2, 3), Solids.Sphere(0.2, 96, default) is var sphere ? MeshMeasure.Of(sphere).InsideCubicMeters(0.02)!.Value / MeshMeasure.Of(sphere).VolumeCubicMeters!.Value : 0, 2e-3);

    [Fact]
    public void A_wall_thicker_than_the_body_leaves_nothing() => Assert.Null(MeshMeasure.Of(Solids.Box(0.1, 0.4, 0.4, default)).InsideCubicMeters(0.08));

    // Above 0: the widest gap between the shadows of both; below 0 they overlap on every axis by that.
    private static double Gap(Point3[] c)
    {
        Point3[] sides = [c[1] - c[0], c[2] - c[1], c[0] - c[2], c[4] - c[3], c[5] - c[4], c[3] - c[5]];
        List<Point3> axes = [sides[0].Cross(sides[1]), sides[3].Cross(sides[4])];
        for (var one = 0; one < 3; one++)
        {
            for (var two = 3; two < 6; two++)
                axes.Add(sides[one].Cross(sides[two]));
        }

        return axes.Where(axis => axis.Length > 1e-9).Max(axis =>
        {
            var shadows = c.Select(point => point.Dot(axis) / axis.Length).ToArray();
            return Math.Max(shadows[..3].Min() - shadows[3..].Max(), shadows[3..].Min() - shadows[..3].Max());
        });
    }
}
