using System.Text;
using ShopFloor.Documents;
using ShopFloor.Documents.Drawing;
using ShopFloor.Documents.Tuning;
using ShopFloor.Shop.Phases.Tuning.Presets;
using ShopFloor.Shop.Staff;
using ShopFloor.Web.Account;

namespace ShopFloor.Web.Papers;

/// <summary>A version of a preset as it is typed into the processor, or read by it.</summary>
public static class PresetEndpoints
{
    public static void MapPresetSheets(this IEndpointRouteBuilder routes)
    {
        var sheets = routes.MapGroup("/documents/jobs/{jobId:guid}/presets").ExcludeFromDescription().RequireAuthorization(nameof(Permission.SeeJobs));
        sheets.MapGet("/{versionId:guid}.pdf", (HttpContext context, Guid jobId, Guid versionId, TuningPresets presets, IDocumentDrawing drawing) => SendAsync(context, jobId, versionId, presets, paper =>
        {
            using var file = new MemoryStream();
            drawing.Draw(PresetDocument.Compose(paper), file, PaperSizes.Of(paper.Letterhead));
            return PaperEndpoints.Shown(context, file.ToArray(), paper.JobReference, "preset");
        }));
        sheets.MapGet("/{versionId:guid}.csv", (HttpContext context, Guid jobId, Guid versionId, TuningPresets presets) => SendAsync(context, jobId, versionId, presets, paper => File(paper, paper.Sheet.ToCsv(), "text/csv", "csv")));
        sheets.MapGet("/{versionId:guid}.json", (HttpContext context, Guid jobId, Guid versionId, TuningPresets presets) => SendAsync(context, jobId, versionId, presets, paper => File(paper, paper.Sheet.ToJson(), "application/json", "json")));
        sheets.MapGet("/{versionId:guid}.txt", (HttpContext context, Guid jobId, Guid versionId, TuningPresets presets) => SendAsync(context, jobId, versionId, presets, paper => File(paper, paper.Sheet.ToText(), "text/plain", "txt")));
    }

    private static async Task<IResult> SendAsync(HttpContext context, Guid jobId, Guid versionId, TuningPresets presets, Func<PresetPaper, IResult> send)
    {
        context.Response.Headers.CacheControl = "no-store";
        return await presets.SheetAsync(context.User.ToActor(), jobId, versionId, context.RequestAborted) is { } paper ? send(paper) : Results.NotFound();
    }

    private static IResult File(PresetPaper paper, string text, string type, string end) =>
        Results.File(Encoding.UTF8.GetBytes(text), $"{type}; charset=utf-8", FormattableString.Invariant($"{paper.JobReference}-preset-{paper.Form.Number}.{end}"));
}
