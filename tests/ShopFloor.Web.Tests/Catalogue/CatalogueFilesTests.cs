using System.Net;
using ShopFloor.Shop.Staff;

namespace ShopFloor.Web.Tests.Catalogue;

public sealed class CatalogueFilesTests : IAsyncLifetime
{
    private readonly ShopApplication _app = new();

    public Task InitializeAsync() => _app.InitializeAsync();

    public Task DisposeAsync() => ((IAsyncLifetime)_app).DisposeAsync();

    [Fact]
    public async Task The_desk_takes_a_template_without_the_cost_column()
    {
        var browser = await _app.SignInAsync(ShopRole.FrontDesk);

        var response = await browser.GetAsync(new Uri("/catalogue/files/template-Fuse.csv", UriKind.Relative));

        Assert.Equal(HttpStatusCode.OK, response.StatusCode);
        Assert.Equal("text/csv", response.Content.Headers.ContentType!.MediaType);
        var text = await response.Content.ReadAsStringAsync();
        Assert.Contains("rating_amperes", text, StringComparison.Ordinal);
        Assert.DoesNotContain("unit_cost", text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_owners_file_has_the_cost_column()
    {
        var browser = await _app.SignInAsync(ShopRole.Owner);

        Assert.Contains("unit_cost", await browser.GetStringAsync(new Uri("/catalogue/files/catalogue.csv", UriKind.Relative)), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("/catalogue/files/template-Fuse.csv")]
    [InlineData("/catalogue/files/catalogue.csv")]
    public async Task A_technician_gets_no_file(string path)
    {
        var browser = await _app.SignInAsync(ShopRole.Technician);

        var response = await browser.GetAsync(new Uri(path, UriKind.Relative));

        Assert.DoesNotContain("unit_price", await response.Content.ReadAsStringAsync(), StringComparison.Ordinal);
        Assert.NotEqual(HttpStatusCode.OK, response.StatusCode);
    }
}
