using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Storage.Backup;
using ShopFloor.Web.Account;

namespace ShopFloor.Web.Settings;

/// <summary>Hands archives out over plain HTTP: they are too large for the circuit.</summary>
public static class BackupFiles
{
    private const string Root = "/settings/backup/files";

    public static string AddressOf(string name) => $"{Root}/{Uri.EscapeDataString(name)}";

    public static void MapBackupFiles(this IEndpointRouteBuilder routes) =>
        routes.MapGet(Root + "/{name}", (HttpContext context, BackupDesk desk, string name) =>
            desk.Open(context.User.ToActor(), name) is { } archive
                ? Results.Stream(archive, "application/zip", name)
                : Results.NotFound())
            .RequireAuthorization(nameof(Permission.ManageShop))
            .ExcludeFromDescription();
}
