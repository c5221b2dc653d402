using System.Net;

namespace ShopFloor.Web.Tests.Operations;

public sealed class HealthTests
{
    [Fact]
    public async Task A_shop_that_can_work_is_live_and_ready_and_says_no_more_than_that()
    {
        await using var shop = new ShopApplication();
        var watcher = shop.Anonymous();

        Assert.Equal("Healthy", await watcher.GetStringAsync("/health/live"));
        Assert.Equal("Healthy", await watcher.GetStringAsync("/health/ready"));
    }

    [Fact]
    public async Task A_full_disk_is_not_ready_but_live()
    {
        await using var shop = new ShopApplication { Settings = { ["Shop:LeastFreeMegabytes"] = "999999999" } };
        var watcher = shop.Anonymous();

        Assert.Equal(HttpStatusCode.OK, (await watcher.GetAsync("/health/live")).StatusCode);
        Assert.Equal(HttpStatusCode.ServiceUnavailable, (await watcher.GetAsync("/health/ready")).StatusCode);
    }
}
