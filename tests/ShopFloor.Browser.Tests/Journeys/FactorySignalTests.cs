using Microsoft.Playwright;
using ShopFloor.Browser.Tests.Running;
using static Microsoft.Playwright.Assertions;

namespace ShopFloor.Browser.Tests.Journeys;

[Collection(DemoShopGroup.Name)]
public sealed class FactorySignalTests(DemoShop shop)
{
    [Theory]
    [InlineData(1366, 768, false)]
    [InlineData(390, 844, true)]
    public Task A_factory_signal_is_seen_on_the_path_undone_on_the_bench_and_taken_back(int width, int height, bool touch) => shop.TellAsync(async journey =>
    {
        var owner = await journey.EnterAsync(Person.Owner, new Screen($"{width}", width, height, touch));
        var job = await owner.FindJobAsync(DemoJobs.InTuning);
        await owner.GoAsync($"/jobs/{job}/tuning?part=factorysignal");
        await Expect(owner.Page.GetByRole(AriaRole.Region, new() { Name = "Left", Exact = true })).ToContainTextAsync("A · Front door left, factory amplifier");
        Assert.Equal(0, await owner.SidewaysAsync());
        await journey.StepAsync(owner, $"worked-out-{width}");

        await owner.Button("Put these into the preset").ClickAsync();
        await Expect(owner.Page.GetByText("They are in the preset on the bench.")).ToBeVisibleAsync();
        await owner.Button("Presets").ClickAsync();
        await Expect(owner.Page.GetByRole(AriaRole.Group, new() { Name = "Front door left, factory amplifier" })).ToBeVisibleAsync();
        Assert.Equal(0, await owner.SidewaysAsync());
        await journey.StepAsync(owner, $"inputs-{width}");
        await owner.Button("Undo").ClickAsync();
        await Expect(owner.Page.GetByRole(AriaRole.Group, new() { Name = "Front door left, factory amplifier" })).ToHaveCountAsync(0);
        await owner.Button("Measurements").ClickAsync();
        await Expect(owner.Page.GetByRole(AriaRole.Region, new() { Name = "Factory outputs" })).ToContainTextAsync("Dash and pillar right, factory amplifier");
        Assert.Equal(0, await owner.SidewaysAsync());
    });
}
