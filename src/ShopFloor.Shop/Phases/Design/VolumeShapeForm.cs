using System.Globalization;
using System.Text.Json.Serialization;
using ShopFloor.Engineering.Fabrication.Volume;
using ShopFloor.Engineering.Geometry;
using ShopFloor.Shop.Common;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>Shapes a tape measure can take, in the order they are offered.</summary>
public enum ShapeKind
{
    Box,
    Wedge,
    Cylinder,
    Cone,
    Pyramid,
    Prism,
    Known,
}

/// <summary>A body that adds to the inside of a box or takes from it.</summary>
public sealed record VolumeShapeForm
{
    public const int MostLengths = 5;

    public ShapeKind Kind { get; set; }

    public string Name { get; set; } = "";

    /// <summary>Whether it takes volume away.</summary>
    public bool Takes { get; set; }

    public int Count { get; set; } = 1;

    /// <summary>Its lengths in the order of <see cref="Lengths"/>, m.</summary>
    public List<double?> Meters { get; set; } = [.. new double?[MostLengths]];

    /// <summary>Corners of a prism in order, m.</summary>
    public List<Point2> Outline { get; set; } = [];

    /// <summary>Of a known volume, m³.</summary>
    public double? CubicMeters { get; set; }

    [JsonIgnore]
    public string Title => Name.Trim().Length > 0 ? Name.Trim() : Words(Kind);

    public static string Words(ShapeKind kind) => kind switch
    {
        ShapeKind.Box => "Box",
        ShapeKind.Wedge => "Wedge",
        ShapeKind.Cylinder => "Cylinder",
        ShapeKind.Cone => "Cone, cut off",
        ShapeKind.Pyramid => "Pyramid, cut off",
        ShapeKind.Prism => "Prism",
        ShapeKind.Known => "Known volume",
        _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, "Unknown shape."),
    };

    /// <summary>What is measured of a shape; a length that may be nothing comes to a point or an edge there.</summary>
    public static IReadOnlyList<(string Label, bool MayBeNothing)> Lengths(ShapeKind kind) => kind switch
    {
        ShapeKind.Box => [("Width", false), ("Height", false), ("Depth", false)],
        ShapeKind.Wedge => [("Width", false), ("Height", false), ("Depth at the top", true), ("Depth at the bottom", true)],
        ShapeKind.Cylinder => [("Diameter", false), ("Length", false)],
        ShapeKind.Cone => [("Diameter of one end", false), ("Diameter of the other", true), ("Height", false)],
        ShapeKind.Pyramid => [("Width below", false), ("Depth below", false), ("Width above", true), ("Depth above", true), ("Height", false)],
        ShapeKind.Prism => [("Length", false)],
        _ => [],
    };

    public VolumeShapeForm Copy() => this with { Meters = [.. Meters], Outline = [.. Outline] };

    public double? At(int index) => index < Meters.Count ? Meters[index] : null;

    public void Set(int index, double? meters)
    {
        while (Meters.Count < MostLengths)
        {
            Meters.Add(null);
        }

        Meters[index] = meters;
    }

    /// <summary>What is still to be entered, in words; empty when the shape is whole.</summary>
    [JsonIgnore]
    public IReadOnlyList<string> Missing => Kind switch
    {
        ShapeKind.Known => CubicMeters is null ? ["volume"] : [],
        _ => [
            .. Kind == ShapeKind.Prism && Outline.Count < 3 ? new[] { "three corners or more" } : [],
            .. Lengths(Kind).Where((_, index) => At(index) is null).Select(each => each.Label.ToLowerInvariant()),
        ],
    };

    /// <summary>As the calculation takes it; null while something is missing.</summary>
    [JsonIgnore]
    public Solid? Solid
    {
        get
        {
            double Of(int index) => At(index) ?? 0; // nothing is missing
            return Missing.Count > 0 ? null : Kind switch
            {
                ShapeKind.Box => new BoxSolid(Of(0), Of(1), Of(2)),
                ShapeKind.Wedge => new WedgeSolid(Of(0), Of(1), Of(2), Of(3)),
                ShapeKind.Cylinder => new CylinderSolid(Of(0), Of(1)),
                ShapeKind.Cone => new RoundFrustum(Of(0), Of(1), Of(2)),
                ShapeKind.Pyramid => new RectangularFrustum(Of(0), Of(1), Of(2), Of(3), Of(4)),
                ShapeKind.Prism => new PrismSolid(Outline, Of(0)),
                _ => new KnownSolid(CubicMeters ?? 0),
            };
        }
    }

    internal void AddProblems(Check check, string at)
    {
        check
            .Longest(Name, $"{at}.{nameof(Name)}", "The name of a shape", Limits.Name)
            .That(Enum.IsDefined(Kind), $"{at}.{nameof(Kind)}", $"{Title}: there is no such shape.")
            .Range(Count, $"{at}.{nameof(Count)}", $"{Title}: the number", 1, 100, "")
            .Range(CubicMeters * 1000, $"{at}.{nameof(CubicMeters)}", $"{Title}: the volume", 0.001, 2_000, "l")
            .That(Outline.Count <= 500, $"{at}.{nameof(Outline)}", string.Create(CultureInfo.CurrentCulture, $"{Title}: the outline has {Outline.Count} corners; accepted is up to 500."));
        var lengths = Enum.IsDefined(Kind) ? Lengths(Kind) : [];
        for (var n = 0; n < lengths.Count; n++)
        {
            check.Range(At(n) * 1000, $"{at}.{nameof(Meters)}[{n}]", $"{Title}: {lengths[n].Label.ToLowerInvariant()}", lengths[n].MayBeNothing ? 0 : 1, 3_000, "mm");
        }
    }

    public override string ToString() => $"{(Takes ? "−" : "+")} {(Count > 1 ? $"{Count} × " : "")}{Title} {Sizes}".TrimEnd();

    // All of it, so that two versions never read alike.
    private string Sizes => string.Join(
        " × ",
        Kind == ShapeKind.Known ? new[] { CubicMeters is { } known ? string.Create(CultureInfo.CurrentCulture, $"{known * 1000:0.###} l") : "" }
            : [
                .. Lengths(Kind).Select((_, index) => At(index) is { } meters ? string.Create(CultureInfo.CurrentCulture, $"{meters * 1000:0.#}") : "?"),
                .. Outline.Count > 0 && Kind == ShapeKind.Prism ? new[] { string.Join("; ", Outline.Select(corner => string.Create(CultureInfo.CurrentCulture, $"{corner.X * 1000:0.#} {corner.Y * 1000:0.#}"))) } : [],
            ]);
}
