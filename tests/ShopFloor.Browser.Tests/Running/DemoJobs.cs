using System.Text.RegularExpressions;

namespace ShopFloor.Browser.Tests.Running;

/// <summary>Finds the jobs the demo was told with, as somebody would: by searching for the title.</summary>
public static partial class DemoJobs
{
    /// <summary>Title of the job that is being tuned; it has parts, prices, stages, time and photos.</summary>
    public const string InTuning = "Three-way front, deep bass";

    /// <summary>Title of the job that was delivered.</summary>
    public const string Delivered = "Front stage and flat bass";

    public static async Task<Guid> FindJobAsync(this Visitor visitor, string word)
    {
        await visitor.GoAsync($"/search?q={Uri.EscapeDataString(word)}");
        var link = visitor.Page.Locator("main table a[href^='/jobs/']").Filter(new() { HasText = word });
        return Guid.Parse(JobAddress().Match(await link.GetAttributeAsync("href") ?? "").Groups[1].Value);
    }

    [GeneratedRegex("/jobs/([0-9a-f-]{36})/")]
    private static partial Regex JobAddress();
}
