using System.Collections.Concurrent;
using System.Runtime.CompilerServices;
using Microsoft.Playwright;
using ShopFloor.Shop.Staff;

namespace ShopFloor.Browser.Tests.Running;

/// <summary>
/// One running demo and one browser for all journeys of the collection. A journey that changes something opens a job of its own, so the
/// order they run in does not matter.
/// </summary>
public class DemoShop : IAsyncLifetime
{
    private readonly ConcurrentDictionary<string, string> _signedIn = new();
    private IPlaywright _playwright = null!; // Set by InitializeAsync before any test runs.
    private readonly ConcurrentDictionary<string, Guid> _jobs = new();
    private string? _tablet;
    private string? _client;

    public ShopProcess Process { get; private set; } = null!; // Likewise.

    public IBrowser Browser { get; private set; } = null!; // Likewise.

    public Uri Address => Process.Address;

    /// <summary>What the program is told beside its usual settings, by environment name.</summary>
    protected virtual IReadOnlyDictionary<string, string> Settings => new Dictionary<string, string>();

    public async Task InitializeAsync()
    {
        Process = await ShopProcess.StartAsync(settings: Settings);
        Assertions.SetDefaultExpectTimeout(20_000);
        _playwright = await Playwright.CreateAsync();
        Browser = await LaunchAsync();
    }

    /// <summary>Another browser at the same shop, started with arguments of its own; whoever asks for it ends it.</summary>
    public Task<IBrowser> LaunchAsync(params string[] more) => _playwright.Chromium.LaunchAsync(new()
    {
        ExecutablePath = Environment.GetEnvironmentVariable("SHOPFLOOR_TEST_BROWSER") ?? "/usr/bin/chromium",
        Args =
        [
            "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run",
            "--disable-background-networking", "--disable-component-update", "--disable-sync", .. more,
        ],
    });

    public async Task DisposeAsync()
    {
        await Browser.DisposeAsync();
        _playwright.Dispose();
        await Process.DisposeAsync();
    }

    /// <summary>Runs a journey: pictures of every screen when it fails, and a failure when a browser or the program complained.</summary>
    public async Task TellAsync(Func<Journey, Task> story, [CallerMemberName] string name = "")
    {
        var faultsBefore = Process.Faults.Count;
        await using var journey = new Journey(this, name);
        try
        {
            await story(journey);
            journey.DemandQuiet();
            var faults = Process.Faults.Skip(faultsBefore).ToList();
            Assert.True(faults.Count == 0, $"The program reported faults:\n{string.Join('\n', faults)}");
        }
        catch
        {
            await journey.KeepPicturesAsync();
            throw;
        }
    }

    /// <summary>What a browser keeps after this person signed in with the password; signed in once for all journeys.</summary>
    public async Task<string> SignedInAsync(Person person)
    {
        if (_signedIn.TryGetValue(person.UserName, out var known))
            return known;
        await using var context = await Browser.NewContextAsync(Screen.Desktop.Options);
        var page = await context.NewPageAsync();
        await page.GotoAsync(new Uri(Address, "/sign-in").ToString());
        await page.GetByLabel("Sign-in name").FillAsync(person.UserName);
        await page.GetByLabel("Password").FillAsync(DemoPeople.Password);
        await page.GetByRole(AriaRole.Button, new() { Name = "Sign in", Exact = true }).ClickAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Sign out" }).Or(page.GetByRole(AriaRole.Button, new() { Name = "Hand over tablet" })).First.WaitForAsync();
        return _signedIn[person.UserName] = await context.StorageStateAsync();
    }

    /// <summary>What a browser keeps that an owner registered as the shop's tablet; nobody is signed in on it.</summary>
    public async Task<string> RegisteredTabletAsync()
    {
        if (_tablet is not null)
            return _tablet;
        await using var context = await Browser.NewContextAsync(new(Screen.Tablet.Options) { StorageState = await SignedInAsync(Person.Owner) });
        var page = await context.NewPageAsync();
        await page.GotoAsync(new Uri(Address, "/tablet/register").ToString());
        await page.GetByLabel("Name of the tablet").FillAsync("Bay 2");
        await page.GetByRole(AriaRole.Button, new() { Name = "Register and sign me out" }).ClickAsync();
        await page.GetByRole(AriaRole.Heading, new() { Name = "Who is working?" }).WaitForAsync();
        return _tablet = await context.StorageStateAsync();
    }

    /// <summary>One of the demo's own jobs, found by a word of it.</summary>
    public async Task<Guid> JobAsync(Journey journey, string word)
    {
        if (!_jobs.TryGetValue(word, out var job))
            _jobs[word] = job = await (await journey.EnterAsync(Person.Owner, Screen.Desktop)).FindJobAsync(word);
        return job;
    }

    /// <summary>One of the demo's clients.</summary>
    public static async Task<Guid> ClientAsync(Journey journey)
    {
        var desk = await journey.EnterAsync(Person.Owner, Screen.Desktop);
        await desk.GoAsync("/clients");
        var href = await desk.Page.Locator("main a[href^='/clients/']").First.GetAttributeAsync("href") ?? "";
        return Guid.Parse(href["/clients/".Length..]);
    }

    /// <summary>What the browser of the client keeps who opened the link of the delivered job; nothing in the journeys ends it.</summary>
    public async Task<string> ClientOfDeliveredAsync(Journey journey)
    {
        if (_client is not null)
            return _client;
        var desk = await journey.EnterAsync(Person.Desk, Screen.Desktop);
        var address = await desk.MakeClientLinkAsync(await JobAsync(journey, DemoJobs.Delivered));
        await using var context = await Browser.NewContextAsync(new(Screen.Phone.Options) { BaseURL = Address.ToString() });
        var page = await context.NewPageAsync();
        await page.GotoAsync(address);
        await page.GetByText("Hello").First.WaitForAsync();
        return _client = await context.StorageStateAsync();
    }
}

/// <summary>A demo whose tablets lock after some seconds instead of minutes.</summary>
public sealed class QuickLockShop : DemoShop
{
    protected override IReadOnlyDictionary<string, string> Settings => new Dictionary<string, string> { ["Shop__TabletLockSeconds"] = "12" };
}

/// <summary>Groups everything that shares the one running demo; it runs beside nothing else.</summary>
[CollectionDefinition(Name, DisableParallelization = true)]
public sealed class DemoShopGroup : ICollectionFixture<DemoShop>
{
    public const string Name = "Demo shop";
}
