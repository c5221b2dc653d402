using System.Text.Json.Serialization;
using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Fabrication.Laminates;

/// <summary>A layer of a laminate, from the mould outward.</summary>
[JsonPolymorphic(TypeDiscriminatorPropertyName = "kind")]
[JsonDerivedType(typeof(ClothLayer), "cloth")]
[JsonDerivedType(typeof(CoreLayer), "core")]
public abstract record LaminateLayer
{
    /// <summary>Name for lists, such as "twill 200".</summary>
    public required string Name { get; init; }

    private protected abstract void Check(InputChecks checks, string path);

    internal void CheckInto(InputChecks checks, string path)
    {
        checks.Named($"{path}.{nameof(Name)}", "Name of the layer", Name);
        Check(checks, path);
    }
}

/// <summary>One or more plies of one cloth.</summary>
public sealed record ClothLayer : LaminateLayer
{
    /// <summary>Fibre.</summary>
    public FibreKind Fibre { get; init; }

    /// <summary>How its fibres lie.</summary>
    public ClothForm Form { get; init; } = ClothForm.Woven;

    /// <summary>Mass of the dry cloth, kg/m² (0.01 to 3); 0.2 is a cloth of 200 g/m².</summary>
    public required double ArealKilogramsPerSquareMeter { get; init; }

    /// <summary>How many plies (1 to 50).</summary>
    public int Plies { get; init; } = 1;

    /// <summary>Density of the fibre, kg/m³ (900 to 4000); null for the textbook value.</summary>
    public double? FibreKilogramsPerCubicMeter { get; init; }

    /// <summary>Modulus of the fibre, Pa (1e9 to 1e12); null for the textbook value.</summary>
    public double? FibrePascals { get; init; }

    /// <summary>Fibre share by volume (0.05 to 0.75), measured by weighing a sample; null for that of the process.</summary>
    public double? FibreVolumeShare { get; init; }

    /// <summary>Width of the roll, m (0.05 to 4); null when no length is asked for.</summary>
    public double? RollMeters { get; init; }

    private protected override void Check(InputChecks checks, string path)
    {
        checks.Known($"{path}.{nameof(Fibre)}", $"{Name}, fibre", Fibre);
        checks.Known($"{path}.{nameof(Form)}", $"{Name}, form", Form);
        checks.InRange($"{path}.{nameof(ArealKilogramsPerSquareMeter)}", $"{Name}, mass of the cloth in kg/m²", ArealKilogramsPerSquareMeter, 0.01, 3);
        checks.InRange($"{path}.{nameof(Plies)}", $"{Name}, plies", Plies, 1, 50);
        checks.InRange($"{path}.{nameof(FibreKilogramsPerCubicMeter)}", $"{Name}, density of the fibre in kg/m³", FibreKilogramsPerCubicMeter, 900, 4_000);
        checks.InRange($"{path}.{nameof(FibrePascals)}", $"{Name}, modulus of the fibre in Pa", FibrePascals, 1e9, 1e12);
        checks.InRange($"{path}.{nameof(FibreVolumeShare)}", $"{Name}, fibre share by volume", FibreVolumeShare, 0.05, 0.75);
        checks.InRange($"{path}.{nameof(RollMeters)}", $"{Name}, width of the roll", RollMeters, 0.05, 4, QuantityKind.Length);
    }
}

/// <summary>A core between the skins: foam, honeycomb, balsa, plywood.</summary>
public sealed record CoreLayer : LaminateLayer
{
    /// <summary>Thickness, m (0.0005 to 0.2).</summary>
    public required double ThicknessMeters { get; init; }

    /// <summary>Density, kg/m³ (20 to 1500).</summary>
    public required double KilogramsPerCubicMeter { get; init; }

    /// <summary>Modulus, Pa (0 to 2e10); 0 leaves its own stiffness out.</summary>
    public double Pascals { get; init; }

    /// <summary>Resin its two faces take up, kg/m² for both (0 to 3). 0.5 for an open foam is common practice, no source.</summary>
    public double ResinKilogramsPerSquareMeter { get; init; } = 0.5;

    private protected override void Check(InputChecks checks, string path)
    {
        checks.InRange($"{path}.{nameof(ThicknessMeters)}", $"{Name}, thickness", ThicknessMeters, 0.0005, 0.2, QuantityKind.SmallLength);
        checks.InRange($"{path}.{nameof(KilogramsPerCubicMeter)}", $"{Name}, density in kg/m³", KilogramsPerCubicMeter, 20, 1_500);
        checks.InRange($"{path}.{nameof(Pascals)}", $"{Name}, modulus in Pa", Pascals, 0, 2e10);
        checks.InRange($"{path}.{nameof(ResinKilogramsPerSquareMeter)}", $"{Name}, resin of its faces in kg/m²", ResinKilogramsPerSquareMeter, 0, 3);
    }
}

/// <summary>How resin and hardener are mixed.</summary>
public sealed record ResinMix
{
    /// <summary>Parts of resin by mass (1 to 1000).</summary>
    public double ResinParts { get; init; } = 100;

    /// <summary>Parts of hardener by mass (0.1 to 1000), by the maker's sheet.</summary>
    public required double HardenerParts { get; init; }

    /// <summary>Pot life of the sheet, min (1 to 600).</summary>
    public required double PotLifeMinutes { get; init; }

    /// <summary>What one person wets out in a minute, kg (0.005 to 5). 0.05 by hand is common practice, no source.</summary>
    public double WetOutKilogramsPerMinute { get; init; } = 0.05;

    /// <summary>Most that is mixed in one cup, kg (0.02 to 20): a deep mass heats itself. 0.5 is common practice, no source.</summary>
    public double CupKilograms { get; init; } = 0.5;

    internal void Check(InputChecks checks, string path)
    {
        checks.InRange($"{path}.{nameof(ResinParts)}", "Parts of resin", ResinParts, 1, 1_000);
        checks.InRange($"{path}.{nameof(HardenerParts)}", "Parts of hardener", HardenerParts, 0.1, 1_000);
        checks.InRange($"{path}.{nameof(PotLifeMinutes)}", "Pot life in minutes", PotLifeMinutes, 1, 600);
        checks.InRange($"{path}.{nameof(WetOutKilogramsPerMinute)}", "Resin wetted out in a minute in kg", WetOutKilogramsPerMinute, 0.005, 5);
        checks.InRange($"{path}.{nameof(CupKilograms)}", "Most in one cup", CupKilograms, 0.02, 20, QuantityKind.Mass);
    }
}

/// <summary>What goes on the outside by area: gel coat, primer, paint, adhesive, upholstery.</summary>
public sealed record AreaMaterial
{
    /// <summary>Name for lists.</summary>
    public required string Name { get; init; }

    /// <summary>Mass on one square metre and one coat as used, kg/m² (0.005 to 10).</summary>
    public required double KilogramsPerSquareMeter { get; init; }

    /// <summary>Coats, or layers of a fabric (1 to 20).</summary>
    public int Coats { get; init; } = 1;

    /// <summary>Share lost: overspray, cup, offcuts (0 to 0.9).</summary>
    public double WasteShare { get; init; }

    /// <summary>Share that stays on the part after drying (0.05 to 1): solids of a paint; 1 for a fabric.</summary>
    public double StayingShare { get; init; } = 1;

    /// <summary>Area, m² (0.0001 to 200); null for that of the laminate.</summary>
    public double? SquareMeters { get; init; }

    /// <summary>Hazards of it.</summary>
    public AreaHazard Hazard { get; init; }

    internal void Check(InputChecks checks, string path)
    {
        checks.Named($"{path}.{nameof(Name)}", "Name of the material", Name);
        checks.InRange($"{path}.{nameof(KilogramsPerSquareMeter)}", $"{Name}, mass in kg/m²", KilogramsPerSquareMeter, 0.005, 10);
        checks.InRange($"{path}.{nameof(Coats)}", $"{Name}, coats", Coats, 1, 20);
        checks.InRange($"{path}.{nameof(WasteShare)}", $"{Name}, share lost", WasteShare, 0, 0.9);
        checks.InRange($"{path}.{nameof(StayingShare)}", $"{Name}, share that stays", StayingShare, 0.05, 1);
        checks.InRange($"{path}.{nameof(SquareMeters)}", $"{Name}, area in m²", SquareMeters, 0.0001, 200);
        checks.Known($"{path}.{nameof(Hazard)}", $"{Name}, hazard", Hazard);
    }
}

/// <summary>What a material of the outside asks to be careful of.</summary>
public enum AreaHazard
{
    /// <summary>Nothing said.</summary>
    None,

    /// <summary>Solvent: contact adhesive, primer, lacquer.</summary>
    Solvent,

    /// <summary>Two-part with an isocyanate hardener.</summary>
    Isocyanate,

    /// <summary>Styrene with a peroxide hardener: gel coat.</summary>
    Styrene,
}

/// <summary>A laminate to be planned.</summary>
public sealed record LaminateInput
{
    /// <summary>Layers from the mould outward, 1 to 60.</summary>
    public required IReadOnlyList<LaminateLayer> Layers { get; init; }

    /// <summary>Area, m² (0.0001 to 200); null when length and width give it.</summary>
    public double? SquareMeters { get; init; }

    /// <summary>Length of the developed part, m (0.01 to 20); null when the area is given.</summary>
    public double? LengthMeters { get; init; }

    /// <summary>Width of the developed part, m (0.01 to 20); null when the area is given.</summary>
    public double? WidthMeters { get; init; }

    /// <summary>Length of the edge, m (0.01 to 200), for tape; null to take that of length and width, or of a square of the area.</summary>
    public double? EdgeMeters { get; init; }

    /// <summary>How it is made.</summary>
    public LaminateProcess Process { get; init; }

    /// <summary>Resin.</summary>
    public ResinKind Resin { get; init; }

    /// <summary>How it is mixed; null when batches are not asked for.</summary>
    public ResinMix? Mix { get; init; }

    /// <summary>Cloth lost by trimming, share of the area (0 to 2). 0.15 is common practice, no source.</summary>
    public double ClothWasteShare { get; init; } = 0.15;

    /// <summary>Resin lost in cup, roller, peel ply and hose, share (0 to 2); null for 0.15 by hand, 0.25 under a bag, 0.35 infused: common practice, no source.</summary>
    public double? ResinWasteShare { get; init; }

    /// <summary>Overlap where two strips meet, m (0 to 0.2).</summary>
    public double OverlapMeters { get; init; } = 0.03;

    /// <summary>What goes on the outside.</summary>
    public IReadOnlyList<AreaMaterial> Surface { get; init; } = [];

    /// <summary>Whether a battery, a fuse or an airbag connector is near: carbon conducts.</summary>
    public bool NearElectrics { get; init; }

    internal double Area => SquareMeters ?? LengthMeters!.Value * WidthMeters!.Value; // one of the two is demanded

    internal double Edge => EdgeMeters ?? (LengthMeters is { } length && WidthMeters is { } width ? 2 * (length + width) : 4 * Math.Sqrt(Area));

    internal double ResinWaste => ResinWasteShare ?? Process switch { LaminateProcess.HandLayUp => 0.15, LaminateProcess.VacuumBag => 0.25, _ => 0.35 };

    /// <summary>What is wrong; empty when it can be computed.</summary>
    /// <param name="text">How numbers are written; null is metric, invariant.</param>
    public IReadOnlyList<InputProblem> Validate(UnitText? text = null)
    {
        var checks = new InputChecks(text ?? UnitText.Invariant);
        if (Layers.Count is 0 or > 60)
            checks.Add(nameof(Layers), $"Layers: {Layers.Count} are not accepted; enter 1 to 60.");
        else if (!Layers.OfType<ClothLayer>().Any())
            checks.Add(nameof(Layers), "Layers: there is no cloth; enter at least one.");
        for (var n = 0; n < Layers.Count; n++)
            Layers[n].CheckInto(checks, $"{nameof(Layers)}[{n}]");
        checks.InRange(nameof(SquareMeters), "Area in m²", SquareMeters, 0.0001, 200);
        checks.InRange(nameof(LengthMeters), "Length", LengthMeters, 0.01, 20, QuantityKind.Length);
        checks.InRange(nameof(WidthMeters), "Width", WidthMeters, 0.01, 20, QuantityKind.Length);
        checks.InRange(nameof(EdgeMeters), "Edge", EdgeMeters, 0.01, 200, QuantityKind.Length);
        if (SquareMeters is null && (LengthMeters is null || WidthMeters is null))
            checks.Add(nameof(SquareMeters), "Area: nothing was entered; enter the area, or length and width.");
        checks.Known(nameof(Process), "Process", Process);
        checks.Known(nameof(Resin), "Resin", Resin);
        Mix?.Check(checks, nameof(Mix));
        checks.InRange(nameof(ClothWasteShare), "Cloth lost, share", ClothWasteShare, 0, 2);
        checks.InRange(nameof(ResinWasteShare), "Resin lost, share", ResinWasteShare, 0, 2);
        checks.InRange(nameof(OverlapMeters), "Overlap", OverlapMeters, 0, 0.2, QuantityKind.SmallLength);
        if (Layers.OfType<ClothLayer>().FirstOrDefault(cloth => cloth.RollMeters <= OverlapMeters) is { } narrow)
            checks.Add(nameof(OverlapMeters), $"Overlap: {(text ?? UnitText.Invariant).Millimeters(OverlapMeters)} is not less than the roll of {narrow.Name}.");
        for (var n = 0; n < Surface.Count; n++)
            Surface[n].Check(checks, $"{nameof(Surface)}[{n}]");
        return checks.Problems;
    }
}
