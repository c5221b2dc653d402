using System.Globalization;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Phases.Build;
using ShopFloor.Shop.Staff;
using ShopFloor.Web.Account;
using ShopFloor.Web.Components;
using ShopFloor.Web.Live;

namespace ShopFloor.Web.Phases.Build;

/// <summary>The commands of the bay, sent by the tablet's outbox: they need no circuit and may come late and twice.</summary>
public static class BuildEndpoints
{
    public const string Commands = "/build/commands";

    /// <summary>How long a tick waits for its photo, which comes by a queue of its own.</summary>
    private static readonly TimeSpan PhotoPatience = TimeSpan.FromMinutes(10);

    public static void MapBuild(this IEndpointRouteBuilder routes)
    {
        var commands = routes.MapGroup(Commands).RequireAuthorization(nameof(Permission.WorkOnJobs)).RequireOutboxToken().ExcludeFromDescription();
        commands.MapPost("/tick", TickAsync);
        commands.MapPost("/untick", (StepBody body, StageWork work, HttpContext context, CancellationToken cancellationToken) =>
            OnceAsync(context, id => work.UntickAsync(context.User.ToActor(), id, body.StepId, cancellationToken)));
        commands.MapPost("/confirm", (StepBody body, StageWork work, HttpContext context, CancellationToken cancellationToken) =>
            OnceAsync(context, id => work.ConfirmAsync(context.User.ToActor(), id, body.StepId, context.Request.PressedAt(), cancellationToken)));
        commands.MapPost("/remark", (RemarkBody body, StageWork work, HttpContext context, CancellationToken cancellationToken) =>
            OnceAsync(context, id => work.RemarkAsync(context.User.ToActor(), id, new RemarkStep(body.StepId, body.Text ?? ""), cancellationToken)));
        commands.MapPost("/measure", MeasureAsync);
        commands.MapPost("/unmeasure", (UnmeasureBody body, MeasuredValues measured, HttpContext context, CancellationToken cancellationToken) =>
            OnceAsync(context, id => measured.UndoAsync(context.User.ToActor(), id, body.ValueId, cancellationToken)));
        commands.MapPost("/start", (StartBody body, TimeClock clock, HttpContext context, CancellationToken cancellationToken) =>
            OnceAsync(context, id => clock.StartAsync(context.User.ToActor(), id, body.StageId, context.Request.PressedAt(), cancellationToken)));
        commands.MapPost("/stop", (TimeClock clock, HttpContext context, CancellationToken cancellationToken) =>
            OnceAsync(context, id => clock.StopAsync(context.User.ToActor(), id, context.Request.PressedAt(), cancellationToken)));
        commands.MapPost("/report", (ReportBody body, Blockers reports, HttpContext context, CancellationToken cancellationToken) =>
            OnceAsync(context, id => reports.ReportAsync(
                context.User.ToActor(), id, new ReportBlocker(body.JobId, body.StageId, body.Stops ? BlockerKind.Blocker : BlockerKind.FoundProblem, body.Text ?? ""), context.Request.PressedAt(), cancellationToken)));
        commands.MapPost("/resolve", (ResolveBody body, Blockers reports, HttpContext context, CancellationToken cancellationToken) =>
            OnceAsync(context, id => reports.ResolveAsync(context.User.ToActor(), id, new ResolveBlocker(body.BlockerId, body.Resolution ?? ""), cancellationToken)));
        commands.MapPost("/reopen", (ReopenBody body, Blockers reports, HttpContext context, CancellationToken cancellationToken) =>
            OnceAsync(context, id => reports.ReopenAsync(context.User.ToActor(), id, body.BlockerId, cancellationToken)));
        commands.MapRattles();
    }

    private static void MapRattles(this RouteGroupBuilder commands)
    {
        commands.MapPost("/rattle", FoundRattleAsync);
        commands.MapPost("/rattle-treated", (RattleBody body, Rattles rattles, HttpContext context, CancellationToken cancellationToken) =>
            OnceAsync(context, id => rattles.TreatAsync(context.User.ToActor(), id, body.JobId, body.RattleId ?? "", body.Remedy ?? "", context.Request.PressedAt(), cancellationToken)));
        commands.MapPost("/rattle-played", (RattleBody body, Rattles rattles, HttpContext context, CancellationToken cancellationToken) =>
            OnceAsync(context, id => rattles.PlayedAsync(context.User.ToActor(), id, body.JobId, body.RattleId ?? "", body.Yes, context.Request.PressedAt(), cancellationToken)));
        commands.MapPost("/rattle-off", (RattleBody body, Rattles rattles, HttpContext context, CancellationToken cancellationToken) =>
            OnceAsync(context, id => rattles.StrikeOffAsync(context.User.ToActor(), id, body.JobId, body.RattleId ?? "", body.Yes, cancellationToken)));
    }

    private static async Task<IResult> FoundRattleAsync(FoundRattleBody body, Rattles rattles, HttpContext context, CancellationToken cancellationToken)
    {
        var (hertz, unread) = Read(body.Hertz, nameof(FoundRattle.Hertz), "The frequency");
        var (level, unreadLevel) = Read(body.Level, nameof(FoundRattle.LevelDecibels), "The level");
        return (unread ?? unreadLevel) is { } problem
            ? OutboxRequests.Refusal([problem], problem.Message)
            : await OnceAsync(context, id => rattles.FindAsync(
                context.User.ToActor(), id, new FoundRattle(body.JobId, body.Place ?? "", hertz, level), context.Request.PressedAt(), cancellationToken));
    }

    private static async Task<IResult> TickAsync(TickBody body, StageWork work, TimeProvider time, HttpContext context, CancellationToken cancellationToken)
    {
        if (context.Request.CommandId() is not { } id)
        {
            return OutboxRequests.NoCommandId();
        }

        var (value, problem) = Read(body.Value);
        if (problem is not null)
        {
            return OutboxRequests.Refusal([problem], problem.Message);
        }

        var pressedAt = context.Request.PressedAt();
        var outcome = await work.TickAsync(context.User.ToActor(), id, new TickStep(body.StepId, value), pressedAt, cancellationToken);
        return body.PhotoQueued == "true"
            && outcome.Problems is [{ Field: StageWork.PhotoField }]
            && pressedAt > time.GetUtcNow() - PhotoPatience
            ? OutboxRequests.TooEarly(context, TimeSpan.FromSeconds(2))
            : outcome.ToAnswer();
    }

    private static async Task<IResult> MeasureAsync(MeasureBody body, MeasuredValues measured, HttpContext context, CancellationToken cancellationToken)
    {
        var (value, problem) = Read(body.Value);
        return problem is not null
            ? OutboxRequests.Refusal([problem], problem.Message)
            : await OnceAsync(context, id => measured.EnterAsync(
                context.User.ToActor(), id, new EnterMeasured(body.JobId, body.PointId ?? "", value), context.Request.PressedAt(), cancellationToken));
    }

    private static async Task<IResult> OnceAsync(HttpContext context, Func<Guid, Task<Outcome<Done>>> command) =>
        context.Request.CommandId() is { } id ? (await command(id)).ToAnswer() : OutboxRequests.NoCommandId();

    // Sent as typed: "12,6" and "12.6 V" are both read, and what cannot be read is said back.
    private static (double? Value, Problem? Problem) Read(string? typed, string field = nameof(TickStep.Value), string label = "The measured value") =>
        string.IsNullOrWhiteSpace(typed) ? (null, null)
        : NumberReading.TryRead(typed, CultureInfo.CurrentCulture, out var number, out _, out var problem) ? ((double)number, null)
        : (null, new Problem(field, $"{label}: {problem}"));

    private sealed record StepBody(Guid StepId);

    private sealed record TickBody(Guid StepId, string? Value, string? PhotoQueued);

    private sealed record MeasureBody(Guid JobId, string? PointId, string? Value);

    private sealed record UnmeasureBody(Guid ValueId);

    private sealed record RemarkBody(Guid StepId, string? Text);

    private sealed record StartBody(Guid StageId);

    private sealed record ReportBody(Guid JobId, Guid? StageId, bool Stops, string? Text);

    private sealed record ResolveBody(Guid BlockerId, string? Resolution);

    private sealed record ReopenBody(Guid BlockerId);

    private sealed record FoundRattleBody(Guid JobId, string? Place, string? Hertz, string? Level);

    private sealed record RattleBody(Guid JobId, string? RattleId, string? Remedy, bool Yes);
}
