using ShopFloor.Shop.Common;

namespace ShopFloor.Shop.Phases.Build;

/// <summary>What a stage and a step may be, the same for templates and for one job.</summary>
internal static class StageRules
{
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
