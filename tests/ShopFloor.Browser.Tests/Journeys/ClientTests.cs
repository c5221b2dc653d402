using System.Text.RegularExpressions;
using Microsoft.Playwright;
using ShopFloor.Browser.Tests.Running;
using static Microsoft.Playwright.Assertions;

namespace ShopFloor.Browser.Tests.Journeys;

[Collection(DemoShopGroup.Name)]
public sealed class ClientTests(DemoShop shop)
{
    [Fact]
    public Task The_client_reads_the_estimate_behind_the_link_and_agrees() => shop.TellAsync(async journey =>
    {
        var desk = await journey.EnterAsync(Person.Desk, Screen.Desktop);
        var job = await desk.OpenJobAsync("Two tweeters", "Runa Ebb", "MB 030 K");
        await desk.AddPartAsync(job, "Luneck 25 tweeter", "Windscreen pillar, left");
        await desk.GoAsync($"/jobs/{job}/estimate");
        await desk.Page.GetByRole(AriaRole.Button, new() { NameRegex = new Regex("^Issue ") }).ClickAsync();
        await Expect(desk.Page.GetByText("Waits for an answer")).ToBeVisibleAsync();
        var address = await desk.MakeClientLinkAsync(job);

        var client = await journey.EnterAsync("client", Screen.Phone);
        await client.GoAsync(address);
        await Expect(client.Page.GetByText("Hello Runa Ebb")).ToBeVisibleAsync();
        await Expect(client.Page).ToHaveURLAsync(new Regex("/c$"));
        await journey.StepAsync(client, "status");
        await client.Page.GetByRole(AriaRole.Link).Filter(new() { HasText = "waits for an answer" }).ClickAsync();
        await Expect(client.Page.GetByText("Luneck 25 tweeter").First).ToBeVisibleAsync();
        await client.Page.GetByLabel("Your name").FillAsync("Runa Ebb");
        await client.Page.GetByRole(AriaRole.Button, new() { NameRegex = new Regex("^I agree") }).ClickAsync();
        await Expect(client.Page.GetByRole(AriaRole.Button, new() { NameRegex = new Regex("^I agree") })).ToHaveCountAsync(0);
        await journey.StepAsync(client, "agreed");

        await desk.GoAsync($"/jobs/{job}/estimate");
        await Expect(desk.Page.Locator(".estimate-version")).ToContainTextAsync("Approved");
        await Expect(desk.Page.Locator(".estimate-version")).ToContainTextAsync("Runa Ebb");
    });

    [Fact]
    public Task The_client_of_a_delivered_car_reads_the_handover_and_its_paper() => shop.TellAsync(async journey =>
    {
        var desk = await journey.EnterAsync(Person.Desk, Screen.Desktop);
        var job = await desk.FindJobAsync(DemoJobs.Delivered);
        await desk.GoAsync($"/jobs/{job}/handover");
        var reference = await desk.ReferenceAsync();
        var address = await desk.MakeClientLinkAsync(job);

        var client = await journey.EnterAsync("client", Screen.Tablet);
        await client.GoAsync(address);
        await client.Page.GetByRole(AriaRole.Link).Filter(new() { HasText = "Your handover document" }).ClickAsync();
        await Expect(client.Page.GetByText("Fuse map").First).ToBeVisibleAsync();
        Assert.DoesNotMatch("margin|our cost", (await client.WordsAsync()).ToLowerInvariant());
        await journey.StepAsync(client, "handover");

        var paper = await client.Page.APIRequest.GetAsync("/c/handover.pdf");
        Assert.Equal(200, paper.Status);
        Assert.Equal("application/pdf", paper.Headers["content-type"]);
        var pages = Pdf.Pages(await paper.BodyAsync());
        Assert.All(pages, page => Assert.Contains(reference, page));
        Assert.Contains(pages, page => page.Contains("Fuse map", StringComparison.Ordinal));
        for (var number = 1; number <= pages.Count; number++)
            Assert.Matches($@"Page\s*{number}\s*of\s*{pages.Count}(?!\d)", pages[number - 1]);
    });

    [Fact]
    public Task An_ended_link_answers_exactly_like_a_wrong_one() => shop.TellAsync(async journey =>
    {
        var desk = await journey.EnterAsync(Person.Desk, Screen.Desktop);
        var job = await desk.OpenJobAsync("Link to end", "Sable Orr", "MB 031 K");
        var address = await desk.MakeClientLinkAsync(job);
        await desk.Button("End it").ClickAsync();
        await Expect(desk.Page.Locator(".link-line")).ToContainTextAsync("Ended");

        var client = await journey.EnterAsync("client", Screen.Phone);
        client.Expect("404");
        var ended = await client.GoAsync(address);
        var endedPage = await ended!.TextAsync();
        var wrong = await client.GoAsync("/c/" + new string('A', address.Length - "/c/".Length));
        Assert.Equal((404, 404), (ended.Status, wrong!.Status));
        Assert.Equal(endedPage, await wrong.TextAsync());
        Assert.Equal(Names(ended), Names(wrong));
        await Expect(client.Heading("This link opens nothing")).ToBeVisibleAsync();
        await journey.StepAsync(client, "nothing");
    });

    private static IEnumerable<string> Names(IResponse answer) => answer.Headers.Keys.Order();
}
