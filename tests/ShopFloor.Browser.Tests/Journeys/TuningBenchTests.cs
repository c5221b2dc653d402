using Microsoft.Playwright;
using ShopFloor.Browser.Tests.Running;
using static Microsoft.Playwright.Assertions;

namespace ShopFloor.Browser.Tests.Journeys;

[Collection(DemoShopGroup.Name)]
public sealed class TuningBenchTests(DemoShop shop)
{
    [Theory]
    [InlineData(1366, 768, false)]
    [InlineData(1024, 768, true)]
    [InlineData(390, 844, true)]
    public Task A_tuned_job_tells_its_delays_filters_preset_and_verification(int width, int height, bool touch) => shop.TellAsync(async journey =>
    {
        var owner = await journey.EnterAsync(Person.Owner, new Screen($"{width}", width, height, touch));
        var job = await owner.FindJobAsync(DemoJobs.InTuning);
        await owner.GoAsync($"/jobs/{job}/tuning");

        await owner.Button("Verification").ClickAsync();
        await Expect(owner.Page.Locator(".verification")).ToContainTextAsync("Every limit is kept.");
        await Expect(owner.Page.Locator(".verification")).ToContainTextAsync("1.5 dB allowed");
        Assert.Equal(0, await owner.SidewaysAsync());
        await journey.StepAsync(owner, $"verified-{width}");

        await owner.Button("Alignment").ClickAsync();
        await Expect(owner.Button("Take these delays")).ToBeVisibleAsync();
        Assert.Equal(0, await owner.SidewaysAsync());
        await owner.Button("Equaliser").ClickAsync();
        await Expect(owner.Page.GetByText("headroom is lost")).ToBeVisibleAsync();
        Assert.Equal(0, await owner.SidewaysAsync());
        await journey.StepAsync(owner, $"equaliser-{width}");

        await owner.Button("Presets").ClickAsync();
        foreach (var (kind, type) in new[] { ("PDF", "application/pdf"), ("CSV", "text/csv"), ("JSON", "application/json"), ("text", "text/plain") })
        {
            var sheet = owner.Page.GetByRole(AriaRole.Link, new() { Name = $"Sheet of version 2, {kind}" });
            var answer = await owner.Page.APIRequest.GetAsync(new Uri(new Uri(owner.Page.Url), await sheet.GetAttributeAsync("href")).ToString());
            Assert.StartsWith(type, answer.Headers["content-type"], StringComparison.Ordinal);
        }

        await owner.Button("What changed").ClickAsync();
        Assert.Equal(0, await owner.SidewaysAsync());
        await journey.StepAsync(owner, $"presets-{width}");
    });

    [Theory]
    [InlineData(1366, 768, false)]
    [InlineData(390, 844, true)]
    public Task Changes_on_the_bench_outlast_a_reload_and_are_taken_up_or_thrown_away(int width, int height, bool touch) => shop.TellAsync(async journey =>
    {
        var technician = await journey.EnterAsync(Person.Owner, new Screen($"{width}", width, height, touch));
        var job = await technician.FindJobAsync(DemoJobs.InTuning);
        await technician.GoAsync($"/jobs/{job}/tuning");
        await technician.Button("Presets").ClickAsync();
        await technician.Page.GetByRole(AriaRole.Button, new() { NameRegex = new("^Open .* on the bench$") }).First.ClickAsync();
        var level = technician.Page.Locator(".preset-channel").First.GetByLabel("Level");
        var before = await level.InputValueAsync();
        await level.FillAsync("-7.5");
        await level.PressAsync("Tab");
        await Expect(technician.Page.Locator(".keep-version")).ToContainTextAsync("Changed, not kept yet");

        await technician.Page.ReloadAsync();
        var left = technician.Page.Locator(".unsaved-bench");
        await Expect(left).ToContainTextAsync("Unsaved changes from");
        await technician.Button("Presets").ClickAsync();
        await Expect(technician.Page.Locator(".preset-channel")).ToHaveCountAsync(0);
        Assert.Equal(0, await technician.SidewaysAsync());
        await journey.StepAsync(technician, $"left-{width}");
        await technician.Button("Take up").ClickAsync();
        await Expect(level).ToHaveValueAsync(new System.Text.RegularExpressions.Regex("^[-−]7.5"));
        await Expect(technician.Page.Locator(".keep-version")).ToContainTextAsync("Changed, not kept yet");

        await technician.Page.ReloadAsync();
        await technician.Button("Throw away").ClickAsync();
        await Expect(left).ToHaveCountAsync(0);
        await technician.Page.ReloadAsync();
        await technician.Button("Presets").ClickAsync();
        await technician.Page.GetByRole(AriaRole.Button, new() { NameRegex = new("^Open .* on the bench$") }).First.ClickAsync();
        await Expect(level).ToHaveValueAsync(before);
        await Expect(left).ToHaveCountAsync(0);
    });
}
