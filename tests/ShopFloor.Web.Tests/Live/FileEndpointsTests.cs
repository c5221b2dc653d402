using System.Net;
using System.Net.Http.Json;
using System.Text.Json;
using ShopFloor.Shop.Clients;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Phases.Intake;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Vehicles;

namespace ShopFloor.Web.Tests.Live;

public sealed class FileEndpointsTests : IAsyncLifetime
{
    private readonly ShopApplication _shop = new();
    private HttpClient _browser = new();
    private string _token = "";
    private Guid _jobId;

    public async Task InitializeAsync()
    {
        await _shop.InitializeAsync();
        var opened = await _shop.Get<JobDesk>().OpenAsync(
            _shop.Actor(ShopRole.Owner),
            new OpenJob
            {
                NewClient = new ClientDetails { Name = "Clea Client" },
                NewVehicle = new VehicleDetails { Make = "Verano", Model = "Lince", ModelYear = 2024, Plate = "AB 123" },
                Card = new JobCardDetails { Title = "Better sound" },
            },
            CancellationToken.None);
        _jobId = opened.Value;
        (_browser, _token) = await _shop.OpenAsync(ShopRole.Technician);
    }

    public Task DisposeAsync() => ((IAsyncLifetime)_shop).DisposeAsync();

    [Fact]
    public async Task A_file_comes_back_as_a_download_that_no_browser_shows()
    {
        var taken = await UploadAsync("<script>.stl", "solid box"u8.ToArray(), _token);
        Assert.Equal(HttpStatusCode.Created, taken.StatusCode);
        var id = (await taken.Content.ReadFromJsonAsync<JsonElement>()).GetProperty("id").GetGuid();

        var answer = await _browser.GetAsync(new Uri($"/files/{id}", UriKind.Relative));

        Assert.Equal("solid box"u8.ToArray(), await answer.Content.ReadAsByteArrayAsync());
        Assert.Equal(("application/octet-stream", "attachment"), (answer.Content.Headers.ContentType?.MediaType, answer.Content.Headers.ContentDisposition?.DispositionType));
        Assert.Equal("nosniff", answer.Headers.GetValues("X-Content-Type-Options").Single());
    }

    [Fact]
    public async Task An_upload_without_the_token_of_its_page_is_refused() =>
        Assert.Equal(HttpStatusCode.BadRequest, (await UploadAsync("a.stl", [1, 2, 3], "")).StatusCode);

    [Fact]
    public async Task An_empty_file_is_refused_in_words()
    {
        var answer = await UploadAsync("a.stl", [], _token);

        Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.StatusCode);
        Assert.Contains("'a.stl' is empty", (await answer.Content.ReadFromJsonAsync<JsonElement>()).GetProperty("detail").GetString(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Somebody_who_is_not_signed_in_gets_nothing()
    {
        using var stranger = _shop.Anonymous();
        var answer = await stranger.GetAsync(new Uri($"/files/{Guid.CreateVersion7()}", UriKind.Relative));
        Assert.NotEqual(HttpStatusCode.OK, answer.StatusCode);
        Assert.NotEqual(HttpStatusCode.NotFound, answer.StatusCode);
    }

    private Task<HttpResponseMessage> UploadAsync(string name, byte[] bytes, string token)
    {
        var form = new MultipartFormDataContent
        {
            { new StringContent(_jobId.ToString()), "jobId" },
            { new StringContent(nameof(JobFileKind.Mesh)), "kind" },
        };
        form.Add(new ByteArrayContent(bytes), "file", name);
        var request = new HttpRequestMessage(HttpMethod.Post, "/files") { Content = form };
        request.Headers.Add("RequestVerificationToken", token);
        return _browser.SendAsync(request);
    }
}
