using ShopFloor.Documents;
using ShopFloor.Shop.Demo;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Storage;

namespace ShopFloor.Web;

/// <summary>What happens once before the first request.</summary>
public static class ShopStart
{
    public static async Task PrepareShopAsync(this WebApplication app, StartOptions start)
    {
        var stopping = app.Lifetime.ApplicationStopping;
        if (start.Demo)
        {
            await DemoShop.MakeAsync(
                app.Services.GetRequiredService<ShopFolder>(),
                services => services.AddDocuments(),
                app.Services.GetRequiredService<TimeProvider>().GetUtcNow(),
                stopping);
        }

        await app.Services.GetRequiredService<ShopDatabase>().PrepareAsync(stopping);
        var first = app.Services.GetRequiredService<FirstOwner>();
        if (await first.IsNeededAsync(stopping))
        {
            // To the console alone: whoever reads it runs the computer. Log files would keep it.
            await Console.Out.WriteLineAsync($"This shop has nobody yet. Open /set-up and enter the set-up code {first.SetUpCode}");
        }
    }
}
