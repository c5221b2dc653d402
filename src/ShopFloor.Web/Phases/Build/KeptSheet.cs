using System.Globalization;
using System.Text.Json;
using ShopFloor.Documents;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Phases.Build;
using ShopFloor.Shop.Vehicles;
using ShopFloor.Web.Live;

namespace ShopFloor.Web.Phases.Build;

/// <summary>
/// What the device keeps of a work page, so that a reload without a server still shows the steps: no more than the page itself shows,
/// and neither the client's name nor a price, which it does not show either.
/// </summary>
internal static class KeptSheet
{
    public static string Json(WorkSheet sheet, string restrictions, string highVoltageTitle, MeasuredSheet? measured, MeasuredSheet? levels) => JsonSerializer.Serialize(
        new
        {
            sheet.JobId,
            sheet.Reference,
            sheet.Title,
            Vehicle = sheet.VehicleTitle,
            sheet.Plate,
            Open = sheet.State == JobState.Open,
            TickUrl = $"{BuildEndpoints.Commands}/tick",
            MeasureUrl = $"{BuildEndpoints.Commands}/measure",
            PhotoUrl = PhotoEndpoints.Upload,
            Restrictions = restrictions,
            Cautions = sheet.DriveType.IsHighVoltage() ? [new { Title = highVoltageTitle, Text = Drivetrains.HighVoltageCaution }] : Array.Empty<object>(),
            Reports = sheet.Reports.Where(report => report.IsOpen).Select(report => report.Text),
            Stages = sheet.Stages.Select(stage => new
            {
                stage.Name,
                Current = stage.Id == sheet.CurrentStage?.Id,
                Held = stage.IsCommissioning && measured is { MayStart: false } ? "Not to be switched on yet: the page with the connection says what holds it and who releases it." : null,
                Measures = (stage.IsCommissioning && measured is not null ? measured.Rows : []).Concat(LevelStages.Covers(stage) && levels is not null ? levels.Rows : []).Select(MeasureOf),
                Steps = stage.Steps.Select(step => new
                {
                    step.Id,
                    step.Text,
                    Ticked = step.IsTicked,
                    Words = Words(step),
                    Measure = step.Measure is { } measure ? $"{measure.Name} ({measure.Unit}), accepted {measure.LimitsText}" : null,
                    PhotoFields = step.NeedsPhoto ? PhotoFields.Of(sheet.JobId, PhotoSubject.Step, step.Id) : null,
                }),
            }),
        },
        JsonSerializerOptions.Web);

    private static object MeasureOf(MeasuredRow row) => new
    {
        row.Point.Id,
        row.Point.Name,
        row.Point.How,
        row.Point.Unit,
        row.Point.Lowest,
        row.Point.Highest,
        Limits = $"{(row.Gain is null ? "Predicted" : "Set to")} {MeasuredWords.Predicted(row.Point.Predicted, row.Point.PredictedIsPart, row.Point.Unit)}, accepted {MeasuredWords.Accepted(row.Point.Lowest, row.Point.Highest, row.Point.Unit)}",
        Last = row.Current is { } current ? $"{MeasuredWords.Number(current.Value, row.Point.Unit)}, {MeasuredWords.Verdict(row).ToLower(CultureInfo.CurrentCulture)}, by {current.By}" : null,
    };

    private static string Words(SheetStep step) => string.Join(", ", new[]
    {
        step.IsTicked ? $"ticked by {step.TickedBy}" : null,
        step.Required ? null : "optional",
        step.NeedsPhoto ? (step.PhotoIds.Count > 0 ? $"photo: {step.PhotoIds.Count}" : "photo needed") : null,
        step.NeedsSecondPerson ? (step.ConfirmedAt is null ? "second person needed" : $"confirmed by {step.ConfirmedBy}") : null,
    }.OfType<string>());
}
