using System.ComponentModel.DataAnnotations;
using System.Globalization;
using ShopFloor.Engineering.Fabrication.Laminates;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Vehicles;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>A layer from the mould outward: cloth, or a core.</summary>
public sealed record LaminateRow
{
    public string Name { get; set; } = "";

    public bool IsCore { get; set; }

    public FibreKind Fibre { get; set; }

    public ClothForm Form { get; set; } = ClothForm.Woven;

    public double? KilogramsPerSquareMeter { get; set; } = 0.2;

    public int Plies { get; set; } = 1;

    /// <summary>Null when cloth is bought by area.</summary>
    public double? RollMeters { get; set; }

    /// <summary>Of a core.</summary>
    public double? ThicknessMeters { get; set; }

    /// <summary>Of a core.</summary>
    public double? KilogramsPerCubicMeter { get; set; }

    public override string ToString() => string.Create(CultureInfo.CurrentCulture, $"{Plies} × {Name}");
}

/// <summary>Gel coat, filler, primer, paint, adhesive, upholstery: by area.</summary>
public sealed record FinishRow
{
    public string Name { get; set; } = "";

    public double? KilogramsPerSquareMeter { get; set; }

    public int Coats { get; set; } = 1;

    /// <summary>Share lost, percent.</summary>
    public double LostPercent { get; set; } = 15;

    /// <summary>Share that stays on the part once dry, percent.</summary>
    public double StaysPercent { get; set; } = 100;

    /// <summary>Null for the area of the laminate.</summary>
    public double? SquareMeters { get; set; }

    public AreaHazard Hazard { get; set; }

    public override string ToString() => string.Create(CultureInfo.CurrentCulture, $"{Name}, {Coats} coats");
}

/// <summary>A part of composite and what goes on its outside.</summary>
public sealed record LaminateForm : IDesignForm
{
    public static DesignKind Kind => DesignKind.Laminate;

    public static Permission Needed => Permission.DesignJobs;

    [Display(Name = "Layers")]
    public List<LaminateRow> Layers { get; set; } = [];

    [Display(Name = "Area (m²)")]
    public double? SquareMeters { get; set; }

    [Display(Name = "Length (m)")]
    public double? LengthMeters { get; set; }

    [Display(Name = "Width (m)")]
    public double? WidthMeters { get; set; }

    [Display(Name = "Process")]
    public LaminateProcess Process { get; set; }

    [Display(Name = "Resin")]
    public ResinKind Resin { get; set; }

    /// <summary>Null while the sheet of the resin was not looked up: no cups are told then.</summary>
    [Display(Name = "Hardener to 100 parts of resin")]
    public double? HardenerParts { get; set; }

    [Display(Name = "Pot life (min)")]
    public double? PotLifeMinutes { get; set; }

    [Display(Name = "Finish")]
    public List<FinishRow> Finish { get; set; } = [];

    [Display(Name = "Near battery, fuses or airbag plugs")]
    public bool NearElectrics { get; set; }

    [Display(Name = "Where it sits")]
    public string Zone { get; set; } = "";

    /// <summary>Beyond the planned stages; they stand on the estimate as work.</summary>
    [Display(Name = "Hours (h)")]
    public double? Hours { get; set; }

    [Display(Name = "For whoever opens it")]
    public MadeNotes Made { get; set; } = new();

    public LaminateForm Copy() => this with { Made = Made with { }, Layers = [.. Layers.Select(row => row with { })], Finish = [.. Finish.Select(row => row with { })] };

    // What is half entered may be saved; the calculation names what is missing.
    public List<Problem> Problems()
    {
        var check = new Check()
            .That(Layers.Count <= 60, nameof(Layers), $"There are {Layers.Count} layers; at most 60 are kept.")
            .That(Finish.Count <= 60, nameof(Finish), $"There are {Finish.Count} lines of finish; at most 60 are kept.")
            .Range(Hours, nameof(Hours), "The time to make it", 0, 500, "h")
            .That(Zone.Length == 0 || VehicleZones.Exists(Zone), nameof(Zone), $"'{Zone}' is no place in the vehicle.")
            .Range(SquareMeters, nameof(SquareMeters), "The area", 0.0001, 200, "m²")
            .Range(LengthMeters, nameof(LengthMeters), "The length", 0.01, 20, "m")
            .Range(WidthMeters, nameof(WidthMeters), "The width", 0.01, 20, "m")
            .Range(HardenerParts, nameof(HardenerParts), "The hardener", 0.1, 1_000, "parts")
            .Range(PotLifeMinutes, nameof(PotLifeMinutes), "The pot life", 1, 600, "min");
        Made.AddProblems(check, nameof(Made));
        foreach (var name in Layers.Select(row => row.Name).Concat(Finish.Select(row => row.Name)))
        {
            check.Required(name, nameof(Layers), "The name of each layer and finish", 80);
        }

        return check.Problems;
    }

    /// <summary>What the calculation takes; empty fields become values it refuses by name.</summary>
    public LaminateInput Input() => new()
    {
        Layers = [.. Layers.Select<LaminateRow, LaminateLayer>(row => row.IsCore
            ? new CoreLayer { Name = row.Name, ThicknessMeters = row.ThicknessMeters ?? 0, KilogramsPerCubicMeter = row.KilogramsPerCubicMeter ?? 0 }
            : new ClothLayer { Name = row.Name, Fibre = row.Fibre, Form = row.Form, ArealKilogramsPerSquareMeter = row.KilogramsPerSquareMeter ?? 0, Plies = row.Plies, RollMeters = row.RollMeters })],
        SquareMeters = SquareMeters,
        LengthMeters = LengthMeters,
        WidthMeters = WidthMeters,
        Process = Process,
        Resin = Resin,
        Mix = HardenerParts is { } hardener && PotLifeMinutes is { } life ? new ResinMix { HardenerParts = hardener, PotLifeMinutes = life } : null,
        Surface = [.. Finish.Select(row => new AreaMaterial
        {
            Name = row.Name, KilogramsPerSquareMeter = row.KilogramsPerSquareMeter ?? 0, Coats = row.Coats, WasteShare = row.LostPercent / 100, StayingShare = row.StaysPercent / 100, SquareMeters = row.SquareMeters, Hazard = row.Hazard,
        })],
        NearElectrics = NearElectrics,
    };
}
