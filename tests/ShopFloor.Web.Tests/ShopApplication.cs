using System.Net;
using System.Text.RegularExpressions;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Mvc.Testing;
using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.DependencyInjection.Extensions;
using Microsoft.Extensions.Time.Testing;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Storage;

namespace ShopFloor.Web.Tests;

/// <summary>
/// The whole program in memory over a data folder of its own, with one person of each role. <see cref="SignInAsync"/> gives a
/// browser of theirs. The clock is the computer's unless a test asks for one that stands still.
/// </summary>
public sealed partial class ShopApplication : WebApplicationFactory<Program>, IAsyncLifetime
{
    public const string Password = "violet-gravel-lantern";
    public const string Pin = "704182";

    private readonly string _root = Path.Combine(Path.GetTempPath(), "shopfloor-web-tests", Guid.CreateVersion7().ToString("N"));
    private readonly Dictionary<ShopRole, StaffMember> _people = [];

    /// <summary>Set before the first use: a clock that stands still until told.</summary>
    public FakeTimeProvider? Time { get; init; }

    /// <summary>Set before the first use: whether to leave the shop without people, as at its first start.</summary>
    public bool Empty { get; init; }

    /// <summary>Set before the first use: whether to run as the demo.</summary>
    public bool Demo { get; init; }

    /// <summary>Set before the first use: settings as they would come from the environment.</summary>
    public Dictionary<string, string> Settings { get; } = [];

    public ShopFolder Folder => new(_root);

    public ShopStore Store => Get<ShopStore>();

    public TService Get<TService>()
        where TService : notnull => Services.GetRequiredService<TService>();

    public StaffMember Person(ShopRole role) => _people[role];

    /// <summary>The person as they act at the desk.</summary>
    public Actor Actor(ShopRole role) => new(Person(role).Id, Person(role).DisplayName, role, ActorVia.Desk);

    public async Task InitializeAsync()
    {
        if (Empty)
        {
            return;
        }

        foreach (var role in Enum.GetValues<ShopRole>())
        {
            var form = new PersonForm { UserName = role.ToString().ToLowerInvariant(), DisplayName = $"{role} Person", Role = role, CostPerHour = 30 };
            var people = Get<People>();
            var added = await people.AddAsync(Shop.Staff.Actor.Shop, form, Password, CancellationToken.None);
            Assert.True(added.Succeeded, added.Message);
            var pin = await people.SetPinAsync(Shop.Staff.Actor.Shop, added.Value, Pin, CancellationToken.None);
            Assert.True(pin.Succeeded, pin.Message);
            _people[role] = await Store.ReadAsync(async db => await db.Users.FindAsync(added.Value), CancellationToken.None)
                ?? throw new InvalidOperationException("The person was just added.");
        }
    }

    /// <summary>A browser nobody has signed in at. It keeps cookies and does not follow redirects by itself.</summary>
    public HttpClient Anonymous() => CreateClient(new WebApplicationFactoryClientOptions
    {
        AllowAutoRedirect = false,
        BaseAddress = new Uri("https://shop.test"),
    });

    /// <summary>A browser at which the person of this role has signed in with their password.</summary>
    public async Task<HttpClient> SignInAsync(ShopRole role)
    {
        var browser = Anonymous();
        var answer = await PostSignInAsync(browser, Person(role).UserName ?? "", Password);
        Assert.Equal(HttpStatusCode.Redirect, answer.StatusCode);
        return browser;
    }

    /// <summary>A signed-in browser with the token that its pages send along with what they post.</summary>
    public async Task<(HttpClient Browser, string Token)> OpenAsync(ShopRole role)
    {
        var browser = await SignInAsync(role);
        return (browser, PageToken().Match(await browser.GetStringAsync("/work")).Groups[1].Value);
    }

    public static Task<HttpResponseMessage> PostSignInAsync(HttpClient browser, string userName, string password) =>
        PostFormAsync(browser, "/sign-in?with=password", "sign-in", new() { ["Form.UserName"] = userName, ["Form.Password"] = password });

    /// <summary>A program that holds an API token of this scope.</summary>
    public Task<HttpClient> WithTokenAsync(params Permission[] scope) => WithTokenAsync(null, scope);

    /// <summary>A program that holds an API token of this scope in a person's name.</summary>
    public async Task<HttpClient> WithTokenAsync(Guid? personId, params Permission[] scope)
    {
        var form = new ApiTokenForm { Name = "test program", Scope = [.. scope], PersonId = personId };
        var token = await Get<ApiTokens>().CreateAsync(Actor(ShopRole.Owner), form, CancellationToken.None);
        Assert.True(token.Succeeded, token.Message);
        var program = Anonymous();
        program.DefaultRequestHeaders.Authorization = new("Bearer", token.Value.Text);
        return program;
    }

    /// <summary>A browser on a device the owner has registered as a shared tablet; nobody is signed in.</summary>
    public async Task<HttpClient> RegisterTabletAsync(string name = "Bay 1")
    {
        var tablet = await SignInAsync(ShopRole.Owner);
        var answer = await PostFormAsync(tablet, "/tablet/register", "register", new() { ["Form.Name"] = name });
        Assert.Equal(HttpStatusCode.Redirect, answer.StatusCode);
        return tablet;
    }

    /// <summary>A shared tablet on which the person of this role has switched in with their PIN.</summary>
    public async Task<HttpClient> SwitchInAsync(ShopRole role, string tabletName = "Bay 1")
    {
        var tablet = await RegisterTabletAsync(tabletName);
        Assert.Equal(HttpStatusCode.Redirect, (await PostPinAsync(tablet, role, Pin)).StatusCode);
        return tablet;
    }

    public Task<HttpResponseMessage> PostPinAsync(HttpClient tablet, ShopRole role, string pin) =>
        PostFormAsync(tablet, $"/tablet?person={Person(role).Id}", "pin", new() { ["Form.PersonId"] = Person(role).Id.ToString(), ["Form.Pin"] = pin });

    /// <summary>Loads a page and posts one of its forms as a browser would, antiforgery token included.</summary>
    public static async Task<HttpResponseMessage> PostFormAsync(HttpClient browser, string page, string formName, Dictionary<string, string> fields, string? action = null)
    {
        var html = await browser.GetStringAsync(page);
        var sent = new Dictionary<string, string>(fields)
        {
            ["_handler"] = formName,
            ["__RequestVerificationToken"] = TokenField().Match(html).Groups[1].Value,
        };
        using var content = new FormUrlEncodedContent(sent);
        return await browser.PostAsync(action ?? page, content);
    }

    [GeneratedRegex("name=\"shop-antiforgery\" content=\"([^\"]+)\"")]
    private static partial Regex PageToken();

    [GeneratedRegex("name=\"__RequestVerificationToken\" value=\"([^\"]+)\"")]
    private static partial Regex TokenField();

    protected override void ConfigureWebHost(IWebHostBuilder builder)
    {
        builder.UseEnvironment("Production");
        builder.UseSetting("Shop:DataFolder", _root);
        builder.UseSetting("Shop:Demo", Demo ? "true" : "false");
        foreach (var limit in new[] { "sign-in", "pin", "api", "client-link" })
        {
            // Tests sign in far more often than people; the limits have tests of their own that set them back.
            builder.UseSetting($"Shop:RateLimits:{limit}", "100000");
        }

        foreach (var (name, value) in Settings)
        {
            builder.UseSetting(name, value);
        }

        // Whatever the database layer would only warn of fails the test that makes it do so.
        builder.ConfigureServices(services => services.ConfigureDbContext<ShopDbContext>(
            options => options.ConfigureWarnings(warnings => warnings.Default(WarningBehavior.Throw))));
        if (Time is { } time)
        {
            builder.ConfigureServices(services => services.Replace(ServiceDescriptor.Singleton<TimeProvider>(time)));
        }
    }

    public override async ValueTask DisposeAsync()
    {
        await base.DisposeAsync();
        SqliteConnection.ClearAllPools();
        if (Directory.Exists(_root))
        {
            Directory.Delete(_root, recursive: true);
        }

        GC.SuppressFinalize(this);
    }

    Task IAsyncLifetime.DisposeAsync() => DisposeAsync().AsTask();
}

internal static class Addresses
{
    /// <summary>Path and query of an address, whether it was given whole or not.</summary>
    public static string PathAndQuery(this Uri address) => address.IsAbsoluteUri ? address.PathAndQuery : address.OriginalString;
}
