using Microsoft.Playwright;
using ShopFloor.Browser.Tests.Running;
using static Microsoft.Playwright.Assertions;

namespace ShopFloor.Browser.Tests.Journeys;

[Collection(DemoShopGroup.Name)]
public sealed class ConnectionTests(DemoShop shop)
{
    private const string Radio = "Sendrel factory radio interface";
    private const string Amplifier = "Tovel M500 single-channel amplifier";
    private const string Woofer = "Tarnum 250 dual-coil woofer";

    [Fact]
    public Task Sound_is_connected_by_mouse_by_keys_and_by_finger_and_a_connection_is_taken_back() => shop.TellAsync(async journey =>
    {
        var desk = await journey.EnterAsync(Person.Desk, Screen.Desktop);
        var job = await desk.OpenJobAsync("Connect by hand", "Merle Olt", "MB 072 K");
        foreach (var (part, place) in new[] { (Radio, "Dashboard"), (Amplifier, "Boot floor, left"), (Woofer, "Boot floor, right") })
        {
            await desk.AddPartAsync(job, part, place);
        }

        await OpenAsync(desk, job);
        await journey.StepAsync(desk, "free");

        // By mouse, from output to input.
        await DragAsync(desk, Output(desk, "left"), Input(desk, "input 1"));
        await Expect(Told(desk)).ToContainTextAsync("left to Tovel M500 single-channel amplifier, input 1.");
        await Expect(Input(desk, "input 1")).ToHaveAttributeAsync("aria-label", new System.Text.RegularExpressions.Regex("fed by"));
        await journey.StepAsync(desk, "dragged");

        // By keys: output, then the input it feeds; Escape lets an output go.
        await Output(desk, "right").FocusAsync();
        await desk.Page.Keyboard.PressAsync("Enter");
        await Expect(Output(desk, "right")).ToHaveAttributeAsync("aria-pressed", "true");
        await desk.Page.Keyboard.PressAsync("Escape");
        await Expect(Output(desk, "right")).ToHaveAttributeAsync("aria-pressed", "false");
        await Output(desk, "output 1").FocusAsync();
        await desk.Page.Keyboard.PressAsync("Enter");
        await Expect(Output(desk, "output 1")).ToHaveAttributeAsync("aria-pressed", "true");
        await Input(desk, "woofer").FocusAsync();
        await desk.Page.Keyboard.PressAsync("Enter");
        await Expect(Told(desk)).ToContainTextAsync("woofer.");
        await Expect(desk.Page.Locator(".channel-map tbody tr")).ToHaveCountAsync(1);

        // What cannot be is refused in words.
        await DragAsync(desk, Output(desk, "left"), Input(desk, "woofer"));
        await Expect(Told(desk)).ToContainTextAsync("A loudspeaker is fed by an output of an amplifier.");

        await desk.Page.Locator("[data-connect] .panel-head").GetByRole(AriaRole.Button, new() { Name = "Undo" }).ClickAsync();
        await Expect(Told(desk)).ToContainTextAsync("Taken back");
        await Expect(Input(desk, "woofer")).ToHaveAttributeAsync("aria-label", new System.Text.RegularExpressions.Regex("free$"));
        Assert.Equal(0, await desk.SidewaysAsync());

        // By finger, one after the other.
        var touch = await journey.EnterAsync(Person.Owner, Screen.Tablet);
        await OpenAsync(touch, job);
        await Output(touch, "output 1").TapAsync();
        await Input(touch, "woofer").TapAsync();
        await Expect(Told(touch)).ToContainTextAsync("woofer.");
        await journey.StepAsync(touch, "tapped");
        Assert.Equal(0, await touch.SidewaysAsync());
    });

    [Fact]
    public Task A_system_is_listed_from_the_keyboard_and_joined_the_usual_way_in_one_press() => shop.TellAsync(async journey =>
    {
        var desk = await journey.EnterAsync(Person.Desk, Screen.Desktop);
        var job = await desk.OpenJobAsync("From an empty list", "Ida Brenk", "MB 190 P");
        await desk.GoAsync($"/jobs/{job}/parts");
        foreach (var part in new[] { Radio, "Ovrel 6×10 signal processor", "Tovel 6.90 six-channel amplifier", Amplifier, Woofer })
        {
            await desk.Field("Add a part").FillAsync(part);
            await desk.Page.Keyboard.PressAsync("Enter");
            await Expect(desk.Page.GetByText($"{part} added", new() { Exact = true })).ToBeVisibleAsync();
            await Expect(desk.Field("Add a part")).ToHaveValueAsync("");
        }

        await OpenAsync(desk, job);
        // Sources left, loudspeakers right, before anything is joined.
        var (radio, woofer) = (await Output(desk, "left").BoundingBoxAsync(), await Input(desk, "woofer").BoundingBoxAsync());
        Assert.True(radio!.X + radio.Width < woofer!.X); // on the page, or the locator would have failed
        await desk.Button("Join the usual way").ClickAsync();
        await Expect(Told(desk)).ToContainTextAsync("4 inputs joined");
        await Expect(Input(desk, "woofer")).ToHaveAttributeAsync("aria-label", new System.Text.RegularExpressions.Regex("fed by Tovel M500"));
        await Expect(desk.Page.Locator(".channel-map tbody tr")).ToHaveCountAsync(1);
        await journey.StepAsync(desk, "joined");
        Assert.Equal(0, await desk.SidewaysAsync());
    });

    [Fact]
    public Task The_whole_case_is_shown_with_its_routing_and_every_check_has_its_page() => shop.TellAsync(async journey =>
    {
        var desk = await journey.EnterAsync(Person.Desk, Screen.Desktop);
        await OpenAsync(desk, await desk.FindJobAsync(DemoJobs.InTuning));
        // Player and radio: two lines each, and the player's two digital channels; ten of the processor, seven channels.
        await Expect(desk.Page.Locator("[data-out]")).ToHaveCountAsync(6 + 10 + 7);
        await Expect(desk.Page.Locator("[data-in]")).ToHaveCountAsync(8 + 7 + 9);
        await desk.Page.Locator(".routing summary").ClickAsync();
        await Expect(desk.Page.GetByLabel("For: output 7")).ToHaveValueAsync("sub");
        await journey.StepAsync(desk, "whole");
        Assert.Empty(await AccessibilityTests.ViolationsAsync(desk.Page));

        await desk.GoAsync("/help/signal-rules#side-mixed");
        await Expect(desk.Page.Locator("#side-mixed h2")).ToHaveTextAsync("Left stays left and right stays right");
        await journey.StepAsync(desk, "rules");
        Assert.Equal(0, await desk.SidewaysAsync());
    });

    private static async Task OpenAsync(Visitor visitor, Guid job)
    {
        await visitor.GoAsync($"/jobs/{job}/design");
        await visitor.Button("Signal path").ClickAsync();
        await visitor.Button("Connect").ClickAsync();
        await Expect(visitor.Page.Locator(".connect-sheet")).ToBeVisibleAsync();
    }

    private static ILocator Told(Visitor visitor) => visitor.Page.Locator(".connect-told");

    private static ILocator Output(Visitor visitor, string label) => visitor.Page.Locator("[data-out]").Filter(new() { HasText = label }).First;

    private static ILocator Input(Visitor visitor, string label) => visitor.Page.Locator("[data-in]").Filter(new() { HasText = label }).First;

    private static async Task DragAsync(Visitor visitor, ILocator from, ILocator to)
    {
        await from.ScrollIntoViewIfNeededAsync();
        await to.ScrollIntoViewIfNeededAsync();
        var (start, end) = (await from.BoundingBoxAsync(), await to.BoundingBoxAsync());
        await visitor.Page.Mouse.MoveAsync(start!.X + (start.Width / 2), start.Y + (start.Height / 2)); // on the page, or the locator would have failed
        await visitor.Page.Mouse.DownAsync();
        await visitor.Page.Mouse.MoveAsync(start.X + (start.Width / 2) + 12, start.Y + (start.Height / 2));
        await visitor.Page.Mouse.MoveAsync(end!.X + (end.Width / 2), end.Y + (end.Height / 2), new() { Steps = 4 }); // as above
        await visitor.Page.Mouse.UpAsync();
    }
}
