using System.Globalization;
using System.Net;
using System.Net.Http.Headers;
using System.Net.Http.Json;
using System.Text.Json;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Clients;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Phases.Build;
using ShopFloor.Shop.Phases.Intake;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Vehicles;
using SkiaSharp;

namespace ShopFloor.Web.Tests.Phases.Build;

public sealed class BuildEndpointsTests : IAsyncLifetime
{
    private readonly ShopApplication _shop = new();
    private HttpClient _browser = new();
    private string _token = "";
    private WorkSheet? _sheet;

    private WorkSheet Sheet => _sheet ?? throw new InvalidOperationException("Set in InitializeAsync.");

    public async Task InitializeAsync()
    {
        await _shop.InitializeAsync();
        _sheet = await PlannedJobAsync(
            new TemplateStep("Measure the battery", Measure: new StepMeasure("Battery voltage", "V", 12.2, 13.0)),
            new TemplateStep("Lay the main run", NeedsPhoto: true),
            new TemplateStep("Fit the main fuse last", NeedsSecondPerson: true));
        (_browser, _token) = await _shop.OpenAsync(ShopRole.Technician);
    }

    public Task DisposeAsync() => ((IAsyncLifetime)_shop).DisposeAsync();

    [Fact]
    public async Task A_tick_typed_with_a_comma_and_a_unit_is_read_and_counts_once()
    {
        var id = Guid.CreateVersion7();

        var first = await SendAsync("tick", id, new { stepId = StepId(0), value = "12,6 V" });
        var again = await SendAsync("tick", id, new { stepId = StepId(0), value = "12,6 V" });

        Assert.Equal(HttpStatusCode.NoContent, first.StatusCode);
        Assert.Equal(HttpStatusCode.NoContent, again.StatusCode);
        Assert.Equal(12.6, (await StepAsync(0)).MeasuredValue);
    }

    [Theory]
    [InlineData("11.8", "11.8")]
    [InlineData("twelve", "twelve")]
    public async Task A_value_that_is_refused_is_named_with_its_field(string typed, string named)
    {
        var answer = await SendAsync("tick", Guid.CreateVersion7(), new { stepId = StepId(0), value = typed });

        Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.StatusCode);
        Assert.Equal("application/problem+json", answer.Content.Headers.ContentType?.MediaType);
        var problem = await answer.Content.ReadFromJsonAsync<JsonElement>();
        Assert.Contains(named, problem.GetProperty("detail").GetString(), StringComparison.Ordinal);
        Assert.True(problem.GetProperty("errors").TryGetProperty("Value", out _));
    }

    [Fact]
    public async Task A_measured_value_is_read_as_typed_counts_once_and_is_taken_back_by_its_id()
    {
        var part = new JobPartDetails { Kind = PartKind.Accessory, Name = "Heater", Data = new AccessoryData { WorkingAmperes = 20 }, Zone = VehicleZones.Dash };
        Assert.True((await _shop.Get<PartsList>().AddAsync(_shop.Actor(ShopRole.Owner), Sheet.JobId, part, CancellationToken.None)).Succeeded);
        var id = Guid.CreateVersion7();
        var body = new { jobId = Sheet.JobId, pointId = "rest:car", value = "12,64 V" };

        var first = await SendAsync("measure", id, body);
        var again = await SendAsync("measure", id, body);
        var unread = await SendAsync("measure", Guid.CreateVersion7(), new { jobId = Sheet.JobId, pointId = "rest:car", value = "twelve" });

        Assert.Equal((HttpStatusCode.NoContent, HttpStatusCode.NoContent, HttpStatusCode.UnprocessableEntity), (first.StatusCode, again.StatusCode, unread.StatusCode));
        var entry = Assert.Single((await MeasuredAsync()).Entries);
        Assert.Equal(12.64, entry.Value);
        await SendAsync("unmeasure", Guid.CreateVersion7(), new { valueId = entry.Id });
        Assert.Equal(MeasuredVerdict.Missing, (await MeasuredAsync()).Verdict);
    }

    [Fact]
    public async Task A_rattle_is_noted_with_its_tone_as_typed_treated_and_played_again_from_the_tablet()
    {
        var found = await SendAsync("rattle", Guid.CreateVersion7(), new { jobId = Sheet.JobId, place = "Shelf clip", hertz = "63,5 Hz", level = "" });
        var unread = await SendAsync("rattle", Guid.CreateVersion7(), new { jobId = Sheet.JobId, place = "Shelf clip", hertz = "low" });
        var id = Assert.Single((await RattlesAsync()).Rows).Id;
        await SendAsync("rattle-treated", Guid.CreateVersion7(), new { jobId = Sheet.JobId, rattleId = id, remedy = "Felt tape" });
        await SendAsync("rattle-played", Guid.CreateVersion7(), new { jobId = Sheet.JobId, rattleId = id, yes = false });

        Assert.Equal((HttpStatusCode.NoContent, HttpStatusCode.UnprocessableEntity), (found.StatusCode, unread.StatusCode));
        Assert.Contains("The frequency", await unread.Content.ReadAsStringAsync(), StringComparison.Ordinal);
        var row = Assert.Single((await RattlesAsync()).Rows);
        Assert.Equal((63.5, "Felt tape", (bool?)false), (row.Hertz, row.Last!.Text, row.Last.StillHeard));
    }

    [Fact]
    public async Task A_post_without_the_token_of_a_page_is_turned_away_without_words()
    {
        var answer = await SendAsync("tick", Guid.CreateVersion7(), new { stepId = StepId(0), value = "12.6" }, token: "stale");

        // The outbox takes a 400 that is no JSON as a stale token and asks for a new one.
        Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
        Assert.Null(answer.Content.Headers.ContentType);
        Assert.False((await StepAsync(0)).IsTicked);
    }

    [Fact]
    public async Task A_post_without_a_command_id_says_what_is_missing()
    {
        var answer = await SendAsync("untick", null, new { stepId = StepId(0) });

        Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
        Assert.Contains("Idempotency-Key", await answer.Content.ReadAsStringAsync(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Nobody_signed_in_is_sent_to_sign_in()
    {
        _browser = _shop.Anonymous();

        var answer = await SendAsync("stop", Guid.CreateVersion7(), new { });

        Assert.True(answer.StatusCode is HttpStatusCode.Unauthorized or HttpStatusCode.Redirect, $"{answer.StatusCode}");
    }

    [Fact]
    public async Task A_tick_waits_for_its_photo_when_one_is_on_its_way_and_is_refused_when_none_is()
    {
        var coming = await SendAsync("tick", Guid.CreateVersion7(), new { stepId = StepId(1), photoQueued = "true" });
        var none = await SendAsync("tick", Guid.CreateVersion7(), new { stepId = StepId(1) });
        var given = await SendAsync("tick", Guid.CreateVersion7(), new { stepId = StepId(1), photoQueued = "true" }, pressedAt: DateTimeOffset.UnixEpoch.AddYears(30));

        Assert.Equal((HttpStatusCode)425, coming.StatusCode);
        Assert.NotNull(coming.Headers.RetryAfter);
        Assert.Equal(HttpStatusCode.UnprocessableEntity, none.StatusCode);
        Assert.Equal(HttpStatusCode.UnprocessableEntity, given.StatusCode);
    }

    [Fact]
    public async Task A_photo_goes_in_proves_its_step_and_comes_out_cached_for_this_browser_only()
    {
        var photo = await UploadAsync(StepId(1), Picture());
        Assert.Equal(HttpStatusCode.Created, photo.StatusCode);
        var stored = await photo.Content.ReadFromJsonAsync<JsonElement>();

        var thumb = await _browser.GetAsync(stored.GetProperty("thumb").GetString());
        var full = await _browser.GetAsync(stored.GetProperty("full").GetString());
        var again = await GetAsync(full.RequestMessage!.RequestUri!, full.Headers.ETag!); // both are there: the answer above was OK
        var tick = await SendAsync("tick", Guid.CreateVersion7(), new { stepId = StepId(1) });

        Assert.Equal("image/jpeg", thumb.Content.Headers.ContentType?.MediaType);
        var kept = full.Headers.CacheControl?.ToString() ?? "";
        Assert.Contains("private", kept, StringComparison.Ordinal);
        Assert.Contains("immutable", kept, StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.NotModified, again.StatusCode);
        Assert.Equal(HttpStatusCode.NoContent, tick.StatusCode);
    }

    [Fact]
    public async Task A_photo_is_not_shown_to_anybody_who_is_not_signed_in()
    {
        var stored = await (await UploadAsync(StepId(1), Picture())).Content.ReadFromJsonAsync<JsonElement>();

        var answer = await _shop.Anonymous().GetAsync(stored.GetProperty("full").GetString());

        Assert.NotEqual(HttpStatusCode.OK, answer.StatusCode);
    }

    [Fact]
    public async Task What_is_no_picture_is_refused_in_words()
    {
        var answer = await UploadAsync(StepId(1), "<svg xmlns='http://www.w3.org/2000/svg'/>"u8.ToArray());

        Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.StatusCode);
        Assert.Contains("SVG", await answer.Content.ReadAsStringAsync(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_second_person_is_told_apart_by_the_sign_in()
    {
        await SendAsync("tick", Guid.CreateVersion7(), new { stepId = StepId(2) });
        var same = await SendAsync("confirm", Guid.CreateVersion7(), new { stepId = StepId(2) });
        (_browser, _token) = await _shop.OpenAsync(ShopRole.FrontDesk);
        var other = await SendAsync("confirm", Guid.CreateVersion7(), new { stepId = StepId(2) });

        Assert.Equal(HttpStatusCode.UnprocessableEntity, same.StatusCode);
        Assert.Equal(HttpStatusCode.NoContent, other.StatusCode);
        Assert.Equal("FrontDesk Person", (await StepAsync(2)).ConfirmedBy);
    }

    [Fact]
    public async Task A_clock_started_offline_counts_from_the_press()
    {
        var pressedAt = TimeProvider.System.GetUtcNow().AddMinutes(-30);

        await SendAsync("start", Guid.CreateVersion7(), new { stageId = Sheet.Stages[0].Id }, pressedAt: pressedAt);
        var running = await _shop.Get<TimeClock>().MineAsync(_shop.Actor(ShopRole.Technician), CancellationToken.None);
        await SendAsync("stop", Guid.CreateVersion7(), new { });

        Assert.Equal(pressedAt.ToUnixTimeSeconds(), running?.StartedAt.ToUnixTimeSeconds());
        Assert.Null(await _shop.Get<TimeClock>().MineAsync(_shop.Actor(ShopRole.Technician), CancellationToken.None));
    }

    [Fact]
    public async Task A_report_is_made_cleared_and_opened_again()
    {
        await SendAsync("report", Guid.CreateVersion7(), new { jobId = Sheet.JobId, stageId = Sheet.Stages[0].Id, stops = true, text = "Bracket missing" });
        var report = Assert.Single((await SheetAsync()).Reports);
        await SendAsync("resolve", Guid.CreateVersion7(), new { blockerId = report.Id, resolution = "Bracket came" });
        var cleared = Assert.Single((await SheetAsync()).Reports);
        await SendAsync("reopen", Guid.CreateVersion7(), new { blockerId = report.Id });

        Assert.Equal((BlockerKind.Blocker, false, "Bracket came"), (cleared.Kind, cleared.IsOpen, cleared.Resolution));
        Assert.True(Assert.Single((await SheetAsync()).Reports).IsOpen);
    }

    [Fact]
    public async Task A_remark_without_words_is_refused_by_name()
    {
        var answer = await SendAsync("remark", Guid.CreateVersion7(), new { stepId = StepId(0), text = " " });

        var problem = await answer.Content.ReadFromJsonAsync<JsonElement>();
        Assert.True(problem.GetProperty("errors").TryGetProperty("Text", out _));
    }

    private static byte[] Picture()
    {
        using var bitmap = new SKBitmap(64, 48);
        bitmap.Erase(SKColors.SteelBlue);
        using var data = bitmap.Encode(SKEncodedImageFormat.Png, 100);
        return data.ToArray();
    }

    private Guid StepId(int at) => Sheet.Stages[0].Steps[at].Id;

    private async Task<SheetStep> StepAsync(int at) => (await SheetAsync()).Stages[0].Steps[at];

    private async Task<WorkSheet> SheetAsync() => await _shop.Get<WorkSheets>().SheetAsync(_shop.Actor(ShopRole.Owner), Sheet.JobId, CancellationToken.None)
        ?? throw new InvalidOperationException("The job was just opened.");

    private async Task<MeasuredRow> MeasuredAsync() =>
        (await _shop.Get<MeasuredValues>().SheetAsync(_shop.Actor(ShopRole.Owner), Sheet.JobId, UnitText.Invariant, CancellationToken.None)).Rows.Single(row => row.Point.Id == "rest:car");

    private Task<RattleSheet> RattlesAsync() => _shop.Get<Rattles>().SheetAsync(_shop.Actor(ShopRole.Technician), Sheet.JobId, CancellationToken.None);

    private Task<HttpResponseMessage> SendAsync(string command, Guid? id, object body, string? token = null, DateTimeOffset? pressedAt = null)
    {
        var request = new HttpRequestMessage(HttpMethod.Post, $"/build/commands/{command}") { Content = JsonContent.Create(body) };
        request.Headers.Add("RequestVerificationToken", token ?? _token);
        request.Headers.Add("Pressed-At", (pressedAt ?? TimeProvider.System.GetUtcNow()).ToString("O", CultureInfo.InvariantCulture));
        if (id is { } commandId)
        {
            request.Headers.Add("Idempotency-Key", commandId.ToString());
        }

        return _browser.SendAsync(request);
    }

    private Task<HttpResponseMessage> UploadAsync(Guid stepId, byte[] bytes)
    {
        var form = new MultipartFormDataContent
        {
            { new StringContent(Sheet.JobId.ToString()), "jobId" },
            { new StringContent(nameof(PhotoSubject.Step)), "subject" },
            { new StringContent(stepId.ToString()), "subjectId" },
        };
        form.Add(new ByteArrayContent(bytes) { Headers = { ContentType = new MediaTypeHeaderValue("image/png") } }, "photo", "photo.png");
        var request = new HttpRequestMessage(HttpMethod.Post, "/photos") { Content = form };
        request.Headers.Add("RequestVerificationToken", _token);
        return _browser.SendAsync(request);
    }

    private Task<HttpResponseMessage> GetAsync(Uri address, EntityTagHeaderValue known)
    {
        var request = new HttpRequestMessage(HttpMethod.Get, address);
        request.Headers.IfNoneMatch.Add(known);
        return _browser.SendAsync(request);
    }

    private async Task<WorkSheet> PlannedJobAsync(params TemplateStep[] steps)
    {
        var owner = _shop.Actor(ShopRole.Owner);
        var opened = await _shop.Get<JobDesk>().OpenAsync(
            owner,
            new OpenJob
            {
                NewClient = new ClientDetails { Name = "Clea Client" },
                NewVehicle = new VehicleDetails { Make = "Verano", Model = "Lince", ModelYear = 2024, Plate = "AB 123" },
                Card = new JobCardDetails { Title = "Better sound" },
            },
            CancellationToken.None);
        Assert.True(opened.Succeeded, opened.Message);
        var form = new TemplateForm { Name = "Short", IsDefault = true, Stages = [StageForm.Of(new TemplateStage("Cabling", JobPhase.Build, 2, steps))] };
        Assert.True((await _shop.Get<StageTemplates>().AddAsync(owner, form, CancellationToken.None)).Succeeded);
        Assert.True((await _shop.Get<StagePlan>().PlanAsync(owner, opened.Value, null, CancellationToken.None)).Succeeded);
        return await _shop.Get<WorkSheets>().SheetAsync(owner, opened.Value, CancellationToken.None) ?? throw new InvalidOperationException("The job was just opened.");
    }
}
