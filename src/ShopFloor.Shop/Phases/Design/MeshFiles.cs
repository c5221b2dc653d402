using System.Buffers.Binary;
using ShopFloor.Engineering.Geometry;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Staff;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>Surfaces brought to a job, measured and made ready to be drawn.</summary>
public sealed class MeshFiles(JobFiles files)
{
    /// <summary>Most triangles that are sent to a screen; of larger surfaces the largest triangles.</summary>
    public const int MostDrawn = 200_000;

    /// <returns>What it encloses, or what is wrong with the file in words.</returns>
    public async Task<(MeshMeasurement? Mesh, string? Problem)> MeasureAsync(Actor actor, Guid fileId, MeshUnit unit, UnitText text, CancellationToken cancellationToken)
    {
        if (await files.OpenAsync(actor, fileId, cancellationToken) is not { Kind: JobFileKind.Mesh } file)
        {
            return (null, "The file is no longer there; choose another.");
        }

        try
        {
            // Long for a large scan, so not on the screen's own thread.
            return (await Task.Run(() => MeshMeasure.Of(StlReader.Read(file.Content, unit), text, cancellationToken), cancellationToken), null);
        }
        catch (MeshFormatException refused)
        {
            return (null, $"'{file.FileName}' cannot be read: {refused.Message}");
        }
    }

    /// <returns>Nine little-endian 32-bit numbers a triangle, m; null when there is no such surface.</returns>
    public async Task<byte[]?> TrianglesAsync(Actor actor, Guid fileId, MeshUnit unit, CancellationToken cancellationToken)
    {
        if (await files.OpenAsync(actor, fileId, cancellationToken) is not { Kind: JobFileKind.Mesh } file)
        {
            return null;
        }

        try
        {
            return await Task.Run(() => Pack(StlReader.Read(file.Content, unit)), cancellationToken);
        }
        catch (MeshFormatException)
        {
            return null;
        }
    }

    private static byte[] Pack(TriangleMesh mesh)
    {
        IEnumerable<int> chosen = Enumerable.Range(0, mesh.Count);
        if (mesh.Count > MostDrawn)
        {
            // The small ones are the least seen; their holes are.
            chosen = chosen.OrderByDescending(n => Size(mesh, n)).Take(MostDrawn);
        }

        var bytes = new byte[Math.Min(mesh.Count, MostDrawn) * 36];
        var at = 0;
        foreach (var triangle in chosen)
        {
            for (var corner = 0; corner < 3; corner++)
            {
                var point = mesh.Vertices[mesh.Triangles[3 * triangle + corner]];
                foreach (var value in (ReadOnlySpan<double>)[point.X, point.Y, point.Z])
                {
                    BinaryPrimitives.WriteSingleLittleEndian(bytes.AsSpan(at), (float)value);
                    at += 4;
                }
            }
        }

        return bytes;
    }

    private static double Size(TriangleMesh mesh, int n)
    {
        var (a, b, c) = (mesh.Vertices[mesh.Triangles[3 * n]], mesh.Vertices[mesh.Triangles[3 * n + 1]], mesh.Vertices[mesh.Triangles[3 * n + 2]]);
        var (ux, uy, uz, vx, vy, vz) = (b.X - a.X, b.Y - a.Y, b.Z - a.Z, c.X - a.X, c.Y - a.Y, c.Z - a.Z);
        var (x, y, z) = (uy * vz - uz * vy, uz * vx - ux * vz, ux * vy - uy * vx);
        return x * x + y * y + z * z;
    }
}
