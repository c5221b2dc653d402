using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Components.Authorization;
using Microsoft.AspNetCore.DataProtection;
using Microsoft.AspNetCore.Identity;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Storage;
using ShopFloor.Web.Api;

namespace ShopFloor.Web.Account;

/// <summary>Sign-in with the accounts of the shop's own database, and one authorisation policy per permission.</summary>
public static class ShopIdentity
{
    /// <summary>How long a change of role may take to reach a browser that keeps asking.</summary>
    private static readonly TimeSpan StampInterval = TimeSpan.FromSeconds(30);

    public static IServiceCollection AddShopIdentity(this IServiceCollection services, IHostEnvironment environment, ShopFolder folder)
    {
        services.AddScoped<StaffSignIn>();
        services.AddScoped<TabletSignIn>();
        services.AddSingleton<TabletSessions>();
        services.AddCascadingAuthenticationState();
        services.AddScoped<AuthenticationStateProvider, StaffStateProvider>();
        services
            .AddAuthentication(IdentityConstants.ApplicationScheme)
            .AddIdentityCookies();
        services
            .AddIdentityCore<StaffMember>(options =>
            {
                options.Lockout.MaxFailedAccessAttempts = 10;
                options.Lockout.DefaultLockoutTimeSpan = TimeSpan.FromMinutes(5);
            })
            .AddEntityFrameworkStores<ShopDbContext>()
            .AddSignInManager()
            .AddClaimsPrincipalFactory<StaffClaimsFactory>();
        services.Configure<SecurityStampValidatorOptions>(options =>
        {
            options.ValidationInterval = StampInterval;
            options.OnRefreshingPrincipal = CookieChecks.KeepNarrowAsync;
        });
        services.ConfigureApplicationCookie(options =>
        {
            var secure = !environment.IsDevelopment();
            options.Cookie.Name = secure ? "__Host-shop" : "shop";
            options.Cookie.HttpOnly = true;
            options.Cookie.SameSite = SameSiteMode.Lax;
            options.Cookie.SecurePolicy = secure ? CookieSecurePolicy.Always : CookieSecurePolicy.SameAsRequest;
            options.LoginPath = "/sign-in";
            options.AccessDeniedPath = "/not-allowed";
            options.ReturnUrlParameter = "from";
            options.ExpireTimeSpan = TimeSpan.FromHours(12);
            options.SlidingExpiration = true;
            options.ForwardDefaultSelector = context => context.Request.Path.StartsWithSegments(ShopApi.Root) ? ApiTokenHandler.SchemeName : null;
            options.Events.OnValidatePrincipal = CookieChecks.ValidateAsync;
            options.Events.OnRedirectToLogin = context => CookieChecks.RedirectPeople(context, StatusCodes.Status401Unauthorized);
            options.Events.OnRedirectToAccessDenied = context => CookieChecks.RedirectPeople(context, StatusCodes.Status403Forbidden);
        });
        services.AddDataProtection().SetApplicationName("ShopFloor").PersistKeysToFileSystem(new DirectoryInfo(folder.Keys));
        services.AddAntiforgery(options =>
        {
            options.Cookie.Name = "shop-form";
            options.Cookie.SecurePolicy = CookieSecurePolicy.SameAsRequest;
        });
        services.AddAuthorization(options =>
        {
            foreach (var permission in Enum.GetValues<Permission>())
            {
                options.AddPolicy(permission.ToString(), policy => policy
                    .RequireAuthenticatedUser()
                    .RequireAssertion(context => context.User.Identity?.IsAuthenticated == true && context.User.ToActor().May(permission)));
            }

            options.FallbackPolicy = new AuthorizationPolicyBuilder().RequireAuthenticatedUser().Build();
        });
        return services;
    }
}

/// <summary>Demands a permission of whoever opens a page or calls an endpoint.</summary>
public sealed class NeedsAttribute(Permission permission) : AuthorizeAttribute(permission.ToString());
