using System.Text.Json.Nodes;
using Microsoft.Net.Http.Headers;
using ShopFloor.Shop.Common;

namespace ShopFloor.Web.Api;

/// <summary>Turns outcomes of use cases into answers.</summary>
internal static class ApiAnswers
{
    /// <summary>What to answer, with the refusals and conflicts every command can meet.</summary>
    public static IResult Answer<T>(this Outcome<T> outcome, JsonNode? body, Func<T, IResult> done) =>
        outcome.Succeeded ? done(outcome.Value)
        : outcome.Conflict is { } conflict ? Results.Problem(
            statusCode: StatusCodes.Status412PreconditionFailed,
            title: "Somebody else changed it meanwhile.",
            detail: $"{conflict.Subject} was changed by {conflict.ChangedBy}. Read it again, or send your edit with the current version.",
            extensions: new Dictionary<string, object?>
            {
                ["changedBy"] = conflict.ChangedBy,
                ["changedAt"] = conflict.ChangedAt,
                ["currentVersion"] = conflict.CurrentVersion,
                ["differences"] = conflict.Differences.Select(difference => new ApiDifference(
                    System.Text.Json.JsonNamingPolicy.CamelCase.ConvertName(difference.Field), difference.Mine, difference.Theirs)).ToList(),
            })
        : ApiJson.Refused(outcome.Problems, body);

    public static IResult Missing(string what) => Results.Problem(statusCode: StatusCodes.Status404NotFound, detail: $"There is no such {what}.");

    /// <summary>An answer that carries the version an edit has to send back.</summary>
    public static IResult Versioned<T>(HttpContext context, T value, Guid version)
    {
        context.Response.Headers.ETag = new EntityTagHeaderValue($"\"{version:D}\"").ToString();
        return Results.Ok(value);
    }

    /// <summary>The version the caller read, from If-Match; without it an edit could overwrite what nobody saw.</summary>
    public static bool TryVersion(HttpContext context, out Guid version, out IResult refusal)
    {
        var sent = context.Request.Headers.IfMatch.ToString().Trim();
        refusal = sent.Length == 0
            ? Results.Problem(statusCode: StatusCodes.Status428PreconditionRequired, detail: "Send the ETag you read as If-Match.")
            : Results.Problem(statusCode: StatusCodes.Status400BadRequest, detail: "If-Match is not an ETag of this shop.");
        return Guid.TryParseExact(sent.Trim('"'), "D", out version);
    }
}

/// <param name="Field">The field.</param>
/// <param name="Yours">The value that was sent.</param>
/// <param name="Theirs">The value that stands.</param>
public sealed record ApiDifference(string Field, string Yours, string Theirs);
