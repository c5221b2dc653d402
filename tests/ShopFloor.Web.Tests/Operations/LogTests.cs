using System.Net;
using Microsoft.Extensions.Hosting;
using ShopFloor.Shop.Staff;

namespace ShopFloor.Web.Tests.Operations;

public sealed class LogTests
{
    [Fact]
    public async Task Neither_passwords_nor_PINs_nor_tokens_nor_addresses_typed_reach_the_log()
    {
        await using var shop = new ShopApplication();
        await shop.InitializeAsync();
        var tablet = await shop.SwitchInAsync(ShopRole.Technician);
        await shop.PostPinAsync(await shop.RegisterTabletAsync("Bay 2"), ShopRole.Owner, "951268");
        await ShopApplication.PostSignInAsync(shop.Anonymous(), "owner", "a-wrong-password-typed");
        var program = await shop.WithTokenAsync(Permission.SeeJobs);
        await program.GetAsync("/api/v1/jobs?search=clea-the-client");
        await shop.Anonymous().GetAsync("/c/client-link-secret-in-the-address");
        await tablet.GetAsync("/nowhere/personal-name-in-the-address?q=personal-query");
        var text = await LogOfAsync(shop);

        Assert.Contains("/sign-in", text, StringComparison.Ordinal);
        Assert.Contains("/api/v1/jobs", text, StringComparison.Ordinal);
        var secrets = new[]
        {
            ShopApplication.Password, "a-wrong-password-typed", ShopApplication.Pin, "951268", program.DefaultRequestHeaders.Authorization?.Parameter ?? "none",
            "clea-the-client", "client-link-secret-in-the-address", "personal-name-in-the-address", "personal-query", "Technician Person", shop.Person(ShopRole.Owner).SecurityStamp ?? "none",
        };
        Assert.All(secrets, secret => Assert.DoesNotContain(secret, text, StringComparison.Ordinal));
    }

    [Fact]
    public async Task The_set_up_code_is_not_in_the_log()
    {
        await using var shop = new ShopApplication { Empty = true };
        Assert.Equal(HttpStatusCode.Redirect, (await shop.Anonymous().GetAsync("/sign-in")).StatusCode);
        var code = shop.Get<FirstOwner>().SetUpCode;

        Assert.DoesNotContain(code, await LogOfAsync(shop), StringComparison.Ordinal);
    }

    /// <summary>Ends the program, so that every request is written out, and reads the log.</summary>
    private static async Task<string> LogOfAsync(ShopApplication shop)
    {
        await shop.Get<IHost>().StopAsync();
        var text = "";
        foreach (var path in Directory.GetFiles(shop.Folder.Logs))
        {
            await using var file = new FileStream(path, FileMode.Open, FileAccess.Read, FileShare.ReadWrite);
            using var reader = new StreamReader(file);
            text += await reader.ReadToEndAsync();
        }

        return text;
    }
}
