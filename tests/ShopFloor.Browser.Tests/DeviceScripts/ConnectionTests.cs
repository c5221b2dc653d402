using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace ShopFloor.Browser.Tests.DeviceScripts;

public sealed class ConnectionTests(ScriptHost host) : IClassFixture<ScriptHost>
{
    [Fact]
    public async Task A_silent_server_is_said_in_the_strip_and_unsaid_when_it_answers()
    {
        var page = await host.OpenAsync();
        await Expect(page.Locator("html")).ToHaveAttributeAsync("data-link", "up");
        host.Alive = aborted => Task.Delay(Timeout.Infinite, aborted);

        // The longest way to notice: a pause of 0.6 s, then 2 s without an answer.
        await Expect(page.Locator("html")).ToHaveAttributeAsync("data-link", "down", new() { Timeout = 4_000 });
        await Expect(page.Locator("[data-link-words]")).ToHaveTextAsync("No connection: ticks are kept on this tablet and sent when it is back. What you see stays.");

        host.Alive = _ => Task.CompletedTask;
        await Expect(page.Locator("html")).ToHaveAttributeAsync("data-link", "up");
        await Expect(page.Locator("[data-link-words]")).ToHaveTextAsync("");
    }

    [Fact]
    public async Task A_post_that_hangs_is_given_up_and_sent_again_as_soon_as_the_server_answers()
    {
        var page = await host.OpenAsync();
        var stalled = true;
        await page.Context.RouteAsync("**/commands/**", async route =>
        {
            if (!stalled)
                await route.ContinueAsync();
        });
        host.Alive = aborted => Task.Delay(Timeout.Infinite, aborted);
        await page.ClickAsync("#tick");
        await Expect(page.Locator("html")).ToHaveAttributeAsync("data-server", "silent");

        stalled = false;
        host.Alive = _ => Task.CompletedTask;

        // The post itself would have waited for 20 s.
        await Expect(page.Locator("[data-outbox-count]")).ToHaveTextAsync("0", new() { Timeout = 6_000 });
        // On a busy machine it may go out once more; under its key it counts once.
        Assert.Equal("""{"stepId":"6","done":true}""", Assert.Single(host.Commands.DistinctBy(command => command.Key)).Body);
    }

    [Fact]
    public async Task An_answer_that_is_slow_but_comes_is_no_lost_link()
    {
        var page = await host.OpenAsync();
        var beats = 0;
        var enough = new TaskCompletionSource();
        host.Alive = async aborted =>
        {
            await Task.Delay(1_200, aborted);
            if (++beats == 4)
                enough.SetResult();
        };
        await page.EvaluateAsync("(() => { window.downs = 0; new MutationObserver(() => { if (document.documentElement.dataset.link === 'down') window.downs++; }).observe(document.documentElement, { attributes: true }); })()");

        await enough.Task;

        Assert.Equal(0, await page.EvaluateAsync<int>("window.downs"));
    }

    [Fact]
    public async Task A_lost_circuit_is_said_and_the_reload_waits_until_a_server_is_there()
    {
        var page = await host.OpenAsync();
        await StateAsync(page, "show");
        await Expect(page.Locator("html")).ToHaveAttributeAsync("data-link", "down");
        await StateAsync(page, "hide");
        await Expect(page.Locator("html")).ToHaveAttributeAsync("data-link", "up");

        await page.EvaluateAsync("window.stillTheSame = true");
        await page.Context.RouteAsync("**/page", route => route.AbortAsync());
        var asked = new TaskCompletionSource();
        page.RequestFailed += (_, request) => _ = request.Url.EndsWith("/page", StringComparison.Ordinal) && asked.TrySetResult();
        await StateAsync(page, "rejected");
        await asked.Task.WaitAsync(TimeSpan.FromSeconds(15));
        Assert.True(await page.EvaluateAsync<bool>("window.stillTheSame"));

        await page.Context.UnrouteAllAsync();
        await page.WaitForFunctionAsync("window.stillTheSame === undefined");
    }

    [Fact]
    public async Task Only_a_touch_makes_the_question_count_as_somebody_being_there()
    {
        var page = await host.OpenAsync();
        await page.Context.AddCookiesAsync([new Cookie { Name = "shop", Value = "1", Url = host.Address }]);
        await BeatsAsync(page, 3);
        var before = host.AliveSignedIn;
        await BeatsAsync(page, 3);
        Assert.Equal(before, host.AliveSignedIn);

        await page.ClickAsync("#next");
        await BeatsAsync(page, 2);
        Assert.Equal(before + 1, host.AliveSignedIn);
    }

    private static async Task BeatsAsync(IPage page, int count)
    {
        for (var beat = 0; beat < count; beat++)
            await page.WaitForResponseAsync(response => response.Url.EndsWith("/alive", StringComparison.Ordinal));
    }

    private static async Task StateAsync(IPage page, string state) => await page.EvaluateAsync(
        $"document.getElementById('connection-bar').dispatchEvent(new CustomEvent('components-reconnect-state-changed', {{ detail: {{ state: '{state}' }} }}))");
}
