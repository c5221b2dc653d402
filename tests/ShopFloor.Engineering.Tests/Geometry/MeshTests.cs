using System.Buffers.Binary;
using System.Globalization;
using System.Runtime.CompilerServices;
using System.Text;
using CsCheck;
using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Geometry;

namespace ShopFloor.Engineering.Tests.Geometry;

public class MeshTests
{
    // Solids whose volume is known by elementary geometry: a trapezoid wedge 900 wide, 300/180 deep, 350 high (75.6 L); a cube of 300 mm (27 L).
    [Theory]
    [InlineData("mesh_wedge_binary.stl", 75.6, 1.248, 450, 122.5, 160.4167)]
    [InlineData("mesh_cube300_ascii.stl", 27, 0.54, 200, 130, 160)]
    public void Closed_solids(string file, double liters, double squareMeters, double x, double y, double z)
    {
        var measured = MeshMeasure.Of(Read(file));

        Assert.Equal(liters / 1000, measured.VolumeCubicMeters!.Value, 1e-8);
        Assert.Equal(squareMeters, measured.AreaSquareMeters, 1e-7);
        Assert.Equal(x / 1000, measured.Center!.Value.X, 1e-7);
        Assert.Equal(y / 1000, measured.Center.Value.Y, 1e-7);
        Assert.Equal(z / 1000, measured.Center.Value.Z, 1e-7);
        Assert.Empty(measured.Findings);
    }

    [Fact]
    public void A_sphere_of_facets_is_a_little_smaller_than_the_sphere()
    {
        // 4π/3·0.1³ = 4.18879 L; five thousand facets hold 99.784 % of it.
        var measured = MeshMeasure.Of(Read("mesh_icosphere_r100_n4_binary.stl"));
        Assert.Equal(0.004179739, measured.VolumeCubicMeters!.Value, 1e-8);
        Assert.Equal(0.997839, measured.VolumeCubicMeters.Value / (4e-3 * Math.PI / 3), 1e-5);
        Assert.Equal(2_562, Read("mesh_icosphere_r100_n4_binary.stl").Vertices.Count);
    }

    [Fact]
    public void A_mesh_with_a_hole_has_no_volume()
    {
        var measured = MeshMeasure.Of(Read("mesh_cube_open_nonwatertight_ascii.stl"));
        Assert.Null(measured.VolumeCubicMeters);
        Assert.Equal(4, measured.OpenEdges);
        Assert.Equal(("mesh-open", Severity.Stop), (Assert.Single(measured.Findings).Code, measured.Findings[0].Severity));
    }

    [Fact]
    public void A_mesh_that_is_not_closed_is_handed_back_as_it_came()
    {
        // A cube without one of its twelve triangles and with another turned over.
        var cube = Box(1, 1, 1, 0);
        int[] triangles = [.. cube.Triangles[..33]];
        (triangles[1], triangles[2]) = (triangles[2], triangles[1]);
        var open = new TriangleMesh(cube.Vertices, triangles);
        int[] before = [.. triangles];

        var measured = MeshMeasure.Of(open);

        Assert.Null(measured.VolumeCubicMeters);
        Assert.Equal(1, measured.Turned);
        Assert.Same(open, measured.Mesh);
        Assert.Equal(before, measured.Mesh.Triangles);
        Assert.DoesNotContain(measured.Findings, finding => finding.Text.Contains("turned over", StringComparison.Ordinal));
    }

    [Fact]
    public void Corners_a_hair_apart_are_one_wherever_they_lie()
    {
        // A cube of 1 m, each corner of each triangle moved by up to 0.1 µm along each axis: 0.2 µm apart at most, where 0.5 µm (half of 1e-6 of the size) is one.
        Gen.Select(Gen.Double[0, 1e-3], Gen.Double[0, 1e-3], Gen.Double[0, 1e-3], Gen.Double[-1e-7, 1e-7].Array[108]).Sample((x, y, z, jitter) =>
        {
            var cube = Box(1, 1, 1, 0);
            var text = new StringBuilder("solid cube\n");
            for (var at = 0; at < cube.Triangles.Length; at++)
            {
                var corner = cube.Vertices[cube.Triangles[at]];
                text.Append(CultureInfo.InvariantCulture, $"vertex {corner.X + x + jitter[3 * at]:R} {corner.Y + y + jitter[3 * at + 1]:R} {corner.Z + z + jitter[3 * at + 2]:R}\n");
            }

            var mesh = StlReader.Read(Encoding.UTF8.GetBytes(text.Append("endsolid cube\n").ToString()), MeshUnit.Meters);
            return mesh.Vertices.Count == 8 && Math.Abs(MeshMeasure.Of(mesh).VolumeCubicMeters!.Value - 1) < 1e-6;
        });
    }

    [Theory]
    [InlineData("mesh_cube_allflipped_binary.stl", "mesh-inverted", 0)]
    [InlineData("mesh_cube_two_flipped_ascii.stl", "mesh-turned", 2)]
    public void Faces_that_look_the_wrong_way_are_turned(string file, string code, int turned)
    {
        var measured = MeshMeasure.Of(Read(file));
        Assert.Equal(0.027, measured.VolumeCubicMeters!.Value, 1e-8);
        Assert.Equal(turned, measured.Turned);
        Assert.Contains(measured.Findings, finding => finding.Code == code);
        // Measured again, the turned mesh has nothing left to say.
        Assert.Empty(MeshMeasure.Of(measured.Mesh).Findings);
    }

    [Fact]
    public void All_lengths_doubled_the_volume_is_eight_times_and_the_area_four() =>
        Gen.Select(Gen.Double[0.05, 2], Gen.Double[0.05, 2], Gen.Double[0.05, 2], Gen.Double[-5, 5]).Sample((width, depth, height, away) =>
        {
            var one = MeshMeasure.Of(Box(width, depth, height, away));
            var two = MeshMeasure.Of(Box(2 * width, 2 * depth, 2 * height, away));
            return Math.Abs(one.VolumeCubicMeters!.Value - width * depth * height) < 1e-9
                && Math.Abs(two.VolumeCubicMeters!.Value - 8 * one.VolumeCubicMeters.Value) < 1e-8
                && Math.Abs(two.AreaSquareMeters - 4 * one.AreaSquareMeters) < 1e-8
                && (one.Center!.Value - new Point3(away + width / 2, away + depth / 2, away + height / 2)).Length < 1e-9;
        });

    [Fact]
    public void Inches_are_not_millimetres() =>
        Assert.Equal(Math.Pow(25.4, 3), MeshMeasure.Of(StlReader.Read(File("mesh_cube300_ascii.stl"), MeshUnit.Inches)).VolumeCubicMeters!.Value / 0.027, 1e-3);

    [Theory]
    [InlineData("", "The file has 0 bytes; that is no mesh.")]
    [InlineData("solid x\nfacet\nvertex 1 2\nendsolid", "Line 3: “vertex 1 2” is no corner; three numbers are expected.")]
    [InlineData("solid x\nvertex 1 2 3\nvertex 1 2 4\nvertex 1 3 3\n", "The file ends at line 4 without “endsolid”: it is cut off.")]
    [InlineData("solid x\nvertex 1 2 3\nvertex 1 2 4\nendsolid x\n", "Up to line 4 there are 2 corners, which are no whole triangles.")]
    [InlineData("solid x\nvertex 1 2 nan\nendsolid x\n", "Line 2: a corner is not a number, or beyond 1,000,000.")]
    [InlineData("solid nothing\nendsolid\n", "The file holds no triangle.")]
    [InlineData("solid x\nvertex 1 2 3\nvertex 1 2 3\nvertex 1 2 3\nendsolid x\n", "Every triangle of the file has no area.")]
    public void What_is_no_mesh_is_refused_with_line_or_size(string text, string message) =>
        Assert.Equal(message, Assert.Throws<MeshFormatException>(() => StlReader.Read(Encoding.UTF8.GetBytes(text), MeshUnit.Millimeters)).Message);

    [Fact]
    public void A_file_that_is_cut_off_or_lies_about_its_length_is_refused_without_taking_memory()
    {
        var file = File("mesh_wedge_binary.stl");
        Assert.Contains("It is cut off or no STL.", Assert.Throws<MeshFormatException>(() => StlReader.Read(file.AsSpan(0, file.Length - 7), MeshUnit.Millimeters)).Message, StringComparison.Ordinal);
        var boast = file.ToArray();
        BinaryPrimitives.WriteUInt32LittleEndian(boast.AsSpan(80), uint.MaxValue);
        Assert.Contains("4294967295 triangles", Assert.Throws<MeshFormatException>(() => StlReader.Read(boast, MeshUnit.Millimeters)).Message, StringComparison.Ordinal);
        var nan = file.ToArray();
        BinaryPrimitives.WriteSingleLittleEndian(nan.AsSpan(84 + 12), float.NaN);
        Assert.Equal("Triangle 1 (offset 96): a corner is not a number, or beyond 1,000,000.", Assert.Throws<MeshFormatException>(() => StlReader.Read(nan, MeshUnit.Millimeters)).Message);
    }

    [Fact]
    public void No_bytes_whatever_do_anything_but_read_or_refuse()
    {
        var seed = File("mesh_wedge_binary.stl");
        Gen.Select(Gen.Int[0, seed.Length], Gen.Byte.Array[0, 200], Gen.Bool).Sample((keep, noise, text) =>
        {
            byte[] bytes = [.. text ? "solid "u8.ToArray() : [], .. seed.AsSpan(0, keep), .. noise];
            try
            {
                return MeshMeasure.Of(StlReader.Read(bytes, MeshUnit.Millimeters)).AreaSquareMeters >= 0;
            }
            catch (MeshFormatException refused)
            {
                return refused.Message.Length > 0;
            }
        });
    }

    private static TriangleMesh Box(double width, double depth, double height, double away) => Solids.Box(width, depth, height, new(away, away, away));

    private static TriangleMesh Read(string file) => StlReader.Read(File(file), MeshUnit.Millimeters);

    private static byte[] File(string name, [CallerFilePath] string here = "") => System.IO.File.ReadAllBytes(Path.Combine(Path.GetDirectoryName(here)!, "Fixtures", name)); // a file has a folder
}
