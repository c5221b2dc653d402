using System.Net;
using System.Reflection;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Components.Endpoints;
using Microsoft.AspNetCore.Routing;
using Microsoft.AspNetCore.StaticAssets;
using ShopFloor.Shop.Staff;
using ShopFloor.Web.Account;
using ShopFloor.Web.Api;

namespace ShopFloor.Web.Tests.Security;

/// <summary>Every address of the program against everybody who may knock. A new endpoint without a rule fails here.</summary>
public sealed class EveryEndpointTests(EveryEndpointTests.Host host) : IClassFixture<EveryEndpointTests.Host>
{
    /// <summary>What anybody may reach, and why it is safe.</summary>
    private static readonly string[] OpenToAll =
    [
        "/",                        // leads to a page
        "/sign-in", "/set-up",      // guarded by their own checks
        "/tablet",                  // shows names only to a registered tablet
        "/sign-out", "/tablet/hand-over",
        "/not-allowed", "/not-found", "/error", "/error/{Code:int}",
        "/health/live", "/health/ready",
        "/alive",                   // says nothing
        "/openapi/{documentName}.json",
    ];

    /// <summary>What a client opens by their link: the secret in the address, then in a cookie, is the key. Without it there is nothing.</summary>
    private const string ClientLinks = "/c/";

    public sealed class Host : IAsyncLifetime
    {
        public ShopApplication Shop { get; } = new();

        public Dictionary<string, HttpClient> Visitors { get; } = [];

        public Dictionary<string, HttpClient> Programs { get; } = [];

        public async Task InitializeAsync()
        {
            await Shop.InitializeAsync();
            foreach (var role in Enum.GetValues<ShopRole>())
            {
                Visitors[role.ToString()] = await Shop.SignInAsync(role);
            }

            Visitors["Owner by PIN"] = await Shop.SwitchInAsync(ShopRole.Owner);
            foreach (var permission in ApiTokens.Scopes)
            {
                Programs[permission.ToString()] = await Shop.WithTokenAsync(permission);
            }
        }

        public Task DisposeAsync() => ((IAsyncLifetime)Shop).DisposeAsync();
    }

    private IEnumerable<RouteEndpoint> Endpoints => host.Shop.Get<EndpointDataSource>().Endpoints
        .OfType<RouteEndpoint>()
        .Where(endpoint => endpoint.Metadata.GetMetadata<StaticAssetDescriptor>() is null);

    [Fact]
    public void Every_endpoint_is_on_the_open_list_or_names_a_permission()
    {
        var without = Endpoints
            .Where(endpoint => !IsFramework(endpoint) && !IsOpen(endpoint) && PermissionOf(endpoint) is null)
            .Select(endpoint => endpoint.DisplayName)
            .Distinct();

        Assert.Empty(without);
    }

    [Fact]
    public void Nothing_on_the_open_list_is_out_of_date_and_nothing_else_is_open()
    {
        var open = Endpoints.Where(endpoint => !IsFramework(endpoint) && endpoint.Metadata.GetMetadata<IAllowAnonymous>() is not null).Select(PathOf).Distinct();

        Assert.Empty(open.Where(path => !path.StartsWith(ClientLinks, StringComparison.Ordinal)).Except(OpenToAll));
    }

    [Fact]
    public async Task Nobody_reaches_what_is_not_open_without_signing_in()
    {
        foreach (var endpoint in Endpoints.Where(endpoint => !IsOpen(endpoint) && !IsFramework(endpoint)))
        {
            foreach (var method in MethodsOf(endpoint))
            {
                using var request = RequestFor(endpoint, method);
                var answer = await host.Shop.Anonymous().SendAsync(request);

                Assert.True(
                    answer.StatusCode == HttpStatusCode.Unauthorized || IsRedirectTo(answer, "/sign-in"),
                    $"{method} {PathOf(endpoint)} answered {answer.StatusCode} to nobody.");
            }
        }
    }

    [Fact]
    public async Task Client_pages_show_nothing_without_a_live_link_not_even_to_the_owner()
    {
        var pages = Endpoints.Where(endpoint => PathOf(endpoint).StartsWith(ClientLinks, StringComparison.Ordinal)).ToList();
        Assert.NotEmpty(pages);
        foreach (var endpoint in pages)
        {
            foreach (var visitor in new[] { host.Shop.Anonymous(), host.Visitors[nameof(ShopRole.Owner)] })
            {
                foreach (var method in MethodsOf(endpoint))
                {
                    using var request = RequestFor(endpoint, method);
                    var answer = await visitor.SendAsync(request);

                    Assert.True((int)answer.StatusCode is >= 400 and < 500, $"{method} {PathOf(endpoint)} answered {answer.StatusCode} without a link.");
                }
            }
        }
    }

    [Fact]
    public async Task Every_visitor_reaches_exactly_the_pages_their_permissions_name()
    {
        var checks = 0;
        foreach (var endpoint in Endpoints.Where(endpoint => !IsOpen(endpoint) && !IsFramework(endpoint) && !IsApi(endpoint) && MethodsOf(endpoint).Contains("GET")))
        {
            var needed = PermissionOf(endpoint)!.Value; // held by the first test
            foreach (var (name, browser) in host.Visitors)
            {
                var role = name == "Owner by PIN" ? ShopRole.Technician : Enum.Parse<ShopRole>(name);
                using var request = RequestFor(endpoint, "GET");
                var answer = await browser.SendAsync(request);
                var refused = answer.StatusCode == HttpStatusCode.Forbidden || IsRedirectTo(answer, "/not-allowed");

                Assert.True(refused != role.Has(needed), $"{name} asked for {PathOf(endpoint)}, which needs {needed}: {answer.StatusCode}.");
                Assert.True((int)answer.StatusCode < 500, $"{name} asked for {PathOf(endpoint)}: {answer.StatusCode}.");
                checks++;
            }
        }

        Assert.True(checks >= 4, $"Only {checks} pages were asked for.");
    }

    [Fact]
    public async Task Every_scope_reaches_exactly_the_calls_of_its_permission()
    {
        var checks = 0;
        foreach (var endpoint in Endpoints.Where(IsApi))
        {
            var needed = endpoint.Metadata.GetMetadata<ApiScope>()?.Permission;
            Assert.True(needed is not null, $"{PathOf(endpoint)} names no scope.");
            foreach (var (scope, program) in host.Programs)
            {
                foreach (var method in MethodsOf(endpoint))
                {
                    using var request = RequestFor(endpoint, method);
                    var answer = await program.SendAsync(request);

                    Assert.True(
                        (answer.StatusCode == HttpStatusCode.Forbidden) == (needed != Permission.SeeJobs && scope != needed.ToString()),
                        $"{scope} called {method} {PathOf(endpoint)}, which needs {needed}: {answer.StatusCode}.");
                    Assert.True((int)answer.StatusCode < 500, $"{scope} called {method} {PathOf(endpoint)}: {answer.StatusCode}.");
                    checks++;
                }
            }
        }

        Assert.True(checks > 50, $"Only {checks} calls were made.");
    }

    [Fact]
    public async Task Every_answer_carries_the_security_headers_and_is_kept_by_nobody_unless_it_says_so()
    {
        var asked = Endpoints.Select(endpoint => RequestFor(endpoint, MethodsOf(endpoint)[0])).ToList();
        asked.Add(new HttpRequestMessage(HttpMethod.Get, "/there/is/no/such/page"));
        asked.Add(new HttpRequestMessage(HttpMethod.Get, "/css/app.css"));
        asked.Add(new HttpRequestMessage(HttpMethod.Get, "/api/v1/nothing"));
        foreach (var request in asked)
        {
            var answer = await host.Visitors[nameof(ShopRole.Owner)].SendAsync(request);
            var where = $"{request.Method} {request.RequestUri}: {answer.StatusCode}";

            foreach (var header in new[] { "Content-Security-Policy", "X-Content-Type-Options", "X-Frame-Options", "Referrer-Policy", "Permissions-Policy", "Cross-Origin-Opener-Policy", "Strict-Transport-Security" })
            {
                Assert.True(answer.Headers.Contains(header), $"{where} has no {header}.");
            }

            var policy = string.Join(' ', answer.Headers.GetValues("Content-Security-Policy"));
            Assert.Contains("frame-ancestors 'none'", policy, StringComparison.Ordinal);
            var rules = policy.Split(';', StringSplitOptions.TrimEntries);
            var scripts = rules.FirstOrDefault(rule => rule.StartsWith("script-src ", StringComparison.Ordinal)) ?? rules.First(rule => rule.StartsWith("default-src ", StringComparison.Ordinal));
            Assert.DoesNotContain("unsafe-inline", scripts, StringComparison.Ordinal);
            Assert.DoesNotContain("unsafe-eval", policy, StringComparison.Ordinal);
            Assert.True(answer.Headers.CacheControl is not null, $"{where} has no Cache-Control.");
            if (answer.Content.Headers.ContentType?.MediaType == "text/html")
            {
                Assert.True(answer.Headers.CacheControl.NoStore, $"{where} may be kept: {answer.Headers.CacheControl}.");
            }

            request.Dispose();
        }
    }

    private static bool IsApi(RouteEndpoint endpoint) => PathOf(endpoint).StartsWith(ShopApi.Root + "/", StringComparison.Ordinal);

    private static bool IsOpen(RouteEndpoint endpoint) => OpenToAll.Contains(PathOf(endpoint)) || PathOf(endpoint).StartsWith(ClientLinks, StringComparison.Ordinal);

    // The framework's own addresses: the circuit, which authorises each page inside, and its script files.
    private static bool IsFramework(RouteEndpoint endpoint) =>
        PathOf(endpoint).StartsWith("/_blazor", StringComparison.Ordinal)
        || PathOf(endpoint).StartsWith("/_framework", StringComparison.Ordinal)
        || PathOf(endpoint).StartsWith("/_content", StringComparison.Ordinal)
        || (endpoint.Metadata.GetMetadata<ComponentTypeMetadata>() is null && PathOf(endpoint).Contains("{*", StringComparison.Ordinal))
        || MethodsOf(endpoint) is [] or ["OPTIONS"];

    private static string PathOf(RouteEndpoint endpoint) => "/" + endpoint.RoutePattern.RawText?.TrimStart('/');

    private static IReadOnlyList<string> MethodsOf(RouteEndpoint endpoint) => endpoint.Metadata.GetMetadata<IHttpMethodMetadata>()?.HttpMethods ?? ["GET"];

    private static Permission? PermissionOf(RouteEndpoint endpoint)
    {
        if (endpoint.Metadata.GetMetadata<ApiScope>() is { } scope)
        {
            return scope.Permission;
        }

        var page = endpoint.Metadata.GetMetadata<ComponentTypeMetadata>()?.Type.GetCustomAttribute<NeedsAttribute>();
        var policy = page?.Policy ?? endpoint.Metadata.OfType<IAuthorizeData>().Select(rule => rule.Policy).FirstOrDefault(name => name is not null);
        return Enum.TryParse<Permission>(policy, out var permission) ? permission : null;
    }

    private static bool IsRedirectTo(HttpResponseMessage answer, string path) =>
        answer.StatusCode == HttpStatusCode.Redirect && answer.Headers.Location?.PathAndQuery().StartsWith(path, StringComparison.Ordinal) == true;

    private static HttpRequestMessage RequestFor(RouteEndpoint endpoint, string method)
    {
        var path = "/" + string.Join('/', endpoint.RoutePattern.PathSegments.Select(segment => string.Concat(segment.Parts.Select(part => part switch
        {
            Microsoft.AspNetCore.Routing.Patterns.RoutePatternLiteralPart literal => literal.Content,
            Microsoft.AspNetCore.Routing.Patterns.RoutePatternSeparatorPart separator => separator.Content,
            Microsoft.AspNetCore.Routing.Patterns.RoutePatternParameterPart parameter => ValueFor(parameter),
            _ => throw new InvalidOperationException($"Unknown part {part}."),
        }))));
        var request = new HttpRequestMessage(new HttpMethod(method), path);
        request.Headers.Accept.ParseAdd(IsApi(endpoint) ? "application/json" : "text/html");
        if (method is "POST" or "PUT")
        {
            request.Content = new StringContent("{}", new System.Net.Http.Headers.MediaTypeHeaderValue("application/json"));
        }

        return request;
    }

    private static string ValueFor(Microsoft.AspNetCore.Routing.Patterns.RoutePatternParameterPart parameter) =>
        parameter.ParameterPolicies.Any(policy => policy.Content == "guid") ? "01930000-0000-7000-8000-000000000001"
        : parameter.ParameterPolicies.Any(policy => policy.Content == "int") ? "404"
        : parameter.Name == "documentName" ? "v1"
        : "x";
}
