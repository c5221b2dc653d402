using System.Text.RegularExpressions;
using Microsoft.Playwright;
using ShopFloor.Browser.Tests.Running;
using static Microsoft.Playwright.Assertions;

namespace ShopFloor.Browser.Tests.Journeys;

[Collection(DemoShopGroup.Name)]
public sealed class DesignTests(DemoShop shop)
{
    private const string Amplifier = "Tovel 6.90 six-channel amplifier";

    [Fact]
    public Task A_part_entered_once_changes_price_current_mass_and_plan_together() => shop.TellAsync(async journey =>
    {
        var desk = await journey.EnterAsync(Person.Desk, Screen.Desktop);
        var job = await desk.OpenJobAsync("One amplifier, once", "Ottilie Farn", "MB 002 K");
        await desk.GoAsync($"/jobs/{job}/parts");
        var strip = desk.Page.GetByRole(AriaRole.Group, new() { Name = "What the parts add up to" });
        await Expect(strip.Locator(".data-point").Filter(new() { HasText = "Added mass" })).ToContainTextAsync(new Regex(@"\b0(\.0+)?\W"));

        await desk.AddPartAsync(job, Amplifier, "Boot floor, left");

        // The demo's catalogue: 3.9 kg, 619.00 net, all invented there. The current follows from its ratings, so it is only read as more than none.
        await Expect(strip.Locator(".data-point").Filter(new() { HasText = "Added mass" })).ToContainTextAsync("3.9");
        await Expect(strip.Locator(".data-point").Filter(new() { HasText = "Net price" })).ToContainTextAsync("619.00");
        await Expect(strip.Locator(".data-point").Filter(new() { HasText = "Rated current" })).ToContainTextAsync(new Regex(@"[1-9]\d*(\.\d+)?\sA"));
        await journey.StepAsync(desk, "parts");

        await desk.Link("Design").ClickAsync();
        var run = desk.Page.Locator(".run-table tbody tr").Filter(new() { HasText = Amplifier });
        await Expect(run).ToContainTextAsync("mm²");
        await Expect(run.Locator("td").Nth(4)).ToContainTextAsync(new Regex(@"\d+\sA"));
        await journey.StepAsync(desk, "plan");
        await run.GetByRole(AriaRole.Button, new() { NameRegex = new Regex("^Why\\?") }).ClickAsync();
        await Expect(desk.Page.GetByRole(AriaRole.Dialog)).ToContainTextAsync("A");
        await Expect(desk.Page.GetByRole(AriaRole.Dialog)).ToContainTextAsync(new Regex("33 CFR 183|ABYC|table", RegexOptions.IgnoreCase));
        await journey.StepAsync(desk, "why");
        await desk.Page.GetByRole(AriaRole.Dialog).PressAsync("Escape");
        await Expect(desk.Page.GetByRole(AriaRole.Dialog)).ToHaveCountAsync(0);

        await desk.Button("Put planned cable and fuses on the parts list").ClickAsync();
        await Expect(desk.Page.GetByText(new Regex(@"^\d+ added"))).ToBeVisibleAsync();
        await desk.Link("Parts").ClickAsync();
        await Expect(desk.Page.Locator(".parts-group").Filter(new() { HasText = "Fuse" }).First).ToBeVisibleAsync();
        await Expect(desk.Page.Locator(".parts-group").Filter(new() { HasText = "cable" }).First).ToBeVisibleAsync();
        await journey.StepAsync(desk, "planned-parts");
    });

    [Fact]
    public Task The_owner_releases_the_plan_and_the_release_is_listed() => shop.TellAsync(async journey =>
    {
        var owner = await journey.EnterAsync(Person.Owner, Screen.Desktop);
        var job = await owner.OpenJobAsync("A plan to release", "Cosmin Teal", "MB 003 K");
        await owner.AddPartAsync(job, "Tovel M500 single-channel amplifier", "Boot floor, left");
        await owner.GoAsync($"/jobs/{job}/design");
        await owner.Page.Locator(".run-table tbody tr").First.WaitForAsync();

        await owner.Button("Release plan").ClickAsync();
        var dialog = owner.Page.GetByRole(AriaRole.Dialog);
        var released = owner.Page.GetByText("Plan 1", new() { Exact = true });
        await Expect(dialog.Or(released).First).ToBeVisibleAsync();
        if (await dialog.CountAsync() > 0)
        {
            // A plan with stop findings asks for a reason first; one without does not.
            await dialog.GetByLabel("Reason").FillAsync("Agreed with the client, checked at the car");
            await dialog.GetByRole(AriaRole.Button, new() { Name = "Release plan" }).ClickAsync();
        }

        await Expect(released).ToBeVisibleAsync();
        await Expect(owner.Page.GetByText($"released by {Person.Owner.Name}")).ToBeVisibleAsync();
        await journey.StepAsync(owner, "released");
    });
}
