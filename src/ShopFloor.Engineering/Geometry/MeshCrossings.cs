namespace ShopFloor.Engineering.Geometry;

/// <summary>Where a surface passes through itself.</summary>
/// <param name="Pairs">Pairs of triangles that cross; the search ends at <see cref="MeshCrossings.MostPairs"/>.</param>
/// <param name="At">Middle of the first pair found, m; null for none.</param>
/// <param name="Whole">Whether the search came to its end.</param>
public sealed record MeshCrossing(int Pairs, Point3? At, bool Whole);

/// <summary>Searches triangles of a mesh that cross, by a tree of boxes around them.</summary>
/// <remarks>
/// Two triangles that are not in one plane meet in a line whose ends are sides of one piercing the other, so six tests of a side and a triangle find every
/// crossing. Neighbours with a common side are left out; of those with one common corner only the opposite side can pierce. Faces that touch or lie on
/// each other do not cross; nor does what reaches through by less than a millionth of the size, which is rounding of the file.
/// </remarks>
public static class MeshCrossings
{
    /// <summary>Pairs at which the search ends: what is wrong is known by then.</summary>
    public const int MostPairs = 10_000;

    /// <summary>Steps of the search before it gives up, some seconds of work: boxes compared, and eight for a pair of triangles.</summary>
    public const long MostSteps = 1_000_000_000;

    private const double Tolerance = 1e-6;

    /// <summary>Searches a mesh.</summary>
    /// <param name="mesh">The mesh.</param>
    /// <param name="mostSteps">Steps before it gives up, above 0.</param>
    /// <param name="cancellation">Ends the search.</param>
    /// <exception cref="OperationCanceledException">It was ended.</exception>
    public static MeshCrossing Find(TriangleMesh mesh, long mostSteps = MostSteps, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(mesh);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(mostSteps);
        var tree = new TriangleTree(mesh, cancellation);
        var test = new TrianglePair(mesh, Tolerance * tree.Size);
        var (pairs, steps) = (0, 0L);
        Point3? first = null;
        var open = new Stack<(int A, int B)>();
        open.Push((0, 0));
        while (open.TryPop(out var next))
        {
            if ((++steps & 0xFFFF) == 0)
                cancellation.ThrowIfCancellationRequested();
            if (steps > mostSteps || pairs >= MostPairs)
                return new MeshCrossing(pairs, first, false);
            var (a, b) = next;
            if (a != b && !tree.Meet(a, b))
                continue;
            if (tree.IsLeaf(a) && tree.IsLeaf(b))
            {
                var mine = tree.Of(a);
                var others = tree.Of(b);
                for (var n = 0; n < mine.Length; n++)
                {
                    for (var m = a == b ? n + 1 : 0; m < others.Length; m++)
                    {
                        steps += 8;
                        if (!test.Cross(mine[n], others[m]))
                            continue;
                        pairs++;
                        first ??= (test.Middle(mine[n]) + test.Middle(others[m])) * 0.5;
                    }
                }

                continue;
            }

            if (a == b)
            {
                var (left, right) = tree.Halves(a);
                open.Push((left, right));
                open.Push((right, right));
                open.Push((left, left));
            }
            else
            {
                // The larger one is opened; a leaf cannot be.
                var opened = tree.IsLeaf(b) || (!tree.IsLeaf(a) && tree.Count(a) >= tree.Count(b)) ? a : b;
                var other = opened == a ? b : a;
                var (left, right) = tree.Halves(opened);
                open.Push((left, other));
                open.Push((right, other));
            }
        }

        return new MeshCrossing(pairs, first, true);
    }
}
