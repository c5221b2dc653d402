using ShopFloor.Engineering.Acoustics.Drivers;
using ShopFloor.Engineering.Numerics;
using ShopFloor.Engineering.Physics;
using ShopFloor.Engineering.Responses;

namespace ShopFloor.Engineering.Acoustics.Enclosures;

/// <summary>A cabin as it lifts low frequencies.</summary>
/// <param name="CornerHertz">Corner of its pressure zone, Hz (20 to 200); see <see cref="CabinGain"/>.</param>
/// <param name="LeakHertz">Frequency below which the rise stops, Hz (1 to 100); null for a tight one.</param>
/// <param name="Measured">Level in the car over that in free air, dB, as measured; it takes the place of the estimate. Null where nobody measured.</param>
public sealed record CabinLift(double CornerHertz, double? LeakHertz = null, FrequencyResponse? Measured = null)
{
    /// <summary>What the cabin adds at a frequency, dB: as measured, the end values held beyond the ends, else as estimated.</summary>
    /// <param name="hertz">Frequency, Hz, above 0.</param>
    public double Decibels(double hertz) => Measured is { } known ? known.DecibelsAt(hertz) : CabinGain.Decibels(hertz, CornerHertz, LeakHertz);
}

/// <summary>A box in a few numbers.</summary>
public sealed record BoxSummary
{
    /// <summary>Total Q in a closed box without losses; null for others.</summary>
    public required double? Qtc { get; init; }

    /// <summary>Frequency 3 dB below the flat part, Hz, without coil inductance and filters; null when it lies below 5 Hz.</summary>
    public required double? CornerHertz { get; init; }

    /// <summary>Highest point above the flat part, dB, without coil inductance and filters; 0 for a band-pass, which has none.</summary>
    public required double PeakDecibels { get; init; }

    /// <summary>Difference of the highest and the lowest level in the band, dB, with the cabin where there is one, and filters.</summary>
    public required double RippleDecibels { get; init; }

    /// <summary>Root mean square of the level about its mean in the band, dB, with cabin and filters.</summary>
    public required double UnevenDecibels { get; init; }

    /// <summary>Largest excursion in the band, m peak, with filters, at the voltage.</summary>
    public required double ExcursionMeters { get; init; }

    /// <summary>Largest air speed of the port in the band, m/s peak; null without one.</summary>
    public required double? PortMetersPerSecond { get; init; }

    /// <summary>Lowest impedance in the band, Ω.</summary>
    public required double LeastOhms { get; init; }

    /// <summary>Level at the middle of the band with filters and cabin, dB at 1 m in half-space for the voltage.</summary>
    public required double MiddleDecibels { get; init; }

    /// <summary>Sums a box up.</summary>
    /// <param name="driver">The driver, or several as one.</param>
    /// <param name="box">The box.</param>
    /// <param name="air">The air.</param>
    /// <param name="volts">Voltage before the filters, V rms.</param>
    /// <param name="band">Band looked at, Hz.</param>
    /// <param name="cabin">The cabin; null for none.</param>
    /// <param name="filters">Filters.</param>
    public static BoxSummary Of(DriverParameters driver, Enclosure box, Air air, double volts, (double From, double To) band, CabinLift? cabin, IReadOnlyList<FilterSection> filters)
    {
        ArgumentNullException.ThrowIfNull(driver);
        ArgumentNullException.ThrowIfNull(box);
        ArgumentNullException.ThrowIfNull(air);
        var points = FilteredResponse.Of(EnclosureResponse.Over(driver, box, air, volts, EnclosureResponse.LogSpaced(band.From, band.To, 241)), filters);
        var levels = InCabin(points, cabin);
        var mean = levels.Average();
        var (corner, peak) = Corner(driver, box, air);
        return new BoxSummary
        {
            Qtc = box is ClosedBox ? ClosedBoxTheory.Qtc(driver.Qts, driver.VasCubicMeters(air) / box.NetCubicMeters) : null,
            CornerHertz = corner,
            PeakDecibels = peak,
            RippleDecibels = levels.Max() - levels.Min(),
            UnevenDecibels = Math.Sqrt(levels.Average(level => (level - mean) * (level - mean))),
            ExcursionMeters = points.Max(point => point.ExcursionMeters),
            PortMetersPerSecond = points.Max(point => point.PortMetersPerSecond),
            LeastOhms = points.Min(point => point.ImpedanceOhms),
            MiddleDecibels = levels[levels.Length / 2],
        };
    }

    internal static double[] InCabin(IReadOnlyList<ResponsePoint> points, CabinLift? cabin) =>
        [.. points.Select(point => point.LevelDecibels + (cabin?.Decibels(point.Hertz) ?? 0))];

    // Against the level of the reference efficiency; a band-pass against its own highest point.
    private static (double? Hertz, double Peak) Corner(DriverParameters driver, Enclosure box, Air air)
    {
        var plain = driver with { LeHenries = 0, LossHenries = 0 };
        double Level(double hertz) => EnclosureResponse.At(plain, box, air, 1, hertz).LevelDecibels;
        var grid = EnclosureResponse.LogSpaced(5, 1_000, 1_200);
        double[] levels = [.. grid.Select(Level)];
        var top = Array.IndexOf(levels, levels.Max());
        var flat = box is BandPassBox ? levels[top] : plain.OneWattDecibels(air) - 10 * Math.Log10(plain.ReOhms);
        var above = box is BandPassBox ? top : levels.Length - 1;
        var limit = flat + 10 * Math.Log10(0.5);
        while (above > 0 && levels[above - 1] > limit)
            above--;
        double? corner = above == 0 || levels[above] <= limit ? null : Search.Zero(hertz => Level(hertz) - limit, grid[above - 1], grid[above]);
        return (corner, box is BandPassBox ? 0 : Math.Max(0, levels[top] - flat));
    }
}
