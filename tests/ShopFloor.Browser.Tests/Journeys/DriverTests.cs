using System.Globalization;
using System.Numerics;
using System.Text;
using Microsoft.Playwright;
using ShopFloor.Browser.Tests.Running;
using static Microsoft.Playwright.Assertions;

namespace ShopFloor.Browser.Tests.Journeys;

[Collection(DemoShopGroup.Name)]
public sealed class DriverTests(DemoShop shop)
{
    [Fact]
    public Task A_driver_s_sweep_is_dropped_fitted_kept_and_taken_back() => shop.TellAsync(async journey =>
    {
        var owner = await journey.EnterAsync(Person.Owner, new Screen("1366", 1366, 768, false));
        var job = await owner.FindJobAsync(DemoJobs.InTuning);
        await owner.GoAsync($"/jobs/{job}/design");

        // The demo's woofer was measured; whoever looks sees the curve with its fit.
        await owner.Button("Enclosures").ClickAsync();
        await owner.Button("Measured curve").ClickAsync();
        await Expect(owner.Page.Locator("[data-plot=driver] .plot-wide [data-key^='series:']")).ToHaveCountAsync(4);
        await journey.StepAsync(owner, "kept");

        await owner.Button("Measure again").ClickAsync();
        await DropAsync(owner, "long.txt", new string('1', 5 * 1024 * 1024));
        await Expect(owner.Page.GetByRole(AriaRole.Alert).Filter(new() { HasText = "long.txt" })).ToContainTextAsync("at most 4 MB");
        await DropAsync(owner, "bad.txt", "Hz;Ohm\n20;1,9\n25;-2,4\n30;3,1");
        await Expect(owner.Page.GetByRole(AriaRole.Alert).Filter(new() { HasText = "Line 3" })).ToContainTextAsync("-2.4 Ω is not accepted");
        await DropAsync(owner, "sweep.txt", Sweep());
        await Expect(owner.Page.Locator(".sweep-columns summary")).ToContainTextAsync("columns apart by semicolons, decimal comma");
        // What was swept: 31 Hz, Qes 0.5, Qms 5, 1.7 Ω.
        var cards = owner.Page.Locator(".driver-result .data-point");
        await Expect(cards.Filter(new() { HasText = "Resonance fs" })).ToContainTextAsync("31");
        await Expect(cards.Filter(new() { HasText = "Qms" })).ToContainTextAsync("5");
        await Expect(cards.Filter(new() { HasText = "Fit, rms error" })).ToContainTextAsync("dB");
        await owner.Page.GetByRole(AriaRole.Group, new() { Name = "Measured again" }).GetByRole(AriaRole.Button, new() { Name = "With added mass" }).ClickAsync();
        await owner.Field("Mass on the cone").FillAsync("50");
        await owner.Field("Resonance with it, without a sweep").FillAsync("26");
        // By hand: 50/((31/26)² − 1) = 118.6 g.
        await Expect(cards.Filter(new() { HasText = "Moving mass" })).ToContainTextAsync("119");
        await journey.StepAsync(owner, "fitted");
        Assert.Equal(0, await owner.SidewaysAsync());

        await owner.Button("Keep and write to the part").ClickAsync();
        await Expect(owner.Page.Locator(".driver-measuring")).ToContainTextAsync("Its figures are on the part.");
        await Expect(owner.Page.Locator("tr").Filter(new() { HasText = "Resonance in free air" }).First).ToContainTextAsync("measured by Olive");
        await owner.Button("Take back").First.ClickAsync();
        await Expect(owner.Page.Locator("tr").Filter(new() { HasText = "Resonance in free air" }).First).ToContainTextAsync("measured by Tarik");

        // The least load of the woofer's channel is the curve's, and its Why says so.
        await owner.Button("Signal path").ClickAsync();
        await owner.Page.Locator(".channel-map tr").Filter(new() { HasText = "woofer" }).GetByRole(AriaRole.Button, new() { Name = "Why?" }).ClickAsync();
        await Expect(owner.Page.GetByRole(AriaRole.Dialog)).ToContainTextAsync("minimum of the impedance curve, measured by Tarik");
    });

    // As a person drops a file from the desk onto the field.
    private static async Task DropAsync(Visitor visitor, string name, string text)
    {
        var dropped = await visitor.Page.EvaluateHandleAsync("([name, text]) => { const data = new DataTransfer(); data.items.add(new File([text], name, { type: 'text/plain' })); return data; }", new[] { name, text });
        var field = visitor.Page.Locator("[data-file-kind=ImpedanceTable]").First;
        await field.DispatchEventAsync("dragover", new { dataTransfer = dropped });
        await Expect(field).ToHaveAttributeAsync("data-file-over", "");
        await field.DispatchEventAsync("drop", new { dataTransfer = dropped });
    }

    // Small (1972): Z = Re + jωLe + Re·Qms/Qes/(1 + jQms·(f/fs − fs/f)).
    private static string Sweep()
    {
        var text = new StringBuilder("Frequency (Hz);Impedance (Ohm);Phase (deg)\n");
        var comma = CultureInfo.GetCultureInfo("de-DE");
        for (var hertz = 8.0; hertz < 1_500; hertz *= 1.04)
        {
            var z = 1.7 + new Complex(0, 2 * Math.PI * hertz * 0.6e-3) + 1.7 * 5 / 0.5 / new Complex(1, 5 * (hertz / 31 - 31 / hertz));
            text.Append(comma, $"{hertz:0.000};{z.Magnitude:0.0000};{z.Phase * 180 / Math.PI:0.000}\n");
        }

        return text.ToString();
    }
}
