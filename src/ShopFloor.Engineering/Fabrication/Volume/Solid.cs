using System.Text.Json.Serialization;
using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Geometry;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Fabrication.Volume;

/// <summary>A simple body, by the lengths a tape measure gives. Lengths are 0.0001 to 10 m.</summary>
[JsonPolymorphic(TypeDiscriminatorPropertyName = "kind")]
[JsonDerivedType(typeof(BoxSolid), "box")]
[JsonDerivedType(typeof(WedgeSolid), "wedge")]
[JsonDerivedType(typeof(CylinderSolid), "cylinder")]
[JsonDerivedType(typeof(RoundFrustum), "roundFrustum")]
[JsonDerivedType(typeof(RectangularFrustum), "rectangularFrustum")]
[JsonDerivedType(typeof(PrismSolid), "prism")]
[JsonDerivedType(typeof(KnownSolid), "known")]
public abstract record Solid
{
    /// <summary>Shortest and longest length, m.</summary>
    internal const double Least = 0.0001, Most = 10;

    /// <summary>Volume, m³.</summary>
    [JsonIgnore]
    public abstract double CubicMeters { get; }

    /// <summary>The formula in symbols.</summary>
    [JsonIgnore]
    public abstract string Formula { get; }

    internal abstract void Check(InputChecks checks, string at, string name);

    private protected static void Length(InputChecks checks, string field, string label, double meters, double least = Least) =>
        checks.InRange(field, label, meters, least, Most, QuantityKind.SmallLength);
}

/// <summary>A box: V = w·h·d.</summary>
/// <param name="WidthMeters">Width, m.</param>
/// <param name="HeightMeters">Height, m.</param>
/// <param name="DepthMeters">Depth, m.</param>
public sealed record BoxSolid(double WidthMeters, double HeightMeters, double DepthMeters) : Solid
{
    /// <inheritdoc/>
    [JsonIgnore]
    public override double CubicMeters => WidthMeters * HeightMeters * DepthMeters;

    /// <inheritdoc/>
    [JsonIgnore]
    public override string Formula => "V = width · height · depth";

    internal override void Check(InputChecks checks, string at, string name)
    {
        Length(checks, at + nameof(WidthMeters), $"{name}, width", WidthMeters);
        Length(checks, at + nameof(HeightMeters), $"{name}, height", HeightMeters);
        Length(checks, at + nameof(DepthMeters), $"{name}, depth", DepthMeters);
    }
}

/// <summary>A box with two depths, as behind a slanted seat back: V = w·h·(d₁ + d₂)/2 (trapezium).</summary>
/// <param name="WidthMeters">Width, m.</param>
/// <param name="HeightMeters">Height, upright, m.</param>
/// <param name="TopDepthMeters">Depth at the top, m; may be 0.</param>
/// <param name="BottomDepthMeters">Depth at the bottom, m; may be 0 where the top is not.</param>
public sealed record WedgeSolid(double WidthMeters, double HeightMeters, double TopDepthMeters, double BottomDepthMeters) : Solid
{
    /// <inheritdoc/>
    [JsonIgnore]
    public override double CubicMeters => WidthMeters * HeightMeters * (TopDepthMeters + BottomDepthMeters) / 2;

    /// <inheritdoc/>
    [JsonIgnore]
    public override string Formula => "V = width · height · (top depth + bottom depth) / 2";

    internal override void Check(InputChecks checks, string at, string name)
    {
        Length(checks, at + nameof(WidthMeters), $"{name}, width", WidthMeters);
        Length(checks, at + nameof(HeightMeters), $"{name}, height", HeightMeters);
        Length(checks, at + nameof(TopDepthMeters), $"{name}, depth at the top", TopDepthMeters, 0);
        Length(checks, at + nameof(BottomDepthMeters), $"{name}, depth at the bottom", BottomDepthMeters, TopDepthMeters > 0 ? 0 : Least);
    }
}

/// <summary>A cylinder: V = π·d²·l/4.</summary>
/// <param name="DiameterMeters">Diameter, m.</param>
/// <param name="LengthMeters">Length, m.</param>
public sealed record CylinderSolid(double DiameterMeters, double LengthMeters) : Solid
{
    /// <inheritdoc/>
    [JsonIgnore]
    public override double CubicMeters => Math.PI * DiameterMeters * DiameterMeters * LengthMeters / 4;

    /// <inheritdoc/>
    [JsonIgnore]
    public override string Formula => "V = π · diameter² · length / 4";

    internal override void Check(InputChecks checks, string at, string name)
    {
        Length(checks, at + nameof(DiameterMeters), $"{name}, diameter", DiameterMeters);
        Length(checks, at + nameof(LengthMeters), $"{name}, length", LengthMeters);
    }
}

/// <summary>A cone cut off square: V = π·h·(D² + D·d + d²)/12.</summary>
/// <param name="LargeMeters">Diameter of one end, m.</param>
/// <param name="SmallMeters">Diameter of the other, m; 0 for a whole cone.</param>
/// <param name="HeightMeters">Height along the axis, m.</param>
public sealed record RoundFrustum(double LargeMeters, double SmallMeters, double HeightMeters) : Solid
{
    /// <inheritdoc/>
    [JsonIgnore]
    public override double CubicMeters => Math.PI * HeightMeters * (LargeMeters * LargeMeters + LargeMeters * SmallMeters + SmallMeters * SmallMeters) / 12;

    /// <inheritdoc/>
    [JsonIgnore]
    public override string Formula => "V = π · height · (D² + D · d + d²) / 12";

    internal override void Check(InputChecks checks, string at, string name)
    {
        Length(checks, at + nameof(LargeMeters), $"{name}, diameter of one end", LargeMeters);
        Length(checks, at + nameof(SmallMeters), $"{name}, diameter of the other end", SmallMeters, 0);
        Length(checks, at + nameof(HeightMeters), $"{name}, height", HeightMeters);
    }
}

/// <summary>A body between two rectangles with flat sides: V = h·(A₁ + 4·Aₘ + A₂)/6 with the area half way up (prismoidal formula).</summary>
/// <param name="BottomWidthMeters">Width below, m.</param>
/// <param name="BottomDepthMeters">Depth below, m.</param>
/// <param name="TopWidthMeters">Width above, m; may be 0.</param>
/// <param name="TopDepthMeters">Depth above, m; may be 0.</param>
/// <param name="HeightMeters">Height, upright, m.</param>
public sealed record RectangularFrustum(double BottomWidthMeters, double BottomDepthMeters, double TopWidthMeters, double TopDepthMeters, double HeightMeters) : Solid
{
    /// <inheritdoc/>
    [JsonIgnore]
    public override double CubicMeters => HeightMeters / 6
        * (BottomWidthMeters * BottomDepthMeters + (BottomWidthMeters + TopWidthMeters) * (BottomDepthMeters + TopDepthMeters) + TopWidthMeters * TopDepthMeters);

    /// <inheritdoc/>
    [JsonIgnore]
    public override string Formula => "V = height · (A bottom + 4 · A half way + A top) / 6";

    internal override void Check(InputChecks checks, string at, string name)
    {
        Length(checks, at + nameof(BottomWidthMeters), $"{name}, width below", BottomWidthMeters);
        Length(checks, at + nameof(BottomDepthMeters), $"{name}, depth below", BottomDepthMeters);
        Length(checks, at + nameof(TopWidthMeters), $"{name}, width above", TopWidthMeters, 0);
        Length(checks, at + nameof(TopDepthMeters), $"{name}, depth above", TopDepthMeters, 0);
        Length(checks, at + nameof(HeightMeters), $"{name}, height", HeightMeters);
    }
}

/// <summary>The same outline all along: V = A·l with the area of the outline by the shoelace formula.</summary>
/// <param name="Outline">Corners in order, m, either way round; 3 to 500, no sides crossing.</param>
/// <param name="LengthMeters">Length, m.</param>
public sealed record PrismSolid(IReadOnlyList<Point2> Outline, double LengthMeters) : Solid
{
    /// <inheritdoc/>
    [JsonIgnore]
    public override double CubicMeters => Math.Abs(Polygon.SignedSquareMeters(Outline)) * LengthMeters;

    /// <inheritdoc/>
    [JsonIgnore]
    public override string Formula => "V = |Σ (xᵢ · yᵢ₊₁ − xᵢ₊₁ · yᵢ)| / 2 · length";

    internal override void Check(InputChecks checks, string at, string name)
    {
        OutlineChecks.Check(checks, at + nameof(Outline), $"{name}, outline", Outline);
        Length(checks, at + nameof(LengthMeters), $"{name}, length", LengthMeters);
    }
}

/// <summary>A volume known from a data sheet or a measurement.</summary>
/// <param name="KnownCubicMeters">Volume, m³ (1e-7 to 100).</param>
public sealed record KnownSolid(double KnownCubicMeters) : Solid
{
    /// <inheritdoc/>
    [JsonIgnore]
    public override double CubicMeters => KnownCubicMeters;

    /// <inheritdoc/>
    [JsonIgnore]
    public override string Formula => "V as given";

    internal override void Check(InputChecks checks, string at, string name) => checks.InRange(at + nameof(KnownCubicMeters), $"{name}, volume in m³", KnownCubicMeters, 1e-7, 100);
}
