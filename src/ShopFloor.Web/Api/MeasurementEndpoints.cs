using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Phases.Design;
using ShopFloor.Shop.Phases.Intake;
using ShopFloor.Shop.Phases.Tuning.Measurements;
using ShopFloor.Shop.Staff;
using ShopFloor.Web.Account;

namespace ShopFloor.Web.Api;

/// <summary>Measurements of a job.</summary>
internal static class MeasurementEndpoints
{
    public static void MapMeasurements(this IEndpointRouteBuilder api)
    {
        api.MapGet("/jobs/{jobId:guid}/measurements", GetAsync).WithTags("Jobs").WithName("get-job-measurements")
            .WithSummary("The channels that are tuned, and every measurement: channel, seat, place of the microphone, preset in the car, file and how it is read, by whom and when.")
            .Produces<MeasurementList>().ProducesProblem(StatusCodes.Status404NotFound).Needs(Permission.SeeJobs);
        api.MapGet("/jobs/{jobId:guid}/driver-measurements", DriversAsync).WithTags("Jobs").WithName("get-job-driver-measurements")
            .WithSummary("Loudspeakers measured by their impedance: files and how they are read, added mass or box, by whom and when, and the figures written to the part with what stood there before.")
            .Produces<List<LoadedDesign<DriverMeasurementForm>>>().ProducesProblem(StatusCodes.Status404NotFound).Needs(Permission.SeeJobs);
    }

    private static async Task<IResult> DriversAsync(HttpContext context, JobDesk desk, JobDesigns designs, Guid jobId)
    {
        var actor = context.User.ToActor();
        return await desk.CardAsync(actor, jobId, context.RequestAborted) is null
            ? ApiAnswers.Missing("job")
            : Results.Ok(await designs.ListAsync<DriverMeasurementForm>(actor, jobId, context.RequestAborted));
    }

    private static async Task<IResult> GetAsync(HttpContext context, JobDesk desk, TuningMeasurements measurements, Guid jobId)
    {
        var actor = context.User.ToActor();
        return await desk.CardAsync(actor, jobId, context.RequestAborted) is null
            ? ApiAnswers.Missing("job")
            : Results.Ok(await measurements.ListAsync(actor, jobId, context.RequestAborted));
    }
}
