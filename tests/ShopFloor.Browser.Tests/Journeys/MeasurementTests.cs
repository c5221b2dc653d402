using System.Globalization;
using System.Text;
using Microsoft.Playwright;
using ShopFloor.Browser.Tests.Running;
using static Microsoft.Playwright.Assertions;

namespace ShopFloor.Browser.Tests.Journeys;

[Collection(DemoShopGroup.Name)]
public sealed class MeasurementTests(DemoShop shop)
{
    [Fact]
    public Task A_measurement_is_brought_and_read() => shop.TellAsync(async journey =>
    {
        var owner = await journey.EnterAsync(Person.Owner, Screen.Desktop);
        var job = await owner.FindJobAsync(DemoJobs.InTuning);
        await owner.GoAsync($"/jobs/{job}/tuning");
        await owner.Button("Measurements").ClickAsync();

        // Level within 10 dB of 85 dB from 30 to 120 Hz, 20 dB lower beyond.
        var table = new StringBuilder("Freq(Hz)\tSPL(dB)\n");
        for (var hertz = 15.0; hertz < 500; hertz *= 1.03)
        {
            table.Append(CultureInfo.InvariantCulture, $"{hertz:0.##}\t{(hertz is > 30 and < 120 ? 85 : 65)}\n");
        }

        await owner.Page.Locator("input[type=file]").First.SetInputFilesAsync(new FilePayload { Name = "journey sub.txt", MimeType = "text/plain", Buffer = Encoding.UTF8.GetBytes(table.ToString()) });
        var draft = owner.Page.GetByRole(AriaRole.Article, new() { Name = "journey sub.txt" });
        await Expect(draft.GetByLabel("Frequency is in")).ToHaveValueAsync("0");
        await draft.GetByRole(AriaRole.Button, new() { Name = "Read it" }).ClickAsync();
        await Expect(draft.Locator(".plan-strip")).ToContainTextAsync("Usable band");
        await journey.StepAsync(owner, "read");

        await draft.GetByRole(AriaRole.Button, new() { Name = "Keep" }).ClickAsync();
        await Expect(owner.Page.Locator(".measured-channel").Filter(new() { HasText = "journey sub.txt" })).ToContainTextAsync("Olive");
        await owner.Button("Analysis").ClickAsync();
        await Expect(owner.Page.GetByRole(AriaRole.Row).Filter(new() { HasText = "Subwoofer" }).First).ToContainTextAsync("Hz");
        await journey.StepAsync(owner, "analysis");

        var one = owner.Page.GetByLabel("Measurement", new() { Exact = true });
        await one.SelectOptionAsync(new SelectOptionValue { Label = "Midbass, left, driver's seat, left ear" });
        var excess = owner.Page.Locator("figcaption", new() { HasText = "excess group delay" });
        await excess.ScrollIntoViewIfNeededAsync();
        await Expect(excess).ToBeVisibleAsync();
        await journey.StepAsync(owner, "excess-delay");
    });
}
