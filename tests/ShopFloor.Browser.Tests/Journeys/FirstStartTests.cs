using Microsoft.Playwright;
using ShopFloor.Browser.Tests.Running;
using static Microsoft.Playwright.Assertions;

namespace ShopFloor.Browser.Tests.Journeys;

/// <summary>The first start of a real shop: nobody, nothing, and a code only whoever started the program can read.</summary>
[Collection(DemoShopGroup.Name)]
public sealed class FirstStartTests(DemoShop shop)
{
    [Fact]
    public async Task Whoever_started_the_program_becomes_the_owner_of_an_empty_shop()
    {
        await using var empty = await ShopProcess.StartAsync(demo: false, new Dictionary<string, string>());
        await using var context = await shop.Browser.NewContextAsync(Screen.Desktop.Options);
        var page = await context.NewPageAsync();
        await page.GotoAsync(new Uri(empty.Address, "/").ToString());

        await Expect(page.GetByRole(AriaRole.Heading, new() { Name = "Set up the shop" })).ToBeVisibleAsync();
        Assert.Empty(await AccessibilityTests.ViolationsAsync(page));
        await FillAsync(page, "not-the-code");
        await Expect(page.GetByRole(AriaRole.Alert).First).ToContainTextAsync("code");
        await FillAsync(page, empty.SetUpCode);

        await Expect(page).ToHaveURLAsync(new Uri(empty.Address, "/board").ToString());
        await Expect(page.GetByRole(AriaRole.Button, new() { Name = "Sign out" })).ToBeVisibleAsync();
        foreach (var path in (string[])["/board", "/jobs", "/clients", "/catalogue", "/money", "/settings/people"])
        {
            await page.GotoAsync(new Uri(empty.Address, path).ToString());
            await Expect(page.GetByRole(AriaRole.Heading, new() { Level = 1 })).ToBeVisibleAsync();
            await Expect(page.GetByText("Something went wrong")).ToHaveCountAsync(0);
        }

        await page.GotoAsync(new Uri(empty.Address, "/set-up").ToString());
        await Expect(page.GetByRole(AriaRole.Heading, new() { Name = "Set up the shop" })).ToHaveCountAsync(0);
        Assert.Empty(empty.Faults);
    }

    private static async Task FillAsync(IPage page, string code)
    {
        await page.GetByLabel("Set-up code").FillAsync(code);
        await page.GetByLabel("Name of the shop").FillAsync("Corner Sound");
        await page.GetByLabel("Your name").FillAsync("Nell Quist");
        await page.GetByLabel("Sign-in name").FillAsync("nell");
        await page.GetByLabel("Password").FillAsync("violet-gravel-lantern");
        await page.GetByRole(AriaRole.Button, new() { Name = "Set up the shop" }).ClickAsync();
    }
}
