using System.Globalization;
using ShopFloor.Engineering.Tuning.Filters;

namespace ShopFloor.Engineering.Tuning.Processors;

/// <summary>Settings in words, always with a point for decimals, so that sheets can be read back.</summary>
internal static class SettingText
{
    public static string Number(double value, string format) => value.ToString(format, CultureInfo.InvariantCulture);

    public static string Shape(CrossoverShape shape) => shape switch
    {
        CrossoverShape.Butterworth => "Butterworth",
        CrossoverShape.LinkwitzRiley => "Linkwitz-Riley",
        CrossoverShape.Bessel => "Bessel",
        _ => throw new ArgumentOutOfRangeException(nameof(shape)),
    };

    public static string Crossover(Crossover? half) =>
        half is null ? "off" : $"{Shape(half.Shape)} {half.SlopeDecibelsPerOctave} dB/oct at {Number(half.Hertz, "0.##")} Hz";

    public static string Kind(FilterKind kind) => kind switch
    {
        FilterKind.Peaking => "bell",
        FilterKind.LowShelf => "low shelf",
        FilterKind.HighShelf => "high shelf",
        FilterKind.LowPass => "low-pass",
        FilterKind.HighPass => "high-pass",
        FilterKind.BandPass => "band-pass",
        FilterKind.Notch => "notch",
        FilterKind.AllPass => "all-pass",
        FilterKind.FirstOrderLowPass => "first-order low-pass",
        FilterKind.FirstOrderHighPass => "first-order high-pass",
        FilterKind.FirstOrderAllPass => "first-order all-pass",
        _ => throw new ArgumentOutOfRangeException(nameof(kind)),
    };

    public static string Gain(double decibels) => Number(decibels, "+0.##;-0.##;0") + " dB";
}
