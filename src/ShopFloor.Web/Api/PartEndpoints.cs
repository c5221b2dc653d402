using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Staff;
using ShopFloor.Web.Account;

namespace ShopFloor.Web.Api;

/// <summary>The parts of a job. Prices and costs have answers of their own, behind scopes of their own.</summary>
internal static class PartEndpoints
{
    public static void MapParts(this IEndpointRouteBuilder api)
    {
        var ofJob = api.MapGroup("/jobs/{jobId:guid}").WithTags("Parts");
        ofJob.MapGet("/parts", RowsAsync).WithName("list-parts").WithSummary("The parts of a job, without money.").Produces<List<PartRow>>().Needs(Permission.SeeJobs);
        ofJob.MapGet("/part-prices", PricesAsync).WithName("list-part-prices").WithSummary("Selling prices of the parts.").Produces<List<PartMoneyRow>>().Needs(Permission.SeePrices);
        ofJob.MapGet("/part-costs", CostsAsync).WithName("list-part-costs").WithSummary("Costs and margins of the parts.").Produces<List<PartCostRow>>().Needs(Permission.SeeCosts);
        ofJob.MapPost("/parts", AddAsync).WithName("add-part").WithSummary("Adds a part. Prices need the scope SeePrices, costs SeeCosts; without it they are left out.")
            .Accepts<JobPartDetails>("application/json").Produces<ApiOpened>(StatusCodes.Status201Created).ProducesProblem(StatusCodes.Status422UnprocessableEntity).Needs(Permission.DesignJobs);
        var parts = api.MapGroup("/parts").WithTags("Parts");
        parts.MapPut("/{partId:guid}", EditAsync).WithName("edit-part").WithSummary("Replaces a part. Needs If-Match with the version of the row.")
            .Accepts<JobPartDetails>("application/json").Produces(StatusCodes.Status204NoContent).ProducesProblem(StatusCodes.Status412PreconditionFailed)
            .ProducesProblem(StatusCodes.Status422UnprocessableEntity).ProducesProblem(StatusCodes.Status428PreconditionRequired).Needs(Permission.DesignJobs);
        parts.MapDelete("/{partId:guid}", RemoveAsync).WithName("remove-part").WithSummary("Takes a part off the job; the record keeps it.")
            .Produces(StatusCodes.Status204NoContent).ProducesProblem(StatusCodes.Status422UnprocessableEntity).Needs(Permission.DesignJobs);
    }

    private static async Task<IResult> RowsAsync(HttpContext context, PartsList parts, Guid jobId) =>
        Results.Ok(await parts.RowsAsync(context.User.ToActor(), jobId, context.RequestAborted));

    private static async Task<IResult> PricesAsync(HttpContext context, PartsList parts, Guid jobId) =>
        Results.Ok(await parts.PricesAsync(context.User.ToActor(), jobId, context.RequestAborted));

    private static async Task<IResult> CostsAsync(HttpContext context, PartsList parts, Guid jobId) =>
        Results.Ok(await parts.CostsAsync(context.User.ToActor(), jobId, context.RequestAborted));

    private static Task<IResult> AddAsync(HttpContext context, PartsList parts, Guid jobId) =>
        ApiJson.WithBodyAsync<JobPartDetails>(context, async (details, body) =>
            (await parts.AddAsync(context.User.ToActor(), jobId, details, context.RequestAborted))
                .Answer(body, id => Results.Json(new ApiOpened(id), statusCode: StatusCodes.Status201Created)));

    private static Task<IResult> EditAsync(HttpContext context, PartsList parts, Guid partId) =>
        ApiJson.WithBodyAsync<JobPartDetails>(context, async (details, body) =>
            ApiAnswers.TryVersion(context, out var version, out var refusal)
                ? (await parts.EditAsync(context.User.ToActor(), partId, version, details, context.RequestAborted)).Answer(body, _ => Results.NoContent())
                : refusal);

    private static async Task<IResult> RemoveAsync(HttpContext context, PartsList parts, Guid partId) =>
        (await parts.RemoveAsync(context.User.ToActor(), partId, context.RequestAborted)).Answer(null, _ => Results.NoContent());
}
