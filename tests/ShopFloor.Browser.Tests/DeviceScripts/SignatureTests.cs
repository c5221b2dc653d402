using System.Text.Json;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace ShopFloor.Browser.Tests.DeviceScripts;

public sealed class SignatureTests(ScriptHost host) : IClassFixture<ScriptHost>
{
    [Fact]
    public async Task Strokes_become_a_path_in_a_box_of_their_own()
    {
        var page = await host.OpenAsync();

        await StrokeAsync(page, (40, 60), (140, 110));

        var signed = await ValueAsync(page);
        Assert.Equal("M0 0L100 50", signed!.Path);
        Assert.Equal((100, 50), (signed.Width, signed.Height));
        Assert.Null(signed.TypedName);
    }

    [Fact]
    public async Task Undo_takes_back_the_last_stroke_alone_and_clear_takes_all()
    {
        var page = await host.OpenAsync();
        await StrokeAsync(page, (40, 60), (140, 110));
        await StrokeAsync(page, (200, 20), (220, 30));
        Assert.Equal(2, (await ValueAsync(page))!.Path!.Count(letter => letter == 'M'));

        await page.ClickAsync("[data-signature-undo]");
        Assert.Equal("M0 0L100 50", (await ValueAsync(page))!.Path);

        await StrokeAsync(page, (200, 20), (220, 30));
        await page.ClickAsync("[data-signature-clear]");
        Assert.Null(await ValueAsync(page));
        await page.ClickAsync("[data-signature-undo]");
        Assert.Null(await ValueAsync(page));
    }

    [Fact]
    public async Task Typed_name_stands_instead_of_strokes_and_the_strokes_come_back_without_it()
    {
        var page = await host.OpenAsync();
        await StrokeAsync(page, (40, 60), (140, 110));

        await page.CheckAsync("[data-signature-instead]");
        Assert.Null(await ValueAsync(page));
        await page.FillAsync("[data-signature-name]", "  Ксения Щукина ");
        var typed = await ValueAsync(page);
        Assert.Equal("Ксения Щукина", typed!.TypedName);
        Assert.Null(typed.Path);

        await page.UncheckAsync("[data-signature-instead]");
        await Expect(page.Locator("[data-signature-name-row]")).ToBeHiddenAsync();
        Assert.Equal("M0 0L100 50", (await ValueAsync(page))!.Path);
    }

    private static async Task StrokeAsync(IPage page, params (float X, float Y)[] points)
    {
        var sheet = page.Locator("[data-signature-canvas]");
        await sheet.ScrollIntoViewIfNeededAsync();
        var box = await sheet.BoundingBoxAsync() ?? throw new InvalidOperationException("The signature pad is not on the page.");
        await page.Mouse.MoveAsync(box.X + points[0].X, box.Y + points[0].Y);
        await page.Mouse.DownAsync();
        foreach (var (x, y) in points[1..])
            await page.Mouse.MoveAsync(box.X + x, box.Y + y);
        await page.Mouse.UpAsync();
    }

    private static async Task<Signed?> ValueAsync(IPage page)
    {
        var value = await page.Locator("[data-signature-value]").InputValueAsync();
        return value.Length == 0 ? null : JsonSerializer.Deserialize<Signed>(value, JsonSerializerOptions.Web);
    }

    private sealed record Signed(string? Path, double Width, double Height, string? TypedName);
}
