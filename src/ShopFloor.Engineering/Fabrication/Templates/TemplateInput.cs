using System.Text.Json.Serialization;
using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Fabrication.Templates;

/// <summary>Outside of a ring or adapter, about its middle.</summary>
[JsonPolymorphic(TypeDiscriminatorPropertyName = "kind")]
[JsonDerivedType(typeof(RoundOutside), "round")]
[JsonDerivedType(typeof(RectangularOutside), "rectangular")]
public abstract record TemplateOutside
{
    internal abstract double SquareMeters { get; }

    internal abstract (double Length, double Width) Around { get; }

    /// <summary>Distance of a place inside from the nearest edge, m; negative outside.</summary>
    internal abstract double EdgeMeters(double x, double y);

    internal abstract void Check(InputChecks checks, string at);
}

/// <summary>Round.</summary>
/// <param name="DiameterMeters">Diameter, m (0.01 to 1.5).</param>
public sealed record RoundOutside(double DiameterMeters) : TemplateOutside
{
    internal override double SquareMeters => Math.PI * DiameterMeters * DiameterMeters / 4;

    internal override (double Length, double Width) Around => (DiameterMeters, DiameterMeters);

    internal override double EdgeMeters(double x, double y) => DiameterMeters / 2 - Math.Sqrt(x * x + y * y);

    internal override void Check(InputChecks checks, string at) => checks.InRange(at + nameof(DiameterMeters), "Outside diameter", DiameterMeters, 0.01, 1.5, QuantityKind.SmallLength);
}

/// <summary>Rectangular with rounded corners.</summary>
/// <param name="LengthMeters">Length along x, m (0.01 to 1.5).</param>
/// <param name="WidthMeters">Width along y, m (0.01 to 1.5).</param>
/// <param name="CornerMeters">Radius of the corners, m, at most half of the shorter side.</param>
public sealed record RectangularOutside(double LengthMeters, double WidthMeters, double CornerMeters) : TemplateOutside
{
    internal override double SquareMeters => LengthMeters * WidthMeters - (4 - Math.PI) * CornerMeters * CornerMeters;

    internal override (double Length, double Width) Around => (LengthMeters, WidthMeters);

    // Distance to a rounded rectangle: to the rectangle of the corners' middles, less the radius.
    internal override double EdgeMeters(double x, double y)
    {
        var (overX, overY) = (Math.Abs(x) - (LengthMeters / 2 - CornerMeters), Math.Abs(y) - (WidthMeters / 2 - CornerMeters));
        return CornerMeters - (Math.Sqrt(Square(Math.Max(overX, 0)) + Square(Math.Max(overY, 0))) + Math.Min(Math.Max(overX, overY), 0));
    }

    internal override void Check(InputChecks checks, string at)
    {
        checks.InRange(at + nameof(LengthMeters), "Outside length", LengthMeters, 0.01, 1.5, QuantityKind.SmallLength);
        checks.InRange(at + nameof(WidthMeters), "Outside width", WidthMeters, 0.01, 1.5, QuantityKind.SmallLength);
        checks.InRange(at + nameof(CornerMeters), "Radius of the corners", CornerMeters, 0, Math.Min(LengthMeters, WidthMeters) / 2, QuantityKind.SmallLength);
    }

    private static double Square(double value) => value * value;
}

/// <summary>A step or a chamfer around the middle, marked on the template and cut into the face.</summary>
/// <param name="Name">What for, for example "Recess for the basket".</param>
/// <param name="DiameterMeters">Outer diameter, m, above that of the cut-out.</param>
/// <param name="DepthMeters">Depth, m, below the thickness.</param>
/// <param name="IsChamfer">Whether it slants down to the cut-out; else it is a flat step.</param>
public sealed record TemplateRing(string Name, double DiameterMeters, double DepthMeters, bool IsChamfer);

/// <summary>A ring or adapter for a loudspeaker: a cut-out, bolts around it and an outside. All about one middle.</summary>
public sealed record TemplateInput
{
    /// <summary>Name.</summary>
    public required string Name { get; init; }

    /// <summary>Diameter of the cut-out, m (0.005 to 1).</summary>
    public required double CutOutMeters { get; init; }

    /// <summary>Outside.</summary>
    public required TemplateOutside Outside { get; init; }

    /// <summary>Thickness of the board, m (0.0005 to 0.2).</summary>
    public required double ThicknessMeters { get; init; }

    /// <summary>Holes on the bolt circle, 0 to 48.</summary>
    public int Holes { get; init; }

    /// <summary>Diameter of the bolt circle, m; needed where there are holes.</summary>
    public double? BoltCircleMeters { get; init; }

    /// <summary>Diameter of a hole, m (0.0005 to 0.05); needed where there are holes.</summary>
    public double? HoleMeters { get; init; }

    /// <summary>Direction of the first hole from the middle, degrees anticlockwise from the right (−360 to 360).</summary>
    public double FirstHoleDegrees { get; init; }

    /// <summary>Steps and chamfers, at most 8.</summary>
    public IReadOnlyList<TemplateRing> Rings { get; init; } = [];

    /// <summary>Least board between a hole and any edge over the diameter of the hole (0.1 to 10). 1, common practice, no source; for brittle board more.</summary>
    public double EdgeRatio { get; init; } = 1;

    /// <summary>What is wrong; empty when it can be computed.</summary>
    /// <param name="text">How numbers are written; null is metric, invariant.</param>
    public IReadOnlyList<InputProblem> Validate(UnitText? text = null)
    {
        var checks = new InputChecks(text ?? UnitText.Invariant);
        checks.Named(nameof(Name), "Name", Name);
        checks.InRange(nameof(CutOutMeters), "Diameter of the cut-out", CutOutMeters, 0.005, 1, QuantityKind.SmallLength);
        checks.InRange(nameof(ThicknessMeters), "Thickness", ThicknessMeters, 0.0005, 0.2, QuantityKind.SmallLength);
        checks.InRange(nameof(Holes), "Holes", Holes, 0, 48);
        checks.InRange(nameof(BoltCircleMeters), "Diameter of the bolt circle", BoltCircleMeters, 0.005, 1.5, QuantityKind.SmallLength);
        checks.InRange(nameof(HoleMeters), "Diameter of a hole", HoleMeters, 0.0005, 0.05, QuantityKind.SmallLength);
        checks.InRange(nameof(FirstHoleDegrees), "Direction of the first hole in degrees", FirstHoleDegrees, -360, 360);
        checks.InRange(nameof(EdgeRatio), "Least board beside a hole over its diameter", EdgeRatio, 0.1, 10);
        if (Holes > 0 && BoltCircleMeters is null)
            checks.Add(nameof(BoltCircleMeters), "Diameter of the bolt circle: nothing was entered; enter it, or no holes.");
        if (Holes > 0 && HoleMeters is null)
            checks.Add(nameof(HoleMeters), "Diameter of a hole: nothing was entered; enter it, or no holes.");
        Outside.Check(checks, nameof(Outside) + ".");
        if (Rings.Count > 8)
            checks.Add(nameof(Rings), $"Steps and chamfers: {Rings.Count} are not accepted; enter at most 8.");
        for (var i = 0; i < Rings.Count; i++)
        {
            checks.Named($"{nameof(Rings)}[{i}].{nameof(TemplateRing.Name)}", $"Step {i + 1}, name", Rings[i].Name);
            checks.InRange($"{nameof(Rings)}[{i}].{nameof(TemplateRing.DiameterMeters)}", $"{Rings[i].Name}, diameter", Rings[i].DiameterMeters, CutOutMeters, 1.5, QuantityKind.SmallLength);
            checks.InRange($"{nameof(Rings)}[{i}].{nameof(TemplateRing.DepthMeters)}", $"{Rings[i].Name}, depth", Rings[i].DepthMeters, 0.0001, ThicknessMeters, QuantityKind.SmallLength);
        }

        if (checks.Problems.Count == 0 && Outside.EdgeMeters(0, 0) <= CutOutMeters / 2)
            checks.Add(nameof(CutOutMeters), $"Diameter of the cut-out: {(text ?? UnitText.Invariant).Of(CutOutMeters, QuantityKind.SmallLength, 5)} leaves nothing of the outside; enter a smaller cut-out or a larger outside.");
        return checks.Problems;
    }
}
