using System.Net;
using System.Net.Http.Headers;
using System.Net.Http.Json;
using System.Text;
using System.Text.Json.Nodes;
using ShopFloor.Engineering.Electrical;
using ShopFloor.Shop.Staff;

namespace ShopFloor.Web.Tests.Api;

public sealed class CalculationApiTests(CalculationApiTests.Host host) : IClassFixture<CalculationApiTests.Host>
{
    public sealed class Host : IAsyncLifetime
    {
        public ShopApplication Shop { get; } = new();

        public HttpClient Program { get; private set; } = new();

        public async Task InitializeAsync()
        {
            await Shop.InitializeAsync();
            Program = await Shop.WithTokenAsync(Permission.SeeJobs);
        }

        public Task DisposeAsync() => ((IAsyncLifetime)Shop).DisposeAsync();
    }

    [Fact]
    public async Task An_amplifiers_current_is_the_one_of_the_calculation_the_screens_use()
    {
        var answer = await PostAsync("amplifier-current", """{ "ratedOutputWatts": 600, "class": "d", "fullPowerEfficiency": 0.8, "idleAmperes": 1, "supplyVolts": 12 }""");

        // 600 W / (0.8 · 12 V) + 1 A = 63.5 A, by hand.
        Assert.Equal(63.5, (double?)answer["rated"]?["currentAmperes"] ?? double.NaN, 9);
        var same = AmplifierCurrent.Compute(new() { RatedOutputWatts = 600, Class = AmplifierClass.D, FullPowerEfficiency = 0.8, IdleAmperes = 1, SupplyVolts = 12 });
        Assert.Equal(same.Music.CurrentAmperes, (double?)answer["music"]?["currentAmperes"]);
        Assert.NotNull(answer["explanation"]?["steps"]);
    }

    [Fact]
    public async Task A_run_a_plan_and_a_mass_sum_are_answered()
    {
        var run = await PostAsync("run-sizing", """{ "id": "main", "name": "Main", "continuousAmperes": 60, "fedFromBattery": true, "run": { "lengthMeters": 5 } }""");
        Assert.NotNull(run["explanation"]);

        var plan = await PostAsync("electrical-plan", """
            { "points": [ { "id": "boot", "name": "Boot", "run": { "lengthMeters": 5 } } ], "loads": [ { "id": "a", "name": "Amp", "kind": "amplifier", "fedFrom": "boot", "amplifier": { "ratedOutputWatts": 400, "class": "d" }, "branch": { "lengthMeters": 0.5 } } ] }
            """);
        Assert.True((double?)plan["points"]?[0]?["amperes"] > 0);

        var mass = await PostAsync("added-mass", """{ "items": [ { "id": "a", "name": "Amp", "zone": "boot", "quantity": 2, "unitMassKilograms": 3.5 } ], "label": { "payloadKilograms": 400 } }""");
        Assert.Equal(7, (double?)mass["netKilograms"]);
        Assert.Equal(393, (double?)mass["remainingPayloadKilograms"]);
    }

    [Fact]
    public async Task A_supply_network_is_solved_and_its_collapse_named()
    {
        // 12 V behind 0.1 Ω can give 12²/(4 · 0.1) = 360 W at most.
        static string Network(int watts) => $$"""
            { "network": { "referenceNodeId": "g",
                "nodes": [ { "id": "g", "name": "Ground" }, { "id": "p", "name": "Plus" } ],
                "elements": [
                    { "kind": "battery", "id": "b", "name": "Battery", "from": "g", "to": "p", "openCircuitVolts": 12, "internalOhms": 0.1 },
                    { "kind": "constantPower", "id": "a", "name": "Amp", "from": "p", "to": "g", "musicWatts": 10, "fullWatts": {{watts}} } ] } }
            """;

        var solved = await PostAsync("feed-network", Network(200));
        var collapsed = await PostAsync("feed-network", Network(720));
        var (status, problem) = await SendAsync("feed-network", Network(200).Replace("\"to\": \"p\"", "\"to\": \"nowhere\"", StringComparison.Ordinal));

        // V = (12 + √(144 − 4 · 0.1 · 200)) / 2 = 10 V.
        Assert.Equal(10, (double)solved["nodes"]![1]!["volts"]!, 6);
        Assert.Equal(0.5, (double)collapsed["collapse"]!["largestLoadFactor"]!, 6);
        Assert.Equal(HttpStatusCode.UnprocessableEntity, status);
        Assert.StartsWith("network.elements[0]", (string?)problem["errors"]?[0]?["field"], StringComparison.OrdinalIgnoreCase);
    }

    [Fact]
    public async Task A_vehicle_number_is_checked_by_its_digit()
    {
        // All ones: the worked example of a valid check digit that needs no table (sum of weights 89 = 8 · 11 + 1).
        var right = await PostAsync("vin-check", """{ "vin": "11111111111111111" }""");
        Assert.True((bool?)right["checkDigitMatches"]);

        var (status, wrong) = await SendAsync("vin-check", """{ "vin": "11111111211111111" }""");
        Assert.Equal(HttpStatusCode.UnprocessableEntity, status);
        Assert.Equal("vin", (string?)wrong["errors"]?[0]?["field"]);
    }

    [Theory]
    [InlineData("""{ "ratedOutputWatts": -5, "class": "d" }""", "ratedOutputWatts", "is not accepted; enter ")]
    [InlineData("""{ "ratedOutputWatts": 500, "class": "z" }""", "class", "wrong kind")]
    [InlineData("""{ "ratedOutputWatts": "NaN", "class": "d" }""", "ratedOutputWatts", "wrong kind")]
    [InlineData("""{ "ratedOutputWatts": 1e999, "class": "d" }""", "ratedOutputWatts", "")]
    [InlineData("""{ "ratedOutputWatts": 500, "class": "d", "watts": 5 }""", "watts", "not a field")]
    [InlineData("""{ "class": "d" }""", "ratedOutputWatts", "missing")]
    [InlineData("""{ "ratedOutputWatts": 500, "class": "d", "name": null }""", "name", "")]
    [InlineData("""{ "ratedOutputWatts": NaN }""", "", "not JSON")]
    [InlineData("""[1, null]""", "[1]", "null")]
    [InlineData("""null""", "", "null")]
    [InlineData("", "", "not JSON")]
    public async Task Bad_input_is_answered_with_the_field_and_what_is_accepted(string body, string field, string words)
    {
        var (status, problem) = await SendAsync("amplifier-current", body);

        Assert.Equal(HttpStatusCode.UnprocessableEntity, status);
        var error = Assert.Single(problem["errors"]!.AsArray()); // a problem of this API has errors
        Assert.Equal(field, (string?)error?["field"]);
        Assert.Contains(words, (string?)error?["message"], StringComparison.Ordinal);
        Assert.DoesNotContain("ShopFloor.", problem.ToJsonString(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_refused_value_is_repeated_and_found_deep_inside()
    {
        var (_, problem) = await SendAsync("electrical-plan", """
            { "loads": [ { "id": "a", "name": "Amp", "kind": "fixed", "fixed": { "ratedAmperes": 5 }, "branch": { "lengthMeters": -3 } } ] }
            """);

        var error = problem["errors"]?.AsArray().FirstOrDefault(found => (string?)found?["field"] == "loads[0].branch.lengthMeters");
        Assert.NotNull(error);
        Assert.Equal(-3, (double?)error["value"]);
    }

    [Fact]
    public async Task A_null_inside_a_list_is_refused_and_not_a_fault()
    {
        var (status, problem) = await SendAsync("added-mass", """{ "items": [ null ] }""");

        Assert.Equal(HttpStatusCode.UnprocessableEntity, status);
        Assert.Equal("items[0]", (string?)problem["errors"]?[0]?["field"]);
    }

    [Fact]
    public async Task A_huge_body_and_another_content_type_are_refused()
    {
        var (huge, _) = await SendAsync("amplifier-current", "{ \"name\": \"" + new string('x', 17_000_000) + "\" }");
        using var text = new StringContent("hello", Encoding.UTF8, "text/plain");
        var plain = await host.Program.PostAsync("/api/v1/calculations/amplifier-current", text);

        Assert.Equal(HttpStatusCode.RequestEntityTooLarge, huge);
        Assert.Equal(HttpStatusCode.UnsupportedMediaType, plain.StatusCode);
        Assert.Equal("application/problem+json", plain.Content.Headers.ContentType?.MediaType);
    }

    [Fact]
    public async Task A_network_of_thousands_of_nodes_is_taken_and_solved()
    {
        // 2,000 loads of 1 W at the ends of a comb of equal resistances, behind a battery: far beyond any car.
        var nodes = string.Join(",", Enumerable.Range(0, 2_000).Select(n => $$"""{ "id": "n{{n}}", "name": "Node {{n}}" }"""));
        var elements = string.Join(",", Enumerable.Range(0, 2_000).SelectMany(n => new[]
        {
            $$"""{ "kind": "resistance", "id": "r{{n}}", "name": "Link {{n}}", "from": "n{{Math.Max(0, (n - 1) / 2)}}", "to": "n{{n}}", "ohms": 0.001 }""",
            $$"""{ "kind": "constantPower", "id": "l{{n}}", "name": "Load {{n}}", "from": "n{{n}}", "to": "g", "idleWatts": 1, "musicWatts": 1, "fullWatts": 1 }""",
        }).Skip(1));
        var (status, answer) = await SendAsync("feed-network", $$"""
            { "network": { "referenceNodeId": "g", "nodes": [ { "id": "g", "name": "Ground" }, {{nodes}} ],
              "elements": [ { "kind": "battery", "id": "b", "name": "Battery", "from": "g", "to": "n0", "openCircuitVolts": 12.6, "internalOhms": 0.006 }, {{elements}} ] },
              "scenario": { "engine": "off", "level": "music" } }
            """);

        Assert.Equal(HttpStatusCode.OK, status);
        var balance = answer["balance"]!; // a solved state has one
        Assert.Equal(2_000, (double)balance["loadWatts"]!, 1e-3);
        Assert.Equal((double)balance["sourceWatts"]!, (double)balance["loadWatts"]! + (double)balance["lossWatts"]!, 1e-3);
    }

    [Fact]
    public async Task Thousands_of_problems_are_told_by_the_first_of_them()
    {
        var loads = string.Join(",", Enumerable.Range(0, 150).Select(n => $$"""{ "id": "l{{n}}", "name": "Load {{n}}", "kind": "fixed", "fixed": { "ratedAmperes": -1 }, "branch": { "lengthMeters": 0 } }"""));
        var (status, problem) = await SendAsync("electrical-plan", $$"""{ "supplyVolts": 13.8, "points": [], "loads": [ {{loads}} ] }""");

        Assert.Equal(HttpStatusCode.UnprocessableEntity, status);
        Assert.Equal(50, problem["errors"]!.AsArray().Count); // a refusal names its errors
    }

    [Fact]
    public async Task The_description_lists_every_calculation_with_units_and_the_bearer_scheme()
    {
        var document = await host.Shop.Anonymous().GetFromJsonAsync<JsonObject>("/openapi/v1.json");

        Assert.NotNull(document);
        foreach (var name in new[] { "amplifier-current", "run-sizing", "electrical-plan", "added-mass", "vin-check", "feed-network", "feed-faults", "tree-sizing", "fuse-duty", "alternator-budget", "battery-time", "key-off-drain", "peak-support", "compartment-heat", "led-strip", "speaker-run", "signal-run", "turn-on-chain" })
        {
            Assert.NotNull(document["paths"]?[$"/api/v1/calculations/{name}"]?["post"]?["summary"]);
        }

        Assert.Equal("bearer", (string?)document["components"]?["securitySchemes"]?["ApiToken"]?["scheme"]);
        var watts = document["components"]?["schemas"]?["AmplifierCurrentInput"]?["properties"]?["ratedOutputWatts"];
        Assert.Contains("W", (string?)watts?["description"] ?? "", StringComparison.Ordinal);
        Assert.All(document["paths"]!.AsObject(), path => Assert.StartsWith("/api/v1/", path.Key, StringComparison.Ordinal)); // listed above
    }

    private async Task<JsonObject> PostAsync(string name, string body)
    {
        var (status, answer) = await SendAsync(name, body);
        Assert.True(status == HttpStatusCode.OK, answer.ToJsonString());
        return answer;
    }

    private async Task<(HttpStatusCode Status, JsonObject Answer)> SendAsync(string name, string body)
    {
        using var content = new StringContent(body, new MediaTypeHeaderValue("application/json"));
        var answer = await host.Program.PostAsync($"/api/v1/calculations/{name}", content);
        if (!answer.IsSuccessStatusCode)
        {
            Assert.Equal("application/problem+json", answer.Content.Headers.ContentType?.MediaType);
        }

        return (answer.StatusCode, await answer.Content.ReadFromJsonAsync<JsonObject>() ?? throw new InvalidOperationException("The answer is null."));
    }
}
