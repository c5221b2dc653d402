using System.Text.RegularExpressions;
using Microsoft.Playwright;

namespace ShopFloor.Browser.Tests.Running;

/// <summary>What the front desk types most often, as one move, so that each journey can have a job of its own.</summary>
public static partial class JobForms
{
    /// <summary>Opens a job for a new client with a new vehicle and gives its id.</summary>
    public static async Task<Guid> OpenJobAsync(this Visitor desk, string title, string client, string plate)
    {
        await desk.GoAsync("/jobs/new");
        await desk.Field("Name").FillAsync(client);
        await desk.Field("Make").FillAsync("Sorrel");
        await desk.Field("Model").FillAsync("Quint");
        await desk.Field("Plate").FillAsync(plate);
        await desk.Field("Alternator or 12 V converter").FillAsync("140");
        await desk.Field("Short title").FillAsync(title);
        return await desk.SendJobAsync();
    }

    /// <summary>Presses the button of the filled form and waits for the job's own page.</summary>
    public static async Task<Guid> SendJobAsync(this Visitor desk)
    {
        await desk.Button("Open the job").ClickAsync();
        await Assertions.Expect(desk.Page).ToHaveURLAsync(JobAddress(), new() { Timeout = 40_000 });
        await desk.Page.Locator("h1 .job-reference").WaitForAsync();
        return Guid.Parse(JobAddress().Match(desk.Page.Url).Groups[1].Value);
    }

    /// <summary>The job number as the page's heading shows it.</summary>
    public static async Task<string> ReferenceAsync(this Visitor visitor) => (await visitor.Page.Locator("h1 .job-reference").InnerTextAsync()).Trim();

    /// <summary>Copies the usual stages into a job.</summary>
    public static async Task PlanStagesAsync(this Visitor desk, Guid job)
    {
        await desk.GoAsync($"/jobs/{job}/build");
        await desk.Button("Plan the stages").ClickAsync();
        await desk.Button("Plan from this template").ClickAsync();
        await desk.Page.Locator("details.build-stage").First.WaitForAsync();
    }

    /// <summary>Puts a catalogue part on a job's list, placed where the picker says.</summary>
    public static async Task AddPartAsync(this Visitor designer, Guid job, string name, string place)
    {
        if (!designer.Page.Url.EndsWith($"/jobs/{job}/parts", StringComparison.Ordinal))
            await designer.GoAsync($"/jobs/{job}/parts");
        await designer.Field("Where it will sit").SelectOptionAsync(new SelectOptionValue { Label = place });
        await designer.Field("Add a part").FillAsync(name);
        await designer.Page.GetByRole(AriaRole.List, new() { Name = "Catalogue parts found" }).GetByRole(AriaRole.Button).Filter(new() { HasText = name }).ClickAsync();
        await Assertions.Expect(designer.Page.GetByText($"{name} added", new() { Exact = true })).ToBeVisibleAsync();
    }

    /// <summary>Makes a private link for the client and gives its path.</summary>
    public static async Task<string> MakeClientLinkAsync(this Visitor desk, Guid job)
    {
        await desk.GoAsync($"/jobs/{job}/handover");
        await desk.Button("Client link").ClickAsync();
        await desk.Button("Make a link").ClickAsync();
        return new Uri(await desk.Page.GetByLabel("The new link, shown this once. Copy it now.").InputValueAsync()).PathAndQuery;
    }

    /// <summary>Draws a stroke on the signature pad as a finger would.</summary>
    public static async Task SignByHandAsync(this Visitor visitor)
    {
        var sheet = visitor.Page.Locator("[data-signature-canvas]");
        await sheet.ScrollIntoViewIfNeededAsync();
        var box = await sheet.BoundingBoxAsync() ?? throw new InvalidOperationException("The signature pad is not on the page.");
        await visitor.Page.Mouse.MoveAsync(box.X + (box.Width * 0.2f), box.Y + (box.Height * 0.6f));
        await visitor.Page.Mouse.DownAsync();
        foreach (var (x, y) in ((float, float)[])[(0.3f, 0.3f), (0.4f, 0.7f), (0.5f, 0.35f), (0.6f, 0.6f), (0.75f, 0.5f)])
            await visitor.Page.Mouse.MoveAsync(box.X + (box.Width * x), box.Y + (box.Height * y));
        await visitor.Page.Mouse.UpAsync();
    }

    [GeneratedRegex("/jobs/([0-9a-f-]{36})/")]
    private static partial Regex JobAddress();
}
