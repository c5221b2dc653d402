using System.Net;
using Microsoft.Extensions.Time.Testing;
using ShopFloor.Shop.Staff;

namespace ShopFloor.Web.Tests.Account;

public sealed class TabletTests : IAsyncLifetime
{
    private readonly ShopApplication _shop = new() { Time = new FakeTimeProvider(new DateTimeOffset(2031, 3, 3, 8, 0, 0, TimeSpan.Zero)) };

    private FakeTimeProvider Time => _shop.Time!; // set above

    public Task InitializeAsync() => _shop.InitializeAsync();

    public Task DisposeAsync() => ((IAsyncLifetime)_shop).DisposeAsync();

    [Fact]
    public async Task Registering_signs_the_owner_out_and_leaves_a_tablet_that_lists_the_people()
    {
        var tablet = await _shop.RegisterTabletAsync();

        var page = await tablet.GetStringAsync("/tablet");

        Assert.Contains("Technician Person", page, StringComparison.Ordinal);
        Assert.Equal("/sign-in", (await tablet.GetAsync("/")).Headers.Location?.OriginalString);
    }

    [Fact]
    public async Task An_unregistered_device_shows_no_names()
    {
        var page = await _shop.Anonymous().GetStringAsync("/tablet");

        Assert.Contains("not registered", page, StringComparison.Ordinal);
        Assert.DoesNotContain("Technician Person", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Even_the_owners_PIN_opens_no_more_than_a_technicians_pages_also_after_the_cookie_was_renewed()
    {
        var tablet = await _shop.SwitchInAsync(ShopRole.Owner);

        for (var round = 0; round < 4; round++)
        {
            Assert.Equal("/work", (await tablet.GetAsync("/")).Headers.Location?.OriginalString);
            var managing = await tablet.GetAsync("/tablet/register");
            Assert.Equal(HttpStatusCode.Redirect, managing.StatusCode);
            Assert.StartsWith("https://shop.test/not-allowed", managing.Headers.Location?.OriginalString, StringComparison.Ordinal);
            Time.Advance(TimeSpan.FromMinutes(2));
        }
    }

    [Fact]
    public async Task A_wrong_PIN_is_refused_and_the_page_stays_with_the_person()
    {
        var tablet = await _shop.RegisterTabletAsync();

        var answer = await _shop.PostPinAsync(tablet, ShopRole.Technician, "951268");

        Assert.Equal(HttpStatusCode.Unauthorized, answer.StatusCode);
        Assert.Contains("That was not the PIN.", await answer.Content.ReadAsStringAsync(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_locked_PIN_is_told_apart_and_the_password_still_works()
    {
        var tablet = await _shop.RegisterTabletAsync();
        for (var miss = 0; miss < 10; miss++)
        {
            await _shop.PostPinAsync(tablet, ShopRole.Owner, "951268");
            Time.Advance(TimeSpan.FromHours(1));
        }

        var answer = await _shop.PostPinAsync(tablet, ShopRole.Owner, ShopApplication.Pin);

        Assert.Equal(HttpStatusCode.Unauthorized, answer.StatusCode);
        Assert.Contains("locked", await answer.Content.ReadAsStringAsync(), StringComparison.Ordinal);
        await _shop.SignInAsync(ShopRole.Owner);
    }

    [Fact]
    public async Task A_tablet_nobody_touches_for_five_minutes_asks_for_the_PIN_again_and_one_in_use_does_not()
    {
        var used = await _shop.SwitchInAsync(ShopRole.Technician, "Bay 1");
        var left = await _shop.SwitchInAsync(ShopRole.Technician, "Bay 2");

        for (var minute = 0; minute < 6; minute++)
        {
            Time.Advance(TimeSpan.FromMinutes(1));
            Assert.Equal("/work", (await used.GetAsync("/")).Headers.Location?.OriginalString);
        }

        Assert.Equal("/sign-in", (await left.GetAsync("/")).Headers.Location?.OriginalString);
        Assert.Equal("/tablet?from=%2Fwork", (await left.GetAsync("/sign-in?from=%2Fwork")).Headers.Location?.PathAndQuery());
    }

    [Fact]
    public async Task Handing_over_ends_the_session_and_shows_the_next_person_the_names()
    {
        var tablet = await _shop.SwitchInAsync(ShopRole.Technician);

        var answer = await ShopApplication.PostFormAsync(tablet, $"/tablet?person={_shop.Person(ShopRole.Technician).Id}", "", [], "/tablet/hand-over");

        Assert.Equal("/tablet", answer.Headers.Location?.OriginalString);
        Assert.Equal("/sign-in", (await tablet.GetAsync("/")).Headers.Location?.OriginalString);
    }

    [Fact]
    public async Task A_change_of_role_and_a_switch_off_reach_open_browsers_within_a_minute()
    {
        var browser = await _shop.SignInAsync(ShopRole.FrontDesk);
        Assert.Equal("/board", (await browser.GetAsync("/")).Headers.Location?.OriginalString);

        await EditAsync(ShopRole.FrontDesk, form => form.Role = ShopRole.Technician);
        Time.Advance(TimeSpan.FromMinutes(1));

        Assert.Equal("/sign-in", (await browser.GetAsync("/")).Headers.Location?.OriginalString);
    }

    private async Task EditAsync(ShopRole who, Action<PersonForm> change)
    {
        var people = _shop.Get<People>();
        var owner = _shop.Actor(ShopRole.Owner);
        var draft = await people.GetAsync(owner, _shop.Person(who).Id, CancellationToken.None);
        change(draft!.Form); // every role has a person here
        var outcome = await people.EditAsync(owner, draft.Id, draft.Version, draft.Form, CancellationToken.None);
        Assert.True(outcome.Succeeded, outcome.Message);
    }
}
