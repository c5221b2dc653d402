using Microsoft.AspNetCore.Antiforgery;
using ShopFloor.Shop.Staff;

namespace ShopFloor.Web.Account;

/// <summary>The addresses around sign-in that answer with another address: the front door and the ways out.</summary>
public static class AccountEndpoints
{
    public static void MapAccount(this IEndpointRouteBuilder routes)
    {
        routes.MapGet("/", Home).AllowAnonymous().ExcludeFromDescription();
        routes.MapPost("/sign-out", SignOutAsync).AllowAnonymous().RequireAntiforgery().ExcludeFromDescription();
        routes.MapPost("/tablet/hand-over", HandOverAsync).AllowAnonymous().RequireAntiforgery().ExcludeFromDescription();
    }

    /// <summary>Refuses a post without the antiforgery token of a page of this shop.</summary>
    public static TBuilder RequireAntiforgery<TBuilder>(this TBuilder builder)
        where TBuilder : IEndpointConventionBuilder =>
        builder.AddEndpointFilter(async (context, next) =>
        {
            var antiforgery = context.HttpContext.RequestServices.GetRequiredService<IAntiforgery>();
            return await antiforgery.IsRequestValidAsync(context.HttpContext)
                ? await next(context)
                : Results.Problem("This form was opened too long ago or elsewhere. Load the page again; what you typed is kept.", statusCode: StatusCodes.Status400BadRequest);
        });

    private static IResult Home(HttpContext context) =>
        Results.LocalRedirect(
            context.User.Identity?.IsAuthenticated != true ? "/sign-in"
            : context.User.ToActor().Role == ShopRole.Technician ? "/work"
            : "/board");

    private static async Task<IResult> SignOutAsync(HttpContext context, StaffSignIn signIn, TabletSessions sessions)
    {
        sessions.End(context.User);
        await signIn.SignOutAsync();
        return Results.LocalRedirect("/sign-in");
    }

    private static async Task<IResult> HandOverAsync(HttpContext context, StaffSignIn signIn, TabletSessions sessions)
    {
        sessions.End(context.User);
        await signIn.SignOutAsync();
        return Results.LocalRedirect("/tablet");
    }
}
