using System.Globalization;

namespace ShopFloor.Engineering.Units;

/// <summary>American wire gauge by its defining formula. Source: ASTM B258, d = 0.127 mm × 92^((36 − n)/39).</summary>
/// <remarks>Sizes above 0 count downward: 2/0 is −1, 3/0 is −2, 4/0 is −3; 1/0 is 0.</remarks>
public static class WireGauge
{
    /// <summary>Number of the largest size, 4/0.</summary>
    public const int Largest = -3;

    /// <summary>Number of the smallest size handled, 40 AWG.</summary>
    public const int Smallest = 40;

    /// <summary>Square millimeters in one circular mil: π/4 × (0.0254 mm)².</summary>
    public const double SquareMillimetersPerCircularMil = Math.PI / 4 * 0.0254 * 0.0254;

    /// <summary>Diameter of the solid conductor, mm.</summary>
    /// <param name="awg">Gauge number, −3 (4/0) to 40.</param>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="awg"/> is outside −3 to 40.</exception>
    public static double DiameterMillimeters(int awg)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(awg, Largest);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(awg, Smallest);
        return 0.127 * Math.Pow(92, (36 - awg) / 39.0);
    }

    /// <summary>Cross-section of the solid conductor, mm².</summary>
    /// <inheritdoc cref="DiameterMillimeters"/>
    public static double AreaSquareMillimeters(int awg)
    {
        var diameter = DiameterMillimeters(awg);
        return Math.PI / 4 * diameter * diameter;
    }

    /// <summary>Cross-section in circular mils (diameter in thousandths of an inch, squared).</summary>
    /// <inheritdoc cref="DiameterMillimeters"/>
    public static double CircularMils(int awg) => AreaSquareMillimeters(awg) / SquareMillimetersPerCircularMil;

    /// <summary>How the size is written: "4 AWG", "1/0 AWG", "4/0 AWG".</summary>
    /// <param name="awg">Gauge number, −3 to 40.</param>
    public static string Label(int awg) =>
        awg > 0 ? string.Create(CultureInfo.InvariantCulture, $"{awg} AWG") : string.Create(CultureInfo.InvariantCulture, $"{1 - awg}/0 AWG");

    /// <summary>Reads "4", "4 AWG", "1/0", "0", "00", "0000".</summary>
    /// <param name="text">What was written.</param>
    /// <param name="awg">The gauge number when the answer is true.</param>
    /// <returns>Whether <paramref name="text"/> names a gauge from 4/0 to 40.</returns>
    public static bool TryParse(string? text, out int awg)
    {
        awg = 0;
        var body = (text ?? "").Trim();
        foreach (var suffix in (string[])["AWG", "GA"])
        {
            if (body.EndsWith(suffix, StringComparison.OrdinalIgnoreCase))
                body = body[..^suffix.Length].TrimEnd();
        }

        if (body.Length is >= 1 and <= 4 && body.All(c => c == '0'))
        {
            awg = 1 - body.Length;
            return true;
        }

        if (body.Length == 3 && body.EndsWith("/0", StringComparison.Ordinal) && body[0] is >= '1' and <= '4')
        {
            awg = 1 - (body[0] - '0');
            return true;
        }

        return int.TryParse(body, NumberStyles.None, CultureInfo.InvariantCulture, out awg) && awg is >= 1 and <= Smallest;
    }

    /// <summary>The gauge whose area is within half a percent of <paramref name="areaSquareMillimeters"/>, or null.</summary>
    /// <remarks>Metric sizes rarely match a gauge: areas are compared, never names.</remarks>
    /// <param name="areaSquareMillimeters">Cross-section, mm².</param>
    public static int? Matching(double areaSquareMillimeters)
    {
        for (var awg = Largest; awg <= Smallest; awg++)
        {
            if (Math.Abs(areaSquareMillimeters / AreaSquareMillimeters(awg) - 1) < 0.005)
                return awg;
        }

        return null;
    }
}
