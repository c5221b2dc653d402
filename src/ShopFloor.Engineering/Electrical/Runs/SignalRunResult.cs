using ShopFloor.Engineering.Explained;

namespace ShopFloor.Engineering.Electrical.Runs;

/// <summary>What the cable takes from the treble.</summary>
public sealed record SignalRunResult
{
    /// <summary>Capacitance of the run, F.</summary>
    public required double CapacitanceFarads { get; init; }

    /// <summary>Frequency at which the level is 3 dB down, Hz.</summary>
    public required double CornerHertz { get; init; }

    /// <summary>Level lost at 20 kHz against low frequencies, dB, 0 or more.</summary>
    public required double LossAt20KilohertzDecibels { get; init; }

    /// <summary>Level lost at every frequency between source and input impedance, dB, 0 or more.</summary>
    public required double BridgingLossDecibels { get; init; }

    /// <summary>What was found, gravest first.</summary>
    public required IReadOnlyList<Finding> Findings { get; init; }

    /// <summary>How it was reached.</summary>
    public required Explanation Explanation { get; init; }
}
