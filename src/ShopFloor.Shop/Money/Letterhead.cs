using ShopFloor.Engineering.Units;

namespace ShopFloor.Shop.Money;

/// <summary>What stands at the head of every paper of the shop, and how the paper is printed.</summary>
/// <param name="ShopName">Name of the shop.</param>
/// <param name="Contact">Address, phone and e-mail, one line each; empty ones are left out.</param>
/// <param name="LetterPaper">Whether the shop prints on US Letter.</param>
/// <param name="Units">Units the paper shows first.</param>
/// <param name="TimeZoneId">Zone in which instants on the paper are written.</param>
public sealed record Letterhead(string ShopName, IReadOnlyList<string> Contact, bool LetterPaper, UnitSystem Units, string TimeZoneId)
{
    public static Letterhead From(ShopSettingsForm settings) => new(
        settings.Name,
        [.. new[] { settings.Address, settings.Phone, settings.Email }.SelectMany(text => text.Split('\n')).Select(line => line.Trim()).Where(line => line.Length > 0)],
        settings.LetterPaper,
        settings.Units,
        settings.TimeZoneId);

    /// <summary>The shop's zone as a reader elsewhere understands it, for example "Europe/Vienna time".</summary>
    [System.Text.Json.Serialization.JsonIgnore]
    public string ZoneText => TimeZoneId is "UTC" or "Etc/UTC" ? "UTC" : $"{TimeZoneId.Replace('_', ' ')} time";

    /// <summary>An instant as the shop's clock shows it.</summary>
    public DateTimeOffset Local(DateTimeOffset instant) =>
        TimeZoneInfo.ConvertTime(instant, TimeZoneInfo.TryFindSystemTimeZoneById(TimeZoneId, out var zone) ? zone : TimeZoneInfo.Utc);
}
