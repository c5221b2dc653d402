namespace ShopFloor.Web.Security;

/// <summary>Lets only pages of the shop itself open the connection behind interactive pages: browsers send cookies along with any WebSocket.</summary>
public static class CircuitOrigin
{
    public static WebApplication UseCircuitOriginCheck(this WebApplication app)
    {
        app.Use((context, next) =>
        {
            if (context.Request.Path.StartsWithSegments("/_blazor") && !IsOwn(context.Request))
            {
                context.Response.StatusCode = StatusCodes.Status403Forbidden;
                return Task.CompletedTask;
            }

            return next(context);
        });
        return app;
    }

    private static bool IsOwn(HttpRequest request)
    {
        var origin = request.Headers.Origin;
        return origin.Count == 0
            || (origin.Count == 1 && string.Equals(origin[0], $"{request.Scheme}://{request.Host.Value}", StringComparison.OrdinalIgnoreCase));
    }
}
