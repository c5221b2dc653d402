using ShopFloor.Shop.Common;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Storage;
using ShopFloor.Shop.Storage.Audit;

namespace ShopFloor.Shop.Phases.Build;

/// <summary>The shop's own order of stages and steps for a kind of job.</summary>
public sealed class StageTemplate : IAudited, IVersioned, IRemovable
{
    public StageTemplate(string name, IEnumerable<TemplateStage> stages)
    {
        Id = Guid.CreateVersion7();
        Name = name;
        Stages = [.. stages];
    }

    private StageTemplate()
    {
    }

    public Guid Id { get; private set; }

    public Guid Version { get; private set; }

    public string Name { get; set; } = "";

    public bool IsDefault { get; set; }

    public List<TemplateStage> Stages { get; set; } = [];

    public DateTimeOffset? RemovedAt { get; private set; }

    public void Remove(DateTimeOffset at) => RemovedAt ??= at;

    public void BringBack() => RemovedAt = null;

    public static List<Problem> ProblemsIn(string name, IReadOnlyList<TemplateStage> stages)
    {
        var check = new Check()
            .Required(name, nameof(Name), "The template's name")
            .That(stages.Count is > 0 and <= 40, nameof(Stages), $"The template has {stages.Count} stages; accepted is 1 to 40.");
        foreach (var stage in stages)
        {
            check.Stage(stage, nameof(Stages));
        }

        return check.Problems;
    }

    string IAudited.AuditName => Name;

    Guid? IAudited.AuditJobId => null;
}

/// <param name="Name">Name of the stage.</param>
/// <param name="Phase">Phase of the job it belongs to.</param>
/// <param name="PlannedHours">Usual time, hours.</param>
/// <param name="Steps">What there is to do in it.</param>
/// <param name="IsCommissioning">Whether new wiring is switched on in it: the gate of the electrical plan and the measured values holds it.</param>
public sealed record TemplateStage(string Name, JobPhase Phase, decimal PlannedHours, IReadOnlyList<TemplateStep> Steps, bool IsCommissioning = false)
{
    /// <summary>The stage as it applies to a vehicle.</summary>
    public TemplateStage For(bool highVoltage) => this with { Steps = [.. Steps.Where(step => highVoltage || !step.HighVoltageOnly)] };

    public override string ToString() => $"{Name} ({Steps.Count} steps, {PlannedHours} h)";
}

/// <param name="Text">What to do.</param>
/// <param name="Required">Whether delivery waits for it.</param>
/// <param name="NeedsPhoto">Whether a photo proves it.</param>
/// <param name="NeedsSecondPerson">Whether somebody else confirms it.</param>
/// <param name="Measure">The value to measure, if any.</param>
/// <param name="HighVoltageOnly">Whether only hybrid and electric vehicles get it.</param>
public sealed record TemplateStep(
    string Text,
    bool Required = true,
    bool NeedsPhoto = false,
    bool NeedsSecondPerson = false,
    StepMeasure? Measure = null,
    bool HighVoltageOnly = false);

/// <param name="Name">What is measured.</param>
/// <param name="Unit">Unit symbol.</param>
/// <param name="Lowest">Lowest accepted value, or null for none.</param>
/// <param name="Highest">Highest accepted value, or null for none.</param>
public sealed record StepMeasure(string Name, string Unit, double? Lowest, double? Highest)
{
    public bool Accepts(double value) => double.IsFinite(value) && value >= (Lowest ?? double.NegativeInfinity) && value <= (Highest ?? double.PositiveInfinity);

    public string LimitsText => (Lowest, Highest) switch
    {
        ({ } low, { } high) => $"{low} to {high} {Unit}",
        ({ } low, null) => $"at least {low} {Unit}",
        (null, { } high) => $"at most {high} {Unit}",
        _ => $"any value in {Unit}",
    };
}
