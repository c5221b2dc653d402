using ShopFloor.Shop.Common;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Vehicles;

namespace ShopFloor.Shop.Phases.Build;

/// <summary>What a stage and a step may be, the same for templates and for one job.</summary>
internal static class StageRules
{
    /// <summary>
    /// The stages as they apply to a vehicle. A hybrid or electric one always gets its licensed-person step, also from templates that do not have it.
    /// </summary>
    public static IReadOnlyList<TemplateStage> For(Drivetrain drive, IReadOnlyList<TemplateStage> stages)
    {
        List<TemplateStage> fitting = [.. stages.Select(stage => stage.For(drive.IsHighVoltage()))];
        var first = fitting.FindIndex(stage => stage.Phase == JobPhase.Build);
        if (drive.IsHighVoltage() && first >= 0 && !fitting.Any(stage => stage.Steps.Any(step => step is { HighVoltageOnly: true, Required: true, NeedsSecondPerson: true })))
        {
            fitting[first] = fitting[first] with { Steps = [UsualStages.HighVoltageStep, .. fitting[first].Steps] };
        }

        return fitting;
    }

    public static Check Stage(this Check check, TemplateStage stage, string field)
    {
        check
            .Required(stage.Name, field, "Every stage's name")
            .Range(stage.PlannedHours, field, $"The planned time of '{stage.Name}'", 0, 2_000, "h")
            .That(stage.Steps.Count <= 100, field, $"'{stage.Name}' has {stage.Steps.Count} steps; at most 100 are kept.");
        foreach (var step in stage.Steps)
        {
            check.Step(step, field, stage.Name);
        }

        return check;
    }

    public static Check Step(this Check check, TemplateStep step, string field, string stageName)
    {
        check.Required(step.Text, field, $"The text of every step in '{stageName}'", Limits.Line);
        return step.Measure is not { } measure
            ? check
            : check
                .Required(measure.Name, field, $"What is measured at '{step.Text}'")
                .Required(measure.Unit, field, $"The unit of '{measure.Name}'", 20)
                .That(
                    measure.Lowest is null or (>= -1e9 and <= 1e9) && measure.Highest is null or (>= -1e9 and <= 1e9),
                    field,
                    $"The limits of '{step.Text}' are {measure.Lowest} and {measure.Highest}; accepted are numbers from -1,000,000,000 to 1,000,000,000.")
                .That(
                    measure is not { Lowest: { } low, Highest: { } high } || low <= high,
                    field,
                    $"The limits of '{step.Text}' run from {measure.Lowest} to {measure.Highest}: the lowest is above the highest.");
    }
}
