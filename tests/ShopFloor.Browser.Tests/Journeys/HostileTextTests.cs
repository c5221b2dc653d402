using ShopFloor.Browser.Tests.Running;
using static Microsoft.Playwright.Assertions;

namespace ShopFloor.Browser.Tests.Journeys;

[Collection(DemoShopGroup.Name)]
public sealed class HostileTextTests(DemoShop shop)
{
    private const string Client = "<script>window.hacked=1</script> 🎻 Ünal";
    private const string Part = "<img src=x onerror=window.hacked=2> 🎸";
    private static readonly string Endless = "W" + new string('m', 117) + "🚗";
    private static readonly string Title = "\"'><b>Bold</b> " + new string('W', 180);

    [Fact]
    public Task Markup_emoji_and_endless_words_show_as_text_and_break_no_page() => shop.TellAsync(async journey =>
    {
        var owner = await journey.EnterAsync(Person.Owner, Screen.Desktop);
        await owner.GoAsync("/jobs/new");
        await owner.Field("Name").FillAsync(Client);
        await owner.Field("Make").FillAsync(Endless);
        await owner.Field("Model").FillAsync("<i>Tilt</i>");
        await owner.Field("Plate").FillAsync("<b>MB 050 K</b>");
        await owner.Field("Short title").FillAsync(Title);
        await owner.Field("What the client wants, in their words").FillAsync($"{Client} {Endless}{Endless}{Endless}");
        var job = await owner.SendJobAsync();
        await owner.PlanStagesAsync(job);
        await owner.GoAsync($"/jobs/{job}/parts");
        await owner.Field("Add a part").FillAsync(Part);
        await owner.Button("Add as a free part").ClickAsync();
        await Expect(owner.Field("Name")).ToHaveValueAsync(Part);
        await owner.Field("Notes").FillAsync(Endless + Endless);
        await owner.Button("Add part").ClickAsync();
        await Expect(owner.Page.Locator(".part-name").Filter(new() { HasText = Part })).ToBeVisibleAsync();

        var bad = new List<string>();
        string[] paths =
        [
            $"/jobs/{job}/intake", $"/jobs/{job}/design", $"/jobs/{job}/estimate", $"/jobs/{job}/parts", $"/jobs/{job}/build", $"/jobs/{job}/tuning",
            $"/jobs/{job}/handover", $"/jobs/{job}/money", $"/jobs/{job}/record", $"/work/{job}", "/work", "/board", "/jobs", "/clients", "/money", "/record",
        ];
        foreach (var path in paths)
        {
            await owner.GoAsync(path);
            foreach (var screen in (Screen[])[Screen.Desktop, Screen.Tablet])
            {
                await owner.Page.SetViewportSizeAsync(screen.Width, screen.Height);
                if (await owner.SidewaysAsync() is var pixels and > 0)
                {
                    bad.Add($"{path} at {screen.Width} scrolls {pixels} px sideways, first by {await owner.WidestAsync()}");
                    await owner.KeepPictureAsync($"sideways-{path}-{screen.Name}", wholePage: false);
                }
            }

            if (await owner.Page.EvaluateAsync<bool>("'hacked' in window"))
                bad.Add($"{path} ran the text as a script");
            if (path.Contains(job.ToString(), StringComparison.Ordinal) && path.StartsWith("/jobs", StringComparison.Ordinal))
                await Expect(owner.Page.Locator("h1")).ToContainTextAsync("<b>Bold</b>");
        }

        await owner.GoAsync("/clients");
        await Expect(owner.Page.Locator("main")).ToContainTextAsync("<script>window.hacked=1</script> 🎻");
        await owner.Page.Locator("main a[href^='/clients/']").Filter(new() { HasText = Client }).First.ClickAsync();
        await Expect(owner.Page.Locator("h1")).ToHaveTextAsync(Client);
        foreach (var screen in (Screen[])[Screen.Desktop, Screen.Tablet, Screen.Phone])
        {
            await owner.Page.SetViewportSizeAsync(screen.Width, screen.Height);
            if (await owner.SidewaysAsync() is var pixels and > 0)
                bad.Add($"the client's page at {screen.Width} scrolls {pixels} px sideways, first by {await owner.WidestAsync()}");
        }

        Assert.True(bad.Count == 0, string.Join('\n', bad));
    });
}
