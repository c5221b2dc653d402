using System.Globalization;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Phases.Build;
using ShopFloor.Shop.Phases.Design;
using ShopFloor.Shop.Phases.Intake;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Vehicles;
using ShopFloor.Web.Account;

namespace ShopFloor.Web.Api;

/// <summary>Jobs and their cards.</summary>
internal static class JobEndpoints
{
    public static void MapJobs(this IEndpointRouteBuilder api)
    {
        var jobs = api.MapGroup("/jobs").WithTags("Jobs");
        jobs.MapGet("/", ListAsync).WithName("list-jobs")
            .WithSummary("Open jobs by promised date, a page at a time: send 'next' of one page as 'after' of the following.")
            .Produces<ApiJobPage>().ProducesProblem(StatusCodes.Status422UnprocessableEntity).Needs(Permission.SeeJobs);
        jobs.MapGet("/{jobId:guid}", GetAsync).WithName("get-job").WithSummary("A job's card. ETag is its version.")
            .Produces<ApiJob>().ProducesProblem(StatusCodes.Status404NotFound).Needs(Permission.SeeJobs);
        jobs.MapPost("/", OpenAsync).WithName("open-job").WithSummary("Opens a job for a client and vehicle that are known (by id) or new (by details).")
            .Accepts<OpenJob>("application/json").Produces<ApiOpened>(StatusCodes.Status201Created).ProducesProblem(StatusCodes.Status422UnprocessableEntity).Needs(Permission.EditJobCards);
        jobs.MapPut("/{jobId:guid}/card", EditAsync).WithName("edit-job-card")
            .WithSummary("Replaces a job's card. Needs If-Match. Without the scope SeePrices the budget stays as it is.")
            .Accepts<JobCardDetails>("application/json").Produces<ApiJob>().ProducesProblem(StatusCodes.Status404NotFound).ProducesProblem(StatusCodes.Status412PreconditionFailed)
            .ProducesProblem(StatusCodes.Status422UnprocessableEntity).ProducesProblem(StatusCodes.Status428PreconditionRequired).Needs(Permission.EditJobCards);
        jobs.MapGet("/{jobId:guid}/wiring", WiringAsync).WithName("get-job-wiring")
            .WithSummary("What the bench cuts: every conductor with its ends, size, colour, cut length, terminals, fuse and route.")
            .Produces<WiringTable>().ProducesProblem(StatusCodes.Status404NotFound).Needs(Permission.SeeJobs);
        jobs.MapGet("/{jobId:guid}/signal-path", SignalPathAsync).WithName("get-job-signal-path")
            .WithSummary("The signal path: sources with what arrives of their formats, every cable, the channel map, and the gain sheet with the voltages measured.")
            .Produces<SignalTable>().ProducesProblem(StatusCodes.Status404NotFound).Needs(Permission.SeeJobs);
        jobs.MapGet("/{jobId:guid}/mass", MassAsync).WithName("get-job-mass")
            .WithSummary("What the parts add, item by item with its place, and what it does to axles, wheels and payload; scales before and after.")
            .Produces<MassTable>().ProducesProblem(StatusCodes.Status404NotFound).Needs(Permission.SeeJobs);
        jobs.MapGet("/{jobId:guid}/budget", BudgetAsync).WithName("get-job-budget").WithSummary("What the client wants to spend.")
            .Produces<ApiBudget>().ProducesProblem(StatusCodes.Status404NotFound).Needs(Permission.SeePrices);
    }

    private static async Task<IResult> ListAsync(
        HttpContext context, JobBoard board, string? search = null, bool late = false, bool blocked = false, string? after = null, int size = 50)
    {
        BoardKey? key = null;
        if (after is not null && !TryKey(after, out key))
        {
            return ApiJson.Refused([new("after", $"'after' is '{after}'; accepted is 'next' of the page before.")], null);
        }

        if (size is < 1 or > Shop.Common.Limits.Page)
        {
            return ApiJson.Refused([new("size", $"'size' is {size}; accepted is 1 to {Shop.Common.Limits.Page}.")], null);
        }

        var query = new BoardQuery { Search = search ?? "", Late = late, Blocked = blocked, After = key, Size = size };
        var page = await board.PageAsync(context.User.ToActor(), query, context.RequestAborted);
        return Results.Ok(new ApiJobPage([.. page.Rows.Select(ApiJobRow.Of)], page.Next is { } next ? TextOf(next) : null));
    }

    private static async Task<IResult> GetAsync(HttpContext context, JobDesk desk, Guid jobId) =>
        await desk.CardAsync(context.User.ToActor(), jobId, context.RequestAborted) is { } view
            ? ApiAnswers.Versioned(context, ApiJob.Of(view), view.Job.Version)
            : ApiAnswers.Missing("job");

    private static Task<IResult> OpenAsync(HttpContext context, JobDesk desk) =>
        ApiJson.WithBodyAsync<OpenJob>(context, async (command, body) =>
        {
            var actor = context.User.ToActor();
            if (!actor.May(Permission.SeePrices))
            {
                (command.Card.BudgetFrom, command.Card.BudgetTo) = (null, null);
            }

            var outcome = await desk.OpenAsync(actor, command, context.RequestAborted);
            if (!outcome.Succeeded)
            {
                return outcome.Answer(body, _ => Results.Empty);
            }

            context.Response.Headers.Location = $"{ShopApi.Root}/jobs/{outcome.Value}";
            return Results.Json(new ApiOpened(outcome.Value), statusCode: StatusCodes.Status201Created);
        });

    private static Task<IResult> EditAsync(HttpContext context, JobDesk desk, Guid jobId) =>
        ApiJson.WithBodyAsync<JobCardDetails>(context, async (card, body) =>
        {
            var actor = context.User.ToActor();
            if (!ApiAnswers.TryVersion(context, out var version, out var refusal))
            {
                return refusal;
            }

            if (await desk.CardAsync(actor, jobId, context.RequestAborted) is not { } stands)
            {
                return ApiAnswers.Missing("job");
            }

            if (!actor.May(Permission.SeePrices))
            {
                (card.BudgetFrom, card.BudgetTo) = (stands.Job.Details.BudgetFrom, stands.Job.Details.BudgetTo);
            }

            var outcome = await desk.EditCardAsync(actor, jobId, version, card, context.RequestAborted);
            return outcome.Succeeded ? await GetAsync(context, desk, jobId) : outcome.Answer(body, _ => Results.Empty);
        });

    private static async Task<IResult> WiringAsync(HttpContext context, WiringSchedules schedules, Guid jobId) =>
        await schedules.GetAsync(context.User.ToActor(), jobId, UnitText.Invariant, context.RequestAborted) is { } schedule
            ? Results.Ok(WiringTable.Of(schedule))
            : ApiAnswers.Missing("job");

    private static async Task<IResult> SignalPathAsync(HttpContext context, SignalTables tables, Guid jobId) =>
        await tables.GetAsync(context.User.ToActor(), jobId, context.RequestAborted) is { } table
            ? Results.Ok(table)
            : ApiAnswers.Missing("job");

    private static async Task<IResult> MassAsync(HttpContext context, WeightPlans weights, Guid jobId) =>
        await weights.SheetAsync(context.User.ToActor(), jobId, CultureInfo.InvariantCulture, context.RequestAborted) is { } sheet
            ? Results.Ok(MassTable.Of(sheet.Weight))
            : ApiAnswers.Missing("job");

    private static async Task<IResult> BudgetAsync(HttpContext context, JobDesk desk, Guid jobId) =>
        await desk.CardAsync(context.User.ToActor(), jobId, context.RequestAborted) is { Job.Details: var card }
            ? Results.Ok(new ApiBudget(card.BudgetFrom, card.BudgetTo))
            : ApiAnswers.Missing("job");

    private static string TextOf(BoardKey key) =>
        string.Create(CultureInfo.InvariantCulture, $"{(key.PromisedOn is { } day ? day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture) : "none")}_{key.Number}");

    private static bool TryKey(string text, out BoardKey? key)
    {
        key = null;
        if (text.Split('_') is not [var dayText, var numberText] || !int.TryParse(numberText, NumberStyles.None, CultureInfo.InvariantCulture, out var number))
        {
            return false;
        }

        DateOnly? day = DateOnly.TryParseExact(dayText, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var read) ? read : null;
        key = new BoardKey(day, number);
        return day is not null || dayText == "none";
    }
}

/// <param name="Jobs">The jobs of this page.</param>
/// <param name="Next">Key of the next page, or null at the end.</param>
public sealed record ApiJobPage(IReadOnlyList<ApiJobRow> Jobs, string? Next);

/// <summary>A job in a list. No field of it carries money.</summary>
public sealed record ApiJobRow(
    Guid Id, string Reference, string Title, string ClientName, string Vehicle, string Plate, DateOnly? PromisedOn, bool IsLate, string Stage, int StagesDone, int StagesTotal, int OpenBlockers)
{
    internal static ApiJobRow Of(BoardRow row) => new(
        row.JobId, row.Reference, row.Title, row.ClientName, row.VehicleTitle, row.Plate, row.PromisedOn, row.IsLate, row.StageText, row.StagesDone, row.StagesTotal, row.OpenBlockers);
}

/// <param name="Id">The new job.</param>
public sealed record ApiOpened(Guid Id);

/// <summary>What the client wants to spend, in the shop's currency.</summary>
public sealed record ApiBudget(decimal? BudgetFrom, decimal? BudgetTo);

/// <summary>A job's card. No field of it carries money.</summary>
public sealed record ApiJob(
    Guid Id,
    string Title,
    string Wish,
    DateOnly? PromisedOn,
    int? KeyCount,
    double? OdometerKilometers,
    IReadOnlyList<SourceDevice> SourceDevices,
    bool NothingCut,
    bool KeepSpareWheel,
    bool LeasedVehicle,
    double? LuggageLitresToKeep,
    string RestrictionNotes,
    Guid ClientId,
    ApiClient Client,
    Guid VehicleId,
    VehicleDetails Vehicle)
{
    internal static ApiJob Of(JobCardView view)
    {
        var card = view.Job.Details;
        return new ApiJob(
            view.Job.Id,
            card.Title,
            card.Wish,
            card.PromisedOn,
            card.KeyCount,
            card.OdometerKilometers,
            card.SourceDevices,
            card.NothingCut,
            card.KeepSpareWheel,
            card.LeasedVehicle,
            card.LuggageLitresToKeep,
            card.RestrictionNotes,
            view.Client.Id,
            new ApiClient(view.Client.Details.Name),
            view.Vehicle.Id,
            view.Vehicle.Details);
    }
}

/// <param name="Name">The client's name.</param>
public sealed record ApiClient(string Name);
