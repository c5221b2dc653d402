using System.Text.RegularExpressions;
using Microsoft.Playwright;
using ShopFloor.Browser.Tests.Running;
using static Microsoft.Playwright.Assertions;
using static ShopFloor.Browser.Tests.Running.BaySteps;

namespace ShopFloor.Browser.Tests.Journeys;

[Collection(DemoShopGroup.Name)]
public sealed class BayTests(DemoShop shop)
{
    [Fact]
    public Task The_clock_starts_and_stops_with_one_tap_and_the_board_shows_it_live() => shop.TellAsync(async journey =>
    {
        var desk = await journey.EnterAsync(Person.Desk, Screen.Desktop);
        var job = await desk.PlannedJobAsync("Clock on the board", "MB 010 K");
        await desk.GoAsync("/board");
        await desk.Page.GetByLabel("Find on the board").FillAsync("MB 010 K");
        var row = desk.Page.GetByRole(AriaRole.Listitem).Filter(new() { HasText = "MB 010 K" });
        await Expect(row).ToContainTextAsync("nobody");

        var tarik = await journey.TakeTabletAsync(Person.Tarik);
        await tarik.GoAsync($"/work/{job}");
        await tarik.Button("Start clock for Check-in").ClickAsync();
        await Expect(tarik.Button("Stop clock for Check-in")).ToBeVisibleAsync();
        await Expect(row.Locator(".board-working")).ToContainTextAsync("Tarik");
        await journey.StepAsync(tarik, "running");
        await journey.StepAsync(desk, "board");

        await tarik.Button("Stop clock for Check-in").ClickAsync();
        await Expect(tarik.Button("Start clock for Check-in")).ToBeVisibleAsync();
        await Expect(row.Locator(".board-working")).ToHaveCountAsync(0);
    });

    [Fact]
    public Task Steps_ask_for_their_proof_before_they_are_ticked() => shop.TellAsync(async journey =>
    {
        var desk = await journey.EnterAsync(Person.Desk, Screen.Desktop);
        var job = await desk.PlannedJobAsync("Proof for every step", "MB 011 K");
        var tarik = await journey.TakeTabletAsync(Person.Tarik);
        await tarik.GoAsync($"/work/{job}");

        await tarik.Tick(Compare).ClickAsync();
        await Expect(tarik.Step(Compare)).ToContainTextAsync($"Ticked by {Person.Tarik.Name}");

        tarik.Expect("422|409|400");
        await tarik.Tick(RoundPhoto).ClickAsync();
        await Expect(tarik.Page.Locator(".notice").Filter(new() { HasText = "needs a photo" })).ToBeVisibleAsync();
        await tarik.Step(RoundPhoto).Locator("input[type=file]").SetInputFilesAsync(TestFiles.Photo());
        await Expect(tarik.Step(RoundPhoto)).ToContainTextAsync("photo: 1");
        await tarik.Tick(RoundPhoto).ClickAsync();
        await Expect(tarik.Step(RoundPhoto)).ToContainTextAsync($"Ticked by {Person.Tarik.Name}");

        // 11 V is below the template's own limits of 12.2 to 13.0 V.
        await tarik.Step(Battery).GetByLabel("Battery voltage at rest").FillAsync("11");
        await tarik.Tick(Battery).ClickAsync();
        await Expect(tarik.Step(Battery)).ToContainTextAsync(new Regex($"{Person.Tarik.Name} measured\\s+11"));
        await Expect(tarik.Step(Battery)).Not.ToContainTextAsync("ticked by");
        await Expect(tarik.Step(Battery).GetByLabel("Battery voltage at rest")).ToHaveValueAsync("11");
        var notice = await tarik.Page.Locator("[data-notices]").BoundingBoxAsync();
        var field = await tarik.Step(Battery).GetByLabel("Battery voltage at rest").BoundingBoxAsync();
        Assert.True(field!.Y + field.Height <= notice!.Y || field.X + field.Width <= notice.X, "The notice covers the field it is about.");
        await journey.StepAsync(tarik, "refused");
        await tarik.Step(Battery).GetByLabel("Battery voltage at rest").FillAsync("12.6");
        await tarik.Tick(Battery).ClickAsync();
        await Expect(tarik.Step(Battery)).ToContainTextAsync($"ticked by {Person.Tarik.Name}");
        await Expect(tarik.Page.Locator(".notice").Filter(new() { HasText = Battery })).ToHaveCountAsync(0);
        await Expect(tarik.Page.GetByRole(AriaRole.Button, new() { NameRegex = new Regex("not accepted") })).ToHaveCountAsync(0);
        await journey.StepAsync(tarik, "ticked");
    });

    [Fact]
    public Task A_critical_step_is_confirmed_by_another_person_under_their_own_name() => shop.TellAsync(async journey =>
    {
        var desk = await journey.EnterAsync(Person.Desk, Screen.Desktop);
        var job = await desk.PlannedJobAsync("Two pairs of eyes", "MB 012 K");
        var tarik = await journey.TakeTabletAsync(Person.Tarik);
        await tarik.GoAsync($"/work/{job}");
        await tarik.UnfoldAsync("Cabling");
        await tarik.Tick(Polarity).ClickAsync();
        await Expect(tarik.Step(Polarity)).ToContainTextAsync("Another person confirms it");
        await Expect(tarik.Step(Polarity).GetByRole(AriaRole.Button, new() { NameRegex = new Regex("I looked") })).ToHaveCountAsync(0);

        var mila = await journey.TakeTabletAsync(Person.Mila);
        await mila.GoAsync($"/work/{job}");
        await mila.UnfoldAsync("Cabling");
        await mila.Step(Polarity).GetByRole(AriaRole.Button, new() { NameRegex = new Regex("I looked") }).ClickAsync();

        await Expect(mila.Step(Polarity)).ToContainTextAsync($"confirmed by {Person.Mila.Name}");
        await Expect(tarik.Step(Polarity)).ToContainTextAsync($"confirmed by {Person.Mila.Name}");
        await journey.StepAsync(mila, "confirmed");
    });

    [Fact]
    public Task A_tick_made_while_the_link_is_cut_is_kept_and_sent_when_it_is_back() => shop.TellAsync(async journey =>
    {
        await using var link = new LinkThatBreaks(shop.Address);
        var desk = await journey.EnterAsync(Person.Desk, Screen.Desktop);
        var job = await desk.PlannedJobAsync("Out of reach of the Wi-Fi", "MB 013 K");
        var tarik = await journey.TakeTabletAsync(Person.Tarik, link.Address);
        tarik.ExpectLostLink();
        await tarik.GoAsync($"/work/{job}");

        link.Cut();
        await tarik.Tick(Compare).ClickAsync();
        await Expect(tarik.Page.GetByRole(AriaRole.Button, new() { Name = "1 waiting" })).ToBeVisibleAsync();
        await Expect(tarik.Page.Locator("#connection-bar")).ToContainTextAsync("No connection");
        await journey.StepAsync(tarik, "kept");
        await desk.GoAsync($"/jobs/{job}/build");
        var row = desk.Page.Locator(".build-table tr").Filter(new() { HasText = Compare });
        await Expect(row).ToContainTextAsync("open", new() { UseInnerText = false });

        link.Mend();
        await Expect(tarik.Step(Compare)).ToContainTextAsync($"Ticked by {Person.Tarik.Name}", new() { Timeout = 60_000 });
        await Expect(tarik.Page.GetByRole(AriaRole.Button, new() { Name = "1 waiting" })).ToHaveCountAsync(0);
        await Expect(row).ToContainTextAsync(Person.Tarik.Name, new() { UseInnerText = false });
    });

    [Fact]
    public Task A_technician_finds_no_price_cost_or_margin_on_any_page() => shop.TellAsync(async journey =>
    {
        var desk = await journey.EnterAsync(Person.Owner, Screen.Desktop);
        var job = await desk.FindJobAsync(DemoJobs.InTuning);
        var tarik = await journey.EnterAsync(Person.Tarik, Screen.Tablet);
        tarik.Expect("403|404|500");
        var client = await DemoShop.ClientAsync(journey);
        await desk.GoAsync($"/jobs/{job}/parts");
        await desk.Page.GetByRole(AriaRole.Button, new() { Name = "Tarnum 250 dual-coil woofer" }).First.ClickAsync();
        var driver = (await desk.Page.Locator("a[href*='/drivers/']").First.GetAttributeAsync("href") ?? "").Split('/')[^1];
        var paths = PagesOfTheProgram()
            .Select(route => route.Replace("{JobId:guid}", job.ToString(), StringComparison.Ordinal).Replace("{ClientId:guid}", client.ToString(), StringComparison.Ordinal).Replace("{PartId:guid}", driver, StringComparison.Ordinal))
            .Append("/search?q=Marsk")
            .ToList();
        Assert.True(paths.Count > 30, "every page of the program is tried");
        Assert.DoesNotContain(paths, path => path.Contains('{', StringComparison.Ordinal));
        foreach (var path in paths)
        {
            await tarik.GoAsync(path);
            var found = Money().Matches(await tarik.WordsAsync()).Select(match => match.Value).ToList();
            Assert.True(found.Count == 0, $"{path} shows a technician: {string.Join(", ", found)}");
        }

        // The same pattern finds what the owner may see, so it would have found it above.
        await desk.GoAsync($"/jobs/{job}/money");
        Assert.Matches(Money(), await desk.WordsAsync());
    });

    /// <summary>Routes as the pages declare them, so that a new page is tried without anybody thinking of it here.</summary>
    private static IEnumerable<string> PagesOfTheProgram() =>
        from file in Directory.EnumerateFiles(Path.Combine(Source.Root, "src", "ShopFloor.Web"), "*.razor", SearchOption.AllDirectories)
        from line in File.ReadLines(file)
        where line.StartsWith("@page \"", StringComparison.Ordinal)
        let route = line.Split('"')[1]
        // The gallery shows builders invented samples; the error page takes a number.
        where !route.StartsWith("/gallery", StringComparison.Ordinal) && route != "/error/{Code:int}"
        select route;

    private static Regex Money() => new(@"€|\$|£|\bEUR\b|\b(net )?price\b|\bprices\b|\bmargin\b|\bcosts?\b|\bbudget\b", RegexOptions.IgnoreCase);
}
