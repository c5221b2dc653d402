using System.Numerics;
using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Responses;

namespace ShopFloor.Engineering.Tuning.Measurements;

/// <summary>How responses of several places are made one.</summary>
public enum AverageKind
{
    /// <summary>By power: phase does not count, so places that cancel each other do not show as a hole.</summary>
    Power,

    /// <summary>By complex value: only what arrives alike at all places is left. Needs phase.</summary>
    Complex,
}

/// <summary>Responses of several places as one.</summary>
/// <param name="Mean">The average.</param>
/// <param name="SpreadDecibels">Standard deviation over the places at each frequency, dB.</param>
public sealed record AveragedResponse(FrequencyResponse Mean, IReadOnlyList<double> SpreadDecibels);

/// <summary>Averages responses of several microphone places.</summary>
public static class PositionAverage
{
    /// <summary>Computes the average at the frequencies of the first response that all of them cover.</summary>
    /// <param name="places">Responses, each without problems; 1 to 200.</param>
    /// <param name="kind">How they are averaged.</param>
    /// <exception cref="ArgumentException">None or too many were given, they share fewer than two frequencies, or a complex average lacks a phase.</exception>
    public static AveragedResponse Of(IReadOnlyList<FrequencyResponse> places, AverageKind kind = AverageKind.Power)
    {
        ArgumentNullException.ThrowIfNull(places);
        if (places.Count is < 1 or > 200)
            throw new ArgumentException($"{places.Count} responses were given; enter 1 to 200.", nameof(places));
        for (var n = 0; n < places.Count; n++)
        {
            InputChecks.ThrowIfAny([.. places[n].Validate().Select(problem => problem with { Field = $"{nameof(places)}[{n}].{problem.Field}" })]);
            if (kind == AverageKind.Complex && places[n].PhaseRadians is null)
                throw new ArgumentException($"Response {n + 1} has no phase; a complex average needs it of all.", nameof(places));
        }

        double[] hertz = [.. places[0].Hertz.Where(one => places.All(place => place.Covers(one)))];
        if (hertz.Length < 2)
            throw new ArgumentException("The responses share fewer than two frequencies.", nameof(places));
        var (decibels, phases, spread) = (new double[hertz.Length], new double[hertz.Length], new double[hertz.Length]);
        for (var n = 0; n < hertz.Length; n++)
        {
            double[] levels = [.. places.Select(place => place.DecibelsAt(hertz[n]))];
            var sum = kind == AverageKind.Complex ? places.Aggregate(Complex.Zero, (all, place) => all + place.At(hertz[n])) / places.Count : Complex.Zero;
            decibels[n] = kind == AverageKind.Complex
                ? 20 * Math.Log10(Math.Max(sum.Magnitude, 1e-30))
                : 10 * Math.Log10(levels.Average(level => Math.Pow(10, level / 10)));
            phases[n] = sum.Phase;
            var mean = levels.Average();
            spread[n] = levels.Length < 2 ? 0 : Math.Sqrt(levels.Sum(level => (level - mean) * (level - mean)) / (levels.Length - 1));
        }

        return new AveragedResponse(new FrequencyResponse(hertz, decibels, kind == AverageKind.Complex ? phases : null), spread);
    }
}
