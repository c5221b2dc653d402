using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Tuning.Equalisation;

/// <summary>Which dips are left alone: sound that cancels itself at the seat is not brought back by more of it.</summary>
/// <remarks>A dip of 6 dB within a sixth of an octave and more is the common threshold; common practice, no source. A reflection 3 dB below the direct sound makes a dip of 20·lg(1 − 10^(−3/20)) = −10.7 dB.</remarks>
/// <param name="DepthDecibels">How far below its surroundings a dip counts, dB (1 to 40).</param>
/// <param name="WidestOctaves">The widest dip that counts, octaves at half its depth (0.02 to 2).</param>
/// <param name="SurroundingsOctaves">Width its surroundings are averaged over, octaves (0.2 to 4).</param>
public sealed record NullRule(double DepthDecibels = 6, double WidestOctaves = 1.0 / 3, double SurroundingsOctaves = 1)
{
    /// <summary>What is wrong; empty when it can be used.</summary>
    /// <param name="text">How numbers are written; null is metric, invariant.</param>
    public IReadOnlyList<InputProblem> Validate(UnitText? text = null)
    {
        var checks = new InputChecks(text ?? UnitText.Invariant);
        checks.InRange(nameof(DepthDecibels), "Depth of a dip in dB", DepthDecibels, 1, 40);
        checks.InRange(nameof(WidestOctaves), "Widest dip in octaves", WidestOctaves, 0.02, 2);
        checks.InRange(nameof(SurroundingsOctaves), "Surroundings in octaves", SurroundingsOctaves, 0.2, 4);
        return checks.Problems;
    }

    /// <summary>The dips of a response that count.</summary>
    /// <param name="hertz">Frequencies, Hz, rising.</param>
    /// <param name="decibels">Levels, dB.</param>
    public IReadOnlyList<ResponseNull> Find(IReadOnlyList<double> hertz, IReadOnlyList<double> decibels)
    {
        ArgumentNullException.ThrowIfNull(hertz);
        ArgumentNullException.ThrowIfNull(decibels);
        var around = OctaveMean.Of(hertz, decibels, SurroundingsOctaves);
        var nulls = new List<ResponseNull>();
        for (var i = 0; i < hertz.Count; i++)
        {
            if (around[i] - decibels[i] < DepthDecibels / 2)
                continue;
            var (from, deepest) = (i, i);
            for (; i < hertz.Count && around[i] - decibels[i] >= DepthDecibels / 2; i++)
            {
                if (around[i] - decibels[i] > around[deepest] - decibels[deepest])
                    deepest = i;
            }

            // A slope that leaves the measured band is no dip.
            if (from > 0 && i < hertz.Count && around[deepest] - decibels[deepest] >= DepthDecibels && Math.Log2(hertz[i - 1] / hertz[from]) <= WidestOctaves)
                nulls.Add(new ResponseNull(hertz[from], hertz[i - 1], hertz[deepest], around[deepest] - decibels[deepest]));
        }

        return nulls;
    }
}

/// <summary>A dip that is left alone.</summary>
/// <param name="FromHertz">Where it begins, Hz.</param>
/// <param name="ToHertz">Where it ends, Hz.</param>
/// <param name="DeepestHertz">Where it is deepest, Hz.</param>
/// <param name="DepthDecibels">How far it lies below its surroundings there, dB.</param>
public sealed record ResponseNull(double FromHertz, double ToHertz, double DeepestHertz, double DepthDecibels)
{
    internal bool Covers(double hertz) => hertz >= FromHertz && hertz <= ToHertz;
}
