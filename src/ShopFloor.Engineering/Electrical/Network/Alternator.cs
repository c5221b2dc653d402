namespace ShopFloor.Engineering.Electrical.Network;

/// <summary>One point of an alternator's output curve.</summary>
/// <param name="ShaftRpm">Speed of the alternator's shaft, 1/min.</param>
/// <param name="Amperes">Largest current at that speed, A.</param>
public sealed record AlternatorCurvePoint(double ShaftRpm, double Amperes);

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

    /// <summary>Output over shaft speed (SAE J56, ISO 8854), speeds rising. Straight lines between points; below the first and above the last the end value holds.</summary>
    public required IReadOnlyList<AlternatorCurvePoint> OutputCurve { get; init; }

    /// <summary>Shaft speed over engine speed (0.1 to 10). The default is common practice, no source.</summary>
    public double PulleyRatio { get; init; } = 2.5;

    /// <summary>Largest current at a shaft speed, A.</summary>
    /// <param name="shaftRpm">Speed of the alternator's shaft, 1/min; 0 gives 0 A.</param>
    public double LimitAmperes(double shaftRpm)
    {
        if (shaftRpm <= 0 || OutputCurve.Count == 0)
            return 0;
        if (shaftRpm <= OutputCurve[0].ShaftRpm)
            return OutputCurve[0].Amperes;
        for (var i = 1; i < OutputCurve.Count; i++)
        {
            var (low, high) = (OutputCurve[i - 1], OutputCurve[i]);
            if (shaftRpm <= high.ShaftRpm)
                return low.Amperes + (high.Amperes - low.Amperes) * (shaftRpm - low.ShaftRpm) / (high.ShaftRpm - low.ShaftRpm);
        }

        return OutputCurve[^1].Amperes;
    }
}
