using System.Globalization;
using System.Text.RegularExpressions;

namespace ShopFloor.Engineering.Electrical.Budget;

/// <summary>Output of an alternator at one shaft speed.</summary>
/// <param name="AlternatorRpm">Speed of the alternator shaft (not of the engine), 1/min.</param>
/// <param name="Amperes">Output, A.</param>
/// <remarks>
/// Between known points the output is taken on the straight line; a real curve bends above it, so this errs on the low side.
/// Below the first point it falls straight to nothing at <see cref="AlternatorRating.CutInRpm"/>; above the last it stays.
/// </remarks>
public sealed record AlternatorPoint(double AlternatorRpm, double Amperes)
{
    /// <summary>Output at an alternator speed, by straight lines through the points.</summary>
    /// <param name="points">Two points or more in rising speed.</param>
    /// <param name="alternatorRpm">Alternator speed, 1/min.</param>
    /// <returns>A.</returns>
    /// <exception cref="ArgumentException">There is no point.</exception>
    public static double OutputAmperes(IReadOnlyList<AlternatorPoint> points, double alternatorRpm)
    {
        ArgumentNullException.ThrowIfNull(points);
        if (points.Count == 0)
            throw new ArgumentException("There is no point.", nameof(points));
        var first = points[0];
        if (alternatorRpm < first.AlternatorRpm)
        {
            var start = Math.Min(AlternatorRating.CutInRpm, first.AlternatorRpm * 0.9);
            return alternatorRpm <= start ? 0 : first.Amperes * (alternatorRpm - start) / (first.AlternatorRpm - start);
        }

        for (var i = 1; i < points.Count; i++)
        {
            var (low, high) = (points[i - 1], points[i]);
            if (alternatorRpm <= high.AlternatorRpm)
                return low.Amperes + (high.Amperes - low.Amperes) * (alternatorRpm - low.AlternatorRpm) / (high.AlternatorRpm - low.AlternatorRpm);
        }

        return points[^1].Amperes;
    }
}

/// <summary>Rating stamped on an alternator in the form "IL/IR A Vt V", for example "50/120 A 13.5 V". Source: SAE J56, ISO 8854.</summary>
/// <remarks>Both speeds of the rating are recalled from memory. Both currents hold at room temperature (23 °C).</remarks>
/// <param name="LowSpeedAmperes">IL, output at 1500 1/min of the alternator, A.</param>
/// <param name="RatedAmperes">IR, output at 6000 1/min of the alternator, A.</param>
/// <param name="TestVolts">Vt, voltage at which both hold, V.</param>
public sealed partial record AlternatorRating(double LowSpeedAmperes, double RatedAmperes, double TestVolts)
{
    /// <summary>Alternator speed of IL, 1/min. Source: SAE J56 and ISO 8854, from memory.</summary>
    public const double LowSpeedRpm = 1500;

    /// <summary>Alternator speed of IR, 1/min. Source: SAE J56 and ISO 8854, from memory.</summary>
    public const double RatedRpm = 6000;

    /// <summary>Below this speed an alternator is taken to give nothing, 1/min. From memory.</summary>
    public const double CutInRpm = 1000;

    /// <summary>What is accepted, for messages.</summary>
    internal const string Accepted = "the rating as stamped, for example 50/120 A 13.5 V";

    /// <summary>The rating as two points of the output curve.</summary>
    public IReadOnlyList<AlternatorPoint> Points => [new(LowSpeedRpm, LowSpeedAmperes), new(RatedRpm, RatedAmperes)];

    /// <summary>Reads "50/120 A 13.5 V", with or without spaces; point or comma in the voltage.</summary>
    /// <param name="text">What is stamped.</param>
    /// <returns>The rating, or null when the text is not of that form or IL is above IR.</returns>
    public static AlternatorRating? Parse(string? text)
    {
        var match = Form().Match(text ?? "");
        if (!match.Success)
            return null;
        double Read(int group) => double.Parse(match.Groups[group].Value.Replace(',', '.'), CultureInfo.InvariantCulture);
        var rating = new AlternatorRating(Read(1), Read(2), Read(3));
        var sensible = rating.LowSpeedAmperes > 0 && rating.LowSpeedAmperes <= rating.RatedAmperes
            && rating.RatedAmperes <= 1000 && rating.TestVolts is >= 6 and <= 60;
        return sensible ? rating : null;
    }

    [GeneratedRegex(@"^\s*([0-9]{1,4})\s*/\s*([0-9]{1,4})\s*A\s*([0-9]{1,2}(?:[.,][0-9]{1,2})?)\s*V\s*$", RegexOptions.IgnoreCase | RegexOptions.CultureInvariant)]
    private static partial Regex Form();
}
