using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Geometry;

/// <summary>What a mesh encloses, or why that cannot be said.</summary>
public sealed record MeshMeasurement
{
    /// <summary>Enclosed volume, m³; null when the surface is not closed.</summary>
    public required double? VolumeCubicMeters { get; init; }

    /// <summary>Area of the surface, m².</summary>
    public required double AreaSquareMeters { get; init; }

    /// <summary>Centre of the enclosed volume, m; null when the surface is not closed.</summary>
    public required Point3? Center { get; init; }

    /// <summary>Σ length · tan(half the angle the surface turns by) over all sides, m; hollow sides count against it. Null when the surface is not closed.</summary>
    public required double? FoldMeters { get; init; }

    /// <summary>Lowest corner of the box around it, m.</summary>
    public required Point3 Lowest { get; init; }

    /// <summary>Highest corner of the box around it, m.</summary>
    public required Point3 Highest { get; init; }

    /// <summary>Separate surfaces.</summary>
    public required int Shells { get; init; }

    /// <summary>Sides that belong to one triangle: rims of holes.</summary>
    public required int OpenEdges { get; init; }

    /// <summary>Sides that belong to more than two triangles.</summary>
    public required int CrowdedEdges { get; init; }

    /// <summary>Triangles that face the other way than their neighbours; turned over where the surface is closed.</summary>
    public required int Turned { get; init; }

    /// <summary>The mesh with all faces outwards; the mesh as it came where the surface is not closed.</summary>
    public required TriangleMesh Mesh { get; init; }

    /// <summary>Where it passes through itself; null when the surface is not closed, for then it was not searched.</summary>
    public required MeshCrossing? Crossing { get; init; }

    /// <summary>What was found.</summary>
    public required IReadOnlyList<Finding> Findings { get; init; }

    /// <summary>Volume inside a wall of one thickness whose outside the surface is, m³: V − A·t + t²·Σ l·tan(θ/2); null when it is not closed or nothing is left.</summary>
    /// <remarks>Every face moves inwards by the thickness. What corners take beyond the edges, of the order of t³, is left out: some 8·t³ for a box.</remarks>
    /// <param name="wallMeters">Thickness of the wall, m (0 or more).</param>
    /// <exception cref="ArgumentOutOfRangeException">The thickness is below 0.</exception>
    public double? InsideCubicMeters(double wallMeters)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(wallMeters);
        var span = Highest - Lowest;
        if (2 * wallMeters >= Math.Min(span.X, Math.Min(span.Y, span.Z)))
            return null;
        var inside = VolumeCubicMeters - AreaSquareMeters * wallMeters + FoldMeters * wallMeters * wallMeters;
        return inside > 0 ? inside : null;
    }
}

/// <summary>Volume, area and centre of a closed mesh by the divergence theorem: V = Σ v0·(v1 × v2)/6 over triangles.</summary>
/// <remarks>
/// A surface is closed when every side belongs to two triangles, once in each direction. Faces that look inwards among others are turned over
/// first, neighbour by neighbour; a shell that looks inwards as a whole is turned as a whole. A shell inside another counts as filled.
/// What is inside twice, where a surface passes through itself, counts twice; <see cref="MeshCrossings"/> says where.
/// </remarks>
public static class MeshMeasure
{
    private const string Source = "divergence theorem; every edge of a closed surface is shared by two faces";

    /// <summary>Measures a mesh.</summary>
    /// <param name="mesh">The mesh.</param>
    /// <param name="text">How numbers are written in texts; null is metric, invariant.</param>
    /// <param name="cancellation">Ends the work.</param>
    /// <exception cref="OperationCanceledException">It was ended.</exception>
    public static MeshMeasurement Of(TriangleMesh mesh, UnitText? text = null, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(mesh);
        var triangles = (int[])mesh.Triangles.Clone();
        var edges = Edges(triangles);
        var (open, crowded) = (0, 0);
        foreach (var shared in edges.Values)
        {
            if (shared.Count == 1)
                open++;
            else if (shared.Count > 2)
                crowded++;
        }

        var (shellOf, shells, turned) = Orient(triangles, edges);
        var closed = open == 0 && crowded == 0;
        var (volume, area, moment, inverted) = Sum(mesh.Vertices, triangles, shellOf, shells);
        if (closed)
        {
            for (var n = 0; n < shellOf.Length; n++)
            {
                if (inverted[shellOf[n]])
                    Turn(triangles, n);
            }
        }

        var (low, high) = Bounds(mesh);
        // A surface with holes encloses nothing anyhow.
        var crossing = closed ? MeshCrossings.Find(mesh, cancellation: cancellation) : null;
        return new MeshMeasurement
        {
            VolumeCubicMeters = closed ? volume : null,
            AreaSquareMeters = area,
            FoldMeters = closed ? MeshFolds.Sum(mesh.Vertices, triangles, edges) : null,
            Center = closed && volume > 0 ? moment * (1 / volume) : null,
            Lowest = low,
            Highest = high,
            Shells = shells,
            OpenEdges = open,
            CrowdedEdges = crowded,
            Turned = turned,
            Mesh = closed ? new TriangleMesh(mesh.Vertices, triangles) : mesh,
            Crossing = crossing,
            Findings = [.. Find(open, crowded, turned, inverted.Count(one => one), shells, closed), .. Crossed(crossing, low, text ?? UnitText.Invariant)],
        };
    }

    // Sides by their two corners, with the triangles that have them.
    internal static Dictionary<(int, int), EdgeUse> Edges(int[] triangles)
    {
        var edges = new Dictionary<(int, int), EdgeUse>(triangles.Length / 2);
        for (var at = 0; at < triangles.Length; at++)
        {
            var (from, to) = (triangles[at], triangles[at % 3 == 2 ? at - 2 : at + 1]);
            var key = from < to ? (from, to) : (to, from);
            edges[key] = edges.TryGetValue(key, out var use) ? use.With(at / 3) : new EdgeUse(1, at / 3, -1);
        }

        return edges;
    }

    private static (int[] ShellOf, int Shells, int Turned) Orient(int[] triangles, Dictionary<(int, int), EdgeUse> edges)
    {
        var shellOf = new int[triangles.Length / 3];
        Array.Fill(shellOf, -1);
        var (shells, turned) = (0, 0);
        var open = new Stack<int>();
        for (var start = 0; start < shellOf.Length; start++)
        {
            if (shellOf[start] >= 0)
                continue;
            shellOf[start] = shells;
            open.Push(start);
            var members = new List<int>();
            var inShell = 0;
            while (open.TryPop(out var at))
            {
                members.Add(at);
                for (var side = 0; side < 3; side++)
                {
                    var (from, to) = (triangles[3 * at + side], triangles[3 * at + (side + 1) % 3]);
                    var use = edges[from < to ? (from, to) : (to, from)];
                    // Only where just two meet is it clear what a neighbour is.
                    if (use.Count != 2 || use.Other(at) is not { } other || shellOf[other] >= 0)
                        continue;
                    shellOf[other] = shells;
                    if (Runs(triangles, other, from, to))
                    {
                        Turn(triangles, other);
                        inShell++;
                    }

                    open.Push(other);
                }
            }

            // Which of the two ways was the start's is chance: the fewer count as turned.
            turned += Math.Min(inShell, members.Count - inShell);
            shells++;
        }

        return (shellOf, shells, turned);
    }

    private static bool Runs(int[] triangles, int triangle, int from, int to)
    {
        for (var side = 0; side < 3; side++)
        {
            if (triangles[3 * triangle + side] == from && triangles[3 * triangle + (side + 1) % 3] == to)
                return true;
        }

        return false;
    }

    private static void Turn(int[] triangles, int triangle) =>
        (triangles[3 * triangle + 1], triangles[3 * triangle + 2]) = (triangles[3 * triangle + 2], triangles[3 * triangle + 1]);

    private static (double Volume, double Area, Point3 Moment, bool[] Inverted) Sum(IReadOnlyList<Point3> vertices, int[] triangles, int[] shellOf, int shells)
    {
        // From a corner of its own, so that a mesh far from the origin loses no digits.
        var origin = vertices[triangles[0]];
        var (volumes, moments, area) = (new double[shells], new Point3[shells], 0.0);
        for (var n = 0; n < shellOf.Length; n++)
        {
            var (a, b, c) = (vertices[triangles[3 * n]] - origin, vertices[triangles[3 * n + 1]] - origin, vertices[triangles[3 * n + 2]] - origin);
            var part = a.Dot(b.Cross(c)) / 6;
            volumes[shellOf[n]] += part;
            moments[shellOf[n]] += (a + b + c) * (part / 4);
            area += (b - a).Cross(c - a).Length / 2;
        }

        var inverted = volumes.Select(volume => volume < 0).ToArray();
        var (all, moment) = (0.0, default(Point3));
        for (var shell = 0; shell < shells; shell++)
        {
            var sign = inverted[shell] ? -1 : 1;
            all += sign * volumes[shell];
            moment += moments[shell] * sign;
        }

        return (all, area, moment + origin * all, inverted);
    }

    private static (Point3 Low, Point3 High) Bounds(TriangleMesh mesh)
    {
        double lowX = double.MaxValue, lowY = double.MaxValue, lowZ = double.MaxValue, highX = double.MinValue, highY = double.MinValue, highZ = double.MinValue;
        foreach (var number in mesh.Triangles)
        {
            var (x, y, z) = mesh.Vertices[number];
            (lowX, lowY, lowZ) = (Math.Min(lowX, x), Math.Min(lowY, y), Math.Min(lowZ, z));
            (highX, highY, highZ) = (Math.Max(highX, x), Math.Max(highY, y), Math.Max(highZ, z));
        }

        return (new Point3(lowX, lowY, lowZ), new Point3(highX, highY, highZ));
    }

    private static IEnumerable<Finding> Find(int open, int crowded, int turned, int inverted, int shells, bool closed)
    {
        if (open > 0)
            yield return new Finding("mesh-open", Severity.Stop, "mesh", "Mesh", $"The surface has holes: {open} sides belong to one triangle only, so it encloses nothing.", "Close the holes in the scanning program, or measure the volume by filling.", Source);
        if (crowded > 0)
            yield return new Finding("mesh-crowded", Severity.Stop, "mesh", "Mesh", $"{crowded} sides belong to more than two triangles: surfaces touch or overlap there.", "Join or separate the surfaces in the scanning program.", Source);
        if (turned > 0)
            yield return new Finding("mesh-turned", Severity.Note, "mesh", "Mesh", $"{turned} triangles looked the wrong way{(closed ? " and were turned over" : "")}.", closed ? "Nothing has to be done; look at the shape once." : "Close the surface; then they are turned over here.", Source);
        if (closed && inverted > 0)
            yield return new Finding("mesh-inverted", Severity.Note, "mesh", "Mesh", $"{inverted} of {shells} surfaces looked inwards and were turned over as a whole.", "Nothing has to be done; look at the shape once.", Source);
        if (closed && shells > 1)
            yield return new Finding("mesh-shells", Severity.Warn, "mesh", "Mesh", $"The file holds {shells} separate surfaces; their volumes are added, also where one lies inside another.", "Take out what is not the enclosure, or subtract it by hand.", Source);
    }


    private static IEnumerable<Finding> Crossed(MeshCrossing? crossing, Point3 low, UnitText text)
    {
        if (crossing is { Pairs: > 0, At: { } at })
        {
            var place = at - low;
            yield return new Finding(
                "mesh-crosses", Severity.Warn, "mesh", "Mesh",
                $"The surface passes through itself: {text.Number(crossing.Pairs)}{(crossing.Whole ? "" : " or more")} pairs of triangles cross, one near {text.Millimeters(place.X)}, {text.Millimeters(place.Y)}, {text.Millimeters(place.Z)} from its lowest corner. What lies inside twice is counted twice.",
                "Unite the bodies in the drawing program, mend the scan there, or measure the volume by filling.", Source);
        }
        else if (crossing is { Whole: false })
        {
            yield return new Finding("mesh-crossing-unchecked", Severity.Note, "mesh", "Mesh", "The mesh is too large to be searched to the end for places where it passes through itself; none was found so far.", "Make it coarser in the scanning program to have it searched.", Source);
        }
    }
}

/// <summary>Triangles that have a side: how many, and the first two.</summary>
internal readonly record struct EdgeUse(int Count, int First, int Second)
{
    public EdgeUse With(int triangle) => Count == 1 ? new EdgeUse(2, First, triangle) : this with { Count = Count + 1 };

    public int? Other(int triangle) => First == triangle ? Second : Second == triangle ? First : null;
}
