using static Microsoft.Playwright.Assertions;

namespace ShopFloor.Browser.Tests.DeviceScripts;

public sealed class DraftTests(ScriptHost host) : IClassFixture<ScriptHost>
{
    private const string Note = "[data-draft=note]";

    [Fact]
    public async Task What_was_typed_is_back_after_a_reload_and_announced_to_the_page()
    {
        var page = await host.OpenAsync();
        await page.FillAsync(Note, "Clip missing behind the sill");

        await page.AddInitScriptAsync("addEventListener('input', e => (window.heard ??= []).push(e.type + ':' + e.target.value)); addEventListener('change', e => (window.heard ??= []).push(e.type + ':' + e.target.value))");
        await page.ReloadAsync();

        await Expect(page.Locator(Note)).ToHaveValueAsync("Clip missing behind the sill");
        Assert.Equal(["input:Clip missing behind the sill", "change:Clip missing behind the sill"], await page.EvaluateAsync<string[]>("window.heard"));
    }

    [Fact]
    public async Task A_saved_draft_does_not_come_back()
    {
        var page = await host.OpenAsync();
        await page.FillAsync(Note, "Saved already");
        await page.EvaluateAsync("shopDrafts.flush(); document.dispatchEvent(new CustomEvent('shop-draft-saved', { detail: { key: 'note' } }))");

        await page.ReloadAsync();

        await Expect(page.Locator(Note)).ToHaveValueAsync("");
    }

    [Fact]
    public async Task A_newer_value_on_the_server_is_not_overwritten_and_the_draft_is_offered()
    {
        var page = await host.OpenAsync();
        await page.FillAsync(Note, "Mine");
        await page.Context.RouteAsync("**/page", async route =>
        {
            var response = await route.FetchAsync();
            await route.FulfillAsync(new() { Response = response, Body = (await response.TextAsync()).Replace("data-draft-version=\"1\"></textarea>", "data-draft-version=\"2\">Theirs</textarea>", StringComparison.Ordinal) });
        });

        await page.ReloadAsync();
        await Expect(page.Locator(Note)).ToHaveValueAsync("Theirs");
        await page.ClickAsync("text=Put mine back");

        await Expect(page.Locator(Note)).ToHaveValueAsync("Mine");
    }

    [Fact]
    public async Task Passwords_are_never_mirrored()
    {
        var page = await host.OpenAsync();
        await page.FillAsync("[data-draft=secret]", "hunter2hunter2");
        await page.FillAsync(Note, "Kept");
        await page.EvaluateAsync("shopDrafts.flush()");

        var stored = await page.EvaluateAsync<string>("JSON.stringify(localStorage)");

        Assert.Contains("Kept", stored);
        Assert.DoesNotContain("hunter2", stored);
    }

    [Fact]
    public async Task Signing_out_clears_the_persons_drafts_even_those_just_typed()
    {
        var page = await host.OpenAsync();
        await page.FillAsync(Note, "Private");
        await page.EvaluateAsync("shopDrafts.flush()");
        await page.FillAsync(Note, "Private too");

        await page.ClickAsync("text=Sign out");
        await page.WaitForFunctionAsync("document.querySelector('meta[name=shop-person]').content === ''");

        Assert.DoesNotContain("Private", await page.EvaluateAsync<string>("JSON.stringify(localStorage)"));
    }

    [Fact]
    public async Task Another_person_does_not_see_the_draft()
    {
        var page = await host.OpenAsync();
        await page.FillAsync(Note, "Of person 1");
        host.Person = "person-2";

        await page.ReloadAsync();

        await Expect(page.Locator(Note)).ToHaveValueAsync("");
    }
}
