using ShopFloor.Web;
using ShopFloor.Web.Layout;

var builder = WebApplication.CreateBuilder(args);

builder.Services.AddRazorComponents()
    .AddInteractiveServerComponents()
    // Short pings, so that a tablet out of Wi-Fi reach notices within seconds; connection.js waits for two of them.
    .AddHubOptions(hub => hub.KeepAliveInterval = TimeSpan.FromSeconds(3));
builder.Services.AddShell();
builder.Services.AddCascadingAuthenticationState();
builder.Services.AddAuthorization();

var app = builder.Build();

app.UseStatusCodePagesWithReExecute("/not-found", createScopeForStatusCodePages: true);
app.UseAntiforgery();
app.MapStaticAssets();
app.MapRazorComponents<App>().AddInteractiveServerRenderMode();
app.Run();
