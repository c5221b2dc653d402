using System.Text;
using ShopFloor.Documents;
using ShopFloor.Documents.CheckIn;
using ShopFloor.Documents.Composition;
using ShopFloor.Documents.Diagrams;
using ShopFloor.Documents.Drawing;
using ShopFloor.Documents.Enclosures;
using ShopFloor.Documents.Estimate;
using ShopFloor.Documents.Signal;
using ShopFloor.Documents.Traveller;
using ShopFloor.Documents.Weight;
using ShopFloor.Documents.Wiring;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Money;
using ShopFloor.Shop.Phases.Build;
using ShopFloor.Shop.Phases.Design;
using ShopFloor.Shop.Phases.Estimate;
using ShopFloor.Shop.Phases.Handover;
using ShopFloor.Shop.Phases.Intake;
using ShopFloor.Shop.Staff;
using ShopFloor.Web.Account;

namespace ShopFloor.Web.Papers;

/// <summary>The papers of a job as PDF, shown in the browser.</summary>
public static class PaperEndpoints
{
    public static void MapPapers(this IEndpointRouteBuilder routes)
    {
        var papers = routes.MapGroup("/documents/jobs/{jobId:guid}").ExcludeFromDescription();
        papers.MapGet("/handover.pdf", HandoverAsync).RequireAuthorization(nameof(Permission.SeeJobs));
        papers.MapGet("/traveller.pdf", TravellerAsync).RequireAuthorization(nameof(Permission.SeeJobs));
        papers.MapGet("/check-in.pdf", CheckInAsync).RequireAuthorization(nameof(Permission.SeeJobs));
        papers.MapGet("/wiring.pdf", WiringAsync).RequireAuthorization(nameof(Permission.SeeJobs));
        papers.MapGet("/labels.pdf", LabelsAsync).RequireAuthorization(nameof(Permission.SeeJobs));
        papers.MapGet("/wiring.csv", WiringTableAsync).RequireAuthorization(nameof(Permission.SeeJobs));
        papers.MapGet("/wiring.json", WiringDataAsync).RequireAuthorization(nameof(Permission.SeeJobs));
        papers.MapGet("/feed.svg", DiagramAsync).RequireAuthorization(nameof(Permission.SeeJobs));
        papers.MapGet("/signal.pdf", SignalAsync).RequireAuthorization(nameof(Permission.SeeJobs));
        papers.MapGet("/enclosures.pdf", EnclosuresAsync).RequireAuthorization(nameof(Permission.SeeJobs));
        papers.MapGet("/signal-path.json", SignalDataAsync).RequireAuthorization(nameof(Permission.SeeJobs));
        papers.MapGet("/signal-connections.csv", (HttpContext context, Guid jobId, SignalTables tables, CancellationToken cancellationToken) =>
            SignalCsvAsync(context, jobId, tables, SignalTables.ConnectionsCsv, "connections", cancellationToken)).RequireAuthorization(nameof(Permission.SeeJobs));
        papers.MapGet("/gain-sheet.csv", (HttpContext context, Guid jobId, SignalTables tables, CancellationToken cancellationToken) =>
            SignalCsvAsync(context, jobId, tables, SignalTables.GainsCsv, "gain-sheet", cancellationToken)).RequireAuthorization(nameof(Permission.SeeJobs));
        papers.MapGet("/weight.pdf", WeightAsync).RequireAuthorization(nameof(Permission.SeeJobs));
        papers.MapGet("/estimate.pdf", EstimateAsync).RequireAuthorization(nameof(Permission.SeePrices));
    }

    private static async Task<IResult> WiringAsync(
        HttpContext context, Guid jobId, WiringSchedules schedules, MeasuredValues measured, IDocumentDrawing drawing, CancellationToken cancellationToken)
    {
        if (await ScheduleAsync(context, jobId, schedules, cancellationToken) is not { } schedule)
        {
            return Results.NotFound();
        }

        var sheet = await measured.SheetAsync(context.User.ToActor(), jobId, UnitText.Invariant, cancellationToken);
        return Shown(context, Draw(drawing, WiringDocument.Compose(schedule, [.. sheet.Rows.Select(MeasuredFact.Of)]), schedule.Letterhead), schedule.JobReference, "wiring");
    }

    private static async Task<IResult> SignalAsync(HttpContext context, Guid jobId, SignalPaths paths, MeasuredValues measured, IDocumentDrawing drawing, CancellationToken cancellationToken)
    {
        var actor = context.User.ToActor();
        if (await paths.SheetAsync(actor, jobId, System.Globalization.CultureInfo.CurrentCulture, cancellationToken) is not { } sheet)
        {
            return Results.NotFound();
        }

        var levels = (await measured.LevelsAsync(actor, jobId, UnitText.Invariant, cancellationToken)).Rows
            .Where(row => row.Gain is not null)
            .ToDictionary(row => row.Gain!.ChannelId, MeasuredFact.Of); // filtered
        return Shown(context, Draw(drawing, SignalDocument.Compose(sheet, levels), sheet.Letterhead), sheet.JobReference, "signal");
    }

    private static async Task<IResult> SignalDataAsync(HttpContext context, Guid jobId, SignalTables tables, CancellationToken cancellationToken)
    {
        if (await tables.GetAsync(context.User.ToActor(), jobId, cancellationToken) is not { } table)
        {
            return Results.NotFound();
        }

        context.Response.Headers.CacheControl = "no-store";
        context.Response.Headers.ContentDisposition = $"attachment; filename=\"{table.JobReference}-signal-path.json\"";
        return Results.Ok(table); // the same composition as that of the API
    }

    private static async Task<IResult> SignalCsvAsync(
        HttpContext context, Guid jobId, SignalTables tables, Func<SignalTable, byte[]> write, string name, CancellationToken cancellationToken)
    {
        if (await tables.GetAsync(context.User.ToActor(), jobId, cancellationToken) is not { } table)
        {
            return Results.NotFound();
        }

        context.Response.Headers.CacheControl = "no-store";
        return Results.File(write(table), "text/csv; charset=utf-8", $"{table.JobReference}-{name}.csv");
    }

    private static async Task<IResult> EnclosuresAsync(HttpContext context, Guid jobId, Enclosures enclosures, IDocumentDrawing drawing, CancellationToken cancellationToken) =>
        await enclosures.SheetAsync(context.User.ToActor(), jobId, System.Globalization.CultureInfo.CurrentCulture, cancellationToken) is { } sheet
            ? Shown(context, Draw(drawing, EnclosureDocument.Compose(sheet), sheet.Letterhead), sheet.JobReference, "enclosures")
            : Results.NotFound();

    private static async Task<IResult> WeightAsync(HttpContext context, Guid jobId, WeightPlans weights, IDocumentDrawing drawing, CancellationToken cancellationToken) =>
        await weights.SheetAsync(context.User.ToActor(), jobId, System.Globalization.CultureInfo.CurrentCulture, cancellationToken) is { } sheet
            ? Shown(context, Draw(drawing, WeightDocument.Compose(sheet), sheet.Letterhead), sheet.JobReference, "weight")
            : Results.NotFound();

    private static async Task<IResult> LabelsAsync(
        HttpContext context, Guid jobId, WiringSchedules schedules, IDocumentDrawing drawing, CancellationToken cancellationToken) =>
        await ScheduleAsync(context, jobId, schedules, cancellationToken) is { } schedule
            ? Shown(context, Draw(drawing, LabelDocument.Compose(schedule), schedule.Letterhead), schedule.JobReference, "labels")
            : Results.NotFound();

    private static async Task<IResult> WiringTableAsync(HttpContext context, Guid jobId, WiringSchedules schedules, CancellationToken cancellationToken)
    {
        if (await ScheduleAsync(context, jobId, schedules, cancellationToken) is not { } schedule)
        {
            return Results.NotFound();
        }

        context.Response.Headers.CacheControl = "no-store";
        return Results.File(WiringSchedules.Csv(schedule), "text/csv; charset=utf-8", $"{schedule.JobReference}-wiring.csv");
    }

    private static async Task<IResult> WiringDataAsync(HttpContext context, Guid jobId, WiringSchedules schedules, CancellationToken cancellationToken)
    {
        if (await ScheduleAsync(context, jobId, schedules, cancellationToken) is not { } schedule)
        {
            return Results.NotFound();
        }

        context.Response.Headers.CacheControl = "no-store";
        context.Response.Headers.ContentDisposition = $"attachment; filename=\"{schedule.JobReference}-wiring.json\"";
        return Results.Ok(WiringTable.Of(schedule)); // the same composition as that of the API
    }

    private static async Task<IResult> DiagramAsync(HttpContext context, Guid jobId, WiringSchedules schedules, CancellationToken cancellationToken)
    {
        if (await ScheduleAsync(context, jobId, schedules, cancellationToken) is not { } schedule
            || PlanDiagram.Of(schedule.Plan, new UnitText(schedule.Letterhead.Units, System.Globalization.CultureInfo.CurrentCulture)) is not { } tree)
        {
            return Results.NotFound();
        }

        context.Response.Headers.CacheControl = "no-store";
        return Results.File(Encoding.UTF8.GetBytes(FeedDiagram.Draw(tree)), "image/svg+xml", $"{schedule.JobReference}-feed.svg");
    }

    private static Task<WiringSchedule?> ScheduleAsync(HttpContext context, Guid jobId, WiringSchedules schedules, CancellationToken cancellationToken) =>
        schedules.GetAsync(context.User.ToActor(), jobId, UnitText.Invariant, cancellationToken);

    /// <summary>A PDF the browser shows. The name is made of letters, digits and hyphens whatever the parts hold.</summary>
    public static IResult Shown(HttpContext context, ReadOnlyMemory<byte> pdf, params string[] nameParts)
    {
        ArgumentNullException.ThrowIfNull(context);
        context.Response.Headers.ContentDisposition = $"inline; filename=\"{FileName(nameParts)}\"";
        context.Response.Headers.CacheControl = "no-store";
        context.Response.Headers.XContentTypeOptions = "nosniff";
        return Results.Bytes(pdf, "application/pdf");
    }

    public static string FileName(params IEnumerable<string> parts) =>
        string.Join('-', parts.Select(part => string.Concat(part.Where(letter => char.IsAsciiLetterOrDigit(letter) || letter == '-'))).Where(part => part.Length > 0)) + ".pdf";

    private static async Task<IResult> HandoverAsync(
        HttpContext context, Guid jobId, int? release, JobCards jobs, Handovers handovers, IHandoverPrint print, CancellationToken cancellationToken)
    {
        var actor = context.User.ToActor();
        if (await jobs.HeadAsync(actor, jobId, cancellationToken) is not { } head)
        {
            return Results.NotFound();
        }

        // What the client got goes before what it would say now; a preview is only for a car that has not been handed over.
        var given = release is null && head.State != JobState.Delivered ? null : await handovers.ReleasedAsync(actor, jobId, release, cancellationToken);
        if (given is { } released)
        {
            return Shown(context, released.Pdf, head.Reference, "handover", Text(released.Number));
        }

        if (release is not null)
        {
            return Results.NotFound();
        }

        var facts = await handovers.FactsAsync(actor, jobId, cancellationToken);
        return Shown(context, await print.PrintAsync(facts, cancellationToken), head.Reference, "handover-preview");
    }

    private static async Task<IResult> TravellerAsync(
        HttpContext context, Guid jobId, JobCards jobs, Travellers travellers, IDocumentDrawing drawing, CancellationToken cancellationToken)
    {
        var actor = context.User.ToActor();
        if (await jobs.HeadAsync(actor, jobId, cancellationToken) is not { } head)
        {
            return Results.NotFound();
        }

        var facts = await travellers.ReadAsync(actor, jobId, cancellationToken);
        var address = $"{context.Request.Scheme}://{context.Request.Host}/work/{jobId}";
        return Shown(context, Draw(drawing, TravellerDocument.Compose(facts, address), facts.Letterhead), head.Reference, "traveller");
    }

    private static async Task<IResult> CheckInAsync(
        HttpContext context, Guid jobId, JobCards jobs, CheckInReceipts receipts, PhotoBytes photos, IDocumentDrawing drawing, CancellationToken cancellationToken)
    {
        var actor = context.User.ToActor();
        if (await jobs.HeadAsync(actor, jobId, cancellationToken) is not { } head)
        {
            return Results.NotFound();
        }

        var facts = await receipts.ReadAsync(actor, jobId, cancellationToken);
        var pictures = await photos.ReadAsync(facts.Photos.Select(photo => photo.Hash), cancellationToken);
        return Shown(context, Draw(drawing, CheckInDocument.Compose(facts, pictures), facts.Letterhead), head.Reference, "check-in");
    }

    private static async Task<IResult> EstimateAsync(
        HttpContext context, Guid jobId, int? number, Estimates estimates, IDocumentDrawing drawing, CancellationToken cancellationToken) =>
        await estimates.PaperAsync(context.User.ToActor(), jobId, number, cancellationToken) is { } paper
            ? Shown(context, Draw(drawing, EstimateDocument.Compose(paper), paper.Letterhead), paper.JobReference, "estimate", Text(paper.Number))
            : Results.NotFound();

    private static byte[] Draw(IDocumentDrawing drawing, PrintedDocument document, Letterhead letterhead)
    {
        using var file = new MemoryStream();
        drawing.Draw(document, file, PaperSizes.Of(letterhead));
        return file.ToArray();
    }

    private static string Text(int number) => number.ToString(System.Globalization.CultureInfo.InvariantCulture);
}
