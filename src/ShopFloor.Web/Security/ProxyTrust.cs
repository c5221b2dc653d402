using System.Net;
using Microsoft.AspNetCore.HttpOverrides;

namespace ShopFloor.Web.Security;

/// <summary>Whose word is taken for the address and scheme a request came with: this computer's, and the proxies named in the settings.</summary>
public static class ProxyTrust
{
    /// <exception cref="FormatException"><c>Shop:TrustedProxies</c> holds something that is no address or network.</exception>
    public static IServiceCollection AddProxyTrust(this IServiceCollection services, IConfiguration configuration)
    {
        var trusted = (configuration["Shop:TrustedProxies"] ?? "").Split([',', ' '], StringSplitOptions.RemoveEmptyEntries);
        services.Configure<ForwardedHeadersOptions>(options =>
        {
            options.ForwardedHeaders = ForwardedHeaders.XForwardedFor | ForwardedHeaders.XForwardedProto | ForwardedHeaders.XForwardedHost;
            foreach (var proxy in trusted)
            {
                if (proxy.Contains('/', StringComparison.Ordinal))
                {
                    options.KnownIPNetworks.Add(System.Net.IPNetwork.Parse(proxy));
                }
                else
                {
                    options.KnownProxies.Add(IPAddress.Parse(proxy));
                }
            }
        });
        return services;
    }
}
