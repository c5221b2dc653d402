namespace ShopFloor.Engineering.Geometry;

/// <summary>A place on a plane, m.</summary>
/// <param name="X">Along x, m.</param>
/// <param name="Y">Along y, m.</param>
public readonly record struct Point2(double X, double Y);
