using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Responses;

/// <summary>What comes out over time when a single sample of 1 goes in.</summary>
/// <param name="SampleRateHertz">Samples per second, Hz (8,000 to 384,000).</param>
/// <param name="Samples">The response; its unit is that of what was recorded over what was played.</param>
/// <param name="StartSeconds">Time of the first sample, s; 0 is when the sample went in, below 0 before it.</param>
public sealed record ImpulseResponse(int SampleRateHertz, double[] Samples, double StartSeconds = 0)
{
    /// <summary>Most samples that are taken: 21 s at 192 kHz.</summary>
    public const int MostSamples = 1 << 22;

    /// <summary>What is wrong; empty when it can be used.</summary>
    /// <param name="text">How numbers are written; null is metric, invariant.</param>
    public IReadOnlyList<InputProblem> Validate(UnitText? text = null)
    {
        var checks = new InputChecks(text ?? UnitText.Invariant);
        checks.InRange(nameof(SampleRateHertz), "Sample rate in Hz", SampleRateHertz, 8_000, 384_000);
        checks.InRange(nameof(StartSeconds), "Time of the first sample in s", StartSeconds, -60, 60);
        if (Samples.Length is < 16 or > MostSamples)
            checks.Add(nameof(Samples), $"Samples: {Samples.Length} were given; enter 16 to {MostSamples}.");
        var bad = Array.FindIndex(Samples, sample => !double.IsFinite(sample) || Math.Abs(sample) > 1e12);
        if (bad >= 0)
            checks.Add($"{nameof(Samples)}[{bad}]", $"Sample {bad}: the value is not a number, or beyond ±1e12.");
        else if (Array.TrueForAll(Samples, sample => sample == 0))
            checks.Add(nameof(Samples), "Samples: all are 0; a response has at least one other.");
        return checks.Problems;
    }

    /// <summary>Time of a sample, s.</summary>
    /// <param name="index">Its index; a part of one is between two.</param>
    public double SecondsAt(double index) => StartSeconds + index / SampleRateHertz;

    /// <summary>Index of a time; not rounded.</summary>
    /// <param name="seconds">Time, s.</param>
    public double IndexAt(double seconds) => (seconds - StartSeconds) * SampleRateHertz;
}
