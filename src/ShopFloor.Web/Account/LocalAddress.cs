namespace ShopFloor.Web.Account;

/// <summary>Addresses to go on to after a sign-in. Only pages of this shop are taken, so a link cannot lead people elsewhere.</summary>
public static class LocalAddress
{
    public static string Or(string? wanted, string home) => IsLocal(wanted) ? wanted! : home; // local means not null

    /// <summary>A path of this site: one slash, then neither slash nor backslash, and no control characters.</summary>
    public static bool IsLocal(string? address) =>
        address is ['/', ..]
        && (address.Length == 1 || address[1] is not ('/' or '\\'))
        && !address.Any(char.IsControl);
}
