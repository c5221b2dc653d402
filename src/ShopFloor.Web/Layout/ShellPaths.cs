namespace ShopFloor.Web.Layout;

/// <summary>Addresses the shell itself links to.</summary>
public static class ShellPaths
{
    /// <summary>Static page with the sign-in form; takes <c>returnUrl</c>.</summary>
    public const string SignIn = "/account/sign-in";

    /// <summary>POST with the antiforgery token; ends the session.</summary>
    public const string SignOut = "/account/sign-out";

    /// <summary>Static page on which the next person takes over a shared tablet.</summary>
    public const string HandOverTablet = "/account/hand-over";

    /// <summary>Search over jobs, clients and parts; takes <c>q</c>.</summary>
    public const string Search = "/search";
}
