namespace ShopFloor.Engineering.Geometry;

/// <summary>A place or a direction in space, m.</summary>
/// <param name="X">Along x, m.</param>
/// <param name="Y">Along y, m.</param>
/// <param name="Z">Along z, m.</param>
public readonly record struct Point3(double X, double Y, double Z)
{
    /// <summary>Sum.</summary>
    public static Point3 operator +(Point3 a, Point3 b) => new(a.X + b.X, a.Y + b.Y, a.Z + b.Z);

    /// <summary>Difference.</summary>
    public static Point3 operator -(Point3 a, Point3 b) => new(a.X - b.X, a.Y - b.Y, a.Z - b.Z);

    /// <summary>Scaled.</summary>
    public static Point3 operator *(Point3 a, double factor) => new(a.X * factor, a.Y * factor, a.Z * factor);

    /// <summary>Scalar product.</summary>
    /// <param name="other">The other.</param>
    public double Dot(Point3 other) => X * other.X + Y * other.Y + Z * other.Z;

    /// <summary>Vector product.</summary>
    /// <param name="other">The other.</param>
    public Point3 Cross(Point3 other) => new(Y * other.Z - Z * other.Y, Z * other.X - X * other.Z, X * other.Y - Y * other.X);

    /// <summary>Length, m.</summary>
    public double Length => Math.Sqrt(Dot(this));
}
