using System.ComponentModel.DataAnnotations;
using System.Globalization;
using ShopFloor.Shop.Jobs;

namespace ShopFloor.Shop.Phases.Build;

/// <summary>A stage as it is edited, in a template or in one job.</summary>
public sealed class StageForm
{
    [Display(Name = "Stage")]
    public string Name { get; set; } = "";

    [Display(Name = "Phase of the job")]
    public JobPhase Phase { get; set; } = JobPhase.Build;

    [Display(Name = "Planned time (h)")]
    public decimal PlannedHours { get; set; }

    [Display(Name = "New wiring is switched on here")]
    public bool IsCommissioning { get; set; }

    [Display(Name = "Steps")]
    public List<StepForm> Steps { get; set; } = [];

    public static StageForm Of(TemplateStage stage) => new()
    {
        Name = stage.Name,
        Phase = stage.Phase,
        PlannedHours = stage.PlannedHours,
        IsCommissioning = stage.IsCommissioning,
        Steps = [.. stage.Steps.Select(StepForm.Of)],
    };

    public TemplateStage ToStage() => new(Name.Trim(), Phase, PlannedHours, [.. Steps.Select(step => step.ToStep())], IsCommissioning);

    // Compared and shown as text when two people edited the same template.
    public override string ToString() =>
        string.Create(CultureInfo.CurrentCulture, $"{Name} ({PlannedHours} h{(IsCommissioning ? ", switches new wiring on" : "")}): {string.Join(", ", Steps)}");
}

/// <summary>A step as it is edited.</summary>
public sealed class StepForm
{
    [Display(Name = "What to do")]
    public string Text { get; set; } = "";

    [Display(Name = "Delivery waits for it")]
    public bool Required { get; set; } = true;

    [Display(Name = "Photo proves it")]
    public bool NeedsPhoto { get; set; }

    [Display(Name = "Second person confirms it")]
    public bool NeedsSecondPerson { get; set; }

    [Display(Name = "Only hybrid and electric vehicles")]
    public bool HighVoltageOnly { get; set; }

    [Display(Name = "What is measured")]
    public string MeasureName { get; set; } = "";

    [Display(Name = "Unit")]
    public string MeasureUnit { get; set; } = "";

    [Display(Name = "Lowest")]
    public double? Lowest { get; set; }

    [Display(Name = "Highest")]
    public double? Highest { get; set; }

    public static StepForm Of(TemplateStep step) => new()
    {
        Text = step.Text,
        Required = step.Required,
        NeedsPhoto = step.NeedsPhoto,
        NeedsSecondPerson = step.NeedsSecondPerson,
        HighVoltageOnly = step.HighVoltageOnly,
        MeasureName = step.Measure?.Name ?? "",
        MeasureUnit = step.Measure?.Unit ?? "",
        Lowest = step.Measure?.Lowest,
        Highest = step.Measure?.Highest,
    };

    public TemplateStep ToStep() => new(
        Text.Trim(),
        Required,
        NeedsPhoto,
        NeedsSecondPerson,
        MeasureName.Trim().Length > 0 || MeasureUnit.Trim().Length > 0 || Lowest is not null || Highest is not null
            ? new StepMeasure(MeasureName.Trim(), MeasureUnit.Trim(), Lowest, Highest)
            : null,
        HighVoltageOnly);

    public override string ToString()
    {
        var proofs = new[]
        {
            Required ? null : "optional",
            NeedsPhoto ? "photo" : null,
            NeedsSecondPerson ? "second person" : null,
            HighVoltageOnly ? "hybrid and electric only" : null,
            ToStep().Measure is { } measure ? $"{measure.Name} {measure.LimitsText}" : null,
        }.Where(proof => proof is not null).ToList();
        return proofs.Count == 0 ? Text : $"{Text} [{string.Join(", ", proofs)}]";
    }
}
