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

var app = builder.Build();
await app.Services.GetRequiredService<ShopDatabase>().PrepareAsync(app.Lifetime.ApplicationStopping);

app.UseAuthentication();
app.UseAuthorization();
app.MapGet("/", () => "ShopFloor");

await app.RunAsync();

/// <summary>Named so that tests can host the program.</summary>
public partial class Program;
