using System.Globalization;
using ShopFloor.Engineering.Tuning.Filters;

namespace ShopFloor.Documents.Tuning;

/// <summary>Settings of a processor in words, for screens and papers.</summary>
public static class PresetWords
{
    public static string Shape(CrossoverShape shape) => shape switch
    {
        CrossoverShape.Butterworth => "Butterworth",
        CrossoverShape.LinkwitzRiley => "Linkwitz-Riley",
        CrossoverShape.Bessel => "Bessel",
        _ => throw new ArgumentOutOfRangeException(nameof(shape), shape, "Unknown shape."),
    };

    public static string Crossover(Crossover? half) => half is null
        ? "off"
        : string.Create(CultureInfo.CurrentCulture, $"{Shape(half.Shape)} {half.SlopeDecibelsPerOctave} dB/oct at {half.Hertz:0.##} Hz");

    public static string Kind(FilterKind kind) => kind switch
    {
        FilterKind.Peaking => "Bell",
        FilterKind.LowShelf => "Low shelf",
        FilterKind.HighShelf => "High shelf",
        FilterKind.LowPass => "Low-pass",
        FilterKind.HighPass => "High-pass",
        FilterKind.BandPass => "Band-pass",
        FilterKind.Notch => "Notch",
        FilterKind.AllPass => "All-pass",
        FilterKind.FirstOrderLowPass => "First-order low-pass",
        FilterKind.FirstOrderHighPass => "First-order high-pass",
        FilterKind.FirstOrderAllPass => "First-order all-pass",
        _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, "Unknown kind."),
    };

    public static string Gain(double decibels) => decibels.ToString("+0.##;-0.##;0", CultureInfo.CurrentCulture) + " dB";

    public static string Milliseconds(double seconds) => (seconds * 1e3).ToString("0.000", CultureInfo.CurrentCulture) + " ms";

    public static string Polarity(bool inverted) => inverted ? "turned" : "normal";

    public static bool HasGain(FilterKind kind) => kind is FilterKind.Peaking or FilterKind.LowShelf or FilterKind.HighShelf;
}
