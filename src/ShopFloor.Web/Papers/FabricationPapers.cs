using System.Globalization;
using System.Text;
using ShopFloor.Documents.Drawing;
using ShopFloor.Documents.Fabrication;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Phases.Design;
using ShopFloor.Shop.Staff;
using ShopFloor.Web.Account;

namespace ShopFloor.Web.Papers;

/// <summary>Papers and machine files of what is made by hand.</summary>
public static class FabricationPapers
{
    public static void MapFabrication(this RouteGroupBuilder papers)
    {
        papers.MapGet("/cut-list.pdf", CutListAsync).RequireAuthorization(nameof(Permission.SeeJobs));
        papers.MapGet("/cut-list/{designId:guid}/{number:int}.svg", (HttpContext context, Guid jobId, Guid designId, int number, CutLists lists, CancellationToken cancellationToken) =>
            SheetFileAsync(context, jobId, designId, number, isDxf: false, lists, cancellationToken)).RequireAuthorization(nameof(Permission.SeeJobs));
        papers.MapGet("/cut-list/{designId:guid}/{number:int}.dxf", (HttpContext context, Guid jobId, Guid designId, int number, CutLists lists, CancellationToken cancellationToken) =>
            SheetFileAsync(context, jobId, designId, number, isDxf: true, lists, cancellationToken)).RequireAuthorization(nameof(Permission.SeeJobs));
        papers.MapGet("/templates.pdf", TemplatesAsync).RequireAuthorization(nameof(Permission.SeeJobs));
        papers.MapGet("/templates/{designId:guid}.dxf", TemplateFileAsync).RequireAuthorization(nameof(Permission.SeeJobs));
        papers.MapGet("/treatment.pdf", TreatmentAsync).RequireAuthorization(nameof(Permission.SeeJobs));
        papers.MapGet("/composites.pdf", CompositesAsync).RequireAuthorization(nameof(Permission.SeeJobs));
    }

    private static async Task<IResult> CompositesAsync(HttpContext context, Guid jobId, Laminates laminates, IDocumentDrawing drawing, CancellationToken cancellationToken) =>
        await laminates.SheetAsync(context.User.ToActor(), jobId, CultureInfo.CurrentCulture, cancellationToken) is { } sheet
            ? PaperEndpoints.Shown(context, PaperEndpoints.Draw(drawing, LaminateDocument.Compose(sheet), sheet.Letterhead), sheet.JobReference, "composites")
            : Results.NotFound();

    private static async Task<IResult> TreatmentAsync(HttpContext context, Guid jobId, Treatments treatments, IDocumentDrawing drawing, CancellationToken cancellationToken) =>
        await treatments.SheetAsync(context.User.ToActor(), jobId, CultureInfo.CurrentCulture, cancellationToken) is { } sheet
            ? PaperEndpoints.Shown(context, PaperEndpoints.Draw(drawing, TreatmentDocument.Compose(sheet), sheet.Letterhead), sheet.JobReference, "treatment")
            : Results.NotFound();

    private static async Task<IResult> CutListAsync(HttpContext context, Guid jobId, CutLists lists, IDocumentDrawing drawing, CancellationToken cancellationToken) =>
        await lists.SheetAsync(context.User.ToActor(), jobId, CultureInfo.CurrentCulture, cancellationToken) is { } sheet
            ? PaperEndpoints.Shown(context, PaperEndpoints.Draw(drawing, CutListDocument.Compose(sheet), sheet.Letterhead), sheet.JobReference, "cut-list")
            : Results.NotFound();

    private static async Task<IResult> TemplatesAsync(HttpContext context, Guid jobId, Templates templates, IDocumentDrawing drawing, CancellationToken cancellationToken) =>
        await templates.SheetAsync(context.User.ToActor(), jobId, CultureInfo.CurrentCulture, cancellationToken) is { } sheet
            ? PaperEndpoints.Shown(context, PaperEndpoints.Draw(drawing, TemplateDocument.Compose(sheet), sheet.Letterhead), sheet.JobReference, "templates")
            : Results.NotFound();

    /// <param name="number">Of the sheet, counted over all materials as on screen, from 1.</param>
    private static async Task<IResult> SheetFileAsync(HttpContext context, Guid jobId, Guid designId, int number, bool isDxf, CutLists lists, CancellationToken cancellationToken)
    {
        var actor = context.User.ToActor();
        var page = await lists.GetAsync(actor, jobId, cancellationToken);
        if (page.Designs.FirstOrDefault(design => design.Id == designId) is not { } found)
        {
            return Results.NotFound();
        }

        var basis = CutListMapping.Map(found.Form, page.Materials, UnitText.Invariant);
        if (basis.Problems.Count > 0)
        {
            return Results.NotFound();
        }

        var view = await lists.LayOutAsync(actor, basis, UnitText.Invariant, null, cancellationToken);
        if (number < 1 || view.Result.Materials.SelectMany(material => material.Sheets).ElementAtOrDefault(number - 1) is not { } sheet)
        {
            return Results.NotFound();
        }

        return isDxf
            ? File(context, SheetDrawing.Dxf(sheet, basis.Input.Parts), "application/dxf", string.Create(CultureInfo.InvariantCulture, $"sheet-{number}.dxf"))
            : File(context, SheetDrawing.Svg(sheet, UnitText.Invariant), "image/svg+xml", string.Create(CultureInfo.InvariantCulture, $"sheet-{number}.svg"));
    }

    private static async Task<IResult> TemplateFileAsync(HttpContext context, Guid jobId, Guid designId, Templates templates, CancellationToken cancellationToken) =>
        await templates.SheetAsync(context.User.ToActor(), jobId, CultureInfo.InvariantCulture, cancellationToken) is { } sheet
            && sheet.Templates.FirstOrDefault(each => each.Id == designId).View?.Result is { } result
            ? File(context, TemplateDrawing.Dxf(result), "application/dxf", $"{sheet.JobReference}-template.dxf")
            : Results.NotFound();

    private static IResult File(HttpContext context, string text, string type, string name)
    {
        context.Response.Headers.CacheControl = "no-store";
        context.Response.Headers.XContentTypeOptions = "nosniff";
        return Results.File(Encoding.UTF8.GetBytes(text), type, name);
    }
}
