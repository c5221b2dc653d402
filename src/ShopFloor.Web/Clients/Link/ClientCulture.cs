using System.Globalization;
using Microsoft.AspNetCore.Localization;
using Microsoft.EntityFrameworkCore;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Money;
using ShopFloor.Shop.Storage;

namespace ShopFloor.Web.Clients.Link;

/// <summary>
/// How a client's pages write numbers and dates: as the browser asks for, as far as that fits their English words, else as the shop's own
/// papers do. The computer the program runs on has no say in it.
/// </summary>
public static class ClientCulture
{
    private static readonly CultureInfo Metric = CultureInfo.GetCultureInfo("en-GB");
    private static readonly CultureInfo Us = CultureInfo.GetCultureInfo("en-US");

    /// <summary>A German month in an English sentence would be nobody's language.</summary>
    private static readonly CultureInfo[] English =
        [.. CultureInfo.GetCultures(CultureTypes.SpecificCultures).Where(culture => culture.TwoLetterISOLanguageName == "en")];

    public static WebApplication UseClientCulture(this WebApplication app)
    {
        var options = new RequestLocalizationOptions
        {
            SupportedCultures = English,
            SupportedUICultures = English,
            DefaultRequestCulture = new RequestCulture(Metric),
            RequestCultureProviders =
            [
                new AcceptLanguageHeaderRequestCultureProvider(),
                new CustomRequestCultureProvider(async context => new ProviderCultureResult((await OfShopAsync(context)).Name)),
            ],
        };
        app.UseWhen(context => context.Request.Path.StartsWithSegments(ClientLinkEndpoints.Path), client => client.UseRequestLocalization(options));
        return app;
    }

    private static async Task<CultureInfo> OfShopAsync(HttpContext context)
    {
        var settings = await context.RequestServices.GetRequiredService<ShopStore>().ReadAsync(
            db => db.ShopSettings.FirstOrDefaultAsync(stored => stored.Id == ShopSettings.OnlyId, context.RequestAborted),
            context.RequestAborted);
        var form = settings?.Form ?? new ShopSettingsForm();
        return form.Units == UnitSystem.Us || form.LetterPaper ? Us : Metric;
    }
}
