using Microsoft.AspNetCore.Authentication;
using Microsoft.AspNetCore.Authentication.Cookies;
using Microsoft.AspNetCore.Identity;

namespace ShopFloor.Web.Account;

/// <summary>What is asked of the sign-in cookie at every request. An open page asks with it after every touch (pulse.js), never by itself.</summary>
internal static class CookieChecks
{
    /// <summary>Ends PIN sessions nobody touched for a while; then the usual check of the security stamp.</summary>
    public static async Task ValidateAsync(CookieValidatePrincipalContext context)
    {
        var sessions = context.HttpContext.RequestServices.GetRequiredService<TabletSessions>();
        if (context.Principal is { } principal && sessions.IsOver(principal))
        {
            context.RejectPrincipal();
            await context.HttpContext.SignOutAsync(IdentityConstants.ApplicationScheme);
            return;
        }

        await SecurityStampValidator.ValidatePrincipalAsync(context);
        if (context.Principal is { } still)
        {
            sessions.Touch(still);
        }
    }

    /// <summary>Keeps a PIN session a PIN session when the cookie is made anew from the account.</summary>
    public static Task KeepNarrowAsync(SecurityStampRefreshingPrincipalContext context)
    {
        if (context is { CurrentPrincipal: { } current, NewPrincipal: { } renewed })
        {
            context.NewPrincipal = ShopClaims.IsTablet(current)
                ? TabletSessions.Narrow(renewed, TabletSessions.ClaimsOf(current))
                : ShopClaims.With(renewed, current.FindAll(ShopClaims.Via));
        }

        return Task.CompletedTask;
    }

    /// <summary>Programs get the plain status; people get the sign-in page.</summary>
    public static Task RedirectPeople(RedirectContext<CookieAuthenticationOptions> context, int status)
    {
        if (IsForPeople(context.Request))
        {
            context.Response.Redirect(context.RedirectUri);
        }
        else
        {
            context.Response.StatusCode = status;
        }

        return Task.CompletedTask;
    }

    private static bool IsForPeople(HttpRequest request) =>
        HttpMethods.IsGet(request.Method)
        && !request.Path.StartsWithSegments("/api")
        && !request.Path.StartsWithSegments("/_blazor")
        && (request.Headers.Accept.Count == 0 || request.Headers.Accept.ToString() is var accept
            && (accept.Contains("text/html", StringComparison.OrdinalIgnoreCase) || accept.Contains("*/*", StringComparison.Ordinal) || accept.Contains("image/", StringComparison.OrdinalIgnoreCase)));
}
