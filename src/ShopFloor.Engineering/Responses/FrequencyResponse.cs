using System.Numerics;
using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Responses;

/// <summary>Level, and where it is known phase, over frequency: a measurement, a filter or a target.</summary>
/// <param name="Hertz">Frequencies, Hz, above 0 and rising.</param>
/// <param name="Decibels">Level at each, dB against whatever the response is against.</param>
/// <param name="PhaseRadians">Phase at each, rad, wrapped or not; null when it is not known.</param>
public sealed record FrequencyResponse(IReadOnlyList<double> Hertz, IReadOnlyList<double> Decibels, IReadOnlyList<double>? PhaseRadians)
{
    /// <summary>Most points that are taken.</summary>
    public const int MostPoints = 1_100_000;

    private const double LeastDecibels = -1_000;
    private const double MostDecibels = 1_000;

    /// <summary>What is wrong; empty when it can be used. At most one problem of each kind, naming the first place.</summary>
    /// <param name="text">How numbers are written; null is metric, invariant.</param>
    public IReadOnlyList<InputProblem> Validate(UnitText? text = null)
    {
        var words = text ?? UnitText.Invariant;
        var checks = new InputChecks(words);
        if (Hertz.Count is < 2 or > MostPoints)
            checks.Add(nameof(Hertz), $"Frequencies: {Hertz.Count} were given; enter 2 to {words.Number(MostPoints, 7)}.");
        if (Decibels.Count != Hertz.Count)
            checks.Add(nameof(Decibels), $"Levels: {Decibels.Count} were given for {Hertz.Count} frequencies; enter one for each.");
        if (PhaseRadians is { } phases && phases.Count != Hertz.Count)
            checks.Add(nameof(PhaseRadians), $"Phases: {phases.Count} were given for {Hertz.Count} frequencies; enter one for each, or none.");
        First(checks, nameof(Hertz), "Frequency in Hz", Hertz, 1e-3, 1e6);
        First(checks, nameof(Decibels), "Level in dB", Decibels, LeastDecibels, MostDecibels);
        First(checks, nameof(PhaseRadians), "Phase in radians", PhaseRadians ?? [], -1e7, 1e7);
        for (var n = 1; n < Hertz.Count; n++)
        {
            if (Hertz[n] > Hertz[n - 1])
                continue;
            checks.Add($"{nameof(Hertz)}[{n}]", $"Frequency: {words.Number(Hertz[n], 6)} Hz follows {words.Number(Hertz[n - 1], 6)} Hz; frequencies must rise.");
            break;
        }

        return checks.Problems;
    }

    /// <summary>Level at a frequency, dB: straight between points over log frequency, the end values held beyond the ends.</summary>
    /// <param name="hertz">Frequency, Hz, above 0.</param>
    /// <exception cref="ArgumentOutOfRangeException">The frequency is not above 0.</exception>
    public double DecibelsAt(double hertz)
    {
        var (from, share) = Place(hertz);
        return share == 0 ? Decibels[from] : Decibels[from] + share * (Decibels[from + 1] - Decibels[from]);
    }

    /// <summary>Phase at a frequency, rad: the shorter way round between points over log frequency, the end values held; 0 without phase.</summary>
    /// <param name="hertz">Frequency, Hz, above 0.</param>
    /// <exception cref="ArgumentOutOfRangeException">The frequency is not above 0.</exception>
    public double PhaseAt(double hertz)
    {
        if (PhaseRadians is not { } phases)
            return 0;
        var (from, share) = Place(hertz);
        return share == 0 ? phases[from] : phases[from] + share * Math.IEEERemainder(phases[from + 1] - phases[from], 2 * Math.PI);
    }

    /// <summary>Gain and phase at a frequency as one number; real and positive without phase.</summary>
    /// <param name="hertz">Frequency, Hz, above 0.</param>
    /// <exception cref="ArgumentOutOfRangeException">The frequency is not above 0.</exception>
    public Complex At(double hertz) => Complex.FromPolarCoordinates(Math.Pow(10, DecibelsAt(hertz) / 20), PhaseAt(hertz));

    /// <summary>Whether a frequency lies within the points.</summary>
    /// <param name="hertz">Frequency, Hz.</param>
    public bool Covers(double hertz) => Hertz.Count > 0 && hertz >= Hertz[0] && hertz <= Hertz[^1];

    private static void First(InputChecks checks, string field, string label, IReadOnlyList<double> values, double least, double most)
    {
        for (var n = 0; n < values.Count; n++)
        {
            if (values[n] >= least && values[n] <= most)
                continue;
            checks.InRange($"{field}[{n}]", label, values[n], least, most);
            return;
        }
    }

    // The point at or below, and the share of the way to the next; 0 at and beyond the ends.
    private (int From, double Share) Place(double hertz)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(hertz);
        if (hertz <= Hertz[0])
            return (0, 0);
        if (hertz >= Hertz[^1])
            return (Hertz.Count - 1, 0);
        var (low, high) = (0, Hertz.Count - 1);
        while (high - low > 1)
        {
            var middle = (low + high) / 2;
            if (Hertz[middle] <= hertz)
                low = middle;
            else
                high = middle;
        }

        return (low, Math.Log(hertz / Hertz[low]) / Math.Log(Hertz[high] / Hertz[low]));
    }
}
