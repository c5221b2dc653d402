using System.Globalization;
using Microsoft.AspNetCore.Diagnostics.HealthChecks;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.Diagnostics.HealthChecks;
using ShopFloor.Shop.Storage;

namespace ShopFloor.Web.Operations;

/// <summary>Two addresses for whoever watches the program: is it running, and can it work.</summary>
public static class ShopHealth
{
    private const string Readiness = "ready";

    public static IServiceCollection AddShopHealth(this IServiceCollection services)
    {
        services.AddHealthChecks()
            .AddCheck<DatabaseReachable>("database", tags: [Readiness])
            .AddCheck<RoomOnDisk>("disk", tags: [Readiness]);
        return services;
    }

    public static void MapShopHealth(this IEndpointRouteBuilder routes)
    {
        routes.MapHealthChecks("/health/live", new HealthCheckOptions { Predicate = _ => false }).AllowAnonymous();
        routes.MapHealthChecks("/health/ready", new HealthCheckOptions { Predicate = check => check.Tags.Contains(Readiness) }).AllowAnonymous();
    }
}

internal sealed class DatabaseReachable(ShopStore store) : IHealthCheck
{
    public async Task<HealthCheckResult> CheckHealthAsync(HealthCheckContext context, CancellationToken cancellationToken = default)
    {
        await store.ReadAsync(db => db.Users.AnyAsync(cancellationToken), cancellationToken);
        return HealthCheckResult.Healthy();
    }
}

internal sealed class RoomOnDisk(ShopFolder folder, IConfiguration configuration) : IHealthCheck
{
    private const long DefaultLeastMegabytes = 500;

    public Task<HealthCheckResult> CheckHealthAsync(HealthCheckContext context, CancellationToken cancellationToken = default)
    {
        var least = configuration.GetValue("Shop:LeastFreeMegabytes", DefaultLeastMegabytes);
        var free = new DriveInfo(folder.Root).AvailableFreeSpace / (1024 * 1024);
        return Task.FromResult(free >= least
            ? HealthCheckResult.Healthy()
            : HealthCheckResult.Unhealthy(string.Create(CultureInfo.InvariantCulture, $"{free} MB are free where the shop keeps its data; {least} MB are asked for.")));
    }
}
