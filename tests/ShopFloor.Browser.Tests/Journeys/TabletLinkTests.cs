using Microsoft.Playwright;
using ShopFloor.Browser.Tests.Running;
using static Microsoft.Playwright.Assertions;
using static ShopFloor.Browser.Tests.Running.BaySteps;

namespace ShopFloor.Browser.Tests.Journeys;

/// <summary>The shared tablet on a bad link and without one.</summary>
[Collection(DemoShopGroup.Name)]
public sealed class TabletLinkTests(DemoShop shop)
{
    // The circuit's own ping needs 8 s; so this only holds when the page asks by itself.
    private const float NoticedSoon = 5_000;

    [Fact]
    public Task A_link_that_goes_silent_is_noticed_at_once_and_a_tick_made_meanwhile_is_kept_and_sent() => shop.TellAsync(async journey =>
    {
        await using var link = new LinkThatBreaks(shop.Address);
        var desk = await journey.EnterAsync(Person.Desk, Screen.Desktop);
        var job = await desk.PlannedJobAsync("A Wi-Fi that swallows all", "MB 020 K");
        var tarik = await journey.TakeTabletAsync(Person.Tarik, link.Address);
        tarik.ExpectLostLink();
        await tarik.GoAsync($"/work/{job}");

        link.Stall();
        await tarik.Tick(Compare).ClickAsync();
        await Expect(tarik.Page.GetByRole(AriaRole.Button, new() { Name = "1 waiting" })).ToBeVisibleAsync(new() { Timeout = 1_000 });
        await Expect(tarik.Page.Locator("#connection-bar")).ToContainTextAsync("No connection: ticks are kept on this tablet", new() { Timeout = NoticedSoon });
        await Expect(tarik.Page.Locator(".connection-mark .connection-down")).ToBeVisibleAsync();
        await journey.StepAsync(tarik, "silent");

        link.Flow();
        await Expect(tarik.Step(Compare)).ToContainTextAsync($"Ticked by {Person.Tarik.Name}");
        await Expect(tarik.Page.Locator("#connection-bar")).ToBeHiddenAsync();
        await Expect(tarik.Page.GetByRole(AriaRole.Button, new() { Name = "1 waiting" })).ToHaveCountAsync(0);
    });

    [Fact]
    public Task A_slow_link_that_works_is_never_called_lost() => shop.TellAsync(async journey =>
    {
        await using var link = new LinkThatBreaks(shop.Address);
        var tarik = await journey.TakeTabletAsync(Person.Tarik, link.Address);
        await tarik.Page.EvaluateAsync(
            """
            window.lost = 0;
            new MutationObserver(() => { if (document.documentElement.dataset.link === "down") window.lost++; }).observe(document.documentElement, { attributeFilter: ["data-link"] });
            """);

        // 800 ms there and back.
        link.Latency = TimeSpan.FromMilliseconds(400);
        await tarik.UntilAsync("performance.getEntriesByType('resource').filter(each => each.name.endsWith('/alive') && each.responseStatus === 204 && each.duration > 700).length >= 6");

        Assert.Equal(0, await tarik.Page.EvaluateAsync<int>("window.lost"));
        Assert.Equal("up", await tarik.Page.EvaluateAsync<string>("document.documentElement.dataset.link"));
    });

    [Fact]
    public Task Reloaded_without_a_server_the_tablet_shows_the_steps_seen_last_and_takes_ticks() => shop.TellAsync(async journey =>
    {
        var desk = await journey.EnterAsync(Person.Desk, Screen.Desktop);
        var job = await desk.PlannedJobAsync("Reload out of reach", "MB 021 K");
        var tarik = await journey.TakeTabletAsync(Person.Tarik);
        tarik.ExpectLostLink();
        await OpenKeptAsync(tarik, job);

        await tarik.Page.Context.SetOfflineAsync(true);
        await tarik.Page.ReloadAsync();
        await Expect(tarik.Page.Locator("h1")).ToContainTextAsync("Sorrel Quint");
        await Expect(tarik.Page.Locator(".connection-bar")).ToContainTextAsync("No connection");
        await tarik.Page.Locator(".kept-step").Filter(new() { HasText = Battery }).GetByRole(AriaRole.Textbox).FillAsync("12.6");
        await tarik.Tick(Battery).ClickAsync();
        await tarik.Tick(Compare).ClickAsync();
        await Expect(tarik.Page.GetByRole(AriaRole.Button, new() { Name = "2 waiting" })).ToBeVisibleAsync();
        Assert.Equal(0, await tarik.SidewaysAsync());
        await journey.StepAsync(tarik, "offline");
        await tarik.Page.ReloadAsync();
        await Expect(tarik.Tick(Compare)).ToHaveAttributeAsync("data-outbox-state", "waiting");

        await tarik.Page.Context.SetOfflineAsync(false);
        await Expect(tarik.Step(Compare)).ToContainTextAsync($"Ticked by {Person.Tarik.Name}");
        await Expect(tarik.Step(Battery)).ToContainTextAsync($"ticked by {Person.Tarik.Name}");
    });

    [Fact]
    public Task What_one_person_saw_is_gone_for_the_next_one_also_without_a_server() => shop.TellAsync(async journey =>
    {
        var desk = await journey.EnterAsync(Person.Desk, Screen.Desktop);
        var job = await desk.PlannedJobAsync("Not for the next pair of hands", "MB 022 K");
        var tablet = await journey.TakeTabletAsync(Person.Tarik);
        tablet.ExpectLostLink();
        await OpenKeptAsync(tablet, job);

        await tablet.Button("Hand over tablet").ClickAsync();
        await tablet.Heading("Who is working?").WaitForAsync();
        Assert.Equal(0, await tablet.Page.EvaluateAsync<int>("Object.keys(localStorage).filter(key => key.startsWith('shop-kept')).length"));
        await tablet.Page.Context.SetOfflineAsync(true);
        await tablet.Page.GotoAsync($"/work/{job}");
        await Expect(tablet.Page.Locator("h1")).ToHaveTextAsync("Locked");
        Assert.DoesNotContain("Sorrel", await tablet.WordsAsync(), StringComparison.Ordinal);
        await journey.StepAsync(tablet, "locked");
        Assert.DoesNotContain(Person.Tarik.Name, await tablet.WordsAsync(), StringComparison.Ordinal);
    });

    [Fact]
    public Task Handed_over_without_a_server_the_tablet_signs_the_person_out_once_it_is_back() => shop.TellAsync(async journey =>
    {
        var desk = await journey.EnterAsync(Person.Desk, Screen.Desktop);
        var job = await desk.PlannedJobAsync("Handed over out of reach", "MB 023 K");
        var tablet = await journey.TakeTabletAsync(Person.Tarik);
        tablet.ExpectLostLink();
        await OpenKeptAsync(tablet, job);
        await tablet.Page.Context.SetOfflineAsync(true);
        await tablet.Page.ReloadAsync();

        await tablet.Button("Hand over tablet").ClickAsync();
        await Expect(tablet.Page.Locator("h1")).ToHaveTextAsync("Locked");
        await tablet.Page.Context.SetOfflineAsync(false);

        await tablet.Heading("Who is working?").WaitForAsync();
    });

    [Fact]
    public Task The_browser_keeps_only_the_frame_and_of_one_build_only() => shop.TellAsync(async journey =>
    {
        var job = await shop.JobAsync(journey, DemoJobs.InTuning);
        var tarik = await journey.EnterAsync(Person.Tarik, Screen.Tablet);
        await tarik.GoAsync("/board");
        await tarik.Page.EvaluateAsync("caches.open('shop-tablet:of-an-older-build').then(cache => cache.put('/work/1', new Response('old')))");
        await OpenKeptAsync(tarik, job);
        await tarik.UntilAsync("caches.keys().then(names => names.length === 1)");

        var kept = await tarik.Page.EvaluateAsync<string[]>("caches.keys().then(([name]) => caches.open(name)).then(cache => cache.keys()).then(asked => asked.map(each => new URL(each.url).pathname))");
        Assert.NotEmpty(kept);
        Assert.All(kept, path => Assert.Matches(@"\.(html|css|js|svg|woff2)$", path));
        var sheet = await tarik.Page.EvaluateAsync<string>("JSON.stringify(shopKept.sheets())");
        Assert.DoesNotContain("€", sheet, StringComparison.Ordinal);
        Assert.DoesNotMatch("(?i)price|cost|margin|phone|mail", sheet);
    });

    private static async Task OpenKeptAsync(Visitor tablet, Guid job)
    {
        await tablet.GoAsync($"/work/{job}");
        await tablet.UntilAsync("navigator.serviceWorker.controller && shopKept.sheets().length > 0");
    }
}
