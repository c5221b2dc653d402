using System.Collections.Concurrent;
using System.Text.RegularExpressions;
using Microsoft.Playwright;

namespace ShopFloor.Browser.Tests.Running;

/// <summary>Somebody at a screen, with a profile nobody else shares. Listens to what the browser complains about.</summary>
public sealed partial class Visitor
{
    private readonly ConcurrentQueue<string> _complaints = new();
    private readonly List<Regex> _expected = [];

    public Visitor(string who, Screen screen, IPage page)
    {
        (Who, Screen, Page) = (who, screen, page);
        page.Console += (_, message) =>
        {
            if (message.Type == "error")
                _complaints.Enqueue($"{message.Text} ({message.Location})");
        };
        page.PageError += (_, error) => _complaints.Enqueue($"script error: {error}");
    }

    public string Who { get; }

    public Screen Screen { get; }

    public IPage Page { get; }

    /// <summary>Console errors, script errors and breaches of the content security policy that no step announced.</summary>
    public IReadOnlyList<string> Complaints => [.. _complaints.Where(complaint => !_expected.Exists(expected => expected.IsMatch(complaint)))];

    /// <summary>Announces a console error the next steps provoke on purpose, such as an answer 404.</summary>
    public void Expect(string pattern) => _expected.Add(new Regex(pattern));

    /// <summary>Announces the errors of a broken link: requests and the live connection fail and are tried again.</summary>
    public void ExpectLostLink() => Expect("ERR_|WebSocket|connection|Failed to fetch|negotiat|Failed to complete|Failed to load resource");

    public ILocator Field(string label) => Page.GetByLabel(label, new() { Exact = true });

    public ILocator Button(string name) => Page.GetByRole(AriaRole.Button, new() { Name = name, Exact = true });

    public ILocator Link(string name) => Page.GetByRole(AriaRole.Link, new() { Name = name, Exact = true });

    public ILocator Heading(string name) => Page.GetByRole(AriaRole.Heading, new() { Name = name, Exact = true });

    public ILocator Part(string label) => Page.GetByRole(AriaRole.Region, new() { Name = label, Exact = true });

    /// <summary>Opens an address and waits until the page has its heading, which for staff pages means that it is live.</summary>
    public async Task<IResponse?> GoAsync(string path)
    {
        var response = await Page.GotoAsync(path);
        await Page.Locator("h1").First.WaitForAsync();
        await SettleAsync();
        return response;
    }

    /// <summary>Waits until nothing on the page is still being fetched.</summary>
    public Task SettleAsync() => Assertions.Expect(Page.Locator(".loading, .loading-state, [aria-busy=true]")).ToHaveCountAsync(0);

    /// <summary>Waits in the page until an expression holds. The browser's own waiting evaluates text later, which our content policy forbids.</summary>
    public Task UntilAsync(string holds) => Page.EvaluateAsync(
        $$"""
        (async () => {
            for (const began = performance.now(); !(await ({{holds}})); await new Promise(next => setTimeout(next, 100)))
                if (performance.now() - began > 60000) throw new Error("It never came to hold.");
        })()
        """);

    /// <summary>All words a person can see or have read out.</summary>
    public async Task<string> WordsAsync() =>
        await Page.EvaluateAsync<string>("document.body.innerText + ' ' + [...document.querySelectorAll('[aria-label],[title],[placeholder],[alt]')].map(e => [e.ariaLabel, e.title, e.placeholder, e.alt].join(' ')).join(' ')");

    /// <summary>How far the page can be pushed sideways; 0 is right.</summary>
    public Task<int> SidewaysAsync() => Page.EvaluateAsync<int>("document.documentElement.scrollWidth - document.documentElement.clientWidth");

    /// <summary>Which element reaches out furthest to the right, for a failure's message.</summary>
    public Task<string> WidestAsync() => Page.EvaluateAsync<string>(
        """
        () => {
            const clipped = each => { for (let up = each.parentElement; up && up !== document.body; up = up.parentElement) if (getComputedStyle(up).overflowX !== 'visible') return true; return false; };
            const [widest] = [...document.body.querySelectorAll('*')].filter(each => each.textContent.trim() && !clipped(each)).map(each => [each, each.getBoundingClientRect().right]).reduce((most, each) => most && most[1] > each[1] ? most : each, null) ?? [];
            return widest ? `${widest.tagName.toLowerCase()}.${widest.getAttribute('class')} "${widest.textContent.trim().slice(0, 40)}"` : 'nothing';
        }
        """);

    public async Task KeepPictureAsync(string name, bool wholePage)
    {
        var folder = Path.Combine(Source.Root, "artifacts", "screenshots");
        Directory.CreateDirectory(folder);
        try
        {
            await Page.ScreenshotAsync(new() { Path = Path.Combine(folder, $"{Unfit().Replace(name, "-")}.png"), FullPage = wholePage, Timeout = 10_000 });
        }
        catch (PlaywrightException)
        {
            // The picture is a help; a page that cannot be pictured must not hide why the journey failed.
        }
    }

    [GeneratedRegex("[^A-Za-z0-9_-]+")]
    private static partial Regex Unfit();
}
