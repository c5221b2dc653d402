using System.Text.Json.Serialization;
using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Geometry;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Fabrication.Nesting;

/// <summary>How the grain lies on a finished part.</summary>
public enum PartGrain
{
    /// <summary>It does not matter.</summary>
    Any,

    /// <summary>Along the length of the part.</summary>
    Along,

    /// <summary>Across the length of the part.</summary>
    Across,
}

/// <summary>The real outline of a part that is no rectangle; it is nested by the rectangle around it.</summary>
[JsonPolymorphic(TypeDiscriminatorPropertyName = "kind")]
[JsonDerivedType(typeof(DiscOutline), "disc")]
[JsonDerivedType(typeof(RingOutline), "ring")]
[JsonDerivedType(typeof(PolygonOutline), "polygon")]
public abstract record PartOutline
{
    internal abstract (double Length, double Width) Around { get; }

    internal abstract double SquareMeters { get; }

    internal abstract void Check(InputChecks checks, string at, string name);
}

/// <summary>A disc.</summary>
/// <param name="DiameterMeters">Diameter, m (0.001 to 10).</param>
public sealed record DiscOutline(double DiameterMeters) : PartOutline
{
    internal override (double Length, double Width) Around => (DiameterMeters, DiameterMeters);

    internal override double SquareMeters => Math.PI * DiameterMeters * DiameterMeters / 4;

    internal override void Check(InputChecks checks, string at, string name) =>
        checks.InRange(at + nameof(DiameterMeters), $"{name}, diameter", DiameterMeters, 0.001, 10, QuantityKind.SmallLength);
}

/// <summary>A ring.</summary>
/// <param name="OuterMeters">Outer diameter, m (0.001 to 10).</param>
/// <param name="InnerMeters">Inner diameter, m, below the outer.</param>
public sealed record RingOutline(double OuterMeters, double InnerMeters) : PartOutline
{
    internal override (double Length, double Width) Around => (OuterMeters, OuterMeters);

    internal override double SquareMeters => Math.PI * (OuterMeters * OuterMeters - InnerMeters * InnerMeters) / 4;

    internal override void Check(InputChecks checks, string at, string name)
    {
        checks.InRange(at + nameof(OuterMeters), $"{name}, outer diameter", OuterMeters, 0.001, 10, QuantityKind.SmallLength);
        checks.InRange(at + nameof(InnerMeters), $"{name}, inner diameter", InnerMeters, 0, 0.999 * OuterMeters, QuantityKind.SmallLength);
    }
}

/// <summary>A shape with straight sides.</summary>
/// <param name="Corners">Corners in order, m; 3 to 500, no sides crossing. x is the part's length.</param>
public sealed record PolygonOutline(IReadOnlyList<Point2> Corners) : PartOutline
{
    internal override (double Length, double Width) Around =>
        (Corners.Max(corner => corner.X) - Corners.Min(corner => corner.X), Corners.Max(corner => corner.Y) - Corners.Min(corner => corner.Y));

    internal override double SquareMeters => Math.Abs(Polygon.SignedSquareMeters(Corners));

    internal override void Check(InputChecks checks, string at, string name) => OutlineChecks.Check(checks, at + nameof(Corners), $"{name}, outline", Corners);
}

/// <summary>A line of the cut list.</summary>
public sealed record CutPart
{
    /// <summary>Identifier.</summary>
    public required string Id { get; init; }

    /// <summary>Name written on the part.</summary>
    public required string Name { get; init; }

    /// <summary>Length, m (0.001 to 10); null where <see cref="Outline"/> says it.</summary>
    public double? LengthMeters { get; init; }

    /// <summary>Width, m (0.001 to 10); null where <see cref="Outline"/> says it.</summary>
    public double? WidthMeters { get; init; }

    /// <summary>The real shape; null for a rectangle.</summary>
    public PartOutline? Outline { get; init; }

    /// <summary>How many, 1 to 500; all lines together 500 too.</summary>
    public int Quantity { get; init; } = 1;

    /// <summary>How the grain has to lie.</summary>
    public PartGrain Grain { get; init; }

    /// <summary>Whether it may lie turned by a quarter where the grain leaves it free.</summary>
    public bool MayTurn { get; init; } = true;

    /// <summary>Material, as on the stock.</summary>
    public required string MaterialId { get; init; }

    /// <summary>Thickness, m (0.0001 to 0.2), as on the stock.</summary>
    public required double ThicknessMeters { get; init; }

    internal (double Length, double Width) Size => Outline?.Around ?? (LengthMeters ?? 0, WidthMeters ?? 0);

    /// <summary>Area of one by its real shape, m².</summary>
    public double SquareMeters => Outline?.SquareMeters ?? Size.Length * Size.Width;

    internal void Check(InputChecks checks, string at)
    {
        checks.Named(at + nameof(Id), "Part, identifier", Id);
        checks.Named(at + nameof(Name), "Part, name", Name);
        checks.Known(at + nameof(Grain), $"{Name}, grain", Grain);
        checks.InRange(at + nameof(Quantity), $"{Name}, quantity", Quantity, 1, NestingInput.MostParts);
        checks.Named(at + nameof(MaterialId), $"{Name}, material", MaterialId);
        checks.InRange(at + nameof(ThicknessMeters), $"{Name}, thickness", ThicknessMeters, 0.0001, 0.2, QuantityKind.SmallLength);
        if (Outline is { } outline)
        {
            outline.Check(checks, $"{at}{nameof(Outline)}.", Name);
            if (LengthMeters is not null || WidthMeters is not null)
                checks.Add(at + nameof(LengthMeters), $"{Name}, length and width: they follow from the outline; leave them out.");
            return;
        }

        if (LengthMeters is null)
            checks.Add(at + nameof(LengthMeters), $"{Name}, length: nothing was entered; enter a length or an outline.");
        if (WidthMeters is null)
            checks.Add(at + nameof(WidthMeters), $"{Name}, width: nothing was entered; enter a width or an outline.");
        checks.InRange(at + nameof(LengthMeters), $"{Name}, length", LengthMeters, 0.001, 10, QuantityKind.SmallLength);
        checks.InRange(at + nameof(WidthMeters), $"{Name}, width", WidthMeters, 0.001, 10, QuantityKind.SmallLength);
    }
}
