namespace ShopFloor.Shop.Staff;

/// <summary>What a person may do. Pages, endpoints and use cases all ask for one of these.</summary>
public enum Permission
{
    /// <summary>See jobs, their parts without money, their stages and photos.</summary>
    SeeJobs,

    /// <summary>Tick steps, take photos, keep time, report blockers, try factory functions.</summary>
    WorkOnJobs,

    /// <summary>Open and edit job cards, clients and vehicles; check cars in and hand them back.</summary>
    EditJobCards,

    /// <summary>Change the parts list, the catalogue and the electrical plan.</summary>
    DesignJobs,

    /// <summary>See and set selling prices and estimates.</summary>
    SeePrices,

    /// <summary>See cost, margin and cost rates.</summary>
    SeeCosts,

    /// <summary>Go on in spite of a finding, with a written reason.</summary>
    SignOffFindings,

    /// <summary>People, tablets, API tokens, settings, templates, backup.</summary>
    ManageShop,
}

/// <summary>The one table of who may do what.</summary>
public static class Permissions
{
    private static readonly Dictionary<ShopRole, HashSet<Permission>> Granted = new()
    {
        [ShopRole.Technician] = [Permission.SeeJobs, Permission.WorkOnJobs],
        [ShopRole.FrontDesk] =
        [
            Permission.SeeJobs, Permission.WorkOnJobs, Permission.EditJobCards, Permission.DesignJobs, Permission.SeePrices,
        ],
        [ShopRole.Owner] = [.. Enum.GetValues<Permission>()],
    };

    public static bool Has(this ShopRole role, Permission permission) => Granted[role].Contains(permission);

    public static IEnumerable<ShopRole> Holders(Permission permission) => Granted.Where(row => row.Value.Contains(permission)).Select(row => row.Key);
}
