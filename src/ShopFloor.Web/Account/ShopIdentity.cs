using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Components.Authorization;
using Microsoft.AspNetCore.DataProtection;
using Microsoft.AspNetCore.Identity;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Storage;

namespace ShopFloor.Web.Account;

/// <summary>Sign-in with the accounts of the shop's own database, and one authorisation policy per permission.</summary>
public static class ShopIdentity
{
    public static IServiceCollection AddShopIdentity(this IServiceCollection services, IHostEnvironment environment, ShopFolder folder)
    {
        services.AddScoped<StaffSignIn>();
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
        services.Configure<SecurityStampValidatorOptions>(options => options.ValidationInterval = TimeSpan.FromMinutes(1));
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
        });
        services.AddDataProtection().SetApplicationName("ShopFloor").PersistKeysToFileSystem(new DirectoryInfo(folder.Keys));
        services.AddAuthorization(options =>
        {
            foreach (var permission in Enum.GetValues<Permission>())
            {
                options.AddPolicy(permission.ToString(), policy => policy
                    .RequireAuthenticatedUser()
                    .RequireAssertion(context => context.User.ToActor().May(permission)));
            }

            options.FallbackPolicy = new AuthorizationPolicyBuilder().RequireAuthenticatedUser().Build();
        });
        return services;
    }
}

/// <summary>Demands a permission of whoever opens a page or calls an endpoint.</summary>
public sealed class NeedsAttribute(Permission permission) : AuthorizeAttribute(permission.ToString());
