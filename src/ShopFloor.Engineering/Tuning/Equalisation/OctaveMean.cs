namespace ShopFloor.Engineering.Tuning.Equalisation;

/// <summary>Means of power over a part of an octave.</summary>
internal static class OctaveMean
{
    /// <summary>The mean power of all points within half the width to either side, dB.</summary>
    /// <param name="hertz">Frequencies, Hz, rising.</param>
    /// <param name="decibels">Levels, dB.</param>
    /// <param name="octaves">Whole width, octaves.</param>
    public static double[] Of(IReadOnlyList<double> hertz, IReadOnlyList<double> decibels, double octaves)
    {
        var sums = new double[hertz.Count + 1];
        for (var i = 0; i < hertz.Count; i++)
            sums[i + 1] = sums[i] + Math.Pow(10, decibels[i] / 10);
        // The rounding of the grid must not decide whether the outermost point counts.
        var half = Math.Pow(2, octaves / 2) * (1 + 1e-9);
        var smooth = new double[hertz.Count];
        for (int i = 0, from = 0, to = 0; i < hertz.Count; i++)
        {
            while (hertz[from] * half < hertz[i])
                from++;
            while (to < hertz.Count && hertz[to] <= hertz[i] * half)
                to++;
            smooth[i] = 10 * Math.Log10((sums[to] - sums[from]) / (to - from));
        }

        return smooth;
    }
}
