using System.ComponentModel.DataAnnotations;
using System.Globalization;
using ShopFloor.Engineering.Fabrication.Templates;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Staff;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>A step or chamfer around the cut-out.</summary>
public sealed record TemplateStep
{
    public string Name { get; set; } = "Recess for the basket";

    public double? DiameterMeters { get; set; }

    public double? DepthMeters { get; set; }

    public bool IsChamfer { get; set; }

    public override string ToString() => string.Create(CultureInfo.CurrentCulture, $"{Name} Ø {DiameterMeters * 1000:0.#} mm");
}

/// <summary>A ring or adapter to cut and drill. What is left empty is taken from its loudspeaker.</summary>
public sealed record TemplateForm : IDesignForm
{
    public static DesignKind Kind => DesignKind.Template;

    public static Permission Needed => Permission.DesignJobs;

    [Display(Name = "Loudspeaker")]
    public Guid? LoudspeakerPartId { get; set; }

    [Display(Name = "Cut-out diameter (m)")]
    public double? CutOutMeters { get; set; }

    [Display(Name = "Outside is rectangular")]
    public bool Rectangular { get; set; }

    /// <summary>Diameter of a round one.</summary>
    [Display(Name = "Outside (m)")]
    public double? OutsideMeters { get; set; }

    [Display(Name = "Outside, width (m)")]
    public double? OutsideWidthMeters { get; set; }

    [Display(Name = "Radius of the corners (m)")]
    public double CornerMeters { get; set; } = 0.01;

    [Display(Name = "Thickness of the board (m)")]
    public double ThicknessMeters { get; set; } = 0.018;

    [Display(Name = "Bolts")]
    public int? Bolts { get; set; }

    [Display(Name = "Bolt circle (m)")]
    public double? BoltCircleMeters { get; set; }

    [Display(Name = "Holes (m)")]
    public double? HoleMeters { get; set; }

    [Display(Name = "First hole (degrees)")]
    public double FirstHoleDegrees { get; set; }

    [Display(Name = "Steps and chamfers")]
    public List<TemplateStep> Steps { get; set; } = [];

    public TemplateForm Copy() => this with { Steps = [.. Steps.Select(step => step with { })] };

    public List<Problem> Problems() => new Check()
        .Range(CutOutMeters * 1000, nameof(CutOutMeters), "The cut-out", 5, 1_000, "mm")
        .Range(OutsideMeters * 1000, nameof(OutsideMeters), "The outside", 10, 1_500, "mm")
        .Range(OutsideWidthMeters * 1000, nameof(OutsideWidthMeters), "The width outside", 10, 1_500, "mm")
        .Range(CornerMeters * 1000, nameof(CornerMeters), "The radius of the corners", 0, 750, "mm")
        .Range(ThicknessMeters * 1000, nameof(ThicknessMeters), "The thickness of the board", 0.5, 200, "mm")
        .Range(Bolts, nameof(Bolts), "The number of bolts", 0, 48, "")
        .Range(BoltCircleMeters * 1000, nameof(BoltCircleMeters), "The bolt circle", 5, 1_500, "mm")
        .Range(HoleMeters * 1000, nameof(HoleMeters), "The holes", 0.5, 50, "mm")
        .Range(FirstHoleDegrees, nameof(FirstHoleDegrees), "The direction of the first hole", -360, 360, "°")
        .That(Steps.Count <= 8, nameof(Steps), $"There are {Steps.Count} steps; at most 8 are kept.")
        .Problems;

    /// <summary>What is typed, and what the loudspeaker says where nothing is.</summary>
    /// <returns>Null with what is missing.</returns>
    public (TemplateInput? Input, IReadOnlyList<string> Missing) InputOf(string name, LoudspeakerData? driver)
    {
        var missing = new List<string>();
        var cutOut = CutOutMeters ?? driver?.CutOutMillimeters / 1000;
        // A rim of 15 mm about the basket is what a ring usually gets: common practice, no source.
        var outside = OutsideMeters ?? (driver?.OutsideMillimeters + 30) / 1000;
        var bolts = Bolts ?? driver?.Bolts ?? 0;
        var circle = BoltCircleMeters ?? driver?.BoltCircleMillimeters / 1000;
        var hole = HoleMeters ?? driver?.BoltHoleMillimeters / 1000;
        Need(cutOut, "cut-out diameter");
        Need(outside, Rectangular ? "outside length" : "outside diameter");
        if (Rectangular)
        {
            Need(OutsideWidthMeters ?? outside, "outside width");
        }

        if (bolts > 0)
        {
            Need(circle, "bolt circle");
            Need(hole, "size of the holes");
        }

        if (Steps.Any(step => step.DiameterMeters is null || step.DepthMeters is null))
        {
            missing.Add("diameter and depth of each step");
        }

        return missing.Count > 0 ? (null, missing) : (new TemplateInput
        {
            Name = string.IsNullOrWhiteSpace(name) ? "Template" : name,
            CutOutMeters = cutOut ?? 0,
            Outside = Rectangular ? new RectangularOutside(outside ?? 0, OutsideWidthMeters ?? outside ?? 0, CornerMeters) : new RoundOutside(outside ?? 0),
            ThicknessMeters = ThicknessMeters,
            Holes = bolts,
            BoltCircleMeters = bolts > 0 ? circle : null,
            HoleMeters = bolts > 0 ? hole : null,
            FirstHoleDegrees = FirstHoleDegrees,
            Rings = [.. Steps.Select(step => new TemplateRing(step.Name, step.DiameterMeters ?? 0, step.DepthMeters ?? 0, step.IsChamfer))],
        }, missing);

        void Need(double? value, string what)
        {
            if (value is null)
            {
                missing.Add(what);
            }
        }
    }
}
