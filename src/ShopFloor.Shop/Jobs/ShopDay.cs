using System.Globalization;
using Microsoft.EntityFrameworkCore;
using ShopFloor.Shop.Storage;

namespace ShopFloor.Shop.Jobs;

/// <summary>Days and clock times as the shop's own wall clock shows them.</summary>
public static class ShopDay
{
    public static async Task<TimeZoneInfo> ZoneAsync(this ShopDbContext db, CancellationToken cancellationToken)
    {
        var form = await db.ShopSettings.AsNoTracking().Select(settings => settings.Form).SingleOrDefaultAsync(cancellationToken);
        return TimeZoneInfo.TryFindSystemTimeZoneById(form?.TimeZoneId ?? "UTC", out var zone) ? zone : TimeZoneInfo.Utc;
    }

    public static DateOnly Today(TimeZoneInfo zone, DateTimeOffset now) => DateOnly.FromDateTime(TimeZoneInfo.ConvertTime(now, zone).DateTime);

    public static string ClockText(TimeZoneInfo zone, DateTimeOffset instant) =>
        TimeZoneInfo.ConvertTime(instant, zone).ToString("d MMM HH:mm", CultureInfo.CurrentCulture);

    /// <summary>
    /// The instant a wall clock showed a time. Where the clocks went back the hour exists twice: the reading nearer to
    /// <paramref name="near"/> is meant. Null where the clocks went forward and the time was never shown.
    /// </summary>
    public static DateTimeOffset? InstantOf(TimeZoneInfo zone, DateTime wallClock, DateTimeOffset near)
    {
        var local = DateTime.SpecifyKind(wallClock, DateTimeKind.Unspecified);
        if (zone.IsInvalidTime(local))
        {
            return null;
        }

        var offsets = zone.IsAmbiguousTime(local) ? zone.GetAmbiguousTimeOffsets(local) : [zone.GetUtcOffset(local)];
        return offsets
            .Select(offset => new DateTimeOffset(local, offset).ToUniversalTime())
            .MinBy(instant => (instant - near).Duration());
    }
}

/// <summary>How a promised date stands against today, in days and in words.</summary>
public static class Promise
{
    /// <returns>Days past the date; negative while there is time; null without a date.</returns>
    public static int? DaysLate(DateOnly? promisedOn, DateOnly today) => promisedOn is { } day ? today.DayNumber - day.DayNumber : null;

    public static string Words(DateOnly? promisedOn, DateOnly today) => DaysLate(promisedOn, today) switch
    {
        null => "no date promised",
        0 => "due today",
        1 => "1 day late",
        > 1 and var late => string.Create(CultureInfo.CurrentCulture, $"{late} days late"),
        -1 => "due tomorrow",
        { } ahead => string.Create(CultureInfo.CurrentCulture, $"in {-ahead} days"),
    };
}
