using ShopFloor.Documents;
using ShopFloor.Shop;
using ShopFloor.Shop.Storage;
using ShopFloor.Web;
using ShopFloor.Web.Account;
using ShopFloor.Web.Api;
using ShopFloor.Web.Catalogue;
using ShopFloor.Web.Clients.Link;
using ShopFloor.Web.Layout;
using ShopFloor.Web.Live;
using ShopFloor.Web.Operations;
using ShopFloor.Web.Papers;
using ShopFloor.Web.Phases.Build;
using ShopFloor.Web.Security;
using ShopFloor.Web.Settings;

var start = StartOptions.Read(args);
var builder = WebApplication.CreateBuilder(start.HostArguments);
start = start.With(builder.Configuration);
if (start.Verb != StartVerb.Serve || start.Misuse is not null)
{
    return await OperatorActs.RunAsync(start, Console.Out, Console.Error, CancellationToken.None);
}

var folder = new ShopFolder(start.DataFolder);
builder.WebHost.ConfigureKestrel(server => server.AddServerHeader = false);
builder.Services.AddSingleton(start);
builder.Services.AddShopLogs(folder);
builder.Services.AddShopHealth();
builder.Services.AddShop(folder);
builder.Services.AddDocuments();
builder.Services.AddClientLinkPages(builder.Environment);
builder.Services.AddShopIdentity(builder.Environment, folder);
builder.Services.AddShopRateLimits(builder.Configuration);
builder.Services.AddProxyTrust(builder.Configuration);
builder.Services.AddFaults();
builder.Services.AddShopApi();
builder.Services.AddScoped<ViewerSource>();
builder.Services.AddRazorComponents()
    .AddInteractiveServerComponents()
    // Short pings, so that a tablet out of Wi-Fi reach notices within seconds; connection.js waits for two of them.
    .AddHubOptions(hub => hub.KeepAliveInterval = TimeSpan.FromSeconds(3));
builder.Services.AddShell();

var app = builder.Build();
await app.PrepareShopAsync(start);

app.UseForwardedHeaders();
app.UseShopHeaders();
app.UseRequestLog();
app.UseFaults();
app.UseCircuitOriginCheck();
app.UseClientCulture();
app.UseRouting();
app.UseAuthentication();
app.UseRateLimiter();
app.UseAuthorization();
app.UseAntiforgery();

app.MapStaticAssets().AllowAnonymous();
app.MapShopHealth();
app.MapAccount();
app.MapShopApi();
app.MapCatalogueFiles();
app.MapBuild();
app.MapPhotos();
app.MapFiles();
app.MapMeshes();
app.MapPulse();
app.MapPapers();
app.MapPresetSheets();
app.MapTestSignals();
app.MapClientLinkPages();
app.MapBackupFiles();
app.MapRazorComponents<App>().AddInteractiveServerRenderMode().CloseGallery(app.Environment);

await app.RunAsync();
return 0;

/// <summary>Named so that tests can host the program.</summary>
public partial class Program;
