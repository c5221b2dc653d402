using System.Globalization;
using System.Text.Json.Serialization;
using ShopFloor.Engineering.Geometry;
using ShopFloor.Shop.Common;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>Size of a box inside: by its three sides, by shapes added and taken away, by a closed surface from a file, or by what fills it.</summary>
public sealed record BoxVolumeForm
{
    public const int MostShapes = 60;

    public double? WidthMeters { get; set; }

    public double? HeightMeters { get; set; }

    public double? DepthMeters { get; set; }

    /// <summary>Takes the place of the sides.</summary>
    public Guid? MeshFileId { get; set; }

    public MeshUnit MeshUnit { get; set; }

    /// <summary>What was measured of the file in its unit; null until it was read, or when it was refused.</summary>
    public MeshSurface? Surface { get; set; }

    /// <summary>Walls to take off where the surface is the outside of the box, m; null where it is the inside.</summary>
    public double? MeshWallMeters { get; set; }

    /// <summary>Bracing and whatever else stands in it, m³.</summary>
    public double? BracingCubicMeters { get; set; }

    /// <summary>Bodies beside the sides or the surface, or in their place.</summary>
    public List<VolumeShapeForm> Shapes { get; set; } = [];

    public BoxFillForm Fill { get; set; } = new();

    /// <summary>Of the three sides, m³; null while one is missing.</summary>
    [JsonIgnore]
    public double? SidesCubicMeters => WidthMeters * HeightMeters * DepthMeters;

    /// <summary>Width, height and depth inside, m: as measured, or the box around the surface less its walls. Null while they are not known.</summary>
    [JsonIgnore]
    public (double Width, double Height, double Depth)? Inside => MeshFileId is not null
        ? Surface is { } around && around.Inside(MeshWallMeters ?? 0) is { } left ? (left.X, left.Z, left.Y) : null
        : WidthMeters is { } width && HeightMeters is { } height && DepthMeters is { } depth ? (width, height, depth) : null;

    /// <param name="at">Field of the form that holds it.</param>
    /// <param name="chamber">Word after "inside" for a box with two chambers; empty for one.</param>
    public void AddProblems(Check check, string at, string chamber)
    {
        string Field(string name) => $"{at}.{name}";
        check
            .Range(WidthMeters * 1000, Field(nameof(WidthMeters)), $"The width inside{chamber}", 20, 3_000, "mm")
            .Range(HeightMeters * 1000, Field(nameof(HeightMeters)), $"The height inside{chamber}", 20, 3_000, "mm")
            .Range(DepthMeters * 1000, Field(nameof(DepthMeters)), $"The depth inside{chamber}", 20, 3_000, "mm")
            .Range(MeshWallMeters * 1000, Field(nameof(MeshWallMeters)), $"The thickness of the walls{chamber}", 0, 100, "mm")
            .Range(BracingCubicMeters * 1000, Field(nameof(BracingCubicMeters)), $"The volume of the bracing{chamber}", 0, 500, "l")
            .That(Shapes.Count <= MostShapes, Field(nameof(Shapes)), string.Create(CultureInfo.CurrentCulture, $"There are {Shapes.Count} shapes; accepted is up to {MostShapes}."));
        for (var n = 0; n < Shapes.Count; n++)
        {
            Shapes[n].AddProblems(check, string.Create(CultureInfo.InvariantCulture, $"{Field(nameof(Shapes))}[{n}]"));
        }

        Fill.AddProblems(check, Field(nameof(Fill)));
    }

    /// <summary>A copy whose parts are its own.</summary>
    public BoxVolumeForm Copy() => this with { Shapes = [.. Shapes.Select(shape => shape.Copy())], Fill = Fill with { } };

    public override string ToString() => string.Join(", ", new[]
    {
        MeshFileId is not null ? MeshWallMeters is { } wall ? string.Create(CultureInfo.CurrentCulture, $"from a file less walls of {wall * 1000:0.#} mm") : "from a file"
            : SidesCubicMeters is null ? ""
            : string.Create(CultureInfo.CurrentCulture, $"{WidthMeters * 1000:0} × {HeightMeters * 1000:0} × {DepthMeters * 1000:0} mm"),
        string.Join(" ", Shapes),
        Fill.ToString(),
    }.Where(words => words.Length > 0));
}
