using System.Security.Claims;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Staff;
using ShopFloor.Web.Account;

namespace ShopFloor.Web.Catalogue;

/// <summary>Catalogue files to take away: an empty template of a kind, and the catalogue itself.</summary>
public static class CatalogueFileEndpoints
{
    private const string ContentType = "text/csv; charset=utf-8";

    public static void MapCatalogueFiles(this IEndpointRouteBuilder routes)
    {
        var files = routes.MapGroup("/catalogue/files").RequireAuthorization(new NeedsAttribute(Permission.DesignJobs)).ExcludeFromDescription();
        files.MapGet("/template-{kind}.csv", (PartKind kind, ClaimsPrincipal person) =>
            Results.File(CatalogueImport.Template(person.ToActor(), kind), ContentType, $"{Slug(kind)}-template.csv"));
        files.MapGet("/catalogue.csv", async (CatalogueImport import, ClaimsPrincipal person, PartKind? kind, CancellationToken cancellationToken) =>
            Results.File(await import.ExportAsync(person.ToActor(), kind, cancellationToken), ContentType, kind is { } one ? $"{Slug(one)}.csv" : "catalogue.csv"));
    }

    private static string Slug(PartKind kind) => kind.ToString().ToLowerInvariant();
}
