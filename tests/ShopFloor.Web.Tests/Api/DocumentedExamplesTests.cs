using System.Globalization;
using System.Net;
using System.Net.Http.Headers;
using System.Net.Http.Json;
using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;

namespace ShopFloor.Web.Tests.Api;

/// <summary>Posts the example of every page beside the API and holds the answer printed there to the one that comes.</summary>
public sealed partial class DocumentedExamplesTests(CalculationApiTests.Host host) : IClassFixture<CalculationApiTests.Host>
{
    private static readonly bool Write = Environment.GetEnvironmentVariable("SHOPFLOOR_WRITE_EXAMPLES") == "1";

    private static readonly JsonSerializerOptions Printed = new() { WriteIndented = true, Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping, NewLine = "\n" };

    public static TheoryData<string> Names => [.. Pages];

    private static List<string> Pages => [.. Directory.GetFiles(Folder, "*.md").Select(file => Path.GetFileNameWithoutExtension(file)).Where(name => name != "README").Order(StringComparer.Ordinal)];

    private static string Folder => Path.Combine(Root(), "src", "ShopFloor.Web", "Api", "Examples");

    [Theory]
    [MemberData(nameof(Names))]
    public async Task The_documented_answer_is_the_one_that_comes(string name)
    {
        var file = Path.Combine(Folder, $"{name}.md");
        var page = (await File.ReadAllTextAsync(file)).ReplaceLineEndings("\n");
        var match = Example().Match(page);
        Assert.True(match.Success, $"{name}.md has no request with its answer.");

        using var body = new StringContent(match.Groups["request"].Value, new MediaTypeHeaderValue("application/json"));
        var response = await host.Program.PostAsync($"/api/v1/calculations/{name}", body);
        var answer = await response.Content.ReadFromJsonAsync<JsonNode>();

        Assert.True(response.StatusCode == HttpStatusCode.OK, answer?.ToJsonString());
        if (Write)
        {
            var printed = match.Groups["answer"];
            await File.WriteAllTextAsync(file, page[..printed.Index] + answer!.ToJsonString(Printed) + page[(printed.Index + printed.Length)..]); // an answer of 200 has a body
            return;
        }

        Assert.Equal([], Differences("", JsonNode.Parse(match.Groups["answer"].Value), answer));
    }

    [Fact]
    public async Task Every_calculation_has_a_page_and_the_index_names_each()
    {
        var document = await host.Shop.Anonymous().GetFromJsonAsync<JsonObject>("/openapi/v1.json");
        const string Prefix = "/api/v1/calculations/";
        var served = document!["paths"]!.AsObject().Select(path => path.Key).Where(path => path.StartsWith(Prefix, StringComparison.Ordinal)).Select(path => path[Prefix.Length..]).Order(StringComparer.Ordinal); // the description lists its paths
        var index = await File.ReadAllTextAsync(Path.Combine(Folder, "README.md"));

        Assert.Equal(served, Pages);
        Assert.All(Pages, name => Assert.Contains($"({name}.md)", index, StringComparison.Ordinal));
    }

    // Numbers may differ in their last digits between processors.
    private static IEnumerable<string> Differences(string at, JsonNode? printed, JsonNode? comes)
    {
        switch (printed, comes)
        {
            case (JsonObject left, JsonObject right):
                return left.Select(pair => pair.Key).Union(right.Select(pair => pair.Key)).SelectMany(key => left.ContainsKey(key) && right.ContainsKey(key)
                    ? Differences($"{at}.{key}", left[key], right[key])
                    : [$"{at}.{key} is only in {(left.ContainsKey(key) ? "the page" : "the answer")}"]);
            case (JsonArray left, JsonArray right):
                return left.Count == right.Count ? left.Zip(right).SelectMany((pair, index) => Differences($"{at}[{index}]", pair.First, pair.Second)) : [$"{at} has {left.Count} entries in the page and {right.Count} in the answer"];
            case (JsonValue left, JsonValue right) when left.GetValueKind() == JsonValueKind.Number && right.GetValueKind() == JsonValueKind.Number:
                var (a, b) = ((double)left, (double)right);
                return Math.Abs(a - b) <= 1e-9 * Math.Max(1, Math.Abs(a)) ? [] : [string.Create(CultureInfo.InvariantCulture, $"{at}: {a} in the page, {b} in the answer")];
            default:
                return printed?.ToJsonString() == comes?.ToJsonString() ? [] : [$"{at}: {printed?.ToJsonString()} in the page, {comes?.ToJsonString()} in the answer"];
        }
    }

    private static string Root()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (!File.Exists(Path.Combine(folder.FullName, "ShopFloor.sln")))
        {
            folder = folder.Parent ?? throw new InvalidOperationException("The tests do not run inside the repository.");
        }

        return folder.FullName;
    }

    [GeneratedRegex("```json request\n(?<request>.*?)\n```\n.*?```json answer\n(?<answer>.*?)\n```", RegexOptions.Singleline)]
    private static partial Regex Example();
}
