using System.Net;
using ShopFloor.Shop.Staff;

namespace ShopFloor.Web.Tests.Account;

public sealed class SignInTests : IAsyncLifetime
{
    private readonly ShopApplication _shop = new();

    public Task InitializeAsync() => _shop.InitializeAsync();

    public Task DisposeAsync() => ((IAsyncLifetime)_shop).DisposeAsync();

    [Theory]
    [InlineData(ShopRole.Technician, "/work")]
    [InlineData(ShopRole.FrontDesk, "/board")]
    [InlineData(ShopRole.Owner, "/board")]
    public async Task The_right_password_opens_the_shop_at_the_page_of_the_role(ShopRole role, string home)
    {
        var browser = await _shop.SignInAsync(role);

        var answer = await browser.GetAsync("/");

        Assert.Equal(HttpStatusCode.Redirect, answer.StatusCode);
        Assert.Equal(home, answer.Headers.Location?.OriginalString);
    }

    [Theory]
    [InlineData("owner", "not-the-password")]
    [InlineData("nobody-of-that-name", ShopApplication.Password)]
    public async Task A_wrong_name_and_a_wrong_password_get_the_same_answer(string userName, string password)
    {
        var browser = _shop.Anonymous();

        var answer = await ShopApplication.PostSignInAsync(browser, userName, password);

        Assert.Equal(HttpStatusCode.Unauthorized, answer.StatusCode);
        Assert.Contains("Sign-in name and password do not fit together.", await answer.Content.ReadAsStringAsync(), StringComparison.Ordinal);
        Assert.Equal("/sign-in", (await browser.GetAsync("/")).Headers.Location?.OriginalString);
    }

    [Fact]
    public async Task Ten_wrong_passwords_pause_the_name_even_for_the_right_one()
    {
        var browser = _shop.Anonymous();
        for (var miss = 0; miss < 10; miss++)
        {
            await ShopApplication.PostSignInAsync(browser, "owner", "not-the-password");
        }

        var answer = await ShopApplication.PostSignInAsync(browser, "owner", ShopApplication.Password);

        Assert.Equal(HttpStatusCode.Unauthorized, answer.StatusCode);
        Assert.Contains("Too many wrong passwords", await answer.Content.ReadAsStringAsync(), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("/jobs", "/jobs")]
    [InlineData("//elsewhere.example", "/")]
    [InlineData("/\\elsewhere.example", "/")]
    [InlineData("https://elsewhere.example", "/")]
    public async Task Signing_in_leads_on_only_to_pages_of_the_shop(string wanted, string reached)
    {
        var browser = _shop.Anonymous();

        var answer = await ShopApplication.PostFormAsync(
            browser,
            $"/sign-in?from={Uri.EscapeDataString(wanted)}",
            "sign-in",
            new() { ["Form.UserName"] = "owner", ["Form.Password"] = ShopApplication.Password });

        Assert.Equal(HttpStatusCode.Redirect, answer.StatusCode);
        Assert.Equal(reached, answer.Headers.Location?.PathAndQuery());
    }

    [Fact]
    public async Task A_post_without_the_antiforgery_token_is_refused()
    {
        using var content = new FormUrlEncodedContent(new Dictionary<string, string>
        {
            ["_handler"] = "sign-in",
            ["Form.UserName"] = "owner",
            ["Form.Password"] = ShopApplication.Password,
        });

        var answer = await _shop.Anonymous().PostAsync("/sign-in", content);

        Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
    }
}
