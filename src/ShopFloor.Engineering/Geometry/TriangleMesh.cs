namespace ShopFloor.Engineering.Geometry;

/// <summary>A surface of triangles with shared corners.</summary>
/// <param name="Vertices">Corners, m.</param>
/// <param name="Triangles">Three corner numbers a triangle, one triangle after another.</param>
public sealed record TriangleMesh(IReadOnlyList<Point3> Vertices, int[] Triangles)
{
    /// <summary>How many triangles.</summary>
    public int Count => Triangles.Length / 3;
}

/// <summary>Unit of the numbers in a mesh file, which does not say it itself.</summary>
public enum MeshUnit
{
    /// <summary>Millimetres.</summary>
    Millimeters,

    /// <summary>Centimetres.</summary>
    Centimeters,

    /// <summary>Metres.</summary>
    Meters,

    /// <summary>Inches.</summary>
    Inches,
}

/// <summary>A mesh file that cannot be read, in words for the person who chose it.</summary>
/// <param name="message">What is wrong, with line or offset.</param>
public sealed class MeshFormatException(string message) : FormatException(message);
