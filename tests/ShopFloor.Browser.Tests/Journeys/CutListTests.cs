using Microsoft.Playwright;
using ShopFloor.Browser.Tests.Running;
using static Microsoft.Playwright.Assertions;

namespace ShopFloor.Browser.Tests.Journeys;

[Collection(DemoShopGroup.Name)]
public sealed class CutListTests(DemoShop shop)
{
    [Fact]
    public Task A_cut_list_is_made_its_sheets_are_seen_and_put_on_the_parts_list() => shop.TellAsync(async journey =>
    {
        var owner = await journey.EnterAsync(Person.Owner, new Screen("1366", 1366, 768, false));
        var job = await owner.FindJobAsync(DemoJobs.InTuning);
        await owner.GoAsync($"/jobs/{job}/design");
        await owner.Button("Cut list and templates").ClickAsync();
        await Expect(owner.Page.Locator(".cut-sheet svg").First).ToBeVisibleAsync();
        await owner.Button("New cut list").ClickAsync();
        var card = owner.Page.GetByRole(AriaRole.Region, new() { Name = "Cut list", Exact = true });
        await Expect(card.Locator(".cut-sheet")).ToHaveCountAsync(1);

        await card.GetByText("400 mm × 300 mm").ClickAsync();
        await owner.Page.GetByLabel("How many", new() { Exact = true }).FillAsync("3");
        await owner.Page.GetByLabel("How many", new() { Exact = true }).PressAsync("Tab");
        await owner.Page.GetByRole(AriaRole.Button, new() { Name = "Lay out" }).ClickAsync();
        await Expect(card.GetByText("proven least")).ToBeVisibleAsync();
        await card.GetByRole(AriaRole.Button, new() { Name = "Save", Exact = true }).ClickAsync();
        await Expect(card.GetByText("Not saved")).ToHaveCountAsync(0);
        await journey.StepAsync(owner, "cut-list");
        await owner.Button("Put sheets on the parts list").ClickAsync();
        await Expect(owner.Page.GetByText("1 added")).ToBeVisibleAsync();
        Assert.Equal(0, await owner.SidewaysAsync());

        var paper = await owner.Page.APIRequest.GetAsync(new Uri(new Uri(owner.Page.Url), $"/documents/jobs/{job}/cut-list.pdf").ToString());
        Assert.Equal("application/pdf", paper.Headers["content-type"]);
    });
}
