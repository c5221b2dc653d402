using ShopFloor.Engineering.Electrical.Budget;

namespace ShopFloor.Engineering.Electrical.Network;

/// <summary>
/// An alternator with its regulator: a voltage source of small slope up to the largest current its speed allows, then a current source.
/// Its rectifier lets no current back in. With the engine off it gives nothing.
/// </summary>
public sealed record Alternator : FeedElement
{
    /// <summary>Voltage the regulator holds without load, V (above 0, up to 1000).</summary>
    public required double SetPointVolts { get; init; }

    /// <summary>Fall of the regulated voltage with current, Ω (above 0, up to 10). The default is common practice, no source.</summary>
    public double SlopeOhms { get; init; } = 0.002;

    /// <summary>Output over shaft speed (SAE J56, ISO 8854), speeds rising; read by <see cref="AlternatorPoint.OutputAmperes"/>.</summary>
    public required IReadOnlyList<AlternatorPoint> OutputCurve { get; init; }

    /// <summary>Where the curve comes from.</summary>
    public string OutputOrigin { get; init; } = "output curve entered";

    /// <summary>Shaft speed over engine speed (0.1 to 10).</summary>
    public double PulleyRatio { get; init; } = AlternatorBudgetInput.DefaultPulleyRatio;

    /// <summary>Largest current at a shaft speed, A.</summary>
    /// <param name="shaftRpm">Speed of the alternator's shaft, 1/min; 0 or less gives 0 A.</param>
    public double LimitAmperes(double shaftRpm) => OutputCurve.Count == 0 || shaftRpm <= 0 ? 0 : AlternatorPoint.OutputAmperes(OutputCurve, shaftRpm);
}
