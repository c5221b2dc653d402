using System.Collections.Concurrent;
using System.Net;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.FileProviders;
using Microsoft.Extensions.Logging;
using Microsoft.Playwright;
using ShopFloor.Browser.Tests.Running;

namespace ShopFloor.Browser.Tests.DeviceScripts;

/// <summary>
/// The device-side scripts in a real browser against a small server of the test's own: a page with the tags they read, and
/// command addresses that answer as each test says. No database and no circuit, which is just when the scripts have to work.
/// </summary>
public sealed class ScriptHost : IAsyncLifetime
{
    private WebApplication _app = null!; // Set by InitializeAsync before any test runs.
    private IPlaywright _playwright = null!; // Likewise.
    private IBrowser _browser = null!; // Likewise.

    public ConcurrentQueue<Received> Commands { get; } = new();

    public Func<Received, (int Status, string? Problem)> Answer { get; set; } = _ => (204, null);

    public string Person { get; set; } = "person-1";

    public string Token { get; set; } = "token-1";

    public string Fields { get; set; } = "";

    /// <summary>Answers the pages' question for a sign of life; a test may let it hang.</summary>
    public Func<CancellationToken, Task> Alive { get; set; } = _ => Task.CompletedTask;

    /// <summary>How many of those questions came with a cookie.</summary>
    public int AliveSignedIn { get; private set; }

    public string Address => _app.Urls.Single();

    public async Task InitializeAsync()
    {
        var builder = WebApplication.CreateSlimBuilder();
        builder.Logging.ClearProviders();
        builder.WebHost.ConfigureKestrel(kestrel => kestrel.Listen(IPAddress.Loopback, 0));
        _app = builder.Build();
        _app.UseStaticFiles(new StaticFileOptions { FileProvider = new PhysicalFileProvider(Path.Combine(Source.Root, "src", "ShopFloor.Web", "wwwroot")) });
        _app.MapGet("/page", (HttpContext context) =>
        {
            context.Response.ContentType = "text/html; charset=utf-8";
            return context.Response.WriteAsync(Page());
        });
        _app.MapPost("/alive", async (HttpContext context) =>
        {
            if (context.Request.Cookies.Count > 0)
                AliveSignedIn++;
            await Alive(context.RequestAborted);
            context.Response.StatusCode = 204;
        });
        _app.MapPost("/sign-out", (HttpContext context) =>
        {
            Person = "";
            context.Response.Redirect("/page");
        });
        _app.MapPost("/commands/{name}", async (string name, HttpContext context) =>
        {
            using var reader = new StreamReader(context.Request.Body);
            await AnswerAsync(context, new(name, context.Request.Headers["Idempotency-Key"].ToString(), context.Request.Headers["RequestVerificationToken"].ToString(), await reader.ReadToEndAsync()));
        });
        _app.MapPost("/photos", async (HttpContext context) =>
        {
            var form = await context.Request.ReadFormAsync();
            await AnswerAsync(context, new(form.Files.Single().FileName, context.Request.Headers["Idempotency-Key"].ToString(), context.Request.Headers["RequestVerificationToken"].ToString(), $"{form["stepId"]}:{form.Files.Single().Length}"));
        });
        await _app.StartAsync();

        _playwright = await Playwright.CreateAsync();
        _browser = await _playwright.Chromium.LaunchAsync(new()
        {
            ExecutablePath = Environment.GetEnvironmentVariable("SHOPFLOOR_TEST_BROWSER") ?? "/usr/bin/chromium",
            Args = ["--no-sandbox", "--disable-background-networking"],
        });
    }

    public async Task DisposeAsync()
    {
        await _browser.DisposeAsync();
        _playwright.Dispose();
        await _app.DisposeAsync();
    }

    /// <summary>A fresh browser profile on the page, with nothing kept from other tests.</summary>
    public async Task<IPage> OpenAsync()
    {
        Commands.Clear();
        Answer = _ => (204, null);
        (Person, Token, Fields) = ("person-1", "token-1", "");
        (Alive, AliveSignedIn) = (_ => Task.CompletedTask, 0);
        var context = await _browser.NewContextAsync();
        context.SetDefaultTimeout(10_000);
        var page = await context.NewPageAsync();
        await page.GotoAsync($"{Address}/page");
        return page;
    }

    private Task AnswerAsync(HttpContext context, Received received)
    {
        if (received.Token != Token)
        {
            context.Response.StatusCode = 400;
            return Task.CompletedTask;
        }

        var (status, problem) = Answer(received);
        Commands.Enqueue(received);
        if (status == 302)
        {
            context.Response.Redirect("/page");
            return Task.CompletedTask;
        }

        context.Response.StatusCode = status;
        return problem is null ? Task.CompletedTask : context.Response.WriteAsJsonAsync(new { title = "Refused", detail = problem }, options: null, "application/problem+json");
    }

    private string Page() =>
        $$"""
        <!doctype html><html lang="en"><head><title>Bench</title>
        <meta name="shop-person" content="{{Person}}"><meta name="shop-antiforgery" content="{{Token}}"></head><body>
        <button data-tray-open hidden><span data-outbox-summary></span></button><span data-outbox-count></span>
        <button id="tick" data-outbox-url="/commands/tick" data-outbox-body='{"stepId":"6","done":true}' data-outbox-settles data-outbox-label="Tick step 6">Tick</button>
        <button id="next" data-outbox-url="/commands/tick" data-outbox-body='{"stepId":"7","done":true}' data-outbox-label="Tick step 7">Tick</button>
        <div data-outbox-form>
          <label>Measured <input data-outbox-field="measured" data-outbox-required data-draft="measured"></label>
          <button id="measure" data-outbox-settles data-outbox-url="/commands/measure" data-outbox-body='{"stepId":"8"}' data-outbox-label="Measure step 8">Enter</button>
        </div>
        <label>Note <textarea data-draft="note" data-draft-version="1"></textarea></label>
        <label>Secret <input type="password" data-draft="secret"></label>
        <input type="file" data-upload-url="/photos" data-upload-fields='{"stepId":"9"}' multiple>
        <form data-sign-out action="/sign-out" method="post"><button>Sign out</button></form>
        <div hidden data-kept-sheet='{"jobId":"job-1","stages":[]}'></div>
        <div data-signature>
          <canvas data-signature-canvas width="400" height="160" style="width:400px;height:160px;display:block"></canvas>
          <button data-signature-undo>Undo</button><button data-signature-clear>Clear</button>
          <label><input type="checkbox" data-signature-instead> Type the name instead</label>
          <div data-signature-name-row hidden><input aria-label="Full name" data-signature-name></div>
          <input type="hidden" data-signature-value>
        </div>
        <div id="connection-bar"><span data-link-words></span><button data-link-retry>Try now</button></div>
        {{Fields}}
        <div data-notices></div><dialog data-tray><div data-tray-body></div><button data-tray-close>Close</button></dialog>
        <script src="/js/shell.js"></script><script src="/js/outbox.js"></script><script src="/js/photos.js"></script><script src="/js/kept-work.js"></script><script src="/js/drafts.js"></script><script src="/js/signature.js"></script>
        <script>window.Blazor = { start: options => { window.circuit = options; }, reconnect: async () => window.known ?? true, resumeCircuit: async () => true };</script>
        <script src="/js/pulse.js"></script><script src="/js/connection.js"></script>
        </body></html>
        """;

    /// <summary>A command or photo as the server got it.</summary>
    public sealed record Received(string Name, string Key, string Token, string Body);
}
