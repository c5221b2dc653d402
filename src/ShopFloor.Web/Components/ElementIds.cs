using System.Globalization;

namespace ShopFloor.Web.Components;

/// <summary>Element ids that tie labels, help and messages to their inputs; unique within the process, so on any page.</summary>
internal static class ElementIds
{
    private static long _last;

    public static string Next(string kind) =>
        string.Create(CultureInfo.InvariantCulture, $"{kind}-{Interlocked.Increment(ref _last)}");
}
