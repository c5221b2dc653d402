using System.Net;
using System.Net.Http.Json;
using System.Text.Json.Nodes;
using ShopFloor.Shop.Staff;

namespace ShopFloor.Web.Tests.Api;

public sealed class PresetApiTests : IAsyncLifetime
{
    private readonly ShopApplication _shop = new();

    public Task InitializeAsync() => _shop.InitializeAsync();

    public Task DisposeAsync() => ((IAsyncLifetime)_shop).DisposeAsync();

    [Fact]
    public async Task A_preset_is_put_read_back_as_on_screen_and_its_sheet_holds_the_coefficients()
    {
        var client = await _shop.WithTokenAsync(Permission.SeeJobs, Permission.EditJobCards, Permission.WorkOnJobs);
        var job = await OpenAsync(client);
        var put = await client.PutAsJsonAsync($"/api/v1/jobs/{job}/tuning-presets", Draft(3_000));
        Assert.True(put.IsSuccessStatusCode, await put.Content.ReadAsStringAsync());
        var kept = await put.Content.ReadFromJsonAsync<JsonObject>();

        var list = await client.GetFromJsonAsync<JsonObject>($"/api/v1/jobs/{job}/tuning-presets");

        var version = list?["presets"]?[0]?["versions"]?[0];
        Assert.Equal((string?)kept?["versionId"], (string?)version?["versionId"]);
        Assert.Equal(3_000, (double?)version?["preset"]?["channels"]?[0]?["highPass"]?["hertz"]);
        var technician = await _shop.SignInAsync(ShopRole.Technician);
        var csv = await technician.GetStringAsync($"/documents/jobs/{job}/presets/{(string?)kept?["versionId"]}.csv");
        Assert.Contains("Tweeter", csv, StringComparison.Ordinal);
        var pdf = await technician.GetAsync($"/documents/jobs/{job}/presets/{(string?)kept?["versionId"]}.pdf");
        Assert.Equal("%PDF"u8.ToArray(), (await pdf.Content.ReadAsByteArrayAsync())[..4]);
    }

    [Fact]
    public async Task What_cannot_be_set_is_refused_by_its_field_and_reading_is_no_leave_to_write()
    {
        var client = await _shop.WithTokenAsync(Permission.SeeJobs, Permission.EditJobCards, Permission.WorkOnJobs);
        var job = await OpenAsync(client);

        var wrong = await client.PutAsJsonAsync($"/api/v1/jobs/{job}/tuning-presets", Draft(-3));
        var reader = await _shop.WithTokenAsync(Permission.SeeJobs);
        var forbidden = await reader.PutAsJsonAsync($"/api/v1/jobs/{job}/tuning-presets", Draft(3_000));

        Assert.Equal(HttpStatusCode.UnprocessableEntity, wrong.StatusCode);
        Assert.Contains("highPass", await wrong.Content.ReadAsStringAsync(), StringComparison.OrdinalIgnoreCase);
        Assert.Equal(HttpStatusCode.Forbidden, forbidden.StatusCode);
    }

    private static object Draft(double hertz) => new
    {
        name = "Driver's seat",
        profile = new { name = "Ten filters" },
        target = new { name = "Flat", points = new[] { new { hertz = 20.0, decibels = 0.0, aboveDecibels = 3.0, belowDecibels = 3.0 }, new { hertz = 20_000.0, decibels = 0.0, aboveDecibels = 3.0, belowDecibels = 3.0 } } },
        channels = new[] { new { id = "t", name = "Tweeter, left", highPass = new { shape = "LinkwitzRiley", hertz, slopeDecibelsPerOctave = 24 } } },
    };

    private static async Task<string> OpenAsync(HttpClient client)
    {
        var opened = await client.PostAsJsonAsync("/api/v1/jobs", new { newClient = new { name = "Clea Client", phone = "555 0100" }, newVehicle = new { make = "Verano", model = "Lince", modelYear = 2020 }, card = new { title = "Tuned" } });
        return (string?)(await opened.Content.ReadFromJsonAsync<JsonObject>())?["id"] ?? throw new InvalidOperationException(await opened.Content.ReadAsStringAsync());
    }
}
