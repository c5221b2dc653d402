namespace ShopFloor.Web.Layout;

/// <summary>Addresses the shell itself links to.</summary>
public static class ShellPaths
{
    /// <summary>Static page with the sign-in form; takes <c>from</c>.</summary>
    public const string SignIn = "/sign-in";

    /// <summary>POST with the antiforgery token; ends the session.</summary>
    public const string SignOut = "/sign-out";

    /// <summary>POST with the antiforgery token; ends the session and leads to the PIN page for the next person.</summary>
    public const string HandOverTablet = "/tablet/hand-over";

    /// <summary>Search over jobs, clients and parts; takes <c>q</c>.</summary>
    public const string Search = "/search";
}
