using Microsoft.EntityFrameworkCore;
using ShopFloor.Shop.Storage;

namespace ShopFloor.Shop.Money;

/// <summary>The shop's settings as use cases need them; a shop that never saved any has the defaults.</summary>
internal static class SettingsReading
{
    public static async Task<ShopSettingsForm> SettingsAsync(this ShopDbContext db, CancellationToken cancellationToken) =>
        (await db.ShopSettings.AsNoTracking().FirstOrDefaultAsync(settings => settings.Id == ShopSettings.OnlyId, cancellationToken))?.Form ?? new ShopSettingsForm();

    /// <summary>The shop's currency; "no currency" when the settings carry a code that is not known.</summary>
    public static Currency CurrencyOf(ShopSettingsForm settings) => Currency.TryFromCode(settings.Currency, out var currency, out _) ? currency : default;

    public static TimeZoneInfo ZoneOf(ShopSettingsForm settings) =>
        TimeZoneInfo.TryFindSystemTimeZoneById(settings.TimeZoneId, out var zone) ? zone : TimeZoneInfo.Utc;

    public static DateOnly DayIn(ShopSettingsForm settings, DateTimeOffset instant) =>
        DateOnly.FromDateTime(TimeZoneInfo.ConvertTime(instant, ZoneOf(settings)).DateTime);
}
