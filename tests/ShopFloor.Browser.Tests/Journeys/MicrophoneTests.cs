using Microsoft.Playwright;
using ShopFloor.Browser.Tests.Running;
using ShopFloor.Engineering.Waves;
using static Microsoft.Playwright.Assertions;

namespace ShopFloor.Browser.Tests.Journeys;

/// <summary>The tablet's microphone at the seat. The browser hears a file instead of a room: the shop's own sweep, as it sounds behind a tweeter and a short way.</summary>
[Collection(DemoShopGroup.Name)]
public sealed class MicrophoneTests(DemoShop shop)
{
    private const string Channel = "Speakers behind a crossover, left";

    [Theory]
    [InlineData(1366, 768, false)]
    [InlineData(1024, 768, true)]
    [InlineData(390, 844, true)]
    public Task A_sweep_is_recorded_by_the_tablet_read_and_kept_as_relative(int width, int height, bool touch) => shop.TellAsync(async journey =>
    {
        var screen = new Screen($"{width}", width, height, touch);
        var desk = await journey.EnterAsync(Person.Owner, screen);
        var job = await OpenMeasurementsAsync(desk);
        await desk.Page.GetByLabel("Length", new() { Exact = true }).SelectOptionAsync(new SelectOptionValue { Label = "5 s" });
        var link = desk.Page.GetByRole(AriaRole.Link, new() { Name = $"Sweep for {Channel}" });
        await Expect(link).ToHaveAttributeAsync("href", new System.Text.RegularExpressions.Regex("seconds=5&"));
        var sweep = await (await desk.Page.APIRequest.GetAsync(new Uri(shop.Address, await link.GetAttributeAsync("href")).ToString())).BodyAsync();
        var heard = Path.Combine(Directory.CreateTempSubdirectory("shopfloor-heard-").FullName, "heard.wav");
        try
        {
            await File.WriteAllBytesAsync(heard, BehindTheTweeter(WaveReader.Read(sweep)));
            await using var browser = await shop.LaunchAsync("--use-fake-device-for-media-stream", "--use-fake-ui-for-media-stream", $"--use-file-for-fake-audio-capture={heard}%noloop");
            var seat = await journey.EnterAsync(Person.Owner, screen, browser);
            await OpenMeasurementsAsync(seat, job);
            await seat.Page.GetByText("Record with this tablet's microphone").ClickAsync();
            await Expect(seat.Page.Locator("[data-microphone]")).ToContainTextAsync("Relative only");
            await seat.Button("Start recording").ClickAsync();
            // A second before the sweep, 5 s of it, and a second after.
            await seat.UntilAsync("parseFloat(document.querySelector('[data-microphone-words]').textContent) >= 7.5");
            await Expect(seat.Page.Locator("[data-microphone-words]")).ToContainTextAsync("dB full scale");
            await journey.StepAsync(seat, $"recording-{width}");
            await seat.Button("Stop and keep").ClickAsync();

            var draft = seat.Page.GetByRole(AriaRole.Article).Filter(new() { HasText = "tablet-microphone-" });
            await draft.GetByLabel("Channel", new() { Exact = true }).SelectOptionAsync(new SelectOptionValue { Label = Channel });
            // Not the usual 10 s: it is told by the recording.
            await Expect(draft).ToContainTextAsync("Recognised: the sweep 250");
            await Expect(draft.GetByLabel("Its length")).ToHaveValueAsync("5");
            await draft.GetByRole(AriaRole.Button, new() { Name = "Read it" }).ClickAsync();

            await Expect(draft.Locator(".plan-strip")).ToContainTextAsync("from the start of the recording");
            await Expect(draft).ToContainTextAsync("its response is not known");
            await Expect(draft).ToContainTextAsync("Without a loopback");
            await Expect(draft).Not.ToContainTextAsync("at full scale");
            Assert.Equal(0, await seat.SidewaysAsync());
            await draft.Locator(".plan-strip").ScrollIntoViewIfNeededAsync();
            await journey.StepAsync(seat, $"read-{width}");

            await draft.GetByRole(AriaRole.Button, new() { Name = "Keep" }).ClickAsync();
            await Expect(seat.Page.Locator(".measured-channel").Filter(new() { HasText = Channel })).ToContainTextAsync("tablet's microphone, relative");
        }
        finally
        {
            Directory.Delete(Path.GetDirectoryName(heard)!, recursive: true); // a file has a folder
        }
    });

    [Fact]
    public Task A_microphone_that_is_refused_or_missing_is_told_in_plain_words() => shop.TellAsync(async journey =>
    {
        await using (var refusing = await shop.LaunchAsync("--use-fake-device-for-media-stream"))
        {
            var seat = await journey.EnterAsync(Person.Owner, Screen.Tablet, refusing);
            await OpenMeasurementsAsync(seat);
            await seat.Page.GetByText("Record with this tablet's microphone").ClickAsync();
            await seat.Button("Start recording").ClickAsync();
            await Expect(seat.Page.Locator("[data-microphone-words]")).ToHaveTextAsync("The microphone was not allowed. Allow it in the browser's settings of this page.");
            await Expect(seat.Button("Start recording")).ToBeVisibleAsync();
        }

        await using var deaf = await shop.LaunchAsync("--use-fake-ui-for-media-stream");
        var other = await journey.EnterAsync(Person.Owner, Screen.Tablet, deaf, "microphone");
        await OpenMeasurementsAsync(other);
        await other.Page.GetByText("Record with this tablet's microphone").ClickAsync();
        await other.Button("Start recording").ClickAsync();
        await Expect(other.Page.Locator("[data-microphone-words]")).ToHaveTextAsync("There is no microphone that can be used.");
        await Expect(other.Button("Start recording")).ToBeVisibleAsync();
    });

    private static async Task<Guid> OpenMeasurementsAsync(Visitor visitor, Guid? known = null)
    {
        var job = known ?? await visitor.FindJobAsync(DemoJobs.InTuning);
        await visitor.GoAsync($"/jobs/{job}/tuning");
        await visitor.Button("Measurements").ClickAsync();
        await visitor.Page.GetByText("Record with this tablet's microphone").WaitForAsync();
        return job;
    }

    // 3 ms of way, a reflection after 2 ms at half the height, and the top octave falling as a first-order low-pass of 10 kHz lets it; a second of room before and after.
    private static byte[] BehindTheTweeter(SampledSound played)
    {
        var (rate, sweep) = (played.SampleRateHertz, played.Channels[0]);
        var random = new Random(1);
        var share = 1 - Math.Exp(-2 * Math.PI * 10_000 / rate);
        var (heard, before) = (new double[sweep.Length + 2 * rate], 0.0);
        for (var n = 0; n < heard.Length; n++)
        {
            before += share * (At(n - rate - 3 * rate / 1_000) + 0.5 * At(n - rate - 5 * rate / 1_000) - before);
            heard[n] = 2 * before + 1e-4 * (random.NextDouble() - 0.5);
        }

        return WaveFile.Write(new SampledSound(rate, [heard]), 16);

        double At(int n) => n >= 0 && n < sweep.Length ? sweep[n] : 0;
    }
}
