using ShopFloor.Documents;
using ShopFloor.Shop;
using ShopFloor.Shop.Storage;
using ShopFloor.Web;
using ShopFloor.Web.Account;
using ShopFloor.Web.Clients.Link;
using ShopFloor.Web.Layout;
using ShopFloor.Web.Papers;
using ShopFloor.Web.Security;

var builder = WebApplication.CreateBuilder(args);
var start = StartOptions.Read(args, builder.Configuration);
var folder = new ShopFolder(start.DataFolder);

builder.Services.AddSingleton(start);
builder.Services.AddShop(folder);
builder.Services.AddDocuments();
builder.Services.AddClientLinkPages();
builder.Services.AddShopIdentity(builder.Environment, folder);
builder.Services.AddShopRateLimits(builder.Configuration);
builder.Services.AddScoped<ViewerSource>();
builder.Services.AddRazorComponents()
    .AddInteractiveServerComponents()
    // Short pings, so that a tablet out of Wi-Fi reach notices within seconds; connection.js waits for two of them.
    .AddHubOptions(hub => hub.KeepAliveInterval = TimeSpan.FromSeconds(3));
builder.Services.AddShell();

var app = builder.Build();
await app.PrepareShopAsync(start);

app.UseStatusCodePagesWithReExecute("/not-found", createScopeForStatusCodePages: true);
app.UseAuthentication();
app.UseRateLimiter();
app.UseAuthorization();
app.UseAntiforgery();
app.MapStaticAssets().AllowAnonymous();
app.MapAccount();
app.MapPapers();
app.MapClientLinkPages();
app.MapRazorComponents<App>().AddInteractiveServerRenderMode();

await app.RunAsync();

/// <summary>Named so that tests can host the program.</summary>
public partial class Program;
