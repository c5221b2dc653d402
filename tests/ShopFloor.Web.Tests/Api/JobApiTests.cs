using System.Net;
using System.Net.Http.Headers;
using System.Net.Http.Json;
using System.Text.Json.Nodes;
using ShopFloor.Shop.Staff;

namespace ShopFloor.Web.Tests.Api;

public sealed class JobApiTests(JobApiTests.Host host) : IClassFixture<JobApiTests.Host>
{
    public sealed class Host : IAsyncLifetime
    {
        public ShopApplication Shop { get; } = new();

        public HttpClient Desk { get; private set; } = new();

        public HttpClient Bay { get; private set; } = new();

        public async Task InitializeAsync()
        {
            await Shop.InitializeAsync();
            Desk = await Shop.WithTokenAsync(Permission.SeeJobs, Permission.EditJobCards, Permission.DesignJobs, Permission.SeePrices);
            Bay = await Shop.WithTokenAsync(Permission.SeeJobs, Permission.EditJobCards, Permission.DesignJobs);
        }

        public Task DisposeAsync() => ((IAsyncLifetime)Shop).DisposeAsync();
    }

    [Fact]
    public async Task A_job_is_opened_read_and_edited_with_its_version()
    {
        var id = await OpenAsync("First title");
        var read = await host.Desk.GetAsync($"/api/v1/jobs/{id}");
        var version = read.Headers.ETag?.ToString() ?? "";

        var edited = await EditAsync(host.Desk, id, version, "Second title");
        var late = await EditAsync(host.Desk, id, version, "Third title");
        var without = await EditAsync(host.Desk, id, null, "Fourth title");

        Assert.Equal(HttpStatusCode.OK, edited.StatusCode);
        Assert.NotEqual(version, edited.Headers.ETag?.ToString());
        Assert.Equal(HttpStatusCode.PreconditionFailed, late.StatusCode);
        var conflict = await late.Content.ReadFromJsonAsync<JsonObject>();
        var difference = conflict?["differences"]?.AsArray().Single(found => (string?)found?["field"] == "title");
        Assert.Equal("Third title", (string?)difference?["yours"]);
        Assert.Equal("Second title", (string?)difference?["theirs"]);
        Assert.Equal($"\"{(string?)conflict?["currentVersion"]}\"", edited.Headers.ETag?.ToString());
        Assert.Equal(HttpStatusCode.PreconditionRequired, without.StatusCode);
    }

    [Fact]
    public async Task Without_the_scope_for_prices_the_budget_is_neither_shown_nor_changed()
    {
        var id = await OpenAsync("Budgeted");

        var seen = await host.Bay.GetAsync($"/api/v1/jobs/{id}");
        var edited = await EditAsync(host.Bay, id, seen.Headers.ETag?.ToString(), "Budgeted again");
        var refused = await host.Bay.GetAsync($"/api/v1/jobs/{id}/budget");
        var budget = await host.Desk.GetFromJsonAsync<JsonObject>($"/api/v1/jobs/{id}/budget");

        Assert.DoesNotContain("budget", await seen.Content.ReadAsStringAsync(), StringComparison.Ordinal);
        Assert.True(edited.IsSuccessStatusCode, await edited.Content.ReadAsStringAsync());
        Assert.Equal(HttpStatusCode.Forbidden, refused.StatusCode);
        Assert.Equal(1500, (decimal?)budget?["budgetFrom"]);
    }

    [Fact]
    public async Task Parts_are_added_listed_edited_and_removed_and_money_stays_with_its_scope()
    {
        var id = await OpenAsync("Parts");
        var added = await host.Desk.PostAsJsonAsync($"/api/v1/jobs/{id}/parts", Part(300));
        Assert.Equal(HttpStatusCode.Created, added.StatusCode);
        var partId = (string?)(await added.Content.ReadFromJsonAsync<JsonObject>())?["id"];

        var rows = await host.Bay.GetStringAsync($"/api/v1/jobs/{id}/parts");
        var row = JsonNode.Parse(rows)?[0];
        var prices = await host.Desk.GetFromJsonAsync<JsonArray>($"/api/v1/jobs/{id}/part-prices");

        Assert.Equal(partId, (string?)row?["id"]);
        Assert.DoesNotContain("cost", rows, StringComparison.OrdinalIgnoreCase);
        Assert.DoesNotContain("price", rows, StringComparison.OrdinalIgnoreCase);
        Assert.Equal(300, (decimal?)prices?[0]?["unitPrice"]);
        Assert.Equal(HttpStatusCode.Forbidden, (await host.Bay.GetAsync($"/api/v1/jobs/{id}/part-prices")).StatusCode);
        Assert.Equal(HttpStatusCode.Forbidden, (await host.Desk.GetAsync($"/api/v1/jobs/{id}/part-costs")).StatusCode);

        using var edit = new HttpRequestMessage(HttpMethod.Put, $"/api/v1/parts/{partId}") { Content = JsonContent.Create(Part(999)) };
        edit.Headers.TryAddWithoutValidation("If-Match", $"\"{(string?)row?["version"]}\"");
        Assert.Equal(HttpStatusCode.NoContent, (await host.Bay.SendAsync(edit)).StatusCode);
        prices = await host.Desk.GetFromJsonAsync<JsonArray>($"/api/v1/jobs/{id}/part-prices");
        Assert.Equal(300, (decimal?)prices?[0]?["unitPrice"]);

        Assert.Equal(HttpStatusCode.NoContent, (await host.Desk.DeleteAsync($"/api/v1/parts/{partId}")).StatusCode);
        Assert.Equal("[]", await host.Desk.GetStringAsync($"/api/v1/jobs/{id}/parts"));
    }

    [Fact]
    public async Task The_wiring_of_a_job_is_read_with_its_units_and_is_the_same_download_on_the_design_page()
    {
        var id = await OpenAsync("Wired");
        var heater = new JsonObject { ["kind"] = "accessory", ["name"] = "Heater", ["quantity"] = 1, ["zone"] = "boot-floor-right", ["data"] = new JsonObject { ["kind"] = "accessory", ["workingAmperes"] = 40 } };
        Assert.Equal(HttpStatusCode.Created, (await host.Desk.PostAsJsonAsync($"/api/v1/jobs/{id}/parts", heater)).StatusCode);

        var text = await host.Bay.GetStringAsync($"/api/v1/jobs/{id}/wiring");
        var download = await (await host.Shop.SignInAsync(ShopRole.Technician)).GetAsync($"/documents/jobs/{id}/wiring.json");

        var wire = JsonNode.Parse(text)?["wires"]?[0];
        foreach (var field in new[] { "mark", "from", "to", "size", "areaSquareMillimeters", "colour", "cutMeters", "fromTerminal", "toTerminal", "fuseRatingAmperes", "fuseForm", "route", "notes" })
        {
            Assert.NotNull(wire?[field]);
        }

        Assert.Equal(0.3, (double?)JsonNode.Parse(text)?["serviceLoopMeters"]);
        Assert.DoesNotContain("cost", text, StringComparison.OrdinalIgnoreCase);
        Assert.Equal(text, await download.Content.ReadAsStringAsync());
        Assert.Equal("attachment", download.Content.Headers.ContentDisposition?.DispositionType);
        Assert.Equal(HttpStatusCode.NotFound, (await host.Bay.GetAsync($"/api/v1/jobs/{Guid.CreateVersion7()}/wiring")).StatusCode);
        Assert.Equal(HttpStatusCode.Unauthorized, (await host.Shop.Anonymous().GetAsync($"/api/v1/jobs/{id}/wiring")).StatusCode);
    }

    [Fact]
    public async Task The_signal_path_of_a_job_is_read_by_programs_and_is_the_same_download_on_the_design_page()
    {
        var id = await OpenAsync("Heard");
        var player = new JsonObject { ["kind"] = "source", ["name"] = "Player", ["quantity"] = 1, ["data"] = new JsonObject { ["kind"] = "source", ["outputVolts"] = 2 } };
        Assert.Equal(HttpStatusCode.Created, (await host.Desk.PostAsJsonAsync($"/api/v1/jobs/{id}/parts", player)).StatusCode);

        var text = await host.Bay.GetStringAsync($"/api/v1/jobs/{id}/signal-path");
        var technician = await host.Shop.SignInAsync(ShopRole.Technician);
        var download = await technician.GetAsync($"/documents/jobs/{id}/signal-path.json");
        var cables = await technician.GetAsync($"/documents/jobs/{id}/signal-connections.csv");
        var gains = await technician.GetAsync($"/documents/jobs/{id}/gain-sheet.csv");

        // Nothing is linked: the lists are there and empty.
        foreach (var field in new[] { "sources", "connections", "channels", "free", "stops" })
        {
            Assert.Equal(0, JsonNode.Parse(text)?[field]?.AsArray().Count);
        }

        Assert.Equal(0.5, (double?)JsonNode.Parse(text)?["gainToleranceDecibels"]);
        Assert.Equal(text, await download.Content.ReadAsStringAsync());
        Assert.StartsWith("cable,from,from_connector", await cables.Content.ReadAsStringAsync(), StringComparison.Ordinal);
        Assert.Contains("measured_v", await gains.Content.ReadAsStringAsync(), StringComparison.Ordinal);
        Assert.Equal("attachment", gains.Content.Headers.ContentDisposition?.DispositionType);
        Assert.Equal(HttpStatusCode.NotFound, (await host.Bay.GetAsync($"/api/v1/jobs/{Guid.CreateVersion7()}/signal-path")).StatusCode);
        Assert.Equal(HttpStatusCode.Unauthorized, (await host.Shop.Anonymous().GetAsync($"/api/v1/jobs/{id}/signal-path")).StatusCode);
    }

    [Fact]
    public async Task The_mass_of_a_job_is_read_item_by_item_with_places_and_axles_and_without_money()
    {
        var id = await OpenAsync("Weighed");
        Assert.Equal(HttpStatusCode.Created, (await host.Desk.PostAsJsonAsync($"/api/v1/jobs/{id}/parts", new JsonObject
        {
            ["kind"] = "accessory", ["name"] = "Compressor", ["quantity"] = 1, ["zone"] = "spare-well", ["unitMassKilograms"] = 12.5, ["data"] = new JsonObject { ["kind"] = "accessory", ["workingAmperes"] = 10 },
        })).StatusCode);

        var text = await host.Bay.GetStringAsync($"/api/v1/jobs/{id}/mass");
        var mass = JsonNode.Parse(text);

        Assert.Equal(12.5, (double?)mass?["netKilograms"]);
        // The usual place of a spare wheel well in a medium car, 3.2 m behind the front axle (common practice, no source).
        Assert.Equal((3.2, "zone"), ((double?)mass?["items"]?[0]?["rearwardMeters"], (string?)mass?["items"]?[0]?["placeOrigin"]));
        Assert.Null(mass?["axles"]);
        Assert.Contains(mass?["missing"]?.AsArray() ?? [], missing => ((string?)missing)!.StartsWith("Wheelbase", StringComparison.Ordinal)); // texts only
        Assert.DoesNotContain("price", text, StringComparison.OrdinalIgnoreCase);
        Assert.Equal(HttpStatusCode.NotFound, (await host.Bay.GetAsync($"/api/v1/jobs/{Guid.CreateVersion7()}/mass")).StatusCode);
        Assert.Equal(HttpStatusCode.Unauthorized, (await host.Shop.Anonymous().GetAsync($"/api/v1/jobs/{id}/mass")).StatusCode);
    }

    [Fact]
    public async Task The_list_is_paged_by_key_without_gaps_or_doubles()
    {
        for (var i = 0; i < 3; i++)
        {
            await OpenAsync($"Paged {i}");
        }

        var seen = new List<string?>();
        string? after = null;
        do
        {
            var page = await host.Desk.GetFromJsonAsync<JsonObject>($"/api/v1/jobs?search=paged&size=2{(after is null ? "" : $"&after={after}")}");
            seen.AddRange(page?["jobs"]?.AsArray().Select(job => (string?)job?["title"]) ?? []);
            after = (string?)page?["next"];
        }
        while (after is not null);

        Assert.Equal(["Paged 0", "Paged 1", "Paged 2"], seen);
        Assert.Equal(HttpStatusCode.UnprocessableEntity, (await host.Desk.GetAsync("/api/v1/jobs?after=rubbish")).StatusCode);
        Assert.Equal(HttpStatusCode.UnprocessableEntity, (await host.Desk.GetAsync("/api/v1/jobs?size=1000")).StatusCode);
        Assert.Equal(HttpStatusCode.BadRequest, (await host.Desk.GetAsync("/api/v1/jobs?size=many")).StatusCode);
    }

    [Fact]
    public async Task Refused_input_names_the_field_inside_the_command()
    {
        var answer = await host.Desk.PostAsJsonAsync("/api/v1/jobs", new JsonObject { ["card"] = new JsonObject { ["title"] = "", ["keyCount"] = 99 } });

        Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.StatusCode);
        var errors = (await answer.Content.ReadFromJsonAsync<JsonObject>())?["errors"]?.AsArray();
        Assert.Contains(errors!, error => (string?)error?["field"] == "card.title"); // a problem of this API has errors
        Assert.Equal(99, (int?)errors!.Single(error => (string?)error?["field"] == "card.keyCount")?["value"]);
    }

    [Fact]
    public async Task The_clock_runs_for_the_person_the_token_acts_as_and_for_no_other_token()
    {
        var nobody = await host.Shop.WithTokenAsync(Permission.WorkOnJobs);
        var command = new JsonObject { ["commandId"] = Guid.CreateVersion7() };

        var refused = await nobody.PostAsJsonAsync("/api/v1/clock/stop", command);
        var person = await host.Shop.WithTokenAsync(host.Shop.Person(ShopRole.Technician).Id, Permission.WorkOnJobs);
        var taken = await person.PostAsJsonAsync("/api/v1/clock/stop", new JsonObject { ["commandId"] = Guid.CreateVersion7() });

        Assert.Equal(HttpStatusCode.UnprocessableEntity, refused.StatusCode);
        Assert.Equal(HttpStatusCode.NoContent, taken.StatusCode);
    }

    [Fact]
    public async Task Measurements_of_a_job_without_a_signal_path_are_an_empty_list_and_another_job_is_missing()
    {
        var id = await OpenAsync("To be measured");

        var list = await host.Bay.GetFromJsonAsync<JsonObject>($"/api/v1/jobs/{id}/measurements");

        Assert.Equal((0, 0), (list!["channels"]!.AsArray().Count, list["rows"]!.AsArray().Count));
        Assert.Equal(HttpStatusCode.NotFound, (await host.Bay.GetAsync($"/api/v1/jobs/{Guid.CreateVersion7()}/measurements")).StatusCode);
        Assert.Equal(HttpStatusCode.Unauthorized, (await host.Shop.Anonymous().GetAsync($"/api/v1/jobs/{id}/measurements")).StatusCode);
    }

    [Fact]
    public async Task A_factory_signal_nobody_measured_has_no_sides_and_another_job_is_missing()
    {
        var id = await OpenAsync("Factory sound");

        var signal = await host.Bay.GetFromJsonAsync<JsonObject>($"/api/v1/jobs/{id}/factory-signal");

        Assert.Equal((0, 0, 0), (signal!["sides"]!.AsArray().Count, signal["inputs"]!.AsArray().Count, signal["problems"]!.AsArray().Count));
        Assert.Equal(8, (int)signal["choice"]!["filters"]!);
        Assert.Equal(HttpStatusCode.NotFound, (await host.Bay.GetAsync($"/api/v1/jobs/{Guid.CreateVersion7()}/factory-signal")).StatusCode);
        Assert.Equal(HttpStatusCode.Unauthorized, (await host.Shop.Anonymous().GetAsync($"/api/v1/jobs/{id}/factory-signal")).StatusCode);
    }

    [Fact]
    public async Task No_token_an_expired_and_a_revoked_one_get_401_and_a_problem()
    {
        var revoked = await host.Shop.WithTokenAsync(Permission.SeeJobs);
        var owner = host.Shop.Actor(ShopRole.Owner);
        var tokens = host.Shop.Get<ApiTokens>();
        var newest = (await tokens.ListAsync(owner, CancellationToken.None))[0];
        Assert.Equal(HttpStatusCode.OK, (await revoked.GetAsync("/api/v1/jobs")).StatusCode);
        await tokens.RevokeAsync(owner, newest.Id, CancellationToken.None);
        var madeUp = host.Shop.Anonymous();
        madeUp.DefaultRequestHeaders.Authorization = new AuthenticationHeaderValue("Bearer", ApiTokens.Prefix + new string('A', 43));

        foreach (var program in new[] { host.Shop.Anonymous(), revoked, madeUp, await host.Shop.SignInAsync(ShopRole.Owner) })
        {
            var answer = await program.GetAsync("/api/v1/jobs");
            Assert.Equal(HttpStatusCode.Unauthorized, answer.StatusCode);
            Assert.Equal("application/problem+json", answer.Content.Headers.ContentType?.MediaType);
        }
    }

    private async Task<string> OpenAsync(string title)
    {
        var answer = await host.Desk.PostAsJsonAsync("/api/v1/jobs", new JsonObject
        {
            ["newClient"] = new JsonObject { ["name"] = "Clea Client", ["phone"] = "555 0100" },
            ["newVehicle"] = new JsonObject { ["make"] = "Verano", ["model"] = "Lince", ["modelYear"] = 2020 },
            ["card"] = new JsonObject { ["title"] = title, ["budgetFrom"] = 1500 },
        });
        Assert.True(answer.StatusCode == HttpStatusCode.Created, await answer.Content.ReadAsStringAsync());
        return (string?)(await answer.Content.ReadFromJsonAsync<JsonObject>())?["id"] ?? "";
    }

    private static async Task<HttpResponseMessage> EditAsync(HttpClient program, string id, string? version, string title)
    {
        using var edit = new HttpRequestMessage(HttpMethod.Put, $"/api/v1/jobs/{id}/card") { Content = JsonContent.Create(new JsonObject { ["title"] = title }) };
        if (version is not null)
        {
            edit.Headers.TryAddWithoutValidation("If-Match", version);
        }

        return await program.SendAsync(edit);
    }

    private static JsonObject Part(decimal price) => new()
    {
        ["kind"] = "accessory",
        ["name"] = "Grommet",
        ["unitPrice"] = price,
        ["quantity"] = 2,
        ["data"] = new JsonObject { ["kind"] = "accessory" },
    };
}
