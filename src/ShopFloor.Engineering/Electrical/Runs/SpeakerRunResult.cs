using ShopFloor.Engineering.Explained;

namespace ShopFloor.Engineering.Electrical.Runs;

/// <summary>A speaker run with one conductor.</summary>
/// <param name="LoopOhms">Resistance there and back, Ω.</param>
/// <param name="LossDecibels">Level lost at the rated impedance, dB, 0 or more.</param>
/// <param name="PowerLossPercent">The same as a share of the power the load would get without the run, percent.</param>
/// <param name="WorstLossDecibels">Level lost at the lowest impedance, dB, 0 or more.</param>
/// <param name="DampingFactor">Damping factor at the load, rated impedance.</param>
public sealed record SpeakerRunFigures(double LoopOhms, double LossDecibels, double PowerLossPercent, double WorstLossDecibels, double DampingFactor);

/// <summary>A speaker run: what the chosen conductor does, and the least that keeps the limits.</summary>
public sealed record SpeakerRunResult
{
    /// <summary>With the entered conductor, or null when none was entered.</summary>
    public required SpeakerRunFigures? Entered { get; init; }

    /// <summary>Thinnest gauge from 18 AWG that keeps both limits, or null when none does.</summary>
    public required ConductorSize? LeastConductor { get; init; }

    /// <summary>With that gauge, or null.</summary>
    public required SpeakerRunFigures? Least { get; init; }

    /// <summary>What was found, gravest first.</summary>
    public required IReadOnlyList<Finding> Findings { get; init; }

    /// <summary>How it was reached.</summary>
    public required Explanation Explanation { get; init; }
}
