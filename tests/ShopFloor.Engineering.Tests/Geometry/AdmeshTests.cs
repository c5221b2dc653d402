using System.Diagnostics;
using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;
using ShopFloor.Engineering.Geometry;

namespace ShopFloor.Engineering.Tests.Geometry;

/// <summary>Surfaces as another program measures them: admesh (Debian's package), which sums signed volumes in single precision.</summary>
public class AdmeshTests
{
    public static TheoryData<string, TriangleMesh> Bodies() => new()
    {
        { "ring", Solids.Torus(0.2, 0.06, 48, 24) },
        { "ball", Solids.Sphere(0.15, 40, new Point3(0.3, -0.2, 0.1)) },
        { "knobbly", Bent(Solids.Sphere(0.15, 60, default)) },
        { "two", Solids.Together(Solids.Box(0.4, 0.3, 0.25, default), Solids.Sphere(0.1, 32, new Point3(1, 1, 1))) },
    };

    [Theory]
    [MemberData(nameof(Bodies))]
    public void Volume_and_size_are_those_of_admesh(string name, TriangleMesh body)
    {
        var file = Ascii(name, body);
        var told = Told(file);

        var measured = MeshMeasure.Of(StlReader.Read(Encoding.ASCII.GetBytes(file), MeshUnit.Millimeters));

        Assert.Equal(Figure(told, "Volume") * 1e-9, measured.VolumeCubicMeters!.Value, 2e-5 * measured.VolumeCubicMeters.Value);
        Assert.Equal(Figure(told, "Max X") - Figure(told, "Min X"), 1e3 * (measured.Highest.X - measured.Lowest.X), 1e-3);
        Assert.Equal(Figure(told, "Max Z") - Figure(told, "Min Z"), 1e3 * (measured.Highest.Z - measured.Lowest.Z), 1e-3);
        Assert.Equal(0, measured.OpenEdges);
        Assert.Equal(0, Figure(told, "Total disconnected facets"));
    }

    [Fact]
    public void Where_admesh_finds_facets_without_a_neighbour_the_surface_is_open()
    {
        var ball = Solids.Sphere(0.15, 24, default);
        var file = Ascii("open", new TriangleMesh(ball.Vertices, [.. ball.Triangles[..^3]]));

        // One facet is missing: its three neighbours each miss an edge.
        Assert.Equal(3, Figure(Told(file), "Total disconnected facets"));
        Assert.Equal(3, MeshMeasure.Of(StlReader.Read(Encoding.ASCII.GetBytes(file), MeshUnit.Millimeters)).OpenEdges);
    }

    // A shape no formula has: the radius swings with both angles.
    private static TriangleMesh Bent(TriangleMesh ball) => new(
        [.. ball.Vertices.Select(corner => corner * (1 + 0.2 * Math.Sin(5 * Math.Atan2(corner.Y, corner.X)) * Math.Sin(20 * corner.Z)))],
        [.. ball.Triangles]);

    private static string Ascii(string name, TriangleMesh mesh)
    {
        var text = new StringBuilder().Append(CultureInfo.InvariantCulture, $"solid {name}\n");
        for (var n = 0; n < mesh.Triangles.Length; n += 3)
        {
            text.Append("facet normal 0 0 0\nouter loop\n");
            foreach (var corner in Enumerable.Range(n, 3).Select(at => mesh.Vertices[mesh.Triangles[at]]))
                text.Append(CultureInfo.InvariantCulture, $"vertex {1e3 * corner.X:R} {1e3 * corner.Y:R} {1e3 * corner.Z:R}\n");
            text.Append("endloop\nendfacet\n");
        }

        return text.Append(CultureInfo.InvariantCulture, $"endsolid {name}\n").ToString();
    }

    private static string Told(string stl)
    {
        var file = Path.Combine(Path.GetTempPath(), $"{Path.GetRandomFileName()}.stl");
        try
        {
            File.WriteAllText(file, stl);
            using var process = Process.Start(new ProcessStartInfo("admesh", [file]) { RedirectStandardOutput = true, RedirectStandardError = true })!; // started or thrown
            var told = process.StandardOutput.ReadToEnd();
            process.WaitForExit();
            Assert.True(process.ExitCode == 0, told);
            return told;
        }
        finally
        {
            File.Delete(file);
        }
    }

    // The first figure behind the words: where there are two columns, the file as it came.
    private static double Figure(string told, string words)
    {
        var found = Regex.Match(told, Regex.Escape(words) + @"\s*[:=]\s*(-?[\d.]+)", RegexOptions.CultureInvariant);
        Assert.True(found.Success, $"{words} is not in: {told}");
        return double.Parse(found.Groups[1].Value, CultureInfo.InvariantCulture);
    }
}
