using System.Globalization;
using Serilog;
using Serilog.Events;
using ShopFloor.Shop.Storage;

namespace ShopFloor.Web.Operations;

/// <summary>
/// Logs to the console and to a file a day. Requests are named by the route they matched, never by what stood in the address, so that
/// links, tokens and searches do not end up in a file.
/// </summary>
public static class ShopLogs
{
    private const string Line = "{Timestamp:yyyy-MM-dd HH:mm:ss.fff zzz} {Level:u3} {SourceContext} {Message:lj}{NewLine}{Exception}";

    public static IServiceCollection AddShopLogs(this IServiceCollection services, ShopFolder folder) =>
        services.AddSerilog(
            (_, logger) => logger
                .MinimumLevel.Information()
                .MinimumLevel.Override("Microsoft", LogEventLevel.Warning)
                .MinimumLevel.Override("Microsoft.Hosting.Lifetime", LogEventLevel.Information)
                .WriteTo.Console(outputTemplate: Line, formatProvider: CultureInfo.InvariantCulture)
                .WriteTo.File(
                    Path.Combine(folder.Logs, "shop-.log"),
                    outputTemplate: Line,
                    formatProvider: CultureInfo.InvariantCulture,
                    rollingInterval: RollingInterval.Day,
                    retainedFileCountLimit: 31,
                    fileSizeLimitBytes: 50 * 1024 * 1024,
                    rollOnFileSizeLimit: true),
            preserveStaticLogger: true);

    public static WebApplication UseRequestLog(this WebApplication app)
    {
        app.UseSerilogRequestLogging(options =>
        {
            // The static logger is kept out of it, so requests have to be told where to go.
            options.Logger = app.Services.GetRequiredService<Serilog.ILogger>();
            options.IncludeQueryInRequestPath = false;
            options.GetLevel = (context, _, exception) =>
                exception is not null || context.Response.StatusCode >= 500 ? LogEventLevel.Error
                : IsQuiet(context) ? LogEventLevel.Debug
                : LogEventLevel.Information;
            options.GetMessageTemplateProperties = (context, _, elapsed, status) =>
            [
                new LogEventProperty("RequestMethod", new ScalarValue(context.Request.Method)),
                new LogEventProperty("RequestPath", new ScalarValue(RouteOf(context))),
                new LogEventProperty("StatusCode", new ScalarValue(status)),
                new LogEventProperty("Elapsed", new ScalarValue(elapsed)),
            ];
        });
        return app;
    }

    private static string RouteOf(HttpContext context) =>
        context.GetEndpoint() is RouteEndpoint route ? "/" + route.RoutePattern.RawText?.TrimStart('/') : "(no page)";

    // Files and health checks come by the hundred and say nothing.
    private static bool IsQuiet(HttpContext context) =>
        context.Request.Path.StartsWithSegments("/health") || context.Request.Path == Live.PulseEndpoint.Path || context.GetEndpoint()?.Metadata.GetMetadata<Microsoft.AspNetCore.StaticAssets.StaticAssetDescriptor>() is not null;
}
