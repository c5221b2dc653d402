using System.Globalization;
using Microsoft.AspNetCore.Antiforgery;
using Microsoft.AspNetCore.Diagnostics;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.Extensions.Primitives;
using ShopFloor.Shop.Common;

namespace ShopFloor.Web.Live;

/// <summary>
/// How the tablet's outbox and its photo queue speak with the server: the command's id in a header, the time of the press in another,
/// and refusals as problem details that name the field.
/// </summary>
public static class OutboxRequests
{
    public const string CommandIdHeader = "Idempotency-Key";
    public const string PressedAtHeader = "Pressed-At";

    /// <summary>RFC 8470, section 5.2: not now, but later perhaps.</summary>
    private const int TooEarlyStatus = 425;

    /// <summary>
    /// Refuses a post without a valid antiforgery token by a 400 without words: the outbox takes it as a stale token, fetches a new one and
    /// sends the entry again instead of dropping it.
    /// </summary>
    public static TBuilder RequireOutboxToken<TBuilder>(this TBuilder builder)
        where TBuilder : IEndpointConventionBuilder =>
        builder.AddEndpointFilter(async (context, next) =>
        {
            var http = context.HttpContext;
            if (http.Features.Get<IStatusCodePagesFeature>() is { } pages)
            {
                pages.Enabled = false;
            }

            var antiforgery = http.RequestServices.GetRequiredService<IAntiforgery>();
            return await antiforgery.IsRequestValidAsync(http) ? await next(context) : TypedResults.StatusCode(StatusCodes.Status400BadRequest);
        });

    /// <returns>The command's id, or null when the header is missing or no id.</returns>
    public static Guid? CommandId(this HttpRequest request) =>
        Guid.TryParse(request.Headers[CommandIdHeader], out var id) && id != Guid.Empty ? id : null;

    /// <returns>When the tablet says the button was pressed, or null when it does not say.</returns>
    public static DateTimeOffset? PressedAt(this HttpRequest request) =>
        DateTimeOffset.TryParse(request.Headers[PressedAtHeader], CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal | DateTimeStyles.AdjustToUniversal, out var at)
            ? at
            : null;

    /// <summary>Done without words, or the refusal.</summary>
    public static IResult ToAnswer(this Outcome<Done> outcome) => outcome.Succeeded ? TypedResults.NoContent() : Refusal(outcome.Problems, outcome.Message);

    public static ProblemHttpResult Refusal(IReadOnlyList<Problem> problems, string message) => TypedResults.Problem(
        detail: message,
        statusCode: StatusCodes.Status422UnprocessableEntity,
        title: "Not accepted",
        extensions: new Dictionary<string, object?>
        {
            ["errors"] = problems.GroupBy(problem => problem.Field).ToDictionary(field => field.Key, field => field.Select(problem => problem.Message).ToArray()),
        });

    public static ProblemHttpResult NoCommandId() => TypedResults.Problem(
        detail: $"The header {CommandIdHeader} has to carry the command's id, a UUID made once per press.",
        statusCode: StatusCodes.Status400BadRequest,
        title: "No command id");

    /// <summary>Asks the outbox to send the entry again in a moment.</summary>
    public static IResult TooEarly(HttpContext context, TimeSpan wait)
    {
        context.Response.Headers.RetryAfter = new StringValues(Math.Ceiling(wait.TotalSeconds).ToString(CultureInfo.InvariantCulture));
        return TypedResults.StatusCode(TooEarlyStatus);
    }
}
