using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Mvc;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Staff;
using ShopFloor.Web.Account;

namespace ShopFloor.Web.Live;

/// <summary>Files of a job go over plain HTTP, in and out, never through the circuit. They are only ever handed back as downloads.</summary>
public static class FileEndpoints
{
    public const string Upload = "/files";

    // The file and a little air for the form around it.
    private const int MostBytes = JobFiles.MostBytes + (256 * 1024);

    public static string Download(Guid fileId) => $"{Upload}/{fileId}";

    public static void MapFiles(this IEndpointRouteBuilder routes)
    {
        routes.MapPost(Upload, TakeInAsync)
            .RequireAuthorization(nameof(Permission.WorkOnJobs))
            .RequireOutboxToken()
            .WithMetadata(new RequestSizeLimitAttribute(MostBytes))
            .WithFormOptions(multipartBodyLengthLimit: MostBytes)
            .ExcludeFromDescription();
        routes.MapGet(Upload + "/{fileId:guid}", SendAsync)
            .RequireAuthorization(nameof(Permission.SeeJobs))
            .ExcludeFromDescription();
    }

    private static async Task<IResult> TakeInAsync(
        [FromForm] Guid jobId, [FromForm] JobFileKind kind, IFormFile file, JobFiles files, HttpContext context, CancellationToken cancellationToken)
    {
        await using var upload = file.OpenReadStream();
        var outcome = await files.AddAsync(context.User.ToActor(), jobId, kind, file.FileName, upload, cancellationToken);
        return outcome.Succeeded
            ? TypedResults.Json(new UploadedFile(outcome.Value, file.FileName), statusCode: StatusCodes.Status201Created)
            : OutboxRequests.Refusal(outcome.Problems, outcome.Message);
    }

    private static async Task<Results<FileContentHttpResult, NotFound>> SendAsync(Guid fileId, JobFiles files, HttpContext context, CancellationToken cancellationToken)
    {
        if (await files.OpenAsync(context.User.ToActor(), fileId, cancellationToken) is not { } file)
        {
            return TypedResults.NotFound();
        }

        context.Response.Headers.CacheControl = "private, no-store";
        context.Response.Headers.XContentTypeOptions = "nosniff";
        return TypedResults.Bytes(file.Content, "application/octet-stream", file.FileName);
    }

    private sealed record UploadedFile(Guid Id, string FileName);
}
