using System.Security.Claims;
using MudBlazor;

namespace ShopFloor.Web.Layout;

/// <summary>The main navigation. What a person does not see here is still refused by the page and by the use case behind it.</summary>
public static class NavigationItems
{
    private const string Owner = "Owner";

    private static readonly NavigationItem[] All =
    [
        new("Board", "/board", Icons.Material.Outlined.ViewWeek),
        new("Jobs", "/jobs", Icons.Material.Outlined.Assignment),
        new("Clients", "/clients", Icons.Material.Outlined.People),
        new("Catalogue", "/catalogue", Icons.Material.Outlined.Category),
        new("Money", "/money", Icons.Material.Outlined.AccountBalanceWallet, Owner),
        new("Shop record", "/record", Icons.Material.Outlined.History, Owner),
        new("Settings", "/settings", Icons.Material.Outlined.Tune, Owner),
    ];

    /// <summary>The items a person may see, in order.</summary>
    public static IReadOnlyList<NavigationItem> For(ClaimsPrincipal person) =>
        [.. All.Where(item => item.Roles.Count == 0 || item.Roles.Any(person.IsInRole))];
}
