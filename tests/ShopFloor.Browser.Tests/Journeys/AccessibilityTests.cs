using Deque.AxeCore.Commons;
using Deque.AxeCore.Playwright;
using Microsoft.Playwright;
using ShopFloor.Browser.Tests.Running;

namespace ShopFloor.Browser.Tests.Journeys;

/// <summary>Every page for everybody who may open it: WCAG 2.2 AA by axe's rules, no page pushed sideways, targets for gloves in the bay.</summary>
[Collection(DemoShopGroup.Name)]
public sealed class AccessibilityTests(DemoShop shop)
{
    // Comfortable under gloves and above the 24 px of WCAG 2.2, 2.5.8; the house asks for it on touch pages.
    private const double GloveTarget = 48;

    private static readonly string[] Job = ["intake", "design", "parts", "build", "tuning", "handover", "record"];
    private static readonly string[] Shared = ["/board", "/jobs", "/search?q=amplifier", "/work", "/work/{job}", "/not-allowed", "/nowhere-at-all"];

    public static TheoryData<string, string> Pages()
    {
        var pages = new TheoryData<string, string>();
        void Add(string who, IEnumerable<string> paths)
        {
            foreach (var path in paths)
                pages.Add(who, path);
        }

        var job = Job.Select(tab => $"/jobs/{{job}}/{tab}").ToList();
        Add("nobody", ["/sign-in", "/c/no-such-link"]);
        Add("tablet", ["/tablet"]);
        Add(Person.Owner.UserName, [.. Shared, .. job, "/jobs/{job}/estimate", "/jobs/{job}/money", "/jobs/new", "/jobs/{delivered}/handover", "/jobs/{delivered}/intake", "/clients", "/catalogue", "/offcuts", "/money", "/record", "/account", "/clients/{client}", "/error", "/gallery/bench", "/gallery/plain", "/settings", "/settings/people", "/settings/tablets", "/settings/templates", "/settings/tokens", "/settings/backup", "/tablet/register", "/help/signal-rules"]);
        Add(Person.Desk.UserName, [.. Shared, .. job, "/jobs/{job}/estimate", "/jobs/new", "/clients", "/clients/{client}", "/catalogue", "/account"]);
        Add(Person.Tarik.UserName, [.. Shared, .. job, "/account"]);
        Add("client", ["/c", "/c/estimate", "/c/photos", "/c/handover"]);
        return pages;
    }

    [Theory]
    [MemberData(nameof(Pages))]
    public Task A_page_can_be_used_by_everybody(string who, string path) => shop.TellAsync(
        async journey =>
        {
            var visitor = await OpenAsync(journey, who);
            visitor.Expect("404|403|401|500");
            await visitor.GoAsync(await FillAsync(journey, path));
            var bad = new List<string>();
            foreach (var screen in (Screen[])[Screen.Desktop, Screen.Tablet])
            {
                await visitor.Page.SetViewportSizeAsync(screen.Width, screen.Height);
                await visitor.SettleAsync();
                bad.AddRange((await ViolationsAsync(visitor.Page)).Select(violation => $"at {screen.Width}: {violation}"));
            }

            foreach (var width in (int[])[Screen.Desktop.Width, Screen.Tablet.Width, Screen.Phone.Width])
            {
                await visitor.Page.SetViewportSizeAsync(width, 800);
                if (await visitor.SidewaysAsync() is var pixels and > 0)
                    bad.Add($"at {width}: scrolls {pixels} px sideways, first by {await visitor.WidestAsync()}");
            }

            if (path.StartsWith("/work", StringComparison.Ordinal))
            {
                await visitor.Page.SetViewportSizeAsync(Screen.Tablet.Width, Screen.Tablet.Height);
                await visitor.Page.EvaluateAsync("document.querySelectorAll('main details').forEach(each => each.open = true)");
                bad.AddRange((await visitor.Page.EvaluateAsync<string[]>(SmallTargets, GloveTarget)).Distinct().Select(target => $"smaller than {GloveTarget} px: {target}"));
            }

            Assert.True(bad.Count == 0, $"{bad.Count} on {path} for {who}:\n{string.Join('\n', bad)}");
        },
        $"access-{who}-{path}");

    [Fact]
    public Task The_check_itself_finds_a_field_without_a_name() => shop.TellAsync(async journey =>
    {
        var visitor = await journey.EnterAsync("nobody", Screen.Desktop);
        await visitor.GoAsync("/sign-in");
        await visitor.Page.EvaluateAsync("document.querySelector('main, body').append(document.createElement('input'))");

        Assert.Contains(await ViolationsAsync(visitor.Page), violation => violation.StartsWith("label", StringComparison.Ordinal));
    });

    private const string SmallTargets =
        """
        least => [...document.querySelectorAll('a[href], button, input:not([type=hidden]), select, textarea, summary')]
            .filter(each => each.checkVisibility({ visibilityProperty: true, opacityProperty: true }) && !each.matches('.skip-link'))
            .map(each => each.matches('[type=checkbox], [type=radio], [type=file]') ? each.closest('label') ?? each : each)
            .map(each => [each, each.getBoundingClientRect()])
            .filter(([, box]) => box.width > 0 && box.height > 0 && (box.width < least - 0.5 || box.height < least - 0.5))
            .map(([each, box]) => `${each.tagName.toLowerCase()}.${each.className} "${(each.ariaLabel ?? each.innerText ?? '').trim().slice(0, 50)}" ${box.width.toFixed(0)}x${box.height.toFixed(0)}`)
        """;

    internal static async Task<IReadOnlyList<string>> ViolationsAsync(IPage page)
    {
        var result = await page.RunAxe(new AxeRunOptions
        {
            RunOnly = new RunOnlyOptions { Type = "tag", Values = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"] },
        });
        return
        [
            .. from violation in result.Violations
               where violation.Impact is "serious" or "critical"
               from node in violation.Nodes
               select $"{violation.Id} ({violation.Impact}, {violation.Help}): {node.Target} {node.Html}",
        ];
    }

    private async Task<Visitor> OpenAsync(Journey journey, string who)
    {
        switch (who)
        {
            case "nobody":
                return await journey.EnterAsync(who, Screen.Desktop);
            case "tablet":
                return await journey.EnterWithAsync(who, Screen.Tablet, await shop.RegisteredTabletAsync());
            case "client":
                return await journey.EnterWithAsync(who, Screen.Desktop, await shop.ClientOfDeliveredAsync(journey));
            default:
                return await journey.EnterAsync(new Person(who, who), Screen.Desktop);
        }
    }

    private async Task<string> FillAsync(Journey journey, string path) => path
        .Replace("{job}", path.Contains("{job}", StringComparison.Ordinal) ? (await shop.JobAsync(journey, DemoJobs.InTuning)).ToString() : "", StringComparison.Ordinal)
        .Replace("{client}", path.Contains("{client}", StringComparison.Ordinal) ? (await DemoShop.ClientAsync(journey)).ToString() : "", StringComparison.Ordinal)
        .Replace("{delivered}", path.Contains("{delivered}", StringComparison.Ordinal) ? (await shop.JobAsync(journey, DemoJobs.Delivered)).ToString() : "", StringComparison.Ordinal);
}
