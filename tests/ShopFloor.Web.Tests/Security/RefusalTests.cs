using System.Net;
using System.Net.Http.Json;
using System.Text.Json.Nodes;
using Microsoft.Data.Sqlite;
using ShopFloor.Shop.Staff;

namespace ShopFloor.Web.Tests.Security;

public sealed class RefusalTests
{
    [Fact]
    public async Task Too_many_sign_ins_from_one_place_are_held_back_and_told_when_to_come_back()
    {
        await using var shop = new ShopApplication { Settings = { ["Shop:RateLimits:sign-in"] = "3" } };
        await shop.InitializeAsync();
        var browser = shop.Anonymous();
        for (var i = 0; i < 3; i++)
        {
            Assert.Equal(HttpStatusCode.Unauthorized, (await ShopApplication.PostSignInAsync(browser, "nobody", "wrong")).StatusCode);
        }

        var answer = await ShopApplication.PostSignInAsync(browser, "owner", ShopApplication.Password);

        Assert.Equal(HttpStatusCode.TooManyRequests, answer.StatusCode);
        Assert.NotNull(answer.Headers.RetryAfter);
        Assert.Contains("Too many tries", await answer.Content.ReadAsStringAsync(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Too_many_calls_of_a_program_are_held_back()
    {
        await using var shop = new ShopApplication { Settings = { ["Shop:RateLimits:api"] = "2" } };
        await shop.InitializeAsync();
        var program = await shop.WithTokenAsync(Permission.SeeJobs);
        await program.GetAsync("/api/v1/jobs");
        await program.GetAsync("/api/v1/jobs");

        var answer = await program.GetAsync("/api/v1/jobs");

        Assert.Equal(HttpStatusCode.TooManyRequests, answer.StatusCode);
        Assert.Equal("application/problem+json", answer.Content.Headers.ContentType?.MediaType);
    }

    [Fact]
    public async Task A_fault_shows_neither_stack_trace_nor_message()
    {
        await using var shop = new ShopApplication();
        await shop.InitializeAsync();
        var person = await shop.SignInAsync(ShopRole.Owner);
        var program = await shop.WithTokenAsync(Permission.SeeJobs);
        await using (var connection = new SqliteConnection(shop.Folder.ConnectionString))
        {
            // A database that lost a table: the deepest fault there is, on every way in.
            await connection.OpenAsync();
            await using var command = connection.CreateCommand();
            command.CommandText = "PRAGMA foreign_keys = OFF; DROP TABLE Jobs; DROP TABLE Tablets;";
            await command.ExecuteNonQueryAsync();
        }

        var page = await ShopApplication.PostFormAsync(person, "/tablet/register", "register", new() { ["Form.Name"] = "Bay 1" });
        var call = await program.GetAsync("/api/v1/jobs");

        foreach (var answer in new[] { page, call })
        {
            var body = await answer.Content.ReadAsStringAsync();
            Assert.Equal(HttpStatusCode.InternalServerError, answer.StatusCode);
            Assert.Contains("on our side", body, StringComparison.Ordinal);
            foreach (var inside in new[] { "no such table", "   at ", "Exception", "SQLite" })
            {
                Assert.DoesNotContain(inside, body, StringComparison.OrdinalIgnoreCase);
            }
        }

        Assert.Equal("text/html", page.Content.Headers.ContentType?.MediaType);
        Assert.Equal("application/problem+json", call.Content.Headers.ContentType?.MediaType);
    }

    [Fact]
    public async Task An_unknown_page_is_explained_to_people_and_a_problem_to_programs()
    {
        await using var shop = new ShopApplication();
        await shop.InitializeAsync();
        var browser = await shop.SignInAsync(ShopRole.Technician);

        var page = await browser.GetAsync("/no/such/page");
        var call = await (await shop.WithTokenAsync(Permission.SeeJobs)).GetAsync("/api/v1/no-such-call");

        Assert.Equal(HttpStatusCode.NotFound, page.StatusCode);
        Assert.Contains("Nothing is kept under this address", await page.Content.ReadAsStringAsync(), StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.NotFound, call.StatusCode);
        Assert.Equal(404, (int?)(await call.Content.ReadFromJsonAsync<JsonObject>())?["status"]);
    }

    [Fact]
    public async Task A_circuit_is_opened_only_from_a_page_of_the_shop()
    {
        await using var shop = new ShopApplication();
        await shop.InitializeAsync();
        var browser = await shop.SignInAsync(ShopRole.Owner);

        foreach (var (origin, allowed) in new[] { ("https://shop.test", true), ("https://elsewhere.example", false), ("http://shop.test", false), ("null", false) })
        {
            using var request = new HttpRequestMessage(HttpMethod.Post, "/_blazor/negotiate?negotiateVersion=1");
            request.Headers.Add("Origin", origin);
            var answer = await browser.SendAsync(request);

            Assert.Equal(allowed ? HttpStatusCode.OK : HttpStatusCode.Forbidden, answer.StatusCode);
        }
    }
}
