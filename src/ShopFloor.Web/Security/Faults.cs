using Microsoft.AspNetCore.Diagnostics;
using Microsoft.AspNetCore.Mvc;
using ShopFloor.Shop.Staff;

namespace ShopFloor.Web.Security;

/// <summary>What is answered when something was refused or broke: words for people, problem+json for programs, never the inside of a fault.</summary>
public static class Faults
{
    public static IServiceCollection AddFaults(this IServiceCollection services)
    {
        services.AddProblemDetails();
        services.AddExceptionHandler<ProgramFaults>();
        return services;
    }

    public static WebApplication UseFaults(this WebApplication app)
    {
        app.UseExceptionHandler(new ExceptionHandlerOptions { ExceptionHandlingPath = "/error", CreateScopeForErrors = true });
        app.UseWhen(context => IsForPrograms(context.Request), programs => programs.UseStatusCodePages(AnswerAsync));
        app.UseWhen(context => !IsForPrograms(context.Request), people => people.UseStatusCodePagesWithReExecute("/error/{0}", createScopeForStatusCodePages: true));

        // The page that explains a refused post is read, not posted to: else it would ask for a form and a token of its own.
        app.Use(async (context, next) =>
        {
            var method = context.Request.Method;
            if (context.Features.Get<IStatusCodeReExecuteFeature>() is not null || context.Features.Get<IExceptionHandlerFeature>() is not null)
            {
                context.Request.Method = HttpMethods.Get;
            }

            await next(context);
            context.Request.Method = method;
        });
        return app;
    }

    /// <summary>The API, and scripts of our pages that ask for data.</summary>
    public static bool IsForPrograms(HttpRequest request) => IsForPrograms(request, request.Path);

    private static bool IsForPrograms(HttpRequest request, PathString path) =>
        path.StartsWithSegments("/api")
        || path.StartsWithSegments("/_blazor")
        || (request.Headers.Accept.ToString() is { Length: > 0 } accept
            && accept.Contains("json", StringComparison.OrdinalIgnoreCase)
            && !accept.Contains("text/html", StringComparison.OrdinalIgnoreCase));

    private static Task AnswerAsync(StatusCodeContext context)
    {
        var response = context.HttpContext.Response;
        return Results.Problem(statusCode: response.StatusCode, detail: Words(response.StatusCode)).ExecuteAsync(context.HttpContext);
    }

    private static string? Words(int status) => status switch
    {
        StatusCodes.Status401Unauthorized => "Send a live token of this shop as 'Authorization: Bearer …'.",
        StatusCodes.Status403Forbidden => "The token's scope does not include this.",
        StatusCodes.Status404NotFound => "Nothing is kept under this address.",
        StatusCodes.Status413PayloadTooLarge => "What was sent is larger than what is taken here.",
        StatusCodes.Status415UnsupportedMediaType => "Send application/json.",
        StatusCodes.Status429TooManyRequests => "Too many calls; wait for the seconds named in Retry-After.",
        _ => null,
    };

    private sealed class ProgramFaults(IProblemDetailsService problems) : IExceptionHandler
    {
        public async ValueTask<bool> TryHandleAsync(HttpContext context, Exception exception, CancellationToken cancellationToken)
        {
            // By now the request stands at the page for faults; what was asked for is kept beside it.
            if (!IsForPrograms(context.Request, context.Features.Get<IExceptionHandlerPathFeature>()?.Path ?? context.Request.Path))
            {
                return false;
            }

            var (status, detail) = exception switch
            {
                NotAllowedException refused => (StatusCodes.Status403Forbidden, $"This needs {refused.Permission}, which the sign-in or token does not have."),
                BadHttpRequestException bad => (bad.StatusCode, "The request could not be read."),
                _ => (StatusCodes.Status500InternalServerError, $"Something went wrong on our side. Name this number when you report it: {context.TraceIdentifier}"),
            };
            context.Response.StatusCode = status;
            return await problems.TryWriteAsync(new ProblemDetailsContext
            {
                HttpContext = context,
                ProblemDetails = new ProblemDetails { Status = status, Detail = detail },
            });
        }
    }
}
