using System.Numerics;

namespace ShopFloor.Engineering.Responses;

/// <summary>Level, and phase where it is known, over frequency.</summary>
/// <param name="Hertz">Frequencies, Hz, rising.</param>
/// <param name="Decibels">Level at each, dB.</param>
/// <param name="PhaseRadians">Phase at each, rad, wrapped or not; null when only the level is known.</param>
public sealed record FrequencyResponse(IReadOnlyList<double> Hertz, IReadOnlyList<double> Decibels, IReadOnlyList<double>? PhaseRadians)
{
    /// <summary>The response at a frequency: level and phase straight over log frequency between the points, the end values beyond them.
    /// Phase goes the shorter way round between neighbours; without phase it is 0.</summary>
    /// <param name="hertz">Frequency, Hz, above 0.</param>
    public Complex At(double hertz)
    {
        var above = 0;
        for (var to = Hertz.Count; above < to;)
        {
            var middle = (above + to) / 2;
            if (Hertz[middle] < hertz)
                above = middle + 1;
            else
                to = middle;
        }

        var low = Math.Clamp(above - 1, 0, Hertz.Count - 1);
        var high = Math.Clamp(above, 0, Hertz.Count - 1);
        var share = high == low ? 0 : Math.Log(hertz / Hertz[low]) / Math.Log(Hertz[high] / Hertz[low]);
        var level = Decibels[low] + share * (Decibels[high] - Decibels[low]);
        var phase = PhaseRadians is null ? 0 : PhaseRadians[low] + share * Math.IEEERemainder(PhaseRadians[high] - PhaseRadians[low], 2 * Math.PI);
        return Complex.FromPolarCoordinates(Math.Pow(10, level / 20), phase);
    }
}
