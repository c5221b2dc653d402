using System.ComponentModel.DataAnnotations;
using System.Globalization;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Vehicles;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>A product on a share of a panel.</summary>
public sealed record TreatmentLayerRow
{
    /// <summary>Its part of the catalogue, or the line of the parts list; mass and sheet are read there.</summary>
    public Guid? ProductId { get; set; }

    public double CoveragePercent { get; set; } = 50;

    public override string ToString() => string.Create(CultureInfo.CurrentCulture, $"{CoveragePercent:0.#} %");
}

/// <summary>A panel of the vehicle and what it gets.</summary>
public sealed record TreatedPanelRow
{
    /// <summary>Kept while the list is edited.</summary>
    public string Id { get; set; } = CutRow.NewId();

    public string Name { get; set; } = "";

    public double? SquareMeters { get; set; }

    public List<TreatmentLayerRow> Layers { get; set; } = [new()];

    public TreatedPanelRow Copy() => this with { Layers = [.. Layers.Select(layer => layer with { })] };

    public override string ToString() => string.Create(CultureInfo.CurrentCulture, $"{Name} {SquareMeters:0.##} m²: {string.Join(" + ", Layers)}");
}

/// <summary>Panels to damp, block or line.</summary>
public sealed record TreatmentForm : IDesignForm
{
    public const int MostPanels = 200;

    public static DesignKind Kind => DesignKind.Treatment;

    public static Permission Needed => Permission.DesignJobs;

    [Display(Name = "Panels")]
    public List<TreatedPanelRow> Panels { get; set; } = [];

    /// <summary>A tenth is lost. Common practice, no source.</summary>
    [Display(Name = "Lost by cutting (%)")]
    public double LostPercent { get; set; } = 10;

    [Display(Name = "Where most of it sits")]
    public string Zone { get; set; } = "";

    /// <summary>Beyond the planned stages; they stand on the estimate as work.</summary>
    [Display(Name = "Hours (h)")]
    public double? Hours { get; set; }

    [Display(Name = "For whoever opens it")]
    public MadeNotes Made { get; set; } = new();

    public TreatmentForm Copy() => this with { Made = Made with { }, Panels = [.. Panels.Select(panel => panel.Copy())] };

    // What is half entered may be saved; the calculation names what is missing.
    public List<Problem> Problems()
    {
        var check = new Check()
            .That(Panels.Count <= MostPanels, nameof(Panels), $"There are {Panels.Count} panels; at most {MostPanels} are kept.")
            .Range(LostPercent, nameof(LostPercent), "What is lost by cutting", 0, 50, "%")
            .Range(Hours, nameof(Hours), "The time to make it", 0, 500, "h")
            .That(Zone.Length == 0 || VehicleZones.Exists(Zone), nameof(Zone), $"'{Zone}' is no place in the vehicle.");
        Made.AddProblems(check, nameof(Made));
        foreach (var panel in Panels)
        {
            check.Required(panel.Name, nameof(Panels), "The name of each panel")
                .Range(panel.SquareMeters, nameof(Panels), $"{panel.Name}, area", 0.01, 20, "m²")
                .That(panel.Layers.Count <= 10, nameof(Panels), $"{panel.Name} has {panel.Layers.Count} layers; at most 10 are kept.");
            foreach (var layer in panel.Layers)
            {
                check.Range(layer.CoveragePercent, nameof(Panels), $"{panel.Name}, share covered", 5, 100, "%");
            }
        }

        return check.Problems;
    }
}
