using System.Diagnostics.CodeAnalysis;

namespace ShopFloor.Web.Account;

/// <summary>The secret by which a registered tablet is known. It alone opens nothing: a PIN has to follow.</summary>
public static class TabletCookie
{
    private static readonly TimeSpan Lifetime = TimeSpan.FromDays(400);

    public static bool IsPresent(HttpContext context) => TryRead(context, out _);

    public static bool TryRead(HttpContext context, [NotNullWhen(true)] out string? secret) =>
        context.Request.Cookies.TryGetValue(NameIn(context), out secret) && !string.IsNullOrEmpty(secret);

    public static void Write(HttpContext context, string secret) => context.Response.Cookies.Append(NameIn(context), secret, new CookieOptions
    {
        HttpOnly = true,
        Secure = context.Request.IsHttps,
        SameSite = SameSiteMode.Lax,
        IsEssential = true,
        MaxAge = Lifetime,
        Path = "/",
    });

    public static void Remove(HttpContext context) =>
        context.Response.Cookies.Delete(NameIn(context), new CookieOptions { Secure = context.Request.IsHttps, Path = "/" });

    // Browsers take the __Host- name only over https, and then from nobody but this host.
    private static string NameIn(HttpContext context) => context.Request.IsHttps ? "__Host-shop-tablet" : "shop-tablet";
}
