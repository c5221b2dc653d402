using ShopFloor.Shop.Common;
using ShopFloor.Shop.Phases.Build;
using ShopFloor.Shop.Staff;
using ShopFloor.Web.Account;

namespace ShopFloor.Web.Api;

/// <summary>Stages, steps and the time clock. Commands carry an id made by the caller and are safe to send again.</summary>
internal static class StageEndpoints
{
    public static void MapStages(this IEndpointRouteBuilder api)
    {
        var stages = api.MapGroup("").WithTags("Stages");
        stages.MapGet("/jobs/{jobId:guid}/stages", SheetAsync).WithName("list-stages").WithSummary("Stages, steps, proofs, reports and running clocks of a job.")
            .Produces<WorkSheet>().ProducesProblem(StatusCodes.Status404NotFound).Needs(Permission.SeeJobs);
        stages.MapPost("/steps/{stepId:guid}/tick", TickAsync).WithName("tick-step").WithSummary("Ticks a step, with the measured value where one is asked for.")
            .Accepts<ApiTick>("application/json").AsCommand();
        stages.MapPost("/steps/{stepId:guid}/untick", UntickAsync).WithName("untick-step").WithSummary("Takes a tick back; the record keeps it.")
            .Accepts<ApiCommand>("application/json").AsCommand();
        stages.MapPost("/stages/{stageId:guid}/clock/start", StartAsync).WithName("start-clock").WithSummary("Starts the time of the person the token acts as.")
            .Accepts<ApiCommand>("application/json").AsCommand();
        stages.MapPost("/clock/stop", StopAsync).WithName("stop-clock").WithSummary("Stops the time of the person the token acts as.")
            .Accepts<ApiCommand>("application/json").AsCommand();
    }

    private static void AsCommand(this RouteHandlerBuilder command) =>
        command.Produces(StatusCodes.Status204NoContent).ProducesProblem(StatusCodes.Status422UnprocessableEntity).Needs(Permission.WorkOnJobs);

    private static async Task<IResult> SheetAsync(HttpContext context, WorkSheets sheets, Guid jobId) =>
        await sheets.SheetAsync(context.User.ToActor(), jobId, context.RequestAborted) is { } sheet ? Results.Ok(sheet) : ApiAnswers.Missing("job");

    private static Task<IResult> TickAsync(HttpContext context, StageWork work, Guid stepId) =>
        CommandAsync<ApiTick>(context, tick => work.TickAsync(context.User.ToActor(), tick.CommandId, new TickStep(stepId, tick.Value), tick.PressedAt, context.RequestAborted));

    private static Task<IResult> UntickAsync(HttpContext context, StageWork work, Guid stepId) =>
        CommandAsync<ApiCommand>(context, command => work.UntickAsync(context.User.ToActor(), command.CommandId, stepId, context.RequestAborted));

    private static Task<IResult> StartAsync(HttpContext context, TimeClock clock, Guid stageId) =>
        CommandAsync<ApiCommand>(context, command => clock.StartAsync(context.User.ToActor(), command.CommandId, stageId, command.PressedAt, context.RequestAborted));

    private static Task<IResult> StopAsync(HttpContext context, TimeClock clock) =>
        CommandAsync<ApiCommand>(context, command => clock.StopAsync(context.User.ToActor(), command.CommandId, command.PressedAt, context.RequestAborted));

    private static Task<IResult> CommandAsync<T>(HttpContext context, Func<T, Task<Outcome<Done>>> act) =>
        ApiJson.WithBodyAsync<T>(context, async (command, body) => (await act(command)).Answer(body, _ => Results.NoContent()));
}

/// <summary>A command that needs nothing but its id.</summary>
public record ApiCommand
{
    /// <summary>Made by the caller; the same id is carried out once, however often it is sent.</summary>
    public required Guid CommandId { get; init; }

    /// <summary>When it was pressed, if it is sent later; else now.</summary>
    public DateTimeOffset? PressedAt { get; init; }
}

/// <summary>Ticks a step.</summary>
public sealed record ApiTick : ApiCommand
{
    /// <summary>The measured value, in the unit of the step's measure.</summary>
    public double? Value { get; init; }
}
