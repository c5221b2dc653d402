using System.Globalization;
using ShopFloor.Shop.Phases.Build;
using ShopFloor.Web.Components;

namespace ShopFloor.Web.Phases.Build;

/// <summary>Words and marks of the bay that several pages share.</summary>
internal static class BayWords
{
    public static StageState StateOf(SheetStage stage) =>
        stage.IsBlocked ? StageState.Blocked
        : stage.IsDone ? StageState.Done
        : stage.Running.Count > 0 || stage.Steps.Any(step => step.IsTicked) ? StageState.Working
        : StageState.NotStarted;

    public static string Hours(decimal hours)
    {
        var minutes = (int)Math.Round(hours * 60, MidpointRounding.AwayFromZero);
        return string.Create(CultureInfo.CurrentCulture, $"{minutes / 60} h {minutes % 60:00} min");
    }

    public static string Value(StepMeasure? measure, double? value) =>
        string.Create(CultureInfo.CurrentCulture, $"{value}\u00A0{measure?.Unit}");

    public static string Count(int number, string one, string many) =>
        number == 1 ? $"1 {one}" : string.Create(CultureInfo.CurrentCulture, $"{number} {many}");

    /// <summary>Report text for a value outside its limits, so that nobody types it again.</summary>
    public static string ReportOf(SheetStep step) => step.Measure is { } measure
        ? string.Create(CultureInfo.CurrentCulture, $"{measure.Name} is {step.RefusedValue} {measure.Unit}, accepted is {measure.LimitsText}: {step.Text}")
        : step.Text;
}
