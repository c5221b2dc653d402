using ShopFloor.Browser.Tests.Running;
using static Microsoft.Playwright.Assertions;
using static ShopFloor.Browser.Tests.Running.BaySteps;

namespace ShopFloor.Browser.Tests.Journeys;

/// <summary>A tablet that lies untouched with its page open locks itself; the lock is set to a few seconds for it.</summary>
public sealed class TabletLockTests(QuickLockShop shop) : IClassFixture<QuickLockShop>
{
    [Fact]
    public Task An_untouched_open_page_locks_keeps_what_was_typed_and_shows_it_to_nobody_else() => shop.TellAsync(async journey =>
    {
        var desk = await journey.EnterAsync(Person.Desk, Screen.Desktop);
        var job = await desk.PlannedJobAsync("Left lying open", "MB 030 K");
        var tablet = await journey.TakeTabletAsync(Person.Tarik);
        await tablet.GoAsync($"/work/{job}");
        await tablet.Step(Compare).Locator("summary").ClickAsync();
        await tablet.Step(Compare).Locator("textarea").FillAsync("Scratch by the left sill");

        await tablet.Heading("Who is working?").WaitForAsync(new() { Timeout = 40_000 });
        await journey.StepAsync(tablet, "locked");
        Assert.Equal(0, await tablet.Page.EvaluateAsync<int>("Object.keys(localStorage).filter(key => key.startsWith('shop-kept')).length"));

        await EnterPinAsync(tablet, Person.Mila);
        await tablet.GoAsync($"/work/{job}");
        await tablet.Step(Compare).Locator("summary").ClickAsync();
        await Expect(tablet.Step(Compare).Locator("textarea")).ToHaveValueAsync("");
        Assert.DoesNotContain("Scratch by", await tablet.WordsAsync(), StringComparison.Ordinal);

        await tablet.Button("Hand over tablet").ClickAsync();
        await EnterPinAsync(tablet, Person.Tarik);
        await tablet.GoAsync($"/work/{job}");
        await tablet.Step(Compare).Locator("summary").ClickAsync();
        await Expect(tablet.Step(Compare).Locator("textarea")).ToHaveValueAsync("Scratch by the left sill");
    });

    [Fact]
    public Task A_page_that_others_keep_changing_still_locks_and_one_that_is_touched_does_not() => shop.TellAsync(async journey =>
    {
        var desk = await journey.EnterAsync(Person.Desk, Screen.Desktop);
        var job = await desk.PlannedJobAsync("Others go on working", "MB 031 K");
        var left = await journey.TakeTabletAsync(Person.Tarik);
        await left.GoAsync($"/work/{job}");
        var used = await journey.TakeTabletAsync(Person.Mila);
        await used.GoAsync($"/work/{job}");

        // One clock started and stopped after another: each redraws both pages, only one of them is touched.
        var locked = left.Heading("Who is working?");
        var (start, stop) = (used.Button("Start clock for Check-in"), used.Button("Stop clock for Check-in"));
        for (var press = 0; press < 200 && !await locked.IsVisibleAsync(); press++)
        {
            await (press % 2 == 0 ? start : stop).ClickAsync();
            await (press % 2 == 0 ? stop : start).WaitForAsync();
        }

        await Expect(locked).ToBeVisibleAsync();
        await Expect(used.Page.Locator(".tablet-person")).ToContainTextAsync(Person.Mila.Name);
    });

    private static async Task EnterPinAsync(Visitor tablet, Person person)
    {
        await tablet.Link(person.Name).ClickAsync();
        foreach (var digit in ShopFloor.Shop.Staff.DemoPeople.Pin)
            await tablet.Button(digit.ToString()).ClickAsync();
        await Expect(tablet.Page.Locator(".tablet-person")).ToContainTextAsync(person.Name);
    }
}
