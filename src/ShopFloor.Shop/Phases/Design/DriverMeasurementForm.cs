using System.ComponentModel.DataAnnotations;
using System.Text.Json.Serialization;
using ShopFloor.Engineering.Acoustics.Drivers;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Staff;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>What was measured beside free air.</summary>
public enum SecondSweep
{
    None,
    AddedMass,
    KnownBox,
}

/// <summary>A sweep's file and how somebody confirmed that it is read.</summary>
public sealed record SweepFile(Guid FileId, ImpedanceLayout Layout);

/// <summary>A figure of a part before and after it was measured; null for none.</summary>
public sealed record MeasuredChange(string Field, double? Before, double? After);

/// <summary>A loudspeaker of the job measured: sweeps with their bytes as they came, or resonances by tone and meter.</summary>
public sealed record DriverMeasurementForm : IDesignForm
{
    public static DesignKind Kind => DesignKind.DriverMeasurement;

    public static Permission Needed => Permission.WorkOnJobs;

    [Display(Name = "Loudspeaker")]
    public Guid PartId { get; set; }

    [Display(Name = "Sweep in free air")]
    public SweepFile? FreeAir { get; set; }

    /// <summary>Found by tone and meter, where there is no sweep.</summary>
    [Display(Name = "Resonance in free air (fs)")]
    public double? ResonanceHertz { get; set; }

    [Display(Name = "DC resistance (Re)")]
    public double? ReOhms { get; set; }

    [Display(Name = "Frequencies used up to (Hz)")]
    public double? UsedToHertz { get; set; }

    /// <summary>Asked for where the part has no piston area.</summary>
    [Display(Name = "Diameter of the piston (mm)")]
    public double? PistonMillimeters { get; set; }

    /// <summary>How several voice coils were joined while they were measured.</summary>
    [Display(Name = "Voice coils")]
    public CoilsStated Coils { get; set; }

    [Display(Name = "Measured again")]
    public SecondSweep Second { get; set; }

    [Display(Name = "Mass added (g)")]
    public double? AddedGrams { get; set; }

    [Display(Name = "Volume of the box (l)")]
    public double? BoxLitres { get; set; }

    [Display(Name = "Second sweep")]
    public SweepFile? Again { get; set; }

    [Display(Name = "Second resonance (Hz)")]
    public double? AgainHertz { get; set; }

    [Display(Name = "Air (°C)")]
    public double AirCelsius { get; set; } = 20;

    [Display(Name = "Measured by")]
    public string MeasuredBy { get; set; } = "";

    [Display(Name = "Measured at")]
    public DateTimeOffset MeasuredAt { get; set; }

    /// <summary>Figures as they were written to the part, with what stood there before; empty while they were not.</summary>
    [Display(Name = "Written to the part")]
    public List<MeasuredChange> Changes { get; set; } = [];

    /// <summary>What had been measured before of the figures that were written.</summary>
    public Dictionary<string, MeasuredFigure> MeasuredBefore { get; set; } = [];

    [JsonIgnore]
    public bool IsOnPart => Changes.Count > 0;

    /// <summary>What the second measurement still needs, in words; empty when it has all, or is not wanted.</summary>
    [JsonIgnore]
    public string SecondNeeds => string.Join(" and ", new[]
    {
        Second == SecondSweep.AddedMass && AddedGrams is null ? "the mass" : null,
        Second == SecondSweep.KnownBox && BoxLitres is null ? "the volume of the box" : null,
        Second != SecondSweep.None && Again is null && AgainHertz is null ? "a second sweep or resonance" : null,
    }.OfType<string>());

    public List<Problem> Problems() => new Check()
        .That(PartId != Guid.Empty, nameof(PartId), "The loudspeaker is needed.")
        .That(FreeAir is not null || ResonanceHertz is not null, nameof(FreeAir), "Neither a sweep nor a resonance in free air was given; bring a file or enter the resonance.")
        .Range(ResonanceHertz, nameof(ResonanceHertz), "The resonance in free air", 5, 20_000, "Hz")
        .Range(ReOhms, nameof(ReOhms), "The DC resistance", 0.1, 64, "Ω")
        .Range(UsedToHertz, nameof(UsedToHertz), "The highest frequency used", 50, 200_000, "Hz")
        .Range(PistonMillimeters, nameof(PistonMillimeters), "The diameter of the piston", 4, 1_100, "mm")
        .Range(AddedGrams, nameof(AddedGrams), "The mass added", 0.01, 2_000, "g")
        .Range(BoxLitres, nameof(BoxLitres), "The volume of the box", 0.01, 2_000, "l")
        .Range(AgainHertz, nameof(AgainHertz), "The second resonance", 1, 20_000, "Hz")
        .Range(AirCelsius, nameof(AirCelsius), "The air", -40, 80, "°C")
        .That(Second != SecondSweep.AddedMass || AddedGrams is not null, nameof(AddedGrams), "The mass added is needed.")
        .That(Second != SecondSweep.KnownBox || BoxLitres is not null, nameof(BoxLitres), "The volume of the box is needed.")
        .That(Second == SecondSweep.None || Again is not null || AgainHertz is not null, nameof(Again), "Neither a second sweep nor a second resonance was given; bring a file or enter the resonance.")
        .Longest(MeasuredBy, nameof(MeasuredBy), "The name", Limits.Name)
        .Problems;
}
