using System.Text.RegularExpressions;
using Microsoft.Playwright;
using ShopFloor.Browser.Tests.Running;
using static Microsoft.Playwright.Assertions;

namespace ShopFloor.Browser.Tests.Journeys;

[Collection(DemoShopGroup.Name)]
public sealed class WeightTests(DemoShop shop)
{
    [Fact]
    public Task A_heavy_part_is_budgeted_held_ticked_and_reached() => shop.TellAsync(async journey =>
    {
        var owner = await journey.EnterAsync(Person.Owner, Screen.Desktop);
        var job = await owner.OpenJobAsync("Weight and holds", "Ines Faraway", "MB 021 W");
        await owner.AddPartAsync(job, "Tovel 6.90 six-channel amplifier", "Boot floor, left");
        await owner.GoAsync($"/jobs/{job}/design");

        await owner.Button("Added weight").ClickAsync();
        await owner.Button("Set a mass budget").ClickAsync();
        await owner.Page.GetByLabel("Mass the build may add").FillAsync("5");
        await owner.Button("Save").ClickAsync();
        // The amplifier of the demo's catalogue has 3.9 kg: 5 − 3.9 = 1.1 kg are left.
        await Expect(owner.Page.Locator(".mass-budget")).ToContainTextAsync(new Regex(@"1\.1\s*kg left"));
        await Expect(owner.Page.GetByText("The wheelbase of this car is not known")).ToBeVisibleAsync();
        await journey.StepAsync(owner, "budget");

        await owner.Button("Restraint").ClickAsync();
        await owner.Button("New restraint").ClickAsync();
        var form = owner.Page.Locator(".side-panel");
        await form.GetByLabel("Name").FillAsync("Amplifier board");
        await form.GetByLabel("Tovel 6.90 six-channel amplifier").CheckAsync();
        await form.GetByLabel("Length of the base, front to rear").FillAsync("0.4");
        await form.GetByLabel("Width of the base").FillAsync("0.3");
        await form.GetByLabel("Centre of mass above the base").FillAsync("0.05");
        await form.GetByRole(AriaRole.Button, new() { Name = "Four in the corners, 30 mm from the edge" }).ClickAsync();
        await owner.Button("Save").ClickAsync();
        var board = owner.Page.GetByRole(AriaRole.Region, new() { Name = "Amplifier board", Exact = true });
        // 3.9 kg × 20 × 9.80665 m/s² = 765 N.
        await Expect(board.Locator("tbody tr").First).ToContainTextAsync(new Regex(@"765\s*N"));
        await board.GetByLabel("Belts, buckles, tensioners and their bolts").CheckAsync();
        await Expect(board).ToContainTextAsync("Olive");
        await journey.StepAsync(owner, "restraint");

        await owner.Button("Service access").ClickAsync();
        await owner.Page.GetByRole(AriaRole.Button, new() { Name = "Say how Tovel 6.90 six-channel amplifier is reached" }).ClickAsync();
        await owner.Page.Locator(".side-panel").GetByLabel("How to reach it").FillAsync("Lift the floor");
        await owner.Page.GetByLabel("Without tools").CheckAsync();
        await owner.Button("Save").ClickAsync();
        await Expect(owner.Page.GetByText("Tools: by hand.")).ToBeVisibleAsync();
        await journey.StepAsync(owner, "service");
    });
}
