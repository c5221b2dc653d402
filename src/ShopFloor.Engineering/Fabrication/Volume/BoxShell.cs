using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Geometry;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Fabrication.Volume;

/// <summary>A box of boards by its outside: upright front, level top and bottom, back upright or slanted. Lengths in m.</summary>
/// <remarks>x is the width from the left, y the depth from the front, z the height from the bottom.</remarks>
public sealed record BoxShell
{
    /// <summary>Outside width, m (0.02 to 10).</summary>
    public required double WidthMeters { get; init; }

    /// <summary>Outside height, m (0.02 to 10).</summary>
    public required double HeightMeters { get; init; }

    /// <summary>Outside depth at the bottom, m (0.02 to 10).</summary>
    public required double BottomDepthMeters { get; init; }

    /// <summary>Outside depth at the top, m (0.02 to 10); null for the same as at the bottom.</summary>
    public double? TopDepthMeters { get; init; }

    /// <summary>Thickness of the boards, m (0.0005 to 0.2).</summary>
    public required double WallMeters { get; init; }

    /// <summary>Layers of the front (baffle), 1 to 4.</summary>
    public int FrontLayers { get; init; } = 1;

    /// <summary>Layers of the back, 1 to 4.</summary>
    public int BackLayers { get; init; } = 1;

    /// <summary>Layers of the bottom, 1 to 4.</summary>
    public int BottomLayers { get; init; } = 1;

    /// <summary>Layers of the top, 1 to 4.</summary>
    public int TopLayers { get; init; } = 1;

    /// <summary>Layers of each side, 1 to 4.</summary>
    public int SideLayers { get; init; } = 1;

    /// <summary>Density of the boards, kg/m³ (5 to 20,000); null where it is not known.</summary>
    public double? BoardKilogramsPerCubicMeter { get; init; }

    internal double Top => TopDepthMeters ?? BottomDepthMeters;

    internal WedgeSolid Outside => new(WidthMeters, HeightMeters, Top, BottomDepthMeters);

    // Depth lost to a slanted back is its thickness along the level: t·√(1 + slope²).
    internal WedgeSolid Inside
    {
        get
        {
            var slope = (Top - BottomDepthMeters) / HeightMeters;
            var lost = WallMeters * FrontLayers + WallMeters * BackLayers * Math.Sqrt(1 + slope * slope);
            var (low, high) = (WallMeters * BottomLayers, HeightMeters - WallMeters * TopLayers);
            return new WedgeSolid(WidthMeters - 2 * WallMeters * SideLayers, high - low, BottomDepthMeters + slope * high - lost, BottomDepthMeters + slope * low - lost);
        }
    }

    internal void Check(InputChecks checks, string at)
    {
        var before = checks.Problems.Count;
        foreach (var (field, label, meters) in new[]
        {
            (nameof(WidthMeters), "Outside width", WidthMeters), (nameof(HeightMeters), "Outside height", HeightMeters),
            (nameof(BottomDepthMeters), "Outside depth at the bottom", BottomDepthMeters), (nameof(TopDepthMeters), "Outside depth at the top", Top),
        })
            checks.InRange(at + field, label, meters, 0.02, 10, QuantityKind.SmallLength);
        checks.InRange(at + nameof(WallMeters), "Thickness of the boards", WallMeters, 0.0005, 0.2, QuantityKind.SmallLength);
        foreach (var (field, label, layers) in new[]
        {
            (nameof(FrontLayers), "front", FrontLayers), (nameof(BackLayers), "back", BackLayers), (nameof(BottomLayers), "bottom", BottomLayers),
            (nameof(TopLayers), "top", TopLayers), (nameof(SideLayers), "sides", SideLayers),
        })
            checks.InRange(at + field, $"Layers of the {label}", layers, 1, 4);
        checks.InRange(at + nameof(BoardKilogramsPerCubicMeter), "Density of the boards in kg/m³", BoardKilogramsPerCubicMeter, 5, 20_000);
        if (checks.Problems.Count > before)
            return;
        var inside = Inside;
        if (inside is not { WidthMeters: > 0, HeightMeters: > 0, TopDepthMeters: > 0, BottomDepthMeters: > 0 })
            checks.Add(at + nameof(WallMeters), "Thickness of the boards: nothing is left inside; enter a larger outside, thinner boards or fewer layers.");
    }

    internal ShellResult Measure()
    {
        var (outside, inside) = (Outside, Inside);
        var wood = outside.CubicMeters - inside.CubicMeters;
        var (outer, inner) = (Centroid(outside, new Point3(WidthMeters / 2, 0, 0)), Centroid(inside, new Point3(WidthMeters / 2, WallMeters * FrontLayers, WallMeters * BottomLayers)));
        return new ShellResult
        {
            InsideWidthMeters = inside.WidthMeters,
            InsideHeightMeters = inside.HeightMeters,
            InsideTopDepthMeters = inside.TopDepthMeters,
            InsideBottomDepthMeters = inside.BottomDepthMeters,
            OutsideSquareMeters = Surface(outside),
            InsideSquareMeters = Surface(inside),
            BoardCubicMeters = wood,
            Kilograms = wood * BoardKilogramsPerCubicMeter,
            Center = (outer * outside.CubicMeters - inner * inside.CubicMeters) * (1 / wood),
            Panels = Top == BottomDepthMeters ? [.. Panels(inside)] : [],
        };
    }

    // Front and back over the full face, top and bottom between them, sides inside all four.
    private IEnumerable<PanelSize> Panels(WedgeSolid inside)
    {
        var (depth, height) = (inside.BottomDepthMeters, inside.HeightMeters);
        yield return new("Front", WidthMeters, HeightMeters, FrontLayers);
        yield return new("Back", WidthMeters, HeightMeters, BackLayers);
        yield return new("Top", WidthMeters, depth, TopLayers);
        yield return new("Bottom", WidthMeters, depth, BottomLayers);
        yield return new("Side", depth, height, 2 * SideLayers);
    }

    private static double Surface(WedgeSolid body)
    {
        var (w, h, top, bottom) = (body.WidthMeters, body.HeightMeters, body.TopDepthMeters, body.BottomDepthMeters);
        return w * (h + top + bottom + Math.Sqrt(h * h + (top - bottom) * (top - bottom))) + h * (top + bottom);
    }

    // Centre of a trapezium with its upright side at the front.
    private static Point3 Centroid(WedgeSolid body, Point3 foot)
    {
        var center = Polygon.Center([new(0, 0), new(body.BottomDepthMeters, 0), new(body.TopDepthMeters, body.HeightMeters), new(0, body.HeightMeters)]);
        return foot + new Point3(0, center.X, center.Y);
    }
}

/// <summary>A board to cut.</summary>
/// <param name="Name">Which.</param>
/// <param name="LengthMeters">Length, m.</param>
/// <param name="WidthMeters">Width, m.</param>
/// <param name="Count">How many, layers included.</param>
public sealed record PanelSize(string Name, double LengthMeters, double WidthMeters, int Count);

/// <summary>What the boards leave and weigh.</summary>
public sealed record ShellResult
{
    /// <summary>Inside width, m.</summary>
    public required double InsideWidthMeters { get; init; }

    /// <summary>Inside height, m.</summary>
    public required double InsideHeightMeters { get; init; }

    /// <summary>Inside depth at the top, m.</summary>
    public required double InsideTopDepthMeters { get; init; }

    /// <summary>Inside depth at the bottom, m.</summary>
    public required double InsideBottomDepthMeters { get; init; }

    /// <summary>Outer surface, m²: what is covered or painted.</summary>
    public required double OutsideSquareMeters { get; init; }

    /// <summary>Inner surface, m²: what is sealed or lined.</summary>
    public required double InsideSquareMeters { get; init; }

    /// <summary>Volume of the boards, m³, without cut-outs.</summary>
    public required double BoardCubicMeters { get; init; }

    /// <summary>Mass of the boards, kg; null without a density.</summary>
    public required double? Kilograms { get; init; }

    /// <summary>Centre of mass of the empty shell, m: from the left, from the front, from the bottom.</summary>
    public required Point3 Center { get; init; }

    /// <summary>Boards to cut with butt joints: front and back over the full face, top and bottom between them, sides inside all four. Empty for a slanted back, whose edges are bevelled to fit.</summary>
    public required IReadOnlyList<PanelSize> Panels { get; init; }
}
