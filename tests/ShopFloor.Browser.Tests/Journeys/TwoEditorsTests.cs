using Microsoft.Playwright;
using ShopFloor.Browser.Tests.Running;
using static Microsoft.Playwright.Assertions;

namespace ShopFloor.Browser.Tests.Journeys;

[Collection(DemoShopGroup.Name)]
public sealed class TwoEditorsTests(DemoShop shop)
{
    [Fact]
    public Task The_second_of_two_editors_sees_both_versions_and_chooses() => shop.TellAsync(async journey =>
    {
        var desk = await journey.EnterAsync(Person.Desk, Screen.Desktop);
        var job = await desk.OpenJobAsync("Title at first", "Thea Grove", "MB 040 K");
        var owner = await journey.EnterAsync(Person.Owner, Screen.Desktop);
        await owner.GoAsync($"/jobs/{job}/intake");
        await EditCardAsync(owner, "Title by the owner", "Wish by the owner");
        await EditCardAsync(desk, "Title by the desk", "Wish by the desk");

        await owner.Part("Job card").GetByRole(AriaRole.Button, new() { Name = "Save", Exact = true }).ClickAsync();
        await Expect(owner.Heading("Job card")).ToBeVisibleAsync();
        await Expect(owner.Part("Job card")).ToContainTextAsync("Wish by the owner");
        await Expect(desk.Page.Locator("h1")).ToContainTextAsync("Title by the owner");
        await Expect(desk.Field("Short title")).ToHaveValueAsync("Title by the desk");

        await desk.Part("Job card").GetByRole(AriaRole.Button, new() { Name = "Save", Exact = true }).ClickAsync();
        var dialog = desk.Page.GetByRole(AriaRole.Dialog);
        await Expect(dialog).ToContainTextAsync($"{Person.Owner.Name} saved this");
        foreach (var version in (string[])["Title by the owner", "Title by the desk", "Wish by the owner", "Wish by the desk"])
            await Expect(dialog).ToContainTextAsync(version);
        await Expect(dialog.GetByRole(AriaRole.Button, new() { Name = "Save these choices" })).ToBeDisabledAsync();
        await journey.StepAsync(desk, "both");
        await dialog.Locator(".conflict-option").Filter(new() { HasText = "Title by the owner" }).ClickAsync();
        await dialog.Locator(".conflict-option").Filter(new() { HasText = "Wish by the desk" }).ClickAsync();
        await dialog.GetByRole(AriaRole.Button, new() { Name = "Save these choices" }).ClickAsync();

        await Expect(owner.Part("Job card")).ToContainTextAsync("Wish by the desk");
        await Expect(owner.Page.Locator("h1")).ToContainTextAsync("Title by the owner");
    });

    private static async Task EditCardAsync(Visitor visitor, string title, string wish)
    {
        await visitor.Part("Job card").GetByRole(AriaRole.Button, new() { Name = "Edit" }).ClickAsync();
        await visitor.Field("Short title").FillAsync(title);
        await visitor.Field("What the client wants, in their words").FillAsync(wish);
        await visitor.Field("What the client wants, in their words").BlurAsync();
    }
}
