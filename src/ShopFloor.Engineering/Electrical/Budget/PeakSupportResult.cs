using ShopFloor.Engineering.Explained;

namespace ShopFloor.Engineering.Electrical.Budget;

/// <summary>Voltage at the load at a time after the start of the burst.</summary>
/// <param name="Seconds">Time, s.</param>
/// <param name="Volts">Voltage, V.</param>
public sealed record SagPoint(double Seconds, double Volts);

/// <summary>Charging a capacitor through a resistor before it is connected.</summary>
/// <param name="Ohms">Resistor, Ω.</param>
/// <param name="PeakAmperes">Current at the first moment, A.</param>
/// <param name="PeakWatts">Power in the resistor at the first moment, W.</param>
/// <param name="ResistorJoules">Energy that ends as heat in the resistor, J.</param>
/// <param name="SecondsToFull">Time to 99 %, s.</param>
public sealed record Precharge(double Ohms, double PeakAmperes, double PeakWatts, double ResistorJoules, double SecondsToFull);

/// <summary>What the supply does during the burst.</summary>
public sealed record PeakSupportResult
{
    /// <summary>Lowest voltage with the supply alone, V; null when it cannot deliver the power at all.</summary>
    public required double? AloneVolts { get; init; }

    /// <summary>Voltage right after the burst starts, with the support, V; null when not even that moment can be fed.</summary>
    public required double? FirstVolts { get; init; }

    /// <summary>Voltage at the end of the burst, with the support, V; null when it collapses before.</summary>
    public required double? EndVolts { get; init; }

    /// <summary>When the supply collapses, s from the start; null when it does not.</summary>
    public required double? CollapseSeconds { get; init; }

    /// <summary>Voltage before the burst less voltage at its end, V; null when it collapses.</summary>
    public required double? SagVolts { get; init; }

    /// <summary>Least capacitance that keeps the voltage for the whole burst, F, at the series resistance of the capacitor entered (none: 0 Ω); 0 when none is needed; null when none suffices.</summary>
    public required double? NeededFarads { get; init; }

    /// <summary>Energy taken by the burst, J.</summary>
    public required double BurstJoules { get; init; }

    /// <summary>Energy the capacitor gives between the two voltages, J; null without one.</summary>
    public required double? CapacitorJoules { get; init; }

    /// <summary>How long the capacitor alone would carry the burst, s; null without one.</summary>
    public required double? CapacitorAloneSeconds { get; init; }

    /// <summary>Time after which the capacitor is back to 95 %, s; null without one.</summary>
    public required double? RecoverySeconds { get; init; }

    /// <summary>Current the second battery gives at the end of the burst, A; below zero it is being charged; null without one or after a collapse.</summary>
    public required double? SecondBatteryAmperes { get; init; }

    /// <summary>Course of the voltage during the burst, for a plot.</summary>
    public required IReadOnlyList<SagPoint> Course { get; init; }

    /// <summary>Charging the capacitor before it is connected; null without one.</summary>
    public required Precharge? Precharge { get; init; }

    /// <summary>What it comes to, in one line.</summary>
    public required string Verdict { get; init; }

    /// <summary>What was found, gravest first.</summary>
    public required IReadOnlyList<Finding> Findings { get; init; }

    /// <summary>How it was reached.</summary>
    public required Explanation Explanation { get; init; }
}
