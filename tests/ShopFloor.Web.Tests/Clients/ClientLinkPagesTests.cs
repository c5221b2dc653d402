using System.Net;
using System.Text.RegularExpressions;
using ShopFloor.Shop.Clients;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Phases.Estimate;
using ShopFloor.Shop.Phases.Handover;
using ShopFloor.Shop.Phases.Intake;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Storage;
using ShopFloor.Shop.Vehicles;

namespace ShopFloor.Web.Tests.Clients;

public sealed partial class ClientLinkPagesTests : IAsyncLifetime
{
    private const string Hostile = "<script>alert('x')</script>\"><img src=x onerror=alert(1)>";
    private readonly ShopApplication _shop = new();

    public Task InitializeAsync() => _shop.InitializeAsync();

    public Task DisposeAsync() => ((IAsyncLifetime)_shop).DisposeAsync();

    [Fact]
    public async Task Link_leads_to_a_page_without_the_secret_and_leaves_a_cookie_of_that_path()
    {
        var path = await NewLinkAsync(await OpenJobAsync());
        var browser = _shop.Anonymous();

        var opened = await browser.GetAsync(path);

        Assert.Equal(HttpStatusCode.SeeOther, opened.StatusCode);
        Assert.Equal("/c", opened.Headers.Location?.OriginalString);
        var cookie = Assert.Single(opened.Headers.GetValues("Set-Cookie"), text => text.StartsWith("client-link=", StringComparison.Ordinal));
        foreach (var flag in new[] { "path=/c", "httponly", "secure", "samesite=lax" })
        {
            Assert.Contains(flag, cookie, StringComparison.OrdinalIgnoreCase);
        }

        var page = await browser.GetAsync("/c");
        var html = await page.Content.ReadAsStringAsync();
        Assert.Equal(HttpStatusCode.OK, page.StatusCode);
        Assert.Contains("J-0001", html, StringComparison.Ordinal);
        Assert.DoesNotContain(path[3..], html, StringComparison.Ordinal);
        Assert.DoesNotContain("<script", html, StringComparison.OrdinalIgnoreCase);
        Assert.Contains("no-store", page.Headers.CacheControl?.ToString(), StringComparison.Ordinal);
        Assert.Equal("noindex, nofollow", page.Headers.GetValues("X-Robots-Tag").Single());
        Assert.Equal("no-referrer", page.Headers.GetValues("Referrer-Policy").Single());
        Assert.Contains("default-src 'none'", page.Headers.GetValues("Content-Security-Policy").Single(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Wrong_revoked_and_missing_links_get_the_same_answer()
    {
        var jobId = await OpenJobAsync();
        var revoked = await NewLinkAsync(jobId);
        var line = Assert.Single(await _shop.Get<ClientLinks>().ListAsync(Desk, jobId, CancellationToken.None));
        await _shop.Get<ClientLinks>().RevokeAsync(Desk, line.Id, CancellationToken.None);

        var answers = new List<string>();
        foreach (var path in new[] { "/c/" + new string('A', 43), "/c/x", revoked, "/c", "/c/estimate", "/c/handover.pdf", $"/c/photos/{Guid.CreateVersion7()}" })
        {
            var answer = await _shop.Anonymous().GetAsync(path);
            Assert.Equal(HttpStatusCode.NotFound, answer.StatusCode);
            answers.Add(await answer.Content.ReadAsStringAsync());
        }

        Assert.Contains("This link opens nothing", Assert.Single(answers.Distinct()), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Revoked_link_ends_the_page_that_is_open_already()
    {
        var jobId = await OpenJobAsync();
        var browser = await BrowserAsync(jobId);
        Assert.Equal(HttpStatusCode.OK, (await browser.GetAsync("/c")).StatusCode);
        var line = Assert.Single(await _shop.Get<ClientLinks>().ListAsync(Desk, jobId, CancellationToken.None));

        await _shop.Get<ClientLinks>().RevokeAsync(Desk, line.Id, CancellationToken.None);

        Assert.Equal(HttpStatusCode.NotFound, (await browser.GetAsync("/c")).StatusCode);
    }

    [Fact]
    public async Task Client_approves_with_a_typed_name_and_looking_alone_changes_nothing()
    {
        var jobId = await PricedJobAsync("Amplifier");
        var browser = await BrowserAsync(jobId);
        var html = await browser.GetStringAsync("/c/estimate");
        Assert.Equal(EstimateState.Issued, (await EstimateAsync(jobId)).State);

        var answer = await PostAnswerAsync(browser, Fields(html, "Clea Client", "approve"));

        Assert.Equal(HttpStatusCode.SeeOther, answer.StatusCode);
        Assert.Equal((EstimateState.Approved, "Clea Client"), ((await EstimateAsync(jobId)).State, (await EstimateAsync(jobId)).AnsweredBy));
        var after = await browser.GetStringAsync("/c/estimate");
        Assert.Contains("Approved by Clea Client", after, StringComparison.Ordinal);
        Assert.DoesNotContain("<form", after, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Answer_without_the_pages_token_or_about_other_numbers_is_refused()
    {
        var jobId = await PricedJobAsync("Amplifier");
        var browser = await BrowserAsync(jobId);
        var html = await browser.GetStringAsync("/c/estimate");

        var forged = Fields(html, "Mallory", "approve");
        forged.Remove("__RequestVerificationToken");
        var stale = Fields(html, "Clea Client", "approve");
        stale["hash"] = new string('0', 64);
        var unnamed = Fields(html, " ", "approve");
        var undecided = Fields(html, "Clea Client", "perhaps");

        foreach (var fields in new[] { forged, stale, unnamed, undecided })
        {
            Assert.Equal(HttpStatusCode.BadRequest, (await PostAnswerAsync(browser, fields)).StatusCode);
        }

        Assert.Equal(EstimateState.Issued, (await EstimateAsync(jobId)).State);
    }

    [Fact]
    public async Task Hostile_text_reaches_the_client_as_text()
    {
        var jobId = await PricedJobAsync(Hostile, Hostile);
        var browser = await BrowserAsync(jobId);

        foreach (var page in new[] { "/c", "/c/estimate" })
        {
            var html = await browser.GetStringAsync(page);
            Assert.Contains("&lt;script&gt;", html, StringComparison.Ordinal);
            Assert.DoesNotContain("<script", html, StringComparison.OrdinalIgnoreCase);
            Assert.DoesNotContain("<img src=x", html, StringComparison.OrdinalIgnoreCase);
        }

        var refused = await PostAnswerAsync(browser, Fields(await browser.GetStringAsync("/c/estimate"), Hostile, "perhaps"));
        Assert.DoesNotContain("<img src=x", await refused.Content.ReadAsStringAsync(), StringComparison.OrdinalIgnoreCase);
    }

    [Fact]
    public async Task Photos_are_seen_once_they_are_shown_and_never_those_of_another_job()
    {
        var (mine, other) = (await OpenJobAsync(), await OpenJobAsync());
        var (hidden, shown, foreign) = (await AddPhotoAsync(mine, false), await AddPhotoAsync(mine, true), await AddPhotoAsync(other, true));
        var browser = await BrowserAsync(mine);

        var html = await browser.GetStringAsync("/c/photos");

        Assert.Contains(shown.ToString(), html, StringComparison.Ordinal);
        Assert.DoesNotContain(hidden.ToString(), html, StringComparison.Ordinal);
        Assert.DoesNotContain(foreign.ToString(), html, StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.NotFound, (await browser.GetAsync($"/c/photos/{hidden}")).StatusCode);
        Assert.Equal(HttpStatusCode.NotFound, (await browser.GetAsync($"/c/photos/{foreign}")).StatusCode);
    }

    [Fact]
    public async Task Handover_is_there_after_release_as_page_and_as_the_released_file()
    {
        var jobId = await OpenJobAsync();
        var browser = await BrowserAsync(jobId);
        Assert.Equal(HttpStatusCode.NotFound, (await browser.GetAsync("/c/handover")).StatusCode);

        await ReleaseAsync(jobId);

        var html = await browser.GetStringAsync("/c/handover");
        Assert.Contains("Using your system", html, StringComparison.Ordinal);
        Assert.Contains("Take care", html, StringComparison.Ordinal);
        Assert.DoesNotContain("€", html, StringComparison.Ordinal);
        var file = await browser.GetByteArrayAsync("/c/handover.pdf");
        var released = await _shop.Get<Handovers>().ReleasedAsync(Desk, jobId, 1, CancellationToken.None);
        Assert.Equal(released!.Pdf.ToArray(), file); // it was just released
        Assert.Equal("%PDF"u8.ToArray(), file[..4]);

        // The staff's address without a number gives the same file once there is one.
        var desk = await _shop.SignInAsync(ShopRole.FrontDesk);
        Assert.Equal(file, await desk.GetByteArrayAsync($"/documents/jobs/{jobId}/handover.pdf"));
        Assert.Equal(HttpStatusCode.NotFound, (await desk.GetAsync($"/documents/jobs/{jobId}/handover.pdf?release=2")).StatusCode);
    }

    [Fact]
    public async Task Secret_of_a_link_is_in_no_log()
    {
        var path = await NewLinkAsync(await OpenJobAsync());
        var browser = _shop.Anonymous();
        await browser.GetAsync(path);
        await browser.GetAsync("/c");
        await _shop.Anonymous().GetAsync("/c/" + path[3..^1] + "_");

        var logs = new System.Text.StringBuilder();
        foreach (var file in Directory.GetFiles(_shop.Folder.Logs))
        {
            await using var stream = new FileStream(file, FileMode.Open, FileAccess.Read, FileShare.ReadWrite | FileShare.Delete);
            using var reader = new StreamReader(stream);
            logs.Append(await reader.ReadToEndAsync());
        }

        Assert.Contains("/c/{token}", logs.ToString(), StringComparison.Ordinal);
        Assert.DoesNotContain(path[3..30], logs.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Guessing_is_slowed_down()
    {
        await using var slow = new ShopApplication { Settings = { ["Shop:RateLimits:client-link"] = "5" } };
        await slow.InitializeAsync();
        var browser = slow.Anonymous();

        var answers = new List<HttpStatusCode>();
        for (var guess = 0; guess < 7; guess++)
        {
            answers.Add((await browser.GetAsync("/c/" + new string((char)('A' + guess), 43))).StatusCode);
        }

        Assert.Equal([.. Enumerable.Repeat(HttpStatusCode.NotFound, 5), .. Enumerable.Repeat(HttpStatusCode.TooManyRequests, 2)], answers);
    }

    private Actor Desk => _shop.Actor(ShopRole.FrontDesk);

    private async Task<Guid> OpenJobAsync(string clientName = "Clea Client")
    {
        var outcome = await _shop.Get<JobDesk>().OpenAsync(
            Desk,
            new OpenJob
            {
                NewClient = new ClientDetails { Name = clientName },
                NewVehicle = new VehicleDetails { Make = "Verano", Model = "Lince", ModelYear = 2024, Plate = "AB 123" },
                Card = new JobCardDetails { Title = "Better sound", SourceDevices = [new SourceDevice("Phone", "Pair it once.")] },
            },
            CancellationToken.None);
        Assert.True(outcome.Succeeded, outcome.Message);
        return outcome.Value;
    }

    private async Task<Guid> PricedJobAsync(string partName, string clientName = "Clea Client")
    {
        var jobId = await OpenJobAsync(clientName);
        await SaveAsync(db => db.JobParts.Add(new JobPart(jobId, new JobPartDetails { Name = partName, UnitPrice = 100 }, null, 0)));
        var estimates = _shop.Get<Estimates>();
        var draft = (await estimates.SheetAsync(Desk, jobId, CancellationToken.None)).Draft;
        var issued = await estimates.IssueAsync(Desk, jobId, draft.ContentHash, partName, CancellationToken.None);
        Assert.True(issued.Succeeded, issued.Message);
        return jobId;
    }

    private async Task<EstimateVersion> EstimateAsync(Guid jobId) =>
        Assert.Single((await _shop.Get<Estimates>().SheetAsync(Desk, jobId, CancellationToken.None)).Versions);

    private async Task<Guid> AddPhotoAsync(Guid jobId, bool shown)
    {
        var photo = new Photo(jobId, new string('a', 64), 640, 480, PhotoSubject.Finished, null, "Tom Tech", DateTimeOffset.UnixEpoch) { ShownToClient = shown, Caption = "Boot" };
        await SaveAsync(db => db.Photos.Add(photo));
        return photo.Id;
    }

    private async Task ReleaseAsync(Guid jobId)
    {
        var gate = _shop.Get<DeliveryGate>();
        var owner = _shop.Actor(ShopRole.Owner);
        foreach (var standing in (await gate.ReportAsync(owner, jobId, CancellationToken.None)).Standing)
        {
            var finding = standing.Finding;
            Assert.True((await gate.SignOffAsync(owner, jobId, finding.Code, finding.SubjectId, finding.Text, "Only this test hands it back.", CancellationToken.None)).Succeeded);
        }

        var delivered = await gate.DeliverAsync(Desk, jobId, CancellationToken.None);
        Assert.True(delivered.Succeeded, delivered.Message);
    }

    private async Task SaveAsync(Action<ShopDbContext> change)
    {
        var outcome = await _shop.Store.WriteAsync<Done>(
            Desk,
            db =>
            {
                change(db);
                return Task.FromResult<Outcome<Done>>(Done.Value);
            },
            CancellationToken.None);
        Assert.True(outcome.Succeeded, outcome.Message);
    }

    private async Task<string> NewLinkAsync(Guid jobId)
    {
        var outcome = await _shop.Get<ClientLinks>().CreateAsync(Desk, jobId, CancellationToken.None);
        Assert.True(outcome.Succeeded, outcome.Message);
        return outcome.Value.Path;
    }

    private async Task<HttpClient> BrowserAsync(Guid jobId)
    {
        var browser = _shop.Anonymous();
        Assert.Equal(HttpStatusCode.SeeOther, (await browser.GetAsync(await NewLinkAsync(jobId))).StatusCode);
        return browser;
    }

    private static Dictionary<string, string> Fields(string html, string name, string answer)
    {
        var fields = HiddenField().Matches(html).ToDictionary(match => match.Groups[1].Value, match => WebUtility.HtmlDecode(match.Groups[2].Value));
        Assert.Equal(3, fields.Count);
        fields["name"] = name;
        fields["answer"] = answer;
        return fields;
    }

    private static async Task<HttpResponseMessage> PostAnswerAsync(HttpClient browser, Dictionary<string, string> fields)
    {
        using var content = new FormUrlEncodedContent(fields);
        return await browser.PostAsync("/c/estimate", content);
    }

    [GeneratedRegex("type=\"hidden\" name=\"([^\"]+)\" value=\"([^\"]*)\"")]
    private static partial Regex HiddenField();
}
