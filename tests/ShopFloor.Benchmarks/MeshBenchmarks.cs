using System.Buffers.Binary;
using BenchmarkDotNet.Attributes;
using ShopFloor.Engineering.Geometry;
using ShopFloor.Engineering.Tests.Geometry;

namespace ShopFloor.Benchmarks;

/// <summary>A scan of a million triangles: a ring of 0.4 m that is closed and crosses nothing, as a binary STL.</summary>
[MemoryDiagnoser]
public class MeshBenchmarks
{
    private byte[] _file = [];
    private TriangleMesh _mesh = null!;

    [GlobalSetup]
    public void Build()
    {
        var mesh = Solids.Torus(400, 150, 1_000, 500);
        _file = new byte[84 + 50 * mesh.Count];
        BinaryPrimitives.WriteUInt32LittleEndian(_file.AsSpan(80), (uint)mesh.Count);
        for (var at = 0; at < mesh.Triangles.Length; at++)
        {
            var corner = mesh.Vertices[mesh.Triangles[at]];
            var place = _file.AsSpan(84 + at / 3 * 50 + 12 * (at % 3 + 1));
            BinaryPrimitives.WriteSingleLittleEndian(place, (float)corner.X);
            BinaryPrimitives.WriteSingleLittleEndian(place[4..], (float)corner.Y);
            BinaryPrimitives.WriteSingleLittleEndian(place[8..], (float)corner.Z);
        }

        _mesh = StlReader.Read(_file, MeshUnit.Millimeters);
    }

    [Benchmark]
    public TriangleMesh Read() => StlReader.Read(_file, MeshUnit.Millimeters);

    /// <summary>Volume, surface, centre, holes, faces turned, and whether it passes through itself.</summary>
    [Benchmark]
    public MeshMeasurement Measure() => MeshMeasure.Of(_mesh);

    /// <summary>Of that, whether it passes through itself.</summary>
    [Benchmark]
    public MeshCrossing Cross() => MeshCrossings.Find(_mesh);

    [Benchmark]
    public MeshMeasurement ReadAndMeasure() => MeshMeasure.Of(StlReader.Read(_file, MeshUnit.Millimeters));
}
