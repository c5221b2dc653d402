using System.Net;
using Microsoft.Extensions.Time.Testing;
using ShopFloor.Shop.Staff;

namespace ShopFloor.Web.Tests.Account;

public sealed class AccountPageTests : IAsyncLifetime
{
    private const string Fresh = "copper-thistle-harbour";
    private readonly ShopApplication _shop = new() { Time = new FakeTimeProvider(new DateTimeOffset(2031, 3, 3, 8, 0, 0, TimeSpan.Zero)) };

    public Task InitializeAsync() => _shop.InitializeAsync();

    public Task DisposeAsync() => ((IAsyncLifetime)_shop).DisposeAsync();

    [Fact]
    public async Task A_person_changes_their_own_password_and_every_device_signs_in_again()
    {
        var browser = await _shop.SignInAsync(ShopRole.Technician);
        var other = await _shop.SignInAsync(ShopRole.Technician);

        var answer = await ChangePasswordAsync(browser, ShopApplication.Password, Fresh, Fresh);

        Assert.Equal("/sign-in?changed=password", answer.Headers.Location?.PathAndQuery());
        Assert.Equal("/sign-in", (await browser.GetAsync("/")).Headers.Location?.OriginalString);
        _shop.Time!.Advance(TimeSpan.FromSeconds(31));
        Assert.Equal("/sign-in", (await other.GetAsync("/")).Headers.Location?.OriginalString);
        Assert.Equal(HttpStatusCode.Unauthorized, (await ShopApplication.PostSignInAsync(_shop.Anonymous(), "technician", ShopApplication.Password)).StatusCode);
        Assert.Equal(HttpStatusCode.Redirect, (await ShopApplication.PostSignInAsync(_shop.Anonymous(), "technician", Fresh)).StatusCode);
    }

    [Theory]
    [InlineData("not-the-password", Fresh, Fresh, "That is not your present password.")]
    [InlineData(ShopApplication.Password, Fresh, "copper-thistle-harbor", "The two new passwords are not the same.")]
    [InlineData(ShopApplication.Password, "short", "short", "characters")]
    public async Task What_does_not_fit_is_told_and_the_password_stays(string present, string fresh, string again, string words)
    {
        var browser = await _shop.SignInAsync(ShopRole.FrontDesk);

        var answer = await ChangePasswordAsync(browser, present, fresh, again);

        Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.StatusCode);
        Assert.Contains(words, await answer.Content.ReadAsStringAsync(), StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.Redirect, (await ShopApplication.PostSignInAsync(_shop.Anonymous(), "frontdesk", ShopApplication.Password)).StatusCode);
    }

    [Fact]
    public async Task Guessing_the_present_password_locks_the_account_like_the_sign_in()
    {
        var browser = await _shop.SignInAsync(ShopRole.FrontDesk);
        for (var miss = 0; miss < 10; miss++)
            await ChangePasswordAsync(browser, "not-the-password", Fresh, Fresh);

        var answer = await ChangePasswordAsync(browser, ShopApplication.Password, Fresh, Fresh);

        Assert.Contains("Too many wrong passwords", await answer.Content.ReadAsStringAsync(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_person_changes_their_own_pin()
    {
        var browser = await _shop.SignInAsync(ShopRole.Technician);

        var answer = await ShopApplication.PostFormAsync(browser, "/account", "pin", new() { ["Form.Present"] = ShopApplication.Password, ["Form.Fresh"] = "835260" });

        Assert.Contains("Your PIN is changed.", await answer.Content.ReadAsStringAsync(), StringComparison.Ordinal);
        var tablet = await _shop.RegisterTabletAsync();
        Assert.Equal(HttpStatusCode.Redirect, (await _shop.PostPinAsync(tablet, ShopRole.Technician, "835260")).StatusCode);
    }

    [Fact]
    public async Task Somebody_on_a_shared_tablet_is_sent_to_a_device_of_their_own()
    {
        var tablet = await _shop.SwitchInAsync(ShopRole.Owner);

        var page = await tablet.GetStringAsync("/account");

        Assert.Contains("device of your own", page, StringComparison.Ordinal);
        Assert.DoesNotContain("type=\"password\"", page, StringComparison.Ordinal);
    }

    private static Task<HttpResponseMessage> ChangePasswordAsync(HttpClient browser, string present, string fresh, string again) =>
        ShopApplication.PostFormAsync(browser, "/account", "password", new() { ["Form.Present"] = present, ["Form.Fresh"] = fresh, ["Form.Again"] = again });
}
