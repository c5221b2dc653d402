using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace ShopFloor.Browser.Tests.DeviceScripts;

public sealed class OutboxTests(ScriptHost host) : IClassFixture<ScriptHost>
{
    [Fact]
    public async Task A_press_is_posted_once_with_its_own_key_and_the_token()
    {
        var page = await host.OpenAsync();

        await page.ClickAsync("#tick");
        await Expect(page.Locator("#tick")).ToHaveAttributeAsync("data-outbox-state", "sent");

        var command = Assert.Single(host.Commands);
        Assert.Equal("""{"stepId":"6","done":true}""", command.Body);
        Assert.Equal("token-1", command.Token);
        Assert.Equal(7, Guid.Parse(command.Key).Version);
        await Expect(page.Locator("[data-outbox-count]")).ToHaveTextAsync("0");
    }

    [Fact]
    public async Task Presses_without_a_link_wait_survive_a_reload_and_go_in_order_when_it_returns()
    {
        var page = await host.OpenAsync();
        await page.Context.RouteAsync("**/commands/**", route => route.AbortAsync("internetdisconnected"));

        await page.ClickAsync("#tick");
        Assert.Equal("waiting", await page.Locator("#tick").GetAttributeAsync("data-outbox-state"));
        await page.ClickAsync("#next");
        await page.ReloadAsync();
        await Expect(page.Locator("#tick")).ToHaveAttributeAsync("data-outbox-state", "waiting");
        await Expect(page.Locator("[data-outbox-summary]")).ToHaveTextAsync("2 waiting");
        Assert.Empty(host.Commands);

        await page.Context.UnrouteAllAsync();
        await page.EvaluateAsync("dispatchEvent(new Event('online'))");
        await Expect(page.Locator("[data-outbox-count]")).ToHaveTextAsync("0");

        Assert.Equal(["""{"stepId":"6","done":true}""", """{"stepId":"7","done":true}"""], host.Commands.Select(command => command.Body));
    }

    [Fact]
    public async Task A_server_fault_is_retried_with_the_same_key_and_nothing_overtakes_it()
    {
        var page = await host.OpenAsync();
        host.Answer = _ => (host.Commands.IsEmpty ? 503 : 204, null);

        await page.ClickAsync("#tick");
        await page.ClickAsync("#next");
        await Expect(page.Locator("[data-outbox-count]")).ToHaveTextAsync("0");

        Assert.Equal(["6", "6", "7"], host.Commands.Select(command => command.Body[11..12]));
        Assert.Equal(host.Commands.ElementAt(0).Key, host.Commands.ElementAt(1).Key);
    }

    [Fact]
    public async Task What_the_server_refuses_stays_listed_with_its_message_until_sent_again_or_dismissed()
    {
        var page = await host.OpenAsync();
        host.Answer = received => received.Body.Contains("\"6\"", StringComparison.Ordinal) ? (422, "Step 6 needs a photo first.") : (204, null);

        await page.ClickAsync("#tick");
        await page.ClickAsync("#next");
        await Expect(page.Locator("#tick")).ToHaveAttributeAsync("data-outbox-state", "refused");
        await Expect(page.Locator(".notice")).ToContainTextAsync("Step 6 needs a photo first.");
        await Expect(page.Locator("[data-outbox-summary]")).ToHaveTextAsync("1 not accepted");
        await page.ReloadAsync();
        await page.ClickAsync("[data-tray-open]");
        await Expect(page.Locator("dialog")).ToContainTextAsync("Entries not accepted");
        await Expect(page.Locator("li.refused")).ToContainTextAsync("Tick step 6");

        host.Answer = _ => (204, null);
        await page.ClickAsync("text=Send again");
        await Expect(page.Locator("[data-outbox-summary]")).ToHaveTextAsync("");

        Assert.Equal(["6", "7", "6"], host.Commands.Select(command => command.Body[11..12]));
    }

    [Fact]
    public async Task A_refusal_is_no_longer_listed_once_the_same_step_was_accepted()
    {
        var page = await host.OpenAsync();
        host.Answer = received => received.Body.Contains("\"11\"", StringComparison.Ordinal) ? (422, "11 V is below 12.2 V.") : (204, null);
        await page.FillAsync("[data-outbox-field]", "11");
        await page.ClickAsync("#measure");
        await Expect(page.Locator(".notice")).ToContainTextAsync("11 V is below");
        await Expect(page.Locator("[data-outbox-summary]")).ToHaveTextAsync("1 not accepted");

        // Another step's going through changes nothing for this one.
        await page.ClickAsync("#tick");
        await Expect(page.Locator("#tick")).ToHaveAttributeAsync("data-outbox-state", "sent");
        await Expect(page.Locator("[data-outbox-summary]")).ToHaveTextAsync("1 not accepted");

        await page.FillAsync("[data-outbox-field]", "12.6");
        await page.ClickAsync("#measure");
        await Expect(page.Locator("[data-outbox-summary]")).ToHaveTextAsync("");
        await Expect(page.Locator(".notice")).ToHaveCountAsync(0);
        Assert.Equal(0, await page.EvaluateAsync<int>("shopOutbox.refused().length"));
    }

    [Fact]
    public async Task A_refused_remark_is_kept_when_another_one_is_accepted()
    {
        var page = await host.OpenAsync();
        host.Answer = _ => host.Commands.IsEmpty ? (422, "Too long.") : (204, null);

        await page.ClickAsync("#next");
        await Expect(page.Locator("[data-outbox-summary]")).ToHaveTextAsync("1 not accepted");
        await page.ClickAsync("#next");
        await Expect(page.Locator("[data-outbox-count]")).ToHaveTextAsync("0");
        Assert.Equal(2, host.Commands.Count);

        await Expect(page.Locator("[data-outbox-summary]")).ToHaveTextAsync("1 not accepted");
    }

    [Theory]
    [InlineData(401)]
    [InlineData(302)]
    public async Task A_lapsed_sign_in_keeps_the_entries_and_says_so(int status)
    {
        var page = await host.OpenAsync();
        host.Answer = _ => (status, null);

        await page.ClickAsync("#tick");
        await page.ClickAsync("#next");
        await Expect(page.Locator(".notice")).ToContainTextAsync("Sign in again");

        await Expect(page.Locator("[data-outbox-count]")).ToHaveTextAsync("2");
    }

    [Fact]
    public async Task Entries_are_never_sent_under_another_person()
    {
        var page = await host.OpenAsync();
        await page.Context.RouteAsync("**/commands/**", route => route.AbortAsync());
        await page.ClickAsync("#tick");

        // The link comes back only under the second person, or the first one's own retry could slip in between.
        host.Person = "person-2";
        await page.ReloadAsync();
        await page.Context.UnrouteAllAsync();
        await page.ClickAsync("#next");
        await Expect(page.Locator("#next")).ToHaveAttributeAsync("data-outbox-state", "sent");
        Assert.Equal("""{"stepId":"7","done":true}""", Assert.Single(host.Commands).Body);

        host.Person = "person-1";
        await page.ReloadAsync();
        await Expect(page.Locator("[data-outbox-count]")).ToHaveTextAsync("0");
        Assert.Equal("""{"stepId":"6","done":true}""", host.Commands.Last().Body);
    }

    [Fact]
    public async Task A_stale_antiforgery_token_is_renewed_and_the_press_goes_through()
    {
        var page = await host.OpenAsync();
        host.Token = "token-2";

        await page.ClickAsync("#tick");
        await Expect(page.Locator("#tick")).ToHaveAttributeAsync("data-outbox-state", "sent");

        Assert.Equal("token-2", Assert.Single(host.Commands).Token);
    }

    [Fact]
    public async Task A_second_press_while_the_first_waits_is_the_same_press()
    {
        var page = await host.OpenAsync();
        await page.Context.RouteAsync("**/commands/**", route => route.AbortAsync());

        await page.DblClickAsync("#tick");

        Assert.Equal(1, await page.EvaluateAsync<int>("shopOutbox.waiting().length"));
    }

    [Fact]
    public async Task Typed_values_go_with_the_command_and_a_missing_one_stops_it()
    {
        var page = await host.OpenAsync();

        await page.ClickAsync("#measure");
        await Expect(page.Locator(".notice")).ToContainTextAsync("Measured is needed");
        Assert.Empty(host.Commands);

        await page.FillAsync("[data-outbox-field]", " 13.8 ");
        await page.ClickAsync("#measure");
        await Expect(page.Locator("#measure")).ToHaveAttributeAsync("data-outbox-state", "sent");
        Assert.Equal("""{"stepId":"8","measured":"13.8"}""", Assert.Single(host.Commands).Body);
    }

    [Fact]
    public async Task Photos_taken_without_a_link_are_kept_over_a_reload_and_sent_later()
    {
        var page = await host.OpenAsync();
        await page.Context.RouteAsync("**/photos", route => route.AbortAsync());
        await page.SetInputFilesAsync("input[type=file]", new FilePayload { Name = "proof.jpg", MimeType = "image/jpeg", Buffer = new byte[1000] });
        await Expect(page.Locator("[data-outbox-count]")).ToHaveTextAsync("1");

        await page.AddInitScriptAsync("document.addEventListener('shop-photo-uploaded', e => window.uploaded = e.detail.fields.stepId)");
        await page.ReloadAsync();
        await Expect(page.Locator("[data-outbox-count]")).ToHaveTextAsync("1");
        await page.Context.UnrouteAllAsync();
        await page.EvaluateAsync("dispatchEvent(new Event('online'))");
        await page.WaitForFunctionAsync("window.uploaded === '9'");

        await Expect(page.Locator("[data-outbox-count]")).ToHaveTextAsync("0");
        var photo = Assert.Single(host.Commands);
        Assert.Equal("proof.jpg", photo.Name);
        Assert.Equal("9:1000", photo.Body);
    }
}
