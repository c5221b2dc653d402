using System.Text.Json;
using System.Text.Json.Nodes;
using System.Text.Json.Serialization;
using System.Text.RegularExpressions;
using ShopFloor.Shop.Common;

namespace ShopFloor.Web.Api;

/// <summary>Reads what programs send, strictly: no unknown fields, no numbers as text, no double fields, no endless bodies.</summary>
internal static partial class ApiJson
{
    /// <summary>Room for the largest job card or part; anything beyond is a mistake.</summary>
    public const int MostBytes = 256 * 1024;

    /// <summary>Room for a supply network of 10,000 loads, the most that is solved.</summary>
    public const int MostCalculationBytes = 16 * 1024 * 1024;

    // So many problems are named one by one; more tell nothing new and would fill the answer.
    private const int MostProblems = 50;

    private static readonly JsonSerializerOptions Strict = Configure(new JsonSerializerOptions(JsonSerializerDefaults.Web)
    {
        NumberHandling = JsonNumberHandling.Strict,
        UnmappedMemberHandling = JsonUnmappedMemberHandling.Disallow,
        AllowDuplicateProperties = false,
        RespectNullableAnnotations = true,
        RespectRequiredConstructorParameters = true,
        MaxDepth = 32,
    });

    public static JsonSerializerOptions Configure(JsonSerializerOptions options)
    {
        options.Converters.Add(new JsonStringEnumConverter(JsonNamingPolicy.CamelCase, allowIntegerValues: false));
        return options;
    }

    /// <summary>Reads the body as <typeparamref name="T"/> and hands it on, or answers what is wrong with it.</summary>
    public static async Task<IResult> WithBodyAsync<T>(HttpContext context, Func<T, JsonNode, Task<IResult>> next, int mostBytes = MostBytes)
    {
        if (!context.Request.HasJsonContentType())
        {
            return Results.Problem(statusCode: StatusCodes.Status415UnsupportedMediaType, detail: "Send application/json.");
        }

        if (await ReadAsync(context.Request, mostBytes, context.RequestAborted) is not { } bytes)
        {
            return Results.Problem(statusCode: StatusCodes.Status413PayloadTooLarge, detail: $"At most {mostBytes} bytes are taken.");
        }

        JsonNode? node = null;
        try
        {
            node = JsonNode.Parse(bytes, documentOptions: new JsonDocumentOptions { MaxDepth = Strict.MaxDepth, AllowDuplicateProperties = false });
            if (node is null)
            {
                return Refused([new Problem("", "The body is null; an object is expected.")], null);
            }

            if (NullInside(node, "") is { } place)
            {
                return Refused([new Problem(place, $"'{place}' is null; a list holds values only.")], node);
            }

            return node.Deserialize<T>(Strict) is { } value ? await next(value, node) : Refused([new Problem("", "The body is empty.")], node);
        }
        catch (JsonException unreadable)
        {
            return Refused(ProblemsIn(unreadable, node is null), node);
        }
    }

    /// <summary>The refusal of an input: a 422 whose errors name field, value and message.</summary>
    public static IResult Refused(IEnumerable<Problem> problems, JsonNode? body)
    {
        var errors = problems.Take(MostProblems).Select(problem => ApiError.Of(problem, body)).ToList();
        return Results.Problem(
            statusCode: StatusCodes.Status422UnprocessableEntity,
            title: "The input is not accepted.",
            detail: string.Join(' ', errors.Select(error => error.Message)),
            extensions: new Dictionary<string, object?> { ["errors"] = errors });
    }

    private static async Task<byte[]?> ReadAsync(HttpRequest request, int mostBytes, CancellationToken cancellationToken)
    {
        if (request.ContentLength > mostBytes)
        {
            return null;
        }

        using var body = new MemoryStream();
        var buffer = new byte[16 * 1024];
        int read;
        while ((read = await request.Body.ReadAsync(buffer, cancellationToken)) > 0)
        {
            if (body.Length + read > mostBytes)
            {
                return null;
            }

            body.Write(buffer, 0, read);
        }

        return body.ToArray();
    }

    private static string? NullInside(JsonNode node, string path) => node switch
    {
        JsonArray list => list.Select((item, index) => item is null ? $"{path}[{index}]" : NullInside(item, $"{path}[{index}]")).FirstOrDefault(found => found is not null),
        JsonObject fields => fields.Where(field => field.Value is not null)
            .Select(field => NullInside(field.Value!, path.Length == 0 ? field.Key : $"{path}.{field.Key}")) // just filtered
            .FirstOrDefault(found => found is not null),
        _ => null,
    };

    // The library's own messages name types of this program; callers get their field and what to do.
    private static List<Problem> ProblemsIn(JsonException unreadable, bool notJson)
    {
        if (notJson)
        {
            return [new Problem("", $"The body is not JSON as accepted here (line {unreadable.LineNumber + 1}, position {unreadable.BytePositionInLine + 1}).")];
        }

        var at = (unreadable.Path ?? "$").TrimStart('$').TrimStart('.');
        var missing = unreadable.Message.Contains("missing required properties", StringComparison.Ordinal)
            ? Quoted().Matches(unreadable.Message[unreadable.Message.IndexOf("including", StringComparison.Ordinal)..]).Select(match => match.Groups[1].Value).ToList()
            : [];
        if (missing.Count > 0)
        {
            return [.. missing.Select(field => at.Length == 0 ? field : $"{at}.{field}").Select(field => new Problem(field, $"'{field}' is missing."))];
        }

        if (unreadable.Message.Contains("could not be mapped", StringComparison.Ordinal))
        {
            return [new Problem(at, $"'{at}' is not a field of this input; see /openapi/v1.json for those that are.")];
        }

        return [new Problem(at, $"'{at}' has a value of the wrong kind; see /openapi/v1.json for what is accepted.")];
    }

    [GeneratedRegex("'([^']+)'")]
    private static partial Regex Quoted();
}

/// <summary>One refused field.</summary>
/// <param name="Field">Path of the field, for example <c>loads[2].branch.lengthMeters</c>; empty for the whole.</param>
/// <param name="Value">The value that was sent, when it was a single one.</param>
/// <param name="Message">What is wrong, and what is accepted.</param>
public sealed record ApiError(string Field, object? Value, string Message)
{
    internal static ApiError Of(Problem problem, JsonNode? body)
    {
        var field = string.Join('.', problem.Field.Split('.').Select(JsonNamingPolicy.CamelCase.ConvertName));
        return new ApiError(field, ValueAt(body, field), problem.Message);
    }

    private static JsonValue? ValueAt(JsonNode? node, string field)
    {
        foreach (var step in field.Replace("[", ".[", StringComparison.Ordinal).Split('.', StringSplitOptions.RemoveEmptyEntries))
        {
            node = node switch
            {
                JsonArray list when step.StartsWith('[') && int.TryParse(step.AsSpan(1, step.Length - 2), out var index) && index < list.Count => list[index],
                JsonObject fields => fields.FirstOrDefault(entry => string.Equals(entry.Key, step, StringComparison.OrdinalIgnoreCase)).Value,
                _ => null,
            };
        }

        return field.Length > 0 ? node as JsonValue : null;
    }
}
