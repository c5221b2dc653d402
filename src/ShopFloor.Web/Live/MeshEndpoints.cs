using Microsoft.AspNetCore.Http.HttpResults;
using ShopFloor.Engineering.Geometry;
using ShopFloor.Shop.Phases.Design;
using ShopFloor.Shop.Staff;
using ShopFloor.Web.Account;

namespace ShopFloor.Web.Live;

/// <summary>Surfaces as bare triangles for the browser's drawing: nine 32-bit numbers a triangle, in metres, little-endian.</summary>
public static class MeshEndpoints
{
    public static string Address(Guid fileId, MeshUnit unit) => $"/files/{fileId}/mesh?unit={unit}";

    public static void MapMeshes(this IEndpointRouteBuilder routes) =>
        routes.MapGet("/files/{fileId:guid}/mesh", SendAsync).RequireAuthorization(nameof(Permission.SeeJobs)).ExcludeFromDescription();

    private static async Task<Results<FileContentHttpResult, NotFound>> SendAsync(Guid fileId, MeshUnit unit, MeshFiles meshes, HttpContext context, CancellationToken cancellationToken)
    {
        if (!Enum.IsDefined(unit) || await meshes.TrianglesAsync(context.User.ToActor(), fileId, unit, cancellationToken) is not { } triangles)
        {
            return TypedResults.NotFound();
        }

        // The bytes of a file never change.
        context.Response.Headers.CacheControl = "private, max-age=3600";
        context.Response.Headers.XContentTypeOptions = "nosniff";
        return TypedResults.Bytes(triangles, "application/octet-stream");
    }
}
