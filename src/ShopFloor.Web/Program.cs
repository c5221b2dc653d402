using MudBlazor.Services;
using ShopFloor.Shop;
using ShopFloor.Shop.Storage;
using ShopFloor.Web;
using ShopFloor.Web.Account;
using ShopFloor.Web.Layout;

var builder = WebApplication.CreateBuilder(args);
var start = StartOptions.Read(args, builder.Configuration);

builder.Services.AddShop(new ShopFolder(start.DataFolder));
builder.Services.AddShopIdentity(builder.Environment);
builder.Services.AddScoped<ViewerSource>();
builder.Services.AddRazorComponents()
    .AddInteractiveServerComponents()
    // Short pings, so that a tablet out of Wi-Fi reach notices within seconds; connection.js waits for two of them.
    .AddHubOptions(hub => hub.KeepAliveInterval = TimeSpan.FromSeconds(3));
builder.Services.AddMudServices();

var app = builder.Build();
await app.Services.GetRequiredService<ShopDatabase>().PrepareAsync(app.Lifetime.ApplicationStopping);

app.UseStatusCodePagesWithReExecute("/not-found", createScopeForStatusCodePages: true);
app.UseAuthentication();
app.UseAuthorization();
app.UseAntiforgery();
app.MapStaticAssets().AllowAnonymous();
app.MapRazorComponents<App>().AddInteractiveServerRenderMode();

await app.RunAsync();

/// <summary>Named so that tests can host the program.</summary>
public partial class Program;
