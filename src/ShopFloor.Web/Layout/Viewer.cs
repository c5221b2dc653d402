using System.Globalization;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Staff;

namespace ShopFloor.Web.Layout;

/// <summary>Who looks at the page and how they like to read: cascaded by the layouts to every page.</summary>
/// <param name="Actor">The signed-in person.</param>
/// <param name="Units">Their units.</param>
/// <param name="Zone">The shop's time zone.</param>
/// <param name="Currency">The shop's currency code.</param>
/// <param name="ShopName">The shop's name.</param>
public sealed record Viewer(Actor Actor, UnitSystem Units, TimeZoneInfo Zone, string Currency, string ShopName)
{
    public bool May(Permission permission) => Actor.May(permission);

    /// <summary>An instant in the shop's zone.</summary>
    public DateTimeOffset Local(DateTimeOffset instant) => TimeZoneInfo.ConvertTime(instant, Zone);

    public string Moment(DateTimeOffset instant) => Local(instant).ToString("d MMM yyyy HH:mm", CultureInfo.CurrentCulture);

    public string Day(DateOnly day) => day.ToString("d MMM yyyy", CultureInfo.CurrentCulture);

    public DateOnly Today(TimeProvider time) => DateOnly.FromDateTime(Local(time.GetUtcNow()).DateTime);
}
