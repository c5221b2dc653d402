using Microsoft.AspNetCore.Authentication;
using Microsoft.OpenApi;
using ShopFloor.Shop.Staff;
using ShopFloor.Web.Account;
using ShopFloor.Web.Security;

namespace ShopFloor.Web.Api;

/// <summary>The HTTP API for other programs of the shop: same use cases, same calculations, same records as the screens.</summary>
public static class ShopApi
{
    public const string Root = "/api/v1";

    public static IServiceCollection AddShopApi(this IServiceCollection services)
    {
        services.AddAuthentication().AddScheme<AuthenticationSchemeOptions, ApiTokenHandler>(ApiTokenHandler.SchemeName, null);
        services.AddAuthorization(options =>
        {
            foreach (var permission in Enum.GetValues<Permission>())
            {
                options.AddPolicy(PolicyOf(permission), policy => policy
                    .AddAuthenticationSchemes(ApiTokenHandler.SchemeName)
                    .RequireAuthenticatedUser()
                    .RequireAssertion(context => context.User.Identity?.IsAuthenticated == true && context.User.ToActor().May(permission)));
            }
        });
        services.AddOpenApi("v1", options =>
        {
            options.ShouldInclude = description => description.RelativePath?.StartsWith("api/", StringComparison.Ordinal) == true;
            options.AddDocumentTransformer((document, _, _) =>
            {
                document.Info = new OpenApiInfo
                {
                    Title = "ShopFloor",
                    Version = "1",
                    Description = "Jobs, parts, stages and calculations of the shop. SI units, named in every field. "
                        + "Refused input is answered with application/problem+json whose 'errors' name the field, the value and what is accepted. "
                        + "An edit sends the version it read as If-Match and gets 412 with both versions when somebody else was faster.",
                };
                document.Servers = [];
                document.Components ??= new OpenApiComponents();
                document.Components.SecuritySchemes ??= new Dictionary<string, IOpenApiSecurityScheme>();
                document.Components.SecuritySchemes[ApiTokenHandler.SchemeName] = new OpenApiSecurityScheme
                {
                    Type = SecuritySchemeType.Http,
                    Scheme = "bearer",
                    Description = "A token the owner makes under Settings, API tokens. It can do what its scope names, until it expires or is revoked.",
                };
                document.Security = [new OpenApiSecurityRequirement { [new OpenApiSecuritySchemeReference(ApiTokenHandler.SchemeName, document)] = [] }];
                return Task.CompletedTask;
            });
        });
        services.ConfigureHttpJsonOptions(options => ApiJson.Configure(options.SerializerOptions));
        return services;
    }

    public static void MapShopApi(this IEndpointRouteBuilder routes)
    {
        routes.MapOpenApi().AllowAnonymous();
        var api = routes.MapGroup(Root).RequireRateLimiting(RateLimits.Api).ProducesProblem(StatusCodes.Status401Unauthorized).ProducesProblem(StatusCodes.Status403Forbidden);
        api.MapCalculations();
        api.MapJobs();
        api.MapMeasurements();
        api.MapParts();
        api.MapStages();
        api.MapTuningPresets();
    }

    /// <summary>Demands a token whose scope holds the permission.</summary>
    public static TBuilder Needs<TBuilder>(this TBuilder builder, Permission permission)
        where TBuilder : IEndpointConventionBuilder =>
        builder.RequireAuthorization(PolicyOf(permission)).WithMetadata(new ApiScope(permission));

    private static string PolicyOf(Permission permission) => $"api:{permission}";
}

/// <summary>The scope an endpoint of the API asks for, for the tests that hold the rule over all of them.</summary>
public sealed record ApiScope(Permission Permission);
