using System.Globalization;
using System.Text.RegularExpressions;
using Microsoft.Playwright;
using ShopFloor.Browser.Tests.Running;
using static Microsoft.Playwright.Assertions;

namespace ShopFloor.Browser.Tests.Journeys;

[Collection(DemoShopGroup.Name)]
public sealed class OwnerTests(DemoShop shop)
{
    private const string Reason = "Client collects early; the rest follows next week";

    [Fact]
    public Task The_owner_reads_quoted_cost_and_margin_of_a_job_and_of_all() => shop.TellAsync(async journey =>
    {
        var owner = await journey.EnterAsync(Person.Owner, Screen.Desktop);
        await owner.GoAsync("/money");
        var table = owner.Page.GetByRole(AriaRole.Region, new() { Name = "Jobs and their money" });
        foreach (var column in (string[])["Quoted", "Cost so far", "Margin"])
            await Expect(table.GetByRole(AriaRole.Columnheader, new() { Name = column, Exact = true })).ToBeVisibleAsync();
        await journey.StepAsync(owner, "all");

        await table.GetByRole(AriaRole.Link).Filter(new() { HasText = "Three-way front" }).ClickAsync();
        foreach (var card in (string[])["Quoted, net", "Cost so far", "Margin when finished"])
            await Expect(owner.Page.Locator(".money-card").Filter(new() { HasText = card }).Locator("strong")).ToHaveTextAsync(new Regex(@"€\s?-?[\d,]+\.\d\d|-?[\d,]+\.\d\d\s?€"));
        await journey.StepAsync(owner, "one");
    });

    [Theory]
    [InlineData("/settings")]
    [InlineData("/settings/people")]
    [InlineData("/settings/tablets")]
    [InlineData("/settings/templates")]
    [InlineData("/settings/tokens")]
    [InlineData("/settings/backup")]
    public Task Settings_open_for_the_owner_and_for_nobody_else(string path) => shop.TellAsync(
        async journey =>
        {
            var owner = await journey.EnterAsync(Person.Owner, Screen.Desktop);
            var desk = await journey.EnterAsync(Person.Desk, Screen.Desktop);
            desk.Expect("403");
            Assert.Equal(200, (await owner.GoAsync(path))!.Status);
            await Expect(owner.Page.GetByText("not yours to open")).ToHaveCountAsync(0);
            await journey.StepAsync(owner, "settings");

            await desk.GoAsync(path);
            await Expect(desk.Page.GetByText("not yours to open")).ToBeVisibleAsync();
        },
        $"settings-{path}");

    [Fact]
    public Task Delivery_is_refused_while_something_stands_open_and_goes_with_the_owners_written_reason() => shop.TellAsync(async journey =>
    {
        var owner = await journey.EnterAsync(Person.Owner, Screen.Desktop);
        var job = await owner.OpenJobAsync("Out early", "Basil Trow", "MB 020 K");
        await owner.GoAsync($"/jobs/{job}/handover");
        await Expect(owner.Page.GetByText(new Regex("things? stands? against it"))).ToBeVisibleAsync();
        await Expect(owner.Button("Hand the car back")).ToBeDisabledAsync();
        await journey.StepAsync(owner, "refused");

        var open = owner.Button("Sign off …");
        var alike = owner.Page.Locator("main details:not([open]) > summary").Filter(new() { HasText = "alike" });
        var dialog = owner.Page.GetByRole(AriaRole.Dialog);
        await open.First.ClickAsync();
        await dialog.GetByLabel("Reason").FillAsync("short");
        await dialog.GetByRole(AriaRole.Button, new() { Name = "Sign off" }).ClickAsync();
        await Expect(dialog).ToContainTextAsync("too short");
        await dialog.GetByRole(AriaRole.Button, new() { Name = "Cancel" }).ClickAsync();

        var headline = owner.Page.Locator("#gate-heading");
        for (var left = int.Parse((await headline.InnerTextAsync()).Split(' ')[0], CultureInfo.InvariantCulture); left > 0; left--)
        {
            if (await open.CountAsync() == 0)
                await alike.First.ClickAsync();
            await open.First.ClickAsync();
            await dialog.GetByLabel("Reason").FillAsync(Reason);
            await dialog.GetByRole(AriaRole.Button, new() { Name = "Sign off" }).ClickAsync();
            await Expect(dialog).ToHaveCountAsync(0);
            await Expect(headline).ToHaveTextAsync(left == 1 ? "Ready to hand back" : left == 2 ? "1 thing stands against it" : $"{left - 1} things stand against it");
        }

        await owner.Button("Hand the car back").ClickAsync();
        await Expect(owner.Page.GetByText("The car was handed back")).ToBeVisibleAsync();
        await Expect(owner.Page.GetByText("Handover 1", new() { Exact = true })).ToBeVisibleAsync();
        await journey.StepAsync(owner, "delivered");

        await owner.Link("Record").ClickAsync();
        await Expect(owner.Page.Locator(".record-reason").Filter(new() { HasText = Reason }).First).ToBeVisibleAsync();
        await Expect(owner.Page.Locator("main")).ToContainTextAsync(Person.Owner.Name);
        await journey.StepAsync(owner, "record");
    });
}
