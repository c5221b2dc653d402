using System.Text.Json;

namespace ShopFloor.Shop.Staff.Secrets;

/// <summary>The counters of <see cref="PinGuard"/> as they are stored.</summary>
internal static class PinCounters
{
    public static PinCounter Read(string? stored) =>
        string.IsNullOrEmpty(stored) ? PinCounter.Fresh : JsonSerializer.Deserialize<PinCounter>(stored) ?? PinCounter.Fresh;

    public static string Write(PinCounter counter) => JsonSerializer.Serialize(counter);
}
