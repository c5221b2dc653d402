using System.Text.RegularExpressions;
using Microsoft.Playwright;
using ShopFloor.Browser.Tests.Running;
using static Microsoft.Playwright.Assertions;

namespace ShopFloor.Browser.Tests.Journeys;

/// <summary>The new wiring is switched on: held by the plan, released by the owner, measured by gloved hands.</summary>
[Collection(DemoShopGroup.Name)]
public sealed class MeasuredTests(DemoShop shop)
{
    private const string Amplifier = "Tovel 4.60 four-channel amplifier";
    private const string Unplaced = "Sendrel network player";

    [Fact]
    public Task Commissioning_is_held_by_the_plan_released_by_the_owner_and_measured_also_without_a_link() => shop.TellAsync(async journey =>
    {
        var owner = await journey.EnterAsync(Person.Owner, Screen.Desktop);
        var job = await owner.OpenJobAsync("Switch it on", "Imre Palk", "MB 060 K");
        await owner.AddPartAsync(job, Amplifier, "Boot floor, left");
        await owner.AddPartAsync(job, Unplaced, NoPlace);
        await owner.PlanStagesAsync(job);

        // Held: a part without a place cannot be sized, so its fuse is not known.
        await using var link = new LinkThatBreaks(shop.Address);
        var tarik = await journey.TakeTabletAsync(Person.Tarik, link.Address);
        await tarik.GoAsync($"/work/{job}");
        await tarik.UnfoldAsync("Commissioning");
        var stage = tarik.Page.Locator("details.stage").Filter(new() { Has = tarik.Page.Locator(".measures") });
        await Expect(stage.Locator(".caution-danger").First).ToContainTextAsync("not to be switched on yet");
        await Expect(stage.Locator(".caution-danger").First).ToContainTextAsync(Unplaced);
        await Expect(stage.Locator(".caution-danger").First).ToContainTextAsync(Person.Owner.Name);
        await Expect(tarik.Button("Start clock for Commissioning")).ToHaveCountAsync(0);
        await Expect(stage.GetByRole(AriaRole.Button, new() { NameRegex = new Regex("^Tick:") })).ToHaveCountAsync(0);
        await journey.StepAsync(tarik, "held");

        await owner.GoAsync($"/jobs/{job}/build");
        var panel = owner.Part("Measured against the plan");
        await journey.StepAsync(owner, "owner-before");
        while (await panel.Locator(".findings-stop li").Filter(new() { HasNotText = "Not measured" }).GetByRole(AriaRole.Button, new() { Name = "Sign off …" }).CountAsync() is > 0 and var before)
        {
            await panel.Locator(".findings-stop li").Filter(new() { HasNotText = "Not measured" }).GetByRole(AriaRole.Button, new() { Name = "Sign off …" }).First.ClickAsync();
            var dialog = owner.Page.GetByRole(AriaRole.Dialog);
            await dialog.GetByRole(AriaRole.Textbox).FillAsync("Player stays unplugged until the client has chosen its place.");
            await dialog.GetByRole(AriaRole.Button, new() { NameRegex = new Regex("^Sign off") }).ClickAsync();
            await Expect(panel.Locator(".findings-stop li").Filter(new() { HasNotText = "Not measured" }).GetByRole(AriaRole.Button, new() { Name = "Sign off …" })).ToHaveCountAsync(before - 1);
        }

        // The tablet follows by itself.
        await Expect(tarik.Button("Start clock for Commissioning")).ToBeVisibleAsync();
        var rest = Row(tarik, "The car's battery: voltage at rest");
        await EnterAsync(rest, "11.9");
        await Expect(rest.Locator(".measure-verdict")).ToContainTextAsync("too low");
        await EnterAsync(rest, "12.64");
        await Expect(rest.Locator(".measure-verdict")).ToContainTextAsync("Within limits");
        await Expect(rest).ToContainTextAsync(Person.Tarik.Name);
        await rest.ScrollIntoViewIfNeededAsync();
        await journey.StepAsync(tarik, "within");

        tarik.ExpectLostLink();
        link.Stall();
        var charging = Row(tarik, "Charging voltage with music");
        await EnterAsync(charging, "14.2");
        await Expect(charging.Locator("[data-measure-says]")).ToContainTextAsync(new Regex(@"Kept: 14\.20\sV, within limits"));
        await Expect(tarik.Page.GetByRole(AriaRole.Button, new() { Name = "1 waiting" })).ToBeVisibleAsync();
        await charging.ScrollIntoViewIfNeededAsync();
        await journey.StepAsync(tarik, "kept");
        link.Flow();
        await Expect(charging.Locator(".measure-verdict")).ToContainTextAsync("Within limits");

        await EnterAsync(Row(tarik, $"Voltage at {Amplifier} under load"), "14.05");
        await EnterAsync(Row(tarik, "Current with the car asleep"), "18");
        await Expect(stage.Locator(".hold-note")).ToHaveCountAsync(0);
        await Expect(stage.Locator(".measures-heading")).ToContainTextAsync("4 of 4 within limits");
        Assert.Equal(0, await tarik.SidewaysAsync());
        await stage.GetByRole(AriaRole.Button, new() { NameRegex = new Regex("^Tick:") }).First.ClickAsync();
        await Expect(stage.Locator(".step").First).ToContainTextAsync($"Ticked by {Person.Tarik.Name}");

        await Expect(panel.Locator("table")).ToContainTextAsync("14.05");
        await panel.ScrollIntoViewIfNeededAsync();
        await journey.StepAsync(owner, "owner-after");
        var sheet = await owner.Page.APIRequest.GetAsync(new Uri(shop.Address, $"/documents/jobs/{job}/wiring.pdf").ToString());
        var words = Pdf.Words(await sheet.BodyAsync());
        Assert.Contains("As measured", words, StringComparison.Ordinal);
        Assert.Contains("14.05", words, StringComparison.Ordinal);
        Assert.Contains("Memory saver", words, StringComparison.Ordinal);
    });

    private static ILocator Row(Visitor tablet, string name) => tablet.Page.Locator(".measure").Filter(new() { HasText = name });

    /// <summary>Taps a value into the number pad.</summary>
    private static async Task EnterAsync(ILocator row, string value)
    {
        await row.Locator("details.measure-entry > summary").TapAsync();
        foreach (var key in value)
            await row.GetByRole(AriaRole.Button, new() { Name = key.ToString(), Exact = true }).TapAsync();
        await row.GetByRole(AriaRole.Button, new() { Name = "Enter", Exact = true }).TapAsync();
    }

    private const string NoPlace = "Place not set";
}
