using System.Net;
using ShopFloor.Shop.Clients;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Phases.Estimate;
using ShopFloor.Shop.Phases.Intake;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Vehicles;

namespace ShopFloor.Web.Tests.Clients;

/// <summary>The words are English; numbers follow the client's browser where it asks for some English, else the shop.</summary>
public sealed class ClientCultureTests : IAsyncLifetime
{
    private readonly ShopApplication _shop = new();

    public Task InitializeAsync() => _shop.InitializeAsync();

    public Task DisposeAsync() => ((IAsyncLifetime)_shop).DisposeAsync();

    // Separators as the Unicode CLDR gives them: en-GB and en-US 1,234.50; en-DE 1.234,50.
    [Theory]
    [InlineData(null, "1,234.50")]
    [InlineData("en-US,en;q=0.8", "1,234.50")]
    [InlineData("en-DE", "1.234,50")]
    [InlineData("de-DE,de;q=0.9", "1,234.50")]
    [InlineData("no language at all", "1,234.50")]
    public async Task Amounts_are_written_as_the_client_or_the_shop_writes_them(string? asked, string expected)
    {
        var browser = await BrowserOfPricedJobAsync();
        if (asked is not null)
        {
            browser.DefaultRequestHeaders.TryAddWithoutValidation("Accept-Language", asked);
        }

        var page = WebUtility.HtmlDecode(await browser.GetStringAsync("/c/estimate"));

        Assert.Contains(expected, page, StringComparison.Ordinal);
        Assert.Contains("€", page, StringComparison.Ordinal);
        Assert.Contains("Days and times are the shop's: UTC.", page, StringComparison.Ordinal);
    }

    private async Task<HttpClient> BrowserOfPricedJobAsync()
    {
        var desk = _shop.Actor(ShopRole.FrontDesk);
        var job = await _shop.Get<JobDesk>().OpenAsync(
            desk,
            new OpenJob
            {
                NewClient = new ClientDetails { Name = "Clea Client" },
                NewVehicle = new VehicleDetails { Make = "Verano", Model = "Lince", ModelYear = 2024, Plate = "AB 123" },
                Card = new JobCardDetails { Title = "Better sound" },
            },
            CancellationToken.None);
        Assert.True(job.Succeeded, job.Message);
        var part = await _shop.Get<PartsList>().AddAsync(desk, job.Value, new JobPartDetails { Name = "Amplifier", UnitPrice = 1234.50m }, CancellationToken.None);
        Assert.True(part.Succeeded, part.Message);
        var estimates = _shop.Get<Estimates>();
        var draft = (await estimates.SheetAsync(desk, job.Value, CancellationToken.None)).Draft;
        var issued = await estimates.IssueAsync(desk, job.Value, draft.ContentHash, "", CancellationToken.None);
        Assert.True(issued.Succeeded, issued.Message);
        var link = await _shop.Get<ClientLinks>().CreateAsync(desk, job.Value, CancellationToken.None);
        Assert.True(link.Succeeded, link.Message);
        var browser = _shop.Anonymous();
        Assert.Equal(HttpStatusCode.SeeOther, (await browser.GetAsync(link.Value.Path)).StatusCode);
        return browser;
    }
}
