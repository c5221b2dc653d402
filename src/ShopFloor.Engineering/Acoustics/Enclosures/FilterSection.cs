using System.Numerics;
using ShopFloor.Engineering.Acoustics.Drivers;
using ShopFloor.Engineering.Explained;

namespace ShopFloor.Engineering.Acoustics.Enclosures;

/// <summary>Kind of a filter section.</summary>
public enum FilterKind
{
    /// <summary>High-pass, 6 dB an octave.</summary>
    HighPassFirst,

    /// <summary>Low-pass, 6 dB an octave.</summary>
    LowPassFirst,

    /// <summary>High-pass, 12 dB an octave.</summary>
    HighPass,

    /// <summary>Low-pass, 12 dB an octave.</summary>
    LowPass,

    /// <summary>Bell.</summary>
    Bell,

    /// <summary>Shelf below.</summary>
    LowShelf,

    /// <summary>Shelf above.</summary>
    HighShelf,

    /// <summary>Band-pass of 0 dB at its middle.</summary>
    BandPass,

    /// <summary>Takes one frequency out.</summary>
    Notch,

    /// <summary>Turns the phase by 360°, 180° at its frequency; the level stays.</summary>
    AllPass,

    /// <summary>Turns the phase by 180°, 90° at its frequency; the level stays.</summary>
    AllPassFirst,
}

/// <summary>A section of the filters before the amplifier; steeper ones are several in a row.</summary>
/// <remarks>
/// With p = j·f/f0 and A = 10^(gain/40): high-pass p²/(p² + p/Q + 1), low-pass 1/(…), bell (p² + p·A/Q + 1)/(p² + p/(A·Q) + 1), band-pass (p/Q)/(…), notch (p² + 1)/(…), all-pass (p² − p/Q + 1)/(…), shelves as the
/// analogue prototypes of Bristow-Johnson, Cookbook formulae for audio EQ (W3C note, 2021).
/// </remarks>
/// <param name="Kind">Kind.</param>
/// <param name="Hertz">Frequency, Hz (1 to 40,000).</param>
/// <param name="Q">Q (0.05 to 50); not used by first-order sections.</param>
/// <param name="GainDecibels">Gain of bell and shelves, dB (−40 to 40).</param>
public sealed record FilterSection(FilterKind Kind, double Hertz, double Q = 0.70710678118654757, double GainDecibels = 0)
{
    /// <summary>Output over input at a frequency.</summary>
    /// <param name="hertz">Frequency, Hz, above 0.</param>
    public Complex At(double hertz)
    {
        var p = new Complex(0, hertz / Hertz);
        var a = Math.Pow(10, GainDecibels / 40);
        var slope = Math.Sqrt(a) / Q * p;
        return Kind switch
        {
            FilterKind.HighPassFirst => p / (p + 1),
            FilterKind.LowPassFirst => 1 / (p + 1),
            FilterKind.HighPass => p * p / (p * p + p / Q + 1),
            FilterKind.LowPass => 1 / (p * p + p / Q + 1),
            FilterKind.Bell => (p * p + p * a / Q + 1) / (p * p + p / (a * Q) + 1),
            FilterKind.LowShelf => a * (p * p + slope + a) / (a * p * p + slope + 1),
            FilterKind.BandPass => p / Q / (p * p + p / Q + 1),
            FilterKind.Notch => (p * p + 1) / (p * p + p / Q + 1),
            FilterKind.AllPass => (p * p - p / Q + 1) / (p * p + p / Q + 1),
            FilterKind.AllPassFirst => (1 - p) / (1 + p),
            _ => a * (a * p * p + slope + 1) / (p * p + slope + a),
        };
    }

    internal void Check(InputChecks checks, string path)
    {
        checks.Known($"{path}.{nameof(Kind)}", "Kind of filter", Kind);
        checks.InRange($"{path}.{nameof(Hertz)}", "Frequency of the filter in Hz", Hertz, 1, 40_000);
        checks.InRange($"{path}.{nameof(Q)}", "Q of the filter", Q, 0.05, 50);
        checks.InRange($"{path}.{nameof(GainDecibels)}", "Gain of the filter in dB", GainDecibels, -40, 40);
    }
}

/// <summary>A response with filters before the amplifier.</summary>
public static class FilteredResponse
{
    /// <summary>Sections one after the other at a frequency.</summary>
    /// <param name="sections">Sections; none is a wire.</param>
    /// <param name="hertz">Frequency, Hz, above 0.</param>
    public static Complex Gain(IReadOnlyList<FilterSection> sections, double hertz)
    {
        ArgumentNullException.ThrowIfNull(sections);
        return sections.Aggregate(Complex.One, (gain, section) => gain * section.At(hertz));
    }

    /// <summary>Level, phase, excursion, air speed and power with the filters; impedance stays.</summary>
    /// <param name="points">Response at the voltage before the filters.</param>
    /// <param name="sections">Sections.</param>
    public static IReadOnlyList<ResponsePoint> Of(IReadOnlyList<ResponsePoint> points, IReadOnlyList<FilterSection> sections)
    {
        ArgumentNullException.ThrowIfNull(points);
        return [.. points.Select(point =>
        {
            var gain = Gain(sections, point.Hertz);
            var size = gain.Magnitude;
            return point with
            {
                LevelDecibels = point.LevelDecibels + 20 * Math.Log10(Math.Max(size, 1e-30)),
                PhaseDegrees = Math.IEEERemainder(point.PhaseDegrees + gain.Phase * 180 / Math.PI, 360),
                ExcursionMeters = point.ExcursionMeters * size,
                PortMetersPerSecond = point.PortMetersPerSecond * size,
                RadiatorMeters = point.RadiatorMeters * size,
                Watts = point.Watts * size * size,
            };
        })];
    }

    /// <summary>Largest voltage before the filters that keeps every limit at every frequency of the response, V rms; null when nothing limits it.</summary>
    /// <param name="points">Response without filters, at a voltage.</param>
    /// <param name="volts">That voltage, V rms, above 0.</param>
    /// <param name="sections">Sections.</param>
    /// <param name="driver">The driver, or several as one.</param>
    /// <param name="limits">Limits; the amplifier's counts behind the filters.</param>
    public static (double Hertz, double Volts, LevelLimit Limit)? LargestInput(
        IReadOnlyList<ResponsePoint> points, double volts, IReadOnlyList<FilterSection> sections, DriverParameters driver, LevelLimits limits)
    {
        var largest = LargestLevel.Of(points, volts, driver, limits)
            .Where(point => point is { Volts: not null, Limit: not null })
            .Select(point => (point.Hertz, Volts: point.Volts!.Value / Math.Max(1e-30, Gain(sections, point.Hertz).Magnitude), Limit: point.Limit!.Value)) // filtered
            .OrderBy(point => point.Volts).ToList();
        return largest.Count > 0 ? largest[0] : null;
    }
}
