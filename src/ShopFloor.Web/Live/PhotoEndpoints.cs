using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Mvc;
using Microsoft.Net.Http.Headers;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Storage.Photos;
using ShopFloor.Web.Account;

namespace ShopFloor.Web.Live;

/// <summary>Photos go over plain HTTP, in and out, never through the circuit.</summary>
public static class PhotoEndpoints
{
    public const string Upload = "/photos";

    // The picture and a little air for the form around it.
    private static readonly int MostBytes = PhotoLimits.Standard.MaximumBytes + (256 * 1024);

    public static string Full(Guid photoId) => $"{Upload}/{photoId}/full";

    public static string Thumb(Guid photoId) => $"{Upload}/{photoId}/thumb";

    public static void MapPhotos(this IEndpointRouteBuilder routes)
    {
        routes.MapPost(Upload, TakeInAsync)
            .RequireAuthorization(nameof(Permission.WorkOnJobs))
            .RequireOutboxToken()
            .WithMetadata(new RequestSizeLimitAttribute(MostBytes))
            .WithFormOptions(multipartBodyLengthLimit: MostBytes)
            .ExcludeFromDescription();
        routes.MapGet(Upload + "/{photoId:guid}/{size:regex(^(full|thumb)$)}", ShowAsync)
            .RequireAuthorization(nameof(Permission.SeeJobs))
            .ExcludeFromDescription();
    }

    private static async Task<IResult> TakeInAsync(
        [FromForm] Guid jobId,
        [FromForm] PhotoSubject subject,
        [FromForm] Guid? subjectId,
        [FromForm] string? caption,
        IFormFile photo,
        JobPhotos photos,
        HttpContext context,
        CancellationToken cancellationToken)
    {
        await using var upload = photo.OpenReadStream();
        var outcome = await photos.AddAsync(context.User.ToActor(), new NewPhoto(jobId, subject, subjectId, caption ?? ""), upload, cancellationToken);
        return outcome.Succeeded
            ? TypedResults.Json(new UploadedPhoto(outcome.Value, Thumb(outcome.Value), Full(outcome.Value)), statusCode: StatusCodes.Status201Created)
            : OutboxRequests.Refusal(outcome.Problems, outcome.Message);
    }

    private static async Task<Results<FileStreamHttpResult, NotFound>> ShowAsync(
        Guid photoId, string size, JobPhotos photos, HttpContext context, CancellationToken cancellationToken)
    {
        if (await photos.OpenAsync(context.User.ToActor(), photoId, size == "thumb", cancellationToken) is not { } file)
        {
            return TypedResults.NotFound();
        }

        // A photo's id never shows another picture, so the browser need not ask again; only this browser may keep it.
        context.Response.Headers.CacheControl = "private, max-age=31536000, immutable";
        context.Response.Headers.XContentTypeOptions = "nosniff";
        return TypedResults.Stream(file.Content, "image/jpeg", entityTag: new EntityTagHeaderValue($"\"{file.Hash}-{size}\""));
    }

    private sealed record UploadedPhoto(Guid Id, string Thumb, string Full);
}
