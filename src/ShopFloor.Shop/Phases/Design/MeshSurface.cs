using ShopFloor.Engineering.Geometry;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>What was measured of a surface from a file; kept beside it, because reading a large scan takes seconds and the file never changes.</summary>
/// <param name="X">Size of the box around it along x, m; likewise y and z.</param>
/// <param name="CubicMeters">What it encloses, m³; null when it is not closed.</param>
/// <param name="SquareMeters">Its area, m².</param>
/// <param name="FoldMeters">See <see cref="MeshMeasurement.FoldMeters"/>.</param>
public sealed record MeshSurface(double X, double Y, double Z, double? CubicMeters, double SquareMeters, double? FoldMeters)
{
    public static MeshSurface Of(MeshMeasurement mesh)
    {
        ArgumentNullException.ThrowIfNull(mesh);
        var size = mesh.Highest - mesh.Lowest;
        return new MeshSurface(size.X, size.Y, size.Z, mesh.VolumeCubicMeters, mesh.AreaSquareMeters, mesh.FoldMeters);
    }

    /// <summary>Sides of the box around it less its walls, m; null when the walls leave nothing.</summary>
    public (double X, double Y, double Z)? Inside(double wallMeters) =>
        Math.Min(X, Math.Min(Y, Z)) - 2 * wallMeters > 0 ? (X - 2 * wallMeters, Y - 2 * wallMeters, Z - 2 * wallMeters) : null;

    /// <summary>What is inside its walls, m³; null when it is not closed or nothing is left. See <see cref="MeshMeasurement.InsideCubicMeters"/>.</summary>
    public double? InsideCubicMeters(double wallMeters) =>
        Inside(wallMeters) is not null && CubicMeters - SquareMeters * wallMeters + FoldMeters * wallMeters * wallMeters is > 0 and { } left ? left : null;
}
