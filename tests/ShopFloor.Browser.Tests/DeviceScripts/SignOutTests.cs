using Microsoft.Playwright;

namespace ShopFloor.Browser.Tests.DeviceScripts;

public sealed class SignOutTests(ScriptHost host) : IClassFixture<ScriptHost>
{
    [Fact]
    public async Task Signing_out_leaves_neither_drafts_nor_seen_work_on_the_device_but_keeps_unsent_presses()
    {
        var page = await host.OpenAsync();
        await page.Context.RouteAsync("**/commands/**", route => route.AbortAsync());
        await page.ClickAsync("#tick");
        await page.FillAsync("textarea", "Half a remark");
        await page.WaitForFunctionAsync("Object.keys(localStorage).some(key => key.startsWith('shop-draft:')) && shopKept.sheets().length === 1");

        await page.ClickAsync("text=Sign out");
        await page.WaitForFunctionAsync("document.querySelector('meta[name=shop-person]').content === ''");

        var left = await KeysAsync(page);
        Assert.DoesNotContain(left, key => key.StartsWith("shop-draft:", StringComparison.Ordinal) || key.StartsWith("shop-kept", StringComparison.Ordinal));
        Assert.Contains(left, key => key.StartsWith("shop-outbox:person-1:", StringComparison.Ordinal));
    }

    [Fact]
    public async Task Seen_work_of_one_person_goes_when_a_page_of_another_opens()
    {
        var page = await host.OpenAsync();
        await page.WaitForFunctionAsync("shopKept.sheets().length === 1");
        Assert.Equal("person-1", await page.EvaluateAsync<string>("shopKept.person().id"));
        await page.EvaluateAsync("localStorage.setItem('shop-kept:job-of-before', JSON.stringify({ jobId: 'job-of-before', seen: 1 }))");

        host.Person = "person-2";
        await page.ReloadAsync();
        await page.WaitForFunctionAsync("shopKept.person()?.id === 'person-2'");

        Assert.DoesNotContain("shop-kept:job-of-before", await KeysAsync(page));
    }

    [Fact]
    public async Task A_sign_out_that_found_no_server_is_made_up_for_at_the_next_page()
    {
        var page = await host.OpenAsync();
        await page.Context.RouteAsync("**/sign-out", route => route.AbortAsync("internetdisconnected"));
        await page.WaitForFunctionAsync("shopKept.sheets().length === 1");
        await page.ClickAsync("text=Sign out");
        await page.Context.UnrouteAllAsync();

        await page.GotoAsync($"{host.Address}/page");
        await page.WaitForFunctionAsync("document.querySelector('meta[name=shop-person]').content === ''");

        Assert.DoesNotContain(await KeysAsync(page), key => key.StartsWith("shop-kept", StringComparison.Ordinal) || key == "shop-leaving");
    }

    private static async Task<string[]> KeysAsync(IPage page) => await page.EvaluateAsync<string[]>("Object.keys(localStorage)");
}
