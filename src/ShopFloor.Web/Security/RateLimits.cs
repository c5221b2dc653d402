using System.Globalization;
using System.Threading.RateLimiting;
using Microsoft.AspNetCore.Http.Features;

namespace ShopFloor.Web.Security;

/// <summary>How often somebody may try or ask, by what they ask for and where from.</summary>
public static class RateLimits
{
    /// <summary>Posts of the sign-in and set-up forms.</summary>
    public const string SignIn = "sign-in";

    /// <summary>Posts of the PIN pad; the guard of each person and tablet stands behind it.</summary>
    public const string Pin = "pin";

    /// <summary>Calls of the HTTP API.</summary>
    public const string Api = "api";

    /// <summary>Opening client links.</summary>
    public const string ClientLink = "client-link";

    public static IServiceCollection AddShopRateLimits(this IServiceCollection services, IConfiguration configuration)
    {
        var settings = configuration.GetSection("Shop:RateLimits");
        services.AddRateLimiter(limiter =>
        {
            limiter.RejectionStatusCode = StatusCodes.Status429TooManyRequests;
            limiter.OnRejected = (rejected, _) =>
            {
                // The words come from the pages for refusals: a page for people, a problem for programs.
                var wait = rejected.Lease.TryGetMetadata(MetadataName.RetryAfter, out var after) ? after : TimeSpan.FromMinutes(1);
                rejected.HttpContext.Response.Headers.RetryAfter = Math.Ceiling(wait.TotalSeconds).ToString(CultureInfo.InvariantCulture);
                return ValueTask.CompletedTask;
            };
            limiter.AddPolicy(SignIn, context => PostsOnly(context, SignIn, settings.GetValue(SignIn, 20)));
            limiter.AddPolicy(Pin, context => PostsOnly(context, Pin, settings.GetValue(Pin, 60)));
            limiter.AddPolicy(Api, context => Window(Api, context.User.Identity?.Name ?? Source(context), settings.GetValue(Api, 300)));
            limiter.AddPolicy(ClientLink, context => Window(ClientLink, Source(context), settings.GetValue(ClientLink, 120)));
        });
        return services;
    }

    private static RateLimitPartition<string> PostsOnly(HttpContext context, string name, int perMinute) =>
        HttpMethods.IsPost(context.Request.Method) ? Window(name, Source(context), perMinute) : RateLimitPartition.GetNoLimiter("reading");

    private static RateLimitPartition<string> Window(string name, string who, int perMinute) =>
        RateLimitPartition.GetSlidingWindowLimiter($"{name} {who}", _ => new SlidingWindowRateLimiterOptions
        {
            PermitLimit = perMinute,
            Window = TimeSpan.FromMinutes(1),
            SegmentsPerWindow = 6,
        });

    private static string Source(HttpContext context) =>
        context.Features.Get<IHttpConnectionFeature>()?.RemoteIpAddress?.ToString() ?? "unknown";
}
