using System.Text.RegularExpressions;
using Microsoft.Playwright;
using ShopFloor.Browser.Tests.Running;
using static Microsoft.Playwright.Assertions;

namespace ShopFloor.Browser.Tests.Journeys;

[Collection(DemoShopGroup.Name)]
public sealed class FeedEditorTests(DemoShop shop)
{
    private const string Amplifier = "Tovel M500 single-channel amplifier";

    [Fact]
    public Task A_load_is_moved_by_mouse_by_finger_and_by_keys_and_each_move_is_taken_back() => shop.TellAsync(async journey =>
    {
        var desk = await journey.EnterAsync(Person.Desk, Screen.Desktop);
        var job = await desk.OpenJobAsync("Feed by hand", "Merle Olt", "MB 071 K");
        await desk.AddPartAsync(job, Amplifier, "Boot floor, left");
        await desk.GoAsync($"/jobs/{job}/design");
        await desk.Button("Add battery").ClickAsync();
        await desk.Button("Add this one").ClickAsync();
        await Expect(Line(desk, "Second battery")).ToBeVisibleAsync();
        await journey.StepAsync(desk, "added");

        // By mouse, in the outline: what it would change shows before the drop.
        await ShowAsync(desk);
        await PressAsync(desk, Line(desk, Amplifier), Line(desk, "Second battery"));
        await Expect(desk.Page.Locator(".feed-ghost span")).ToContainTextAsync("AWG");
        await journey.StepAsync(desk, "dragging");
        await desk.Page.Mouse.UpAsync();
        await Expect(Told(desk)).ToContainTextAsync("moved to Second battery");
        await Expect(Line(desk, Amplifier)).ToHaveAttributeAsync("aria-level", "3");
        await Expect(desk.Page.Locator(".feed-ring")).ToHaveCountAsync(1);
        await journey.StepAsync(desk, "moved");

        // By mouse, in the drawing, back to the battery; then undone by key and redone by button.
        await desk.Button("Fit to the window").ClickAsync();
        await Expect(desk.Page.Locator(".feed-zoom-now")).ToHaveTextAsync("fitted");
        await PressAsync(desk, Box(desk, Amplifier), desk.Page.Locator("svg [data-key='node:battery'] > rect"));
        await desk.Page.Mouse.UpAsync();
        await Expect(Told(desk)).ToContainTextAsync("moved to the battery");
        await Expect(Line(desk, Amplifier)).ToHaveAttributeAsync("aria-level", "2");
        await desk.Page.Keyboard.PressAsync("Control+z");
        await Expect(Told(desk)).ToContainTextAsync("Undone");
        await Expect(Line(desk, Amplifier)).ToHaveAttributeAsync("aria-level", "3");
        await desk.Button("Redo").ClickAsync();
        await Expect(Line(desk, Amplifier)).ToHaveAttributeAsync("aria-level", "2");

        // By keys: cut, choose, hang; and a refusal in plain words.
        await Line(desk, Amplifier).ClickAsync();
        await desk.Page.Keyboard.PressAsync("Control+x");
        await Expect(Told(desk)).ToContainTextAsync("is cut");
        await Line(desk, "Second battery").ClickAsync();
        await desk.Page.Keyboard.PressAsync("Control+v");
        await Expect(Line(desk, Amplifier)).ToHaveAttributeAsync("aria-level", "3");
        await Line(desk, "Second battery").ClickAsync();
        await desk.Page.Keyboard.PressAsync("Control+x");
        await Line(desk, "On circuits of the car").ClickAsync();
        await desk.Page.Keyboard.PressAsync("Control+v");
        await Expect(Told(desk)).ToContainTextAsync("cable of its own");
        await desk.Page.Keyboard.PressAsync("Escape");
        await Line(desk, Amplifier).ClickAsync();
        await desk.Page.Keyboard.PressAsync("Delete");
        await Expect(Told(desk)).ToContainTextAsync("where such parts usually hang");
        await desk.Page.Keyboard.PressAsync("m");
        await desk.Field($"{Amplifier} takes its current from").SelectOptionAsync(new SelectOptionValue { Label = "Second battery" });
        await Expect(desk.Page.Locator(".feed-chosen p[role=status]")).ToContainTextAsync("AWG");
        await desk.Button("Move").ClickAsync();
        await Expect(Told(desk)).ToContainTextAsync("moved to Second battery");
        Assert.Empty(await AccessibilityTests.ViolationsAsync(desk.Page));

        // By finger on the tablet, by the dots.
        var tablet = await journey.EnterAsync(Person.Owner, Screen.Tablet);
        await tablet.GoAsync($"/jobs/{job}/design");
        await ShowAsync(tablet);
        await FingerAsync(tablet, Line(tablet, Amplifier).Locator("[data-grip]"), Line(tablet, "Battery"));
        await Expect(Told(tablet)).ToContainTextAsync("moved to the battery");
        await Expect(Line(tablet, Amplifier)).ToHaveAttributeAsync("aria-level", "2");
        await journey.StepAsync(tablet, "tablet");
        Assert.Empty(await AccessibilityTests.ViolationsAsync(tablet.Page));

        // The desk's undo would cover the owner's move: it is refused and says whose it is.
        await Expect(Line(desk, Amplifier)).ToHaveAttributeAsync("aria-level", "2");
        await desk.Button("Undo").ClickAsync();
        await Expect(Told(desk)).ToContainTextAsync(new Regex($"Not undone.*{Person.Owner.Name}"));
        await tablet.Button("Undo").ClickAsync();
        await Expect(Line(tablet, Amplifier)).ToHaveAttributeAsync("aria-level", "3");
    });

    [Fact]
    public Task The_drawing_is_legible_on_a_tablet_and_nothing_pushes_the_page_sideways() => shop.TellAsync(async journey =>
    {
        var tablet = await journey.EnterAsync(Person.Owner, Screen.Tablet);
        await tablet.GoAsync($"/jobs/{await shop.JobAsync(journey, DemoJobs.InTuning)}/design");
        await tablet.Page.Locator(".feed-sheet svg").WaitForAsync();

        // The height of an em on the screen: font-size in units of the drawing, times what a unit measures.
        var least = await tablet.Page.EvaluateAsync<double>("Math.min(...[...document.querySelectorAll('.feed-sheet svg text')].filter(each => each.textContent !== '!').map(each => parseFloat(each.getAttribute('font-size')) * each.getScreenCTM().a))");
        Assert.True(least >= 13.95, $"The smallest text is {least:0.0} px.");
        await tablet.Button("Larger").ClickAsync();
        await Expect(tablet.Page.Locator(".feed-zoom-now")).ToHaveTextAsync("125 %");
        await tablet.Button("Fit to the window").ClickAsync();
        await Expect(tablet.Page.Locator(".feed-zoom-now")).ToHaveTextAsync("fitted");
        await tablet.UntilAsync("(box => box.scrollWidth === box.clientWidth)(document.querySelector('.feed-drawing'))");
        await tablet.Page.Locator("svg [data-key^='node:']").Last.ClickAsync();
        await Expect(tablet.Page.Locator("[role=treeitem][aria-selected=true]")).ToHaveCountAsync(1);
    });

    private static ILocator Line(Visitor visitor, string name) =>
        visitor.Page.GetByRole(AriaRole.Treeitem).Filter(new() { Has = visitor.Page.Locator("[data-name]", new() { HasTextRegex = new Regex($"^{Regex.Escape(name)}$") }) });

    private static ILocator Box(Visitor visitor, string name) => visitor.Page.Locator("svg [data-key^='node:']").Filter(new() { HasText = name.Split(' ')[0] }).Last.Locator("rect").First;

    private static ILocator Told(Visitor visitor) => visitor.Page.Locator(".feed-told");

    private static async Task ShowAsync(Visitor visitor) => await visitor.Page.Locator(".feed-tree").EvaluateAsync("tree => tree.scrollIntoView({ block: 'center' })");

    private static async Task<(float X, float Y)> MiddleAsync(ILocator at)
    {
        var box = await at.BoundingBoxAsync() ?? throw new InvalidOperationException("It is not on the page.");
        return (box.X + (box.Width / 2), box.Y + (box.Height / 2));
    }

    private static async Task PressAsync(Visitor visitor, ILocator from, ILocator to)
    {
        var (x, y) = await MiddleAsync(from);
        var (toX, toY) = await MiddleAsync(to);
        await visitor.Page.Mouse.MoveAsync(x, y);
        await visitor.Page.Mouse.DownAsync();
        await visitor.Page.Mouse.MoveAsync(x + 9, y + 2);
        await visitor.Page.Mouse.MoveAsync(toX, toY, new() { Steps = 4 });
    }

    private static async Task FingerAsync(Visitor visitor, ILocator from, ILocator to)
    {
        var (x, y) = await MiddleAsync(from);
        var (toX, toY) = await MiddleAsync(to);
        var screen = await visitor.Page.Context.NewCDPSessionAsync(visitor.Page);
        Task TouchAsync(string type, params (float X, float Y)[] at) => screen.SendAsync(
            "Input.dispatchTouchEvent", new Dictionary<string, object> { ["type"] = type, ["touchPoints"] = at.Select(point => new Dictionary<string, object> { ["x"] = point.X, ["y"] = point.Y }).ToArray() });
        await TouchAsync("touchStart", (x, y));
        for (var step = 1; step <= 6; step++)
            await TouchAsync("touchMove", (x + ((toX - x) * step / 6), y + ((toY - y) * step / 6)));
        await TouchAsync("touchEnd");
    }
}
