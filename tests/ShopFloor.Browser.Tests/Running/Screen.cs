using Microsoft.Playwright;

namespace ShopFloor.Browser.Tests.Running;

/// <summary>What somebody holds or sits at, in CSS pixels.</summary>
public sealed record Screen(string Name, int Width, int Height, bool Touch)
{
    public static Screen Desktop { get; } = new("desktop", 1366, 768, Touch: false);

    public static Screen Tablet { get; } = new("tablet", 1024, 768, Touch: true);

    public static Screen Phone { get; } = new("phone", 390, 844, Touch: true);

    public BrowserNewContextOptions Options => new()
    {
        ViewportSize = new ViewportSize { Width = Width, Height = Height },
        HasTouch = Touch,
        Locale = "en-GB",
        TimezoneId = "Europe/Vienna",
        ReducedMotion = ReducedMotion.Reduce,
    };

    public override string ToString() => Name;
}
