using ShopFloor.Engineering.Tuning.Factory;
using ShopFloor.Engineering.Tuning.Filters;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Phases.Design;
using ShopFloor.Shop.Phases.Intake;
using ShopFloor.Shop.Phases.Tuning.Factory;
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
        api.MapGet("/jobs/{jobId:guid}/factory-signal", FactoryAsync).WithTags("Jobs").WithName("get-job-factory-signal")
            .WithSummary("Outputs of the factory radio and amplifier with their measurements, what each side comes to, and the inputs of a processor that undo it. Without a measured output there are no sides; a problem says why there is no sum.")
            .Produces<ApiFactorySignal>().ProducesProblem(StatusCodes.Status404NotFound).Needs(Permission.SeeJobs);
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

    private static async Task<IResult> FactoryAsync(HttpContext context, JobDesk desk, FactoryMeasurements measurements, FactorySignals signals, Guid jobId)
    {
        var actor = context.User.ToActor();
        if (await desk.CardAsync(actor, jobId, context.RequestAborted) is null)
        {
            return ApiAnswers.Missing("job");
        }

        var view = await signals.GetAsync(actor, jobId, context.RequestAborted);
        var sides = view.Outputs.Count == 0 ? null : await signals.ComputeAsync(actor, view, view.Choice, view.Profile, UnitText.Invariant, null, context.RequestAborted);
        return Results.Ok(new ApiFactorySignal(
            await measurements.ListAsync(actor, jobId, context.RequestAborted), view.Choice, view.Profile.Name,
            [.. (sides?.Value ?? []).Select(side => new ApiFactorySide(side.Note, side.Result))],
            sides?.Value is { } found ? FactorySideView.Inputs(found) : [],
            [.. view.Problems, .. sides is { Succeeded: false } ? [sides.Message] : Array.Empty<string>()]));
    }
}

/// <param name="Measured">Outputs of the signal path, and measurements.</param>
/// <param name="Choice">What is added up and what filters may do.</param>
/// <param name="Processor">Whose sample rate and filters are counted with.</param>
/// <param name="Sides">Each side that is measured, left first.</param>
/// <param name="Inputs">Settings of the inputs that undo it, before they are brought onto the processor's steps.</param>
/// <param name="Problems">Measurements that cannot be read, or why there is no sum.</param>
public sealed record ApiFactorySignal(FactoryMeasurementList Measured, FactorySignalForm Choice, string Processor, IReadOnlyList<ApiFactorySide> Sides, IReadOnlyList<ChannelSetting> Inputs, IReadOnlyList<string> Problems);

/// <param name="Note">What the side came to.</param>
/// <param name="Result">Everything found.</param>
public sealed record ApiFactorySide(FactoryNote Note, FactorySignalResult Result);
