namespace ShopFloor.Web.Live;

/// <summary>The sign of life an open page asks for about every second. It reads nothing and says nothing.</summary>
public static class PulseEndpoint
{
    public const string Path = "/alive";

    // Sent with the sign-in, it counts as somebody touching the screen; the cookie's check has noted that by now.
    public static void MapPulse(this IEndpointRouteBuilder routes) =>
        routes.MapPost(Path, () => TypedResults.NoContent()).AllowAnonymous().ExcludeFromDescription();
}
