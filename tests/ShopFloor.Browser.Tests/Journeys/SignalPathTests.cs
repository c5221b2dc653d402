using Microsoft.Playwright;
using ShopFloor.Browser.Tests.Running;
using static Microsoft.Playwright.Assertions;

namespace ShopFloor.Browser.Tests.Journeys;

[Collection(DemoShopGroup.Name)]
public sealed class SignalPathTests(DemoShop shop)
{
    [Theory]
    [InlineData(1366, 768, false)]
    [InlineData(1024, 768, true)]
    public Task The_path_tells_what_drives_what_and_the_tone_to_set_each_gain_with(int width, int height, bool touch) => shop.TellAsync(async journey =>
    {
        var owner = await journey.EnterAsync(Person.Owner, new Screen($"{width}", width, height, touch));
        var job = await owner.FindJobAsync(DemoJobs.InTuning);
        await owner.GoAsync($"/jobs/{job}/design");
        await owner.Button("Signal path").ClickAsync();

        await Expect(owner.Page.GetByRole(AriaRole.Img, new() { Name = "Signal path from sources to loudspeakers" })).ToBeVisibleAsync();
        await Expect(owner.Page.Locator(".channel-map tbody tr")).ToHaveCountAsync(7);
        // Two coils of 4 Ω in parallel.
        await Expect(owner.Page.Locator(".channel-map tbody tr").Filter(new() { HasText = "dual-coil woofer" })).ToContainTextAsync("2\u00A0Ω");
        await Expect(owner.Page.Locator(".findings-stop")).ToHaveCountAsync(0);
        await journey.StepAsync(owner, $"path-{width}");

        await owner.Page.GetByRole(AriaRole.Link, new() { NameRegex = new("^Findings: ") }).ClickAsync();
        await Expect(owner.Page.GetByRole(AriaRole.Heading, new() { Name = "Findings" })).ToBeInViewportAsync();
        var tone = owner.Page.Locator(".gain-table a").First;
        var file = await owner.Page.APIRequest.GetAsync(new Uri(new Uri(owner.Page.Url), await tone.GetAttributeAsync("href")).ToString());
        Assert.Equal("audio/wav", file.Headers["content-type"]);
        var paper = await owner.Page.APIRequest.GetAsync(new Uri(new Uri(owner.Page.Url), $"/documents/jobs/{job}/signal.pdf").ToString());
        Assert.Equal("application/pdf", paper.Headers["content-type"]);
        Assert.Equal(0, await owner.SidewaysAsync());
    });
}
