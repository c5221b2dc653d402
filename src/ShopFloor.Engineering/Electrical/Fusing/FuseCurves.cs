namespace ShopFloor.Engineering.Electrical.Fusing;

/// <summary>Time-current bands of the forms of ISO 8820, all from memory until the standard's text or the maker's curve is at hand.</summary>
public static class FuseCurves
{
    private const string Memory = ", from memory until the standard's text or the maker's curve is at hand";

    /// <summary>Blade and small blade. Where the two are remembered differently the wider band is used.</summary>
    public static FuseCurve Blade { get; } = Curve(
        "blade band", "ISO 8820-3",
        new(110, 360_000, null), new(135, 0.75, 1800), new(160, 0.25, 50), new(200, 0.15, 5), new(350, 0.04, 0.5), new(600, 0.02, 0.1));

    /// <summary>High-current blade.</summary>
    public static FuseCurve HighCurrentBlade { get; } = Curve(
        "high-current blade band", "ISO 8820-3",
        new(110, 360_000, null), new(135, 60, 1800), new(200, 2, 60), new(350, 0.2, 7), new(600, 0.04, 1));

    /// <summary>Small and large bolt-in.</summary>
    public static FuseCurve BoltIn { get; } = Curve(
        "bolt-in band", "ISO 8820-5",
        new(100, 14_400, null), new(135, 120, 1800), new(200, 1, 15), new(350, 0.3, 5), new(600, 0.1, 1));

    private static FuseCurve Curve(string name, string standard, params FuseCurvePoint[] points) =>
        new() { Name = name, Source = standard + Memory, IsFromMemory = true, Points = points };
}
