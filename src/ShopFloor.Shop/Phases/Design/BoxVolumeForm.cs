using System.Globalization;
using System.Text.Json.Serialization;
using ShopFloor.Engineering.Geometry;
using ShopFloor.Shop.Common;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>Size of a box inside: by its three sides, or by a closed surface from a file.</summary>
public sealed record BoxVolumeForm
{
    public double? WidthMeters { get; set; }

    public double? HeightMeters { get; set; }

    public double? DepthMeters { get; set; }

    /// <summary>Takes the place of the sides.</summary>
    public Guid? MeshFileId { get; set; }

    public MeshUnit MeshUnit { get; set; }

    /// <summary>Bracing and whatever else stands in it, m³.</summary>
    public double? BracingCubicMeters { get; set; }

    /// <summary>Of the three sides, m³; null while one is missing.</summary>
    [JsonIgnore]
    public double? SidesCubicMeters => WidthMeters * HeightMeters * DepthMeters;

    public void AddProblems(Check check) => check
        .Range(WidthMeters * 1000, Field(nameof(WidthMeters)), "The width inside", 20, 3_000, "mm")
        .Range(HeightMeters * 1000, Field(nameof(HeightMeters)), "The height inside", 20, 3_000, "mm")
        .Range(DepthMeters * 1000, Field(nameof(DepthMeters)), "The depth inside", 20, 3_000, "mm")
        .Range(BracingCubicMeters * 1000, Field(nameof(BracingCubicMeters)), "The volume of the bracing", 0, 500, "l");

    public override string ToString() => MeshFileId is not null ? "from a file"
        : SidesCubicMeters is null ? ""
        : string.Create(CultureInfo.CurrentCulture, $"{WidthMeters * 1000:0} × {HeightMeters * 1000:0} × {DepthMeters * 1000:0} mm");

    private static string Field(string name) => $"{nameof(EnclosureForm.Volume)}.{name}";
}
