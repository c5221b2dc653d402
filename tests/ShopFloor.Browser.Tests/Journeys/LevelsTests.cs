using System.Text.RegularExpressions;
using Microsoft.Playwright;
using ShopFloor.Browser.Tests.Running;
using static Microsoft.Playwright.Assertions;

namespace ShopFloor.Browser.Tests.Journeys;

/// <summary>Gains are set by the sheet and measured by gloved hands in the stage of tuning.</summary>
[Collection(DemoShopGroup.Name)]
public sealed class LevelsTests(DemoShop shop)
{
    [Fact]
    public Task A_gain_is_measured_on_the_tablet_also_without_a_link_and_stands_in_the_gain_sheet() => shop.TellAsync(async journey =>
    {
        await using var link = new LinkThatBreaks(shop.Address);
        var tarik = await journey.TakeTabletAsync(Person.Tarik, link.Address);
        var job = await shop.JobAsync(journey, DemoJobs.InTuning);
        await tarik.GoAsync($"/work/{job}");
        var levels = tarik.Page.Locator(".measures").Filter(new() { HasText = "Levels" });
        var row = levels.Locator(".measure").First;
        await Expect(row).ToContainTextAsync("Loudspeakers off");
        await row.ScrollIntoViewIfNeededAsync();
        await journey.StepAsync(tarik, "to-measure");
        var low = double.Parse(await row.GetAttributeAsync("data-lowest") ?? "", System.Globalization.CultureInfo.InvariantCulture);
        var high = double.Parse(await row.GetAttributeAsync("data-highest") ?? "", System.Globalization.CultureInfo.InvariantCulture);
        var good = ((low + high) / 2).ToString("0.00", System.Globalization.CultureInfo.InvariantCulture);

        tarik.ExpectLostLink();
        link.Stall();
        await EnterAsync(row, good);
        await Expect(row.Locator("[data-measure-says]")).ToContainTextAsync(new Regex("Kept: .*within limits"));
        await journey.StepAsync(tarik, "kept");
        link.Flow();
        await Expect(row.Locator(".measure-verdict")).ToContainTextAsync("Within limits");
        await Expect(row).ToContainTextAsync(Person.Tarik.Name);

        // Far too high: more than the loudspeaker bears or the amplifier has.
        await EnterAsync(row, (2 * high).ToString("0.00", System.Globalization.CultureInfo.InvariantCulture));
        await Expect(row.Locator(".measure-verdict")).ToContainTextAsync("too high");
        await Expect(tarik.Page.Locator(".level-hold")).ToContainTextAsync("Turn the gain down");
        await journey.StepAsync(tarik, "too-high");
        await EnterAsync(row, good);
        await Expect(tarik.Page.Locator(".level-hold")).ToHaveCountAsync(0);
        Assert.Equal(0, await tarik.SidewaysAsync());

        var desk = await journey.EnterAsync(Person.Desk, Screen.Desktop);
        await desk.GoAsync($"/jobs/{job}/tuning");
        await Expect(desk.Part("Levels").Locator("table")).ToContainTextAsync($"{good}\u00A0V");
        await journey.StepAsync(desk, "desk");
        var sheet = await desk.Page.APIRequest.GetAsync(new Uri(shop.Address, $"/documents/jobs/{job}/signal.pdf").ToString());
        Assert.Contains(good, Pdf.Words(await sheet.BodyAsync()), StringComparison.Ordinal);
    });

    private static async Task EnterAsync(ILocator row, string value)
    {
        await row.Locator("details.measure-entry > summary").TapAsync();
        foreach (var key in value)
            await row.GetByRole(AriaRole.Button, new() { Name = key.ToString(), Exact = true }).TapAsync();
        await row.GetByRole(AriaRole.Button, new() { Name = "Enter", Exact = true }).TapAsync();
    }
}
