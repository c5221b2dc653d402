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
}
