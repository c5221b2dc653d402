using Microsoft.AspNetCore.Antiforgery;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Mvc;
using ShopFloor.Documents.Handover;
using ShopFloor.Shop.Clients;
using ShopFloor.Shop.Phases.Estimate;
using ShopFloor.Shop.Phases.Handover;
using ShopFloor.Shop.Storage.Photos;
using ShopFloor.Web.Papers;
using ShopFloor.Web.Security;

namespace ShopFloor.Web.Clients.Link;

/// <summary>
/// What a client sees behind their private link: pages rendered by the server alone. The secret stands in the first address only;
/// from then on a cookie of this path carries it. A wrong, an expired and a revoked link all give the same answer.
/// </summary>
public static class ClientLinkEndpoints
{
    private const string Cookie = "client-link";
    /// <summary>Where all of it lies.</summary>
    public const string Path = "/c";
    private const string HeaderPolicy = "client-link";
    private const int LargestForm = 16_384;

    /// <summary>These pages have no script at all and give their address to nobody.</summary>
    public static IServiceCollection AddClientLinkPages(this IServiceCollection services, IHostEnvironment environment)
    {
        services.AddSecurityHeaderPolicies().AddPolicy(HeaderPolicy, headers => headers
            .AddContentSecurityPolicy(policy =>
            {
                policy.AddDefaultSrc().None();
                policy.AddStyleSrc().Self();
                policy.AddImgSrc().Self();
                policy.AddFontSrc().Self();
                policy.AddFormAction().Self();
                policy.AddBaseUri().None();
                policy.AddFrameAncestors().None();
            })
            .AddReferrerPolicyNoReferrer()
            .ForEveryAnswer(environment));
        return services;
    }

    public static void MapClientLinkPages(this IEndpointRouteBuilder routes)
    {
        var pages = routes.MapGroup(Path)
            .AllowAnonymous()
            .RequireRateLimiting(RateLimits.ClientLink)
            .ExcludeFromDescription()
            .WithSecurityHeadersPolicy(HeaderPolicy)
            .AddEndpointFilter(QuietlyAsync);
        pages.MapGet("/{token}", OpenAsync);
        pages.MapGet("", HomeAsync);
        pages.MapGet("/estimate", EstimateAsync);
        pages.MapPost("/estimate", AnswerAsync).WithMetadata(new RequestSizeLimitAttribute(LargestForm));
        pages.MapGet("/photos", PhotosAsync);
        pages.MapGet("/photos/{photoId:guid}", PhotoAsync);
        pages.MapGet("/photos/{photoId:guid}/small", SmallPhotoAsync);
        pages.MapGet("/handover", HandoverAsync);
        pages.MapGet("/handover.pdf", HandoverPdfAsync);
    }

    private static ValueTask<object?> QuietlyAsync(EndpointFilterInvocationContext invocation, EndpointFilterDelegate next)
    {
        // That nothing is kept is said of every answer of the shop.
        invocation.HttpContext.Response.Headers["X-Robots-Tag"] = "noindex, nofollow";
        return next(invocation);
    }

    private static async Task<IResult> OpenAsync(HttpContext context, string token, ClientLinks links, IHostEnvironment environment, CancellationToken cancellationToken)
    {
        if (await links.ResolveAsync(token, cancellationToken) is not { } access)
        {
            return Gone();
        }

        await links.CountOpeningAsync(access, cancellationToken);
        context.Response.Cookies.Append(Cookie, token, new CookieOptions
        {
            HttpOnly = true,
            Secure = !environment.IsDevelopment(),
            // Lax, not Strict: the link is opened from a mail, and a strict cookie would stay behind on that first hop.
            SameSite = SameSiteMode.Lax,
            Path = Path,
            Expires = access.ExpiresAt,
            IsEssential = true,
        });
        context.Response.Headers.Location = Path;
        return Results.StatusCode(StatusCodes.Status303SeeOther);
    }

    private static Task<IResult> HomeAsync(HttpContext context, ClientLinks links, JobForClient jobs, CancellationToken cancellationToken) =>
        WithAccessAsync(context, links, async access => new RazorComponentResult<ClientHome>(new { Job = await jobs.JobAsync(access, cancellationToken) }), cancellationToken);

    private static Task<IResult> EstimateAsync(
        HttpContext context, ClientLinks links, JobForClient jobs, Estimates estimates, IAntiforgery antiforgery, CancellationToken cancellationToken) =>
        WithAccessAsync(context, links, access => EstimatePageAsync(context, access, jobs, estimates, antiforgery, null, "", cancellationToken), cancellationToken);

    private static Task<IResult> AnswerAsync(
        HttpContext context, ClientLinks links, JobForClient jobs, Estimates estimates, IAntiforgery antiforgery, CancellationToken cancellationToken) =>
        WithAccessAsync(
            context,
            links,
            async access =>
            {
                if (!context.Request.HasFormContentType || !await antiforgery.IsRequestValidAsync(context))
                {
                    return await EstimatePageAsync(context, access, jobs, estimates, antiforgery, "The page was open too long. Look at it again, then answer.", "", cancellationToken);
                }

                var form = await context.Request.ReadFormAsync(cancellationToken);
                var name = form["name"].ToString();
                var answer = form["answer"].ToString();
                if (answer is not ("approve" or "decline") || !Guid.TryParse(form["version"], out var version))
                {
                    return await EstimatePageAsync(context, access, jobs, estimates, antiforgery, "Choose whether you agree or decline.", name, cancellationToken);
                }

                var outcome = await estimates.AnswerAsClientAsync(access, new ClientAnswer(version, form["hash"].ToString(), answer == "approve", name), cancellationToken);
                if (!outcome.Succeeded)
                {
                    return await EstimatePageAsync(context, access, jobs, estimates, antiforgery, outcome.Message, name, cancellationToken);
                }

                context.Response.Headers.Location = Path + "/estimate";
                return Results.StatusCode(StatusCodes.Status303SeeOther);
            },
            cancellationToken);

    private static Task<IResult> PhotosAsync(HttpContext context, ClientLinks links, JobForClient jobs, CancellationToken cancellationToken) =>
        WithAccessAsync(
            context,
            links,
            async access => new RazorComponentResult<ClientPhotos>(new { Job = await jobs.JobAsync(access, cancellationToken), Photos = await jobs.PhotosAsync(access, cancellationToken) }),
            cancellationToken);

    private static Task<IResult> PhotoAsync(HttpContext context, Guid photoId, ClientLinks links, JobForClient jobs, PhotoStore store, CancellationToken cancellationToken) =>
        WithAccessAsync(
            context,
            links,
            async access => store.OpenPicture(await jobs.PhotoHashAsync(access, photoId, cancellationToken)) is { } picture ? Results.Stream(picture, "image/jpeg") : Gone(),
            cancellationToken);

    private static Task<IResult> SmallPhotoAsync(HttpContext context, Guid photoId, ClientLinks links, JobForClient jobs, PhotoStore store, CancellationToken cancellationToken) =>
        WithAccessAsync(
            context,
            links,
            async access => store.OpenThumbnail(await jobs.PhotoHashAsync(access, photoId, cancellationToken)) is { } picture ? Results.Stream(picture, "image/jpeg") : Gone(),
            cancellationToken);

    private static Task<IResult> HandoverAsync(HttpContext context, ClientLinks links, JobForClient jobs, CancellationToken cancellationToken) =>
        WithAccessAsync(
            context,
            links,
            async access => await jobs.HandoverAsync(access, cancellationToken) is { } released
                ? new RazorComponentResult<ClientHandover>(new { Job = await jobs.JobAsync(access, cancellationToken), Document = HandoverDocument.Compose(released.Facts) })
                : Gone(),
            cancellationToken);

    private static Task<IResult> HandoverPdfAsync(HttpContext context, ClientLinks links, JobForClient jobs, CancellationToken cancellationToken) =>
        WithAccessAsync(
            context,
            links,
            async access => await jobs.HandoverAsync(access, cancellationToken) is { } released
                ? PaperEndpoints.Shown(context, released.Pdf, released.Facts.JobReference, "handover")
                : Gone(),
            cancellationToken);

    private static async Task<IResult> EstimatePageAsync(
        HttpContext context,
        ClientAccess access,
        JobForClient jobs,
        Estimates estimates,
        IAntiforgery antiforgery,
        string? problem,
        string typedName,
        CancellationToken cancellationToken)
    {
        if (await estimates.PaperForClientAsync(access, cancellationToken) is not { } paper)
        {
            return Gone();
        }

        var token = antiforgery.GetAndStoreTokens(context);
        return new RazorComponentResult<ClientEstimate>(new
        {
            Job = await jobs.JobAsync(access, cancellationToken),
            Paper = paper,
            TokenField = token.FormFieldName,
            Token = token.RequestToken,
            Problem = problem,
            TypedName = typedName,
        })
        {
            StatusCode = problem is null ? StatusCodes.Status200OK : StatusCodes.Status400BadRequest,
        };
    }

    private static async Task<IResult> WithAccessAsync(HttpContext context, ClientLinks links, Func<ClientAccess, Task<IResult>> page, CancellationToken cancellationToken) =>
        await links.ResolveAsync(context.Request.Cookies[Cookie], cancellationToken) is { } access ? await page(access) : Gone();

    private static RazorComponentResult<ClientGone> Gone() => new() { StatusCode = StatusCodes.Status404NotFound };
}
